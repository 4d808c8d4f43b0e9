/** Isolators, switches, selectors, relays, diodes: which terminal goes to which, what is on each, and what it carries. */
import type { Analysis } from '../../analysis.ts';
import type { ContactFigures } from '../../answers/answers.ts';
import type { Part } from '../../model/model.ts';
import { amps, listed, lowered } from '../../reports/figures.ts';
import { type Block, list, table } from '../markup.ts';
import { protectedBy } from './protection.ts';
import { onTerminal } from './terminal.ts';

export function switchingHover(analysis: Analysis, part: Part): Block[] {
  const contacts = analysis.answers.contacts.get(part.name) ?? [];
  const on = (name: string | undefined): string => {
    const terminal = part.terminals.find(({ spec }) => spec.name === name);
    return terminal === undefined ? '' : onTerminal(analysis, terminal).join(', ');
  };
  const rows = part.contacts.map((contact) => {
    const figures = contacts.find(({ pole }) => pole === contact.pole);
    return [
      String(contact.pole),
      contact.from,
      on(contact.from),
      contact.to,
      on(contact.to),
      figures === undefined ? '' : carries(figures),
      amps(figures?.ratedAmps),
    ];
  });
  return [
    ...table(['pole', 'from', 'on it', 'to', 'on it', 'design current', 'rated'], rows),
    ...list([...linkLines(part, contacts), ...circuits(contacts), ...coil(analysis, part)]),
  ];
}

/** On the panel side what the rating must reach, and the short-circuit current that it follows from. */
function carries({ designAmps, shortCircuitAmps, neededAmps }: ContactFigures): string {
  return shortCircuitAmps === undefined
    ? amps(designAmps)
    : `${amps(shortCircuitAmps)}, must be rated ${amps(neededAmps)}`;
}

export function linkLines(part: Part, contacts: readonly ContactFigures[]): string[] {
  const said = new Set<string>();
  for (const { pole, parallelPoles, oneSidedWith, ratedAmps } of contacts) {
    if (parallelPoles.length > 1) {
      const stated = part.facts
        .each('parallel')
        .some((row) => row.number('parallel', 'poles') === parallelPoles.length);
      said.add(
        `Poles ${listed(parallelPoles.map(String))} are linked on both sides: together rated ${amps(ratedAmps)}, ${stated ? 'as its maker states' : 'no more than one, since its maker’s figure is not stated'}.`,
      );
    }
    if (oneSidedWith.length > 0)
      said.add(
        `Poles ${listed([pole, ...oneSidedWith].sort((a, b) => a - b).map(String))} are linked on one side only, which raises nothing.`,
      );
  }
  return [...said];
}

function circuits(contacts: readonly ContactFigures[]): string[] {
  const words = contacts
    .filter(({ designAmps, protection }) => designAmps > 0 || protection.devices.length > 0)
    .map((one) => ({ pole: one.pole, text: protectedBy(one.protection) }));
  const texts = [...new Set(words.map(({ text }) => text))];
  if (texts.length <= 1) return texts;
  return words.map(({ pole, text }) => `Pole ${pole}: ${lowered(text)}`);
}

function coil(analysis: Analysis, part: Part): string[] {
  if (part.kind.behaviour.is !== 'coil') return [];
  const { from, to } = part.kind.behaviour;
  return [from, to].flatMap((name) => {
    const terminal = part.terminals.find(({ spec }) => spec.name === name);
    if (terminal === undefined) return [];
    const on = onTerminal(analysis, terminal);
    return [
      `${terminal.spec.meaning.replace(/^./, (first) => first.toUpperCase())} ${name}: ${on.length === 0 ? 'nothing on it' : on.join(', ')}.`,
    ];
  });
}
