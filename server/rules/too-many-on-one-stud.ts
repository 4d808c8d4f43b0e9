/** More lugs stacked on one stud than hold. */
import type { Core, Part, Terminal } from '../model/model.ts';
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';
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
  reads: ['part.stud', 'busbar.studs', 'block.studs', 'run.ends'],
  page: {
    title: 'Too many lugs on one stud',
    why: 'In a stack of lugs the nut presses on the outermost, the others creep, and the whole pile works loose and gets hot. Taking one circuit off means taking off all.',
    limit: 'Four lugs on one stud, the largest at the bottom (common practice, no source).',
    mend: 'Lead one cable from the stud to a busbar and spread the others there.',
    see: ['terminal-too-small-for-cable', 'stud-mismatch'],
    wrong: [lamps(5, ' # finds: too-many-on-one-stud "stud M8"')],
    right: [lamps(4, '')],
  },
  *check({ model }) {
    const studded = ({ facts }: Part) => facts.says('stud') || facts.number('studs') !== undefined;
    if (![...model.parts.values()].some(studded)) return;
    const at = new Map<Terminal, Core[]>();
    for (const run of model.runs.values())
      for (const core of run.cores)
        for (const end of [core.from, core.to])
          if (end !== undefined) {
            const known = at.get(end);
            if (known === undefined) at.set(end, [core]);
            else known.push(core);
          }
    for (const part of model.parts.values()) {
      const studs = part.facts.number('studs');
      const spread = part.kind.oneNode && studs !== undefined && studs > 1;
      // A bar whose studs nobody counted may have any number, and what has no studs clamps its cables.
      if (part.kind.oneNode ? studs === undefined && !isSingle(part.kind.word) : !part.facts.says('stud')) continue;
      if (isSingle(part.kind.word) && !part.facts.says('stud')) continue;
      for (const terminal of part.terminals) {
        const cores = at.get(terminal) ?? [];
        // Cores at the bar itself lie on any of its studs.
        const room = spread && terminal.spec.name === '' ? studs * most : most;
        if (cores.length <= room) continue;
        const runs = [...new Set(cores.map(({ run }) => run))];
        yield {
          message: `${cores.length} cables (${names(runs)}) are stacked on ${terminal.id}, and ${room === most ? `one stud holds ${most}` : `its ${studs} studs hold ${room}`}: lead one to a busbar and spread the others there.`,
          place: part.facts.place(part.facts.says('stud') ? 'stud' : 'studs'),
          subject: part.name,
          figures: { cables: cores.length, most: room, terminal: terminal.id },
          related: cores.map(({ run, place }) => ({ message: `${run.name} ends there`, place })),
        };
        break;
      }
    }
  },
};

/** One bolt on the body, not a bar of several. */
function isSingle(word: string): boolean {
  return word === 'chassis';
}
