/** A switch for alternating current in a circuit of direct current. */
import type { Facts } from '../model/model.ts';
import { lampSpec, throughS1 } from './language.ts';
import type { Rule } from './rule.ts';

const { out, on } = throughS1;

export const rule: Rule = {
  slug: 'switch-not-dc',
  severity: 'error',
  group: 'switching',
  reads: [
    'isolator.rating',
    'isolator.voltage',
    'isolator.category',
    'switch.rating',
    'switch.voltage',
    'switch.category',
    'selector.rating',
    'selector.voltage',
    'relay.rating',
  ],
  page: {
    title: 'A switch that is rated for alternating current only',
    why: 'Alternating current stops a hundred times a second, and with it the arc. Direct current does not: the contacts of a household switch stay joined by the arc, burn, and weld.',
    limit:
      'The utilisation categories that begin with AC hold for alternating current only, those with DC for direct current (IEC 60947-3 table 2, confirmed). A rating is taken as one for d.c. unless it says `ac`.',
    mend: 'Fit a switch with a d.c. rating at the voltage that it opens (that of the battery; on the roof that of the panels in the cold), and say it: `10 A dc, 24 V`. If the maker states one besides, write that.',
    see: ['switch-category', 'breaker-not-dc', 'switch-below-load'],
    wrong: [
      lampSpec({ out }, 'switch S1 1 pole, 16 A ac, 250 V # finds: switch-not-dc "16 A ac"', on),
      lampSpec({ out }, 'switch S1 1 pole, 16 A, 250 V ac # finds: switch-not-dc "250 V ac"', on),
      lampSpec({ out }, 'isolator S1 1 pole, 16 A, category AC-22A # finds: switch-not-dc "category AC-22A"', on),
    ],
    right: [
      lampSpec({ out }, 'switch S1 1 pole, 16 A dc, 24 V', on),
      lampSpec({ out }, 'switch S1 1 pole, 16 A, 24 V dc', on),
      lampSpec({ out }, 'isolator S1 1 pole, 16 A, 48 V, category DC-22A', on),
    ],
  },
  forKind: ({ family }) => family === 'switching',
  ofPart({ name, facts }) {
    const by = alternatingClause(facts);
    if (by === undefined) return undefined;
    const category = facts.word('category')?.toUpperCase();
    const words = by === 'category' ? `of category ${category}` : `rated ${facts.written(by)} ac`;
    return {
      message: `${name} is ${words}, which is for alternating current only, and on direct current its arc may not go out: fit one that its maker rates for direct current at the voltage it opens, and only then write dc beside its rating.`,
      place: facts.place(by),
      subject: name,
      figures: { clause: by },
    };
  },
};

/** The clause that says alternating current where none says direct; undefined where a switch is taken as one for direct current. */
export function alternatingClause(facts: Facts): 'rating' | 'voltage' | 'category' | undefined {
  const category = facts.word('category')?.toUpperCase();
  const sorts = [facts.word('rating', 'sort'), facts.word('voltage', 'sort')];
  if (sorts.includes('dc') || category?.startsWith('DC') === true) return undefined;
  if (facts.word('rating', 'sort') === 'ac') return 'rating';
  if (facts.word('voltage', 'sort') === 'ac') return 'voltage';
  return category?.startsWith('AC') === true ? 'category' : undefined;
}
