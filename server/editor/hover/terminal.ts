/** A terminal: what it is for, what is on it, where it leads through its part, and its voltage case by case. */
import type { Analysis } from '../../analysis.ts';
import type { Part, Terminal } from '../../model/model.ts';
import type { Edge } from '../../model/network.ts';
import { volts } from '../../reports/figures.ts';
import { type Block, bold, line, list, table } from '../markup.ts';
import { troubles } from './cases.ts';
import { terminalFaultLines } from './faults.ts';

/** Cores and bars on a terminal, in words: `W1 red to P1:+`. */
export function onTerminal({ answers }: Pick<Analysis, 'answers'>, terminal: Terminal): string[] {
  return (answers.network.at.get(terminal.id) ?? []).flatMap((edge) => {
    const other = edge.from.id === terminal.id ? edge.to : edge.from;
    if (edge.is === 'core')
      return [`${edge.core.run.name}${edge.core.colour === undefined ? '' : ` ${edge.core.colour}`} to ${other.id}`];
    if (edge.is === 'bar') return [`a bar to ${other.id}`];
    return [];
  });
}

/** Ways from a terminal through its own part: `closed to Q1:2 (pole 1)`. */
function through({ answers }: Analysis, terminal: Terminal): string[] {
  return (answers.network.at.get(terminal.id) ?? []).flatMap((edge) => {
    if (edge.is !== 'contact') return [];
    const other = edge.from.id === terminal.id ? edge.to : edge.from;
    return [`Goes to ${other.id} ${how(edge)}.`];
  });
}

function how(edge: Edge & { is: 'contact' }): string {
  const { operated, protects, pole } = edge.contact;
  const several = edge.part.contacts.length > 1;
  switch (operated) {
    case 'coil':
      return 'when the coil is energised';
    case 'coil-rest':
      return 'while the coil is not energised';
    case 'diode':
      return 'one way only';
    case 'position':
      return 'in its position';
    default:
      return protects
        ? several
          ? `through the device of way ${pole}`
          : 'through the device'
        : several
          ? `when closed, pole ${pole}`
          : 'when closed';
  }
}

const polarities = { '+': 'positive', '-': 'negative' } as const;

export function terminalHover(analysis: Analysis, terminal: Terminal): Block[] {
  const { spec, part } = terminal;
  const polarity =
    spec.polarity === undefined || spec.meaning.includes(polarities[spec.polarity])
      ? ''
      : `, ${polarities[spec.polarity]}`;
  const on = onTerminal(analysis, terminal);
  return [
    line(
      bold(terminal.id),
      ` of ${part.kind.withArticle}${part.title === undefined ? '' : ` “${part.title}”`}: ${spec.meaning}${polarity}`,
    ),
    on.length === 0 ? line('Nothing is on it.') : line(`On it: ${on.join(', ')}.`),
    ...list(through(analysis, terminal)),
    ...terminalFaultLines(analysis.answers, terminal),
    ...table(
      ['case', 'voltage'],
      analysis.answers.cases
        .filter(({ converged }) => converged)
        .map(({ name, volts: at }) => [name, volts(at.get(terminal.id))]),
    ),
    ...troubles(analysis.answers),
  ];
}

/** Terminals of a part with what is on each; for parts without contacts of their own. */
export function terminalTable(analysis: Analysis, part: Part): Block[] {
  return table(
    ['terminal', 'for', 'on it'],
    part.terminals.map((terminal) => [
      terminal.spec.name || part.name,
      terminal.spec.meaning,
      onTerminal(analysis, terminal).join(', '),
    ]),
  );
}
