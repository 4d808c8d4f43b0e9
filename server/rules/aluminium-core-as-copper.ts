/** An aluminium conductor where terminals are made for copper. */

import { plainNumber } from '../../grammar/units.ts';
import { aluminiumRatio } from '../physics/conductors.ts';
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';

export const rule: Rule = {
  slug: 'aluminium-core-as-copper',
  severity: 'warning',
  group: 'cable',
  reads: ['run.material', 'cable.material'],
  page: {
    title: 'An aluminium conductor used like copper',
    why: 'Aluminium creeps away under a screw, and its skin of oxide does not conduct: a joint made as with copper gets looser and hotter until it burns. It also loses more voltage, and what is sold as cheap copper is often aluminium with a skin of copper.',
    limit:
      'Low-voltage conductors in vehicles and craft are of copper (NEC 552.10(B)(1), confirmed; ISO 10133 clause 7, from memory).',
    mend: 'Use copper of the size that the findings ask for. If it must be aluminium, fit lugs and grease made for it and accept this finding with that reason.',
    see: ['solid-conductor-in-vehicle', 'drop-over-limit'],
    wrong: [
      lampSpec({
        out: 'run W2 6 mm² red, aluminium, 1.2 m, F1:out to LAMP:+ # finds: aluminium-core-as-copper "aluminium"',
      }),
    ],
    right: [lampSpec({ out: 'run W2 6 mm² red, copper, 1.2 m, F1:out to LAMP:+' })],
  },
  ofRun(run) {
    if (run.material !== 'aluminium') return undefined;
    const place = run.facts.place('material');
    return {
      message: `${run.name} is of aluminium, whose joints loosen and get hot in terminals made for copper, and it loses ${plainNumber(aluminiumRatio, 1)} times what copper of its size does: use copper.`,
      place,
      subject: run.name,
      figures: { timesTheResistance: aluminiumRatio },
      fixes:
        run.facts.fact('material')?.fromStock === undefined
          ? [{ title: 'Use copper', safe: false, edits: [{ place, newText: 'copper' }] }]
          : [],
    };
  },
};
