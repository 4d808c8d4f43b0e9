/** More lugs stacked on one stud than hold. */
import type { Core, Model, Part, Terminal } from '../model/model.ts';
import { lampSpec } from './language.ts';
import type { Reported, Rule } from './rule.ts';
import { names } from './words.ts';

/** Lugs on one stud (common practice, no source). */
const most = 4;

const lamps = (count: number, mark: string) =>
  lampSpec(
    { battery: `battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ, stud M8${mark}` },
    ...Array.from({ length: count - 1 }, (_, i) => [
      `load L${i} 6 W`,
      `run P${i} 1.5 mm² red, 1 m, F1:out to L${i}:+`,
      `run N${i} 1.5 mm² black, 1 m, L${i}:- to B1:-`,
    ]).flat(),
  );

export const rule: Rule = {
  slug: 'too-many-on-one-stud',
  severity: 'warning',
  group: 'cable',
  reads: ['part.stud', 'busbar.studs', 'block.studs', 'splice.studs', 'run.ends'],
  page: {
    title: 'Too many lugs on one stud',
    why: 'In a stack of lugs the nut presses on the outermost, the others creep, and the whole pile works loose and gets hot. Taking one circuit off means taking off all.',
    limit: 'Four lugs on one stud, the largest at the bottom (common practice, no source).',
    mend: 'Lead one cable from the stud to a busbar and spread the others there.',
    see: ['terminal-too-small-for-cable', 'stud-mismatch'],
    wrong: [lamps(5, ' # finds: too-many-on-one-stud "stud M8"')],
    right: [lamps(4, '')],
  },
  ofPart(part) {
    // A bar whose studs nobody counted may have any number, and what has no studs clamps its cables.
    const { kind, facts } = part;
    const isCounted = kind.oneNode && !isSingle(kind.word);
    if (isCounted ? facts.number('studs') === undefined : !facts.says('stud')) return undefined;
    return ({ model }) => overfull(part, model);
  },
};

/** The first of its terminals on which there are too many. */
function overfull(part: Part, model: Model): Reported[] {
  const studs = part.facts.number('studs');
  const spread = part.kind.oneNode && studs !== undefined && studs > 1;
  const at = coresOn(model);
  for (const terminal of part.terminals) {
    const cores = at.get(terminal) ?? [];
    // Cores at the bar itself lie on any of its studs.
    const room = spread && terminal.spec.name === '' ? studs * most : most;
    if (cores.length <= room) continue;
    const runs = [...new Set(cores.map(({ run }) => run))];
    return [
      {
        message: `${cores.length} cables (${names(runs)}) are stacked on ${terminal.id}, and ${room === most ? `one stud holds ${most}` : `its ${studs} studs hold ${room}`}: lead one to a busbar and spread the others there.`,
        place: part.facts.place(part.facts.says('stud') ? 'stud' : 'studs'),
        subject: part.name,
        figures: { cables: cores.length, most: room, terminal: terminal.id },
        related: cores.map(({ run, place }) => ({ message: `${run.name} ends there`, place })),
      },
    ];
  }
  return [];
}

const known = new WeakMap<Model, ReadonlyMap<Terminal, readonly Core[]>>();

/** Cores by the terminals that they end on, also those that end nowhere else. */
function coresOn(model: Model): ReadonlyMap<Terminal, readonly Core[]> {
  let at = known.get(model);
  if (at === undefined) {
    const found = new Map<Terminal, Core[]>();
    for (const { cores } of model.runs.values())
      for (const core of cores)
        for (const end of [core.from, core.to]) {
          if (end === undefined) continue;
          const here = found.get(end);
          if (here === undefined) found.set(end, [core]);
          else here.push(core);
        }
    at = found;
    known.set(model, at);
  }
  return at;
}

/** One bolt on the body, not a bar of several. */
function isSingle(word: string): boolean {
  return word === 'chassis';
}
