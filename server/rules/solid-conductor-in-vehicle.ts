/** A conductor of one wire, in something that shakes. */
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';

export const rule: Rule = {
  slug: 'solid-conductor-in-vehicle',
  severity: 'warning',
  group: 'cable',
  reads: ['run.class', 'run.strands', 'cable.class', 'cable.strands'],
  page: {
    title: 'A solid conductor in a vehicle',
    why: 'One thick wire breaks after some years of shaking, mostly at its terminal, where it then arcs and gets hot.',
    limit:
      'Conductors in craft and vehicles are stranded (ISO 10133 clause 7 and 33 CFR 183.425, from memory); flexible ones of class 5 of IEC 60228 (confirmed) serve best.',
    mend: 'Use flexible cable, class 5 or 6, or `stranded` for a gauge.',
    see: ['conductor-class-unknown', 'aluminium-core-as-copper'],
    wrong: [
      lampSpec({
        out: 'run W2 1.5 mm² red, class 1, 1.2 m, F1:out to LAMP:+ # finds: solid-conductor-in-vehicle "class 1"',
      }),
      lampSpec({ out: 'run W2 14 AWG red, solid, 4 ft, F1:out to LAMP:+ # finds: solid-conductor-in-vehicle "solid"' }),
    ],
    right: [
      lampSpec({ out: 'run W2 1.5 mm² red, class 5, 1.2 m, F1:out to LAMP:+' }),
      lampSpec({ out: 'run W2 14 AWG red, stranded, 4 ft, F1:out to LAMP:+' }),
    ],
  },
  ofRun(run) {
    if (!run.solid) return undefined;
    const clause = run.facts.word('strands') === 'solid' ? 'strands' : 'class';
    const place = run.facts.place(clause);
    const use = clause === 'strands' ? 'stranded' : 'class 5';
    return {
      message: `${run.name} is one solid wire, which breaks where a vehicle shakes it: use flexible cable (${use}).`,
      place,
      subject: run.name,
      fixes:
        run.facts.fact(clause)?.fromStock === undefined
          ? [{ title: `Use ${use}`, safe: false, edits: [{ place, newText: use }] }]
          : [],
    };
  },
};
