/** A conductor class that IEC 60228 does not have: its resistance is in no table. */
import { example } from './language.ts';
import type { Rule } from './rule.ts';

const known: ReadonlySet<number> = new Set([1, 2, 5, 6]);

const lamp = (written: string) =>
  example(
    'system "Shed" 12 V',
    'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    'fuse F1 5 A, blade, 32 V',
    'load LAMP 12 W',
    `run W1 1.5 mm² red, ${written}`,
    'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+',
    'run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:-',
  );

export const rule: Rule = {
  slug: 'conductor-class-unknown',
  severity: 'warning',
  group: 'cable',
  reads: ['run.class'],
  page: {
    title: 'A conductor class that does not exist',
    why: 'The class says how many wires a conductor is made of, and so its resistance and how far it may be bent. With a class that is in no table, the drop is worked out for class 5.',
    limit: 'IEC 60228:2004 has classes 1 (solid), 2 (stranded), 5 (flexible) and 6 (extra flexible) (confirmed).',
    mend: 'Read the class on the cable’s data sheet. Flexible cable for vehicles is mostly class 5; a single wire is class 1.',
    wrong: [lamp('class 3, 0.1 m, B1:+ to F1:in # finds: conductor-class-unknown "class 3"')],
    right: [lamp('class 6, 0.1 m, B1:+ to F1:in')],
    see: ['drop-over-limit', 'cable-too-small'],
  },
  ofRun(run) {
    const { conductorClass } = run;
    if (conductorClass === undefined || known.has(conductorClass)) return undefined;
    const place = run.facts.place('class') ?? run.namePlace;
    return {
      message: `IEC 60228 has no class ${conductorClass}, so class 5 is assumed: write class 1 (solid), 2 (stranded), 5 (flexible) or 6 (extra flexible).`,
      place,
      subject: run.name,
      figures: { conductorClass },
      fixes: [{ title: 'Write class 5', safe: false, edits: [{ place, newText: 'class 5' }] }],
    };
  },
};
