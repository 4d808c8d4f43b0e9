/** An enclosure or entry: what stands in it, which cables pass its wall and how. */
import type { Analysis } from '../../analysis.ts';
import type { Part, Passage, Run } from '../../model/model.ts';
import { type Block, line, list, table } from '../markup.ts';
import { atMost } from './about.ts';

interface Entering {
  readonly run: Run;
  readonly passage: Passage;
}

function* entering({ model }: Analysis): Generator<Entering> {
  for (const run of model.runs.values()) for (const passage of run.passages) yield { run, passage };
}

export function enclosureHover(analysis: Analysis, box: Part): Block[] {
  const inside = [...analysis.model.parts.values()].filter(({ enclosure }) => enclosure === box);
  const own = [...entering(analysis)].filter(({ passage }) => passage.enclosure === box);
  return [
    inside.length === 0 ? line('Nothing stands in it.') : line(`In it: ${atMost(inside, 12, ({ name }) => name)}.`),
    ...(own.length === 0
      ? [line('No cable says that it enters.')]
      : table(
          ['enters', 'by', 'outside diameter'],
          own.map(({ run, passage }) => [run.name, how(passage), diameter(run)]),
        )),
  ];
}

export function entryHover(analysis: Analysis, entry: Part): Block[] {
  const users = [...entering(analysis)].filter(({ passage }) => passage.entry === entry);
  const holes = entry.facts.number('holes') ?? 1;
  return [
    line(`${users.length} of ${holes} ${holes === 1 ? 'hole' : 'holes'} taken.`),
    ...list(users.map(({ run }) => `${run.name}${diameter(run) === '' ? '' : `, ${diameter(run)}`}`)),
  ];
}

function how({ how: way, size, entry }: Passage): string {
  if (way === 'entry') return entry?.name ?? '?';
  if (way === 'unstated') return 'not said';
  if (way === 'open') return 'a bare hole';
  return size === undefined ? way : `${way} ${size}`;
}

function diameter(run: Run): string {
  return run.facts.written('od') ?? '';
}
