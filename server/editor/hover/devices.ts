/** Fuses, breakers and fuseboxes: what each way carries, what it protects, and how near. */
import type { Analysis } from '../../analysis.ts';
import type { ContactFigures } from '../../answers/answers.ts';
import type { Part } from '../../model/model.ts';
import { amps } from '../../reports/figures.ts';
import { type Block, line, list, table } from '../markup.ts';
import { atMost } from './about.ts';
import { deviceFaultLines } from './faults.ts';
import { heldLines } from './flow.ts';
import { coresProtectedBy, share } from './protection.ts';
import { onTerminal } from './terminal.ts';

const mostCores = 12;

export function deviceHover(analysis: Analysis, part: Part): Block[] {
  const contacts = analysis.answers.contacts.get(part.name) ?? [];
  const [only] = contacts;
  if (contacts.length === 1 && only !== undefined) return wayHover(analysis, part, only);
  return table(
    ['way', 'rated', 'design current', 'used', 'on it', 'weakest cable'],
    contacts.map((figures) => {
      const [weakest] = coresProtectedBy(analysis.answers, part, figures.pole);
      const contact = part.contacts.find(({ pole }) => pole === figures.pole);
      const terminal = part.terminals.find(({ spec }) => spec.name === contact?.to);
      return [
        String(figures.pole),
        rated(figures),
        amps(figures.designAmps),
        share(figures.designAmps, figures.device?.amps),
        terminal === undefined ? '' : onTerminal(analysis, terminal).join(', '),
        weakest?.capacity === undefined ? '' : `${weakest.core.run.name}, ${amps(weakest.capacity.amps)}`,
      ];
    }),
  );
}

/** One way of a device. */
export function wayHover(analysis: Analysis, part: Part, figures: ContactFigures): Block[] {
  const protectedCores = coresProtectedBy(analysis.answers, part, figures.pole);
  const rating = figures.device?.amps;
  const used = share(figures.designAmps, rating);
  const rows = protectedCores
    .slice(0, mostCores)
    .map(({ core, capacity, designAmps }) => [
      `${core.run.name} ${core.label}`,
      capacity === undefined ? '?' : amps(capacity.amps),
      amps(designAmps),
      share(rating ?? 0, capacity?.amps),
    ]);
  return [
    line(
      `Rated ${rated(figures)}, design current ${amps(figures.designAmps)}${used === '' ? '' : `, ${used} of its rating`}.`,
    ),
    ...heldLines(analysis, figures),
    ...(protectedCores.length === 0
      ? [line('No cable relies on it: none is behind it, or a smaller device stands in the same way.')]
      : table(['protects', 'good for', 'design current', 'rating to capacity'], rows)),
    ...(protectedCores.length > mostCores ? [line(`and ${protectedCores.length - mostCores} more`)] : []),
    ...deviceFaultLines(analysis.answers, part, figures.pole),
    ...(figures.feeds.length === 0 ? [] : list([`Feeds ${atMost(figures.feeds, 8, ({ name }) => name)}.`])),
  ];
}

function rated({ device, part, pole }: ContactFigures): string {
  if (device === undefined) return '';
  if (part.kind.word === 'fusebox' && !isSaid(part, pole)) return 'not said';
  if (device.blank) return device.amps === undefined ? '? A' : `? A (would be ${amps(device.amps)})`;
  return amps(device.amps);
}

/** Whether any clause speaks of a way of a fusebox. */
function isSaid({ facts }: Part, way: number): boolean {
  return facts.each('way').some((row) => {
    const from = row.number('way', 'way') ?? Number.POSITIVE_INFINITY;
    return from <= way && way <= (row.number('way', 'last') ?? from);
  });
}
