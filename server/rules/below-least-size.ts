/** A conductor thinner than any may be. */

import { standardSizes } from '../answers/work-out.ts';
import { areaMm2 } from '../physics/conductors.ts';
import { isAtLeast, leastAreaMm2, leastSizes } from '../tables/least-sizes.ts';
import { cite } from '../tables/table.ts';
import { lampSpec } from './language.ts';
import type { Rule, RuleContext } from './rule.ts';
import { isToldAsTooSmall } from './told-as-too-small.ts';

export const rule: Rule = {
  slug: 'below-least-size',
  severity: 'warning',
  group: 'cable',
  reads: ['run.size', 'run.length', 'run.sheathed', 'system.limits'],
  page: {
    title: 'A conductor thinner than any may be',
    why: 'However little it carries, a hair-thin wire is torn off by a knee or a box, breaks in its terminal, and no fuse that one can buy protects it.',
    limit:
      '`iec-60364-5-52` and `iso-13297`: 1 mm² laid by itself, 0.75 mm² in a sheath with others; pieces up to 200 mm are let off (ISO 10133 clause 7.7, confirmed). `cfr-33-183`: 16 AWG by itself, 18 AWG in a sheath (33 CFR 183.425(d) and (e), confirmed). `nec-310`: 18 AWG (NEC table 551.10(E)(1), from memory).',
    mend: 'Use the least size; for a signal, take it as a core of a sheathed cable.',
    see: ['cable-too-small', 'terminal-too-small-for-cable', 'insulation-for-place'],
    wrong: [
      lampSpec({
        fuse: 'fuse F1 2 A, blade, 32 V',
        out: 'run W2 0.5 mm² red, 1.2 m, F1:out to LAMP:+ # finds: below-least-size "0.5 mm²"',
      }),
      lampSpec({
        system: 'system "Shed" 12 V, limits cfr-33-183',
        fuse: 'fuse F1 2 A, blade, 32 V',
        out: 'run W2 18 AWG red, 4 ft, F1:out to LAMP:+ # finds: below-least-size "18 AWG"',
      }),
    ],
    right: [
      lampSpec({ fuse: 'fuse F1 2 A, blade, 32 V', out: 'run W2 1 mm² red, 1.2 m, F1:out to LAMP:+' }),
      lampSpec({ fuse: 'fuse F1 2 A, blade, 32 V', out: 'run W2 0.75 mm² red, sheathed, 1.2 m, F1:out to LAMP:+' }),
    ],
  },
  ofRun(run, { limits }) {
    const { size, lengthMetres } = run;
    const least = leastSizes.get(limits);
    if (least === undefined || size === undefined) return undefined;
    const sheathed = run.cores.length > 1 || run.facts.says('sheathed');
    const needed = leastAreaMm2(limits, sheathed, lengthMetres);
    if (needed === undefined || isAtLeast(areaMm2(size), needed)) return undefined;
    const use = standardSizes(size.system === 'awg').find((candidate) => isAtLeast(areaMm2(candidate), needed));
    const reported = {
      message: `${run.name} is ${size.written}, thinner than any conductor may be ${sheathed ? 'in a sheath' : 'by itself'}: use ${use?.written ?? 'a larger one'} at least. The limit is from ${cite(least.source)}.`,
      place: run.sizePlace,
      subject: run.name,
      figures: { areaMm2: areaMm2(size), leastMm2: needed },
      fixes:
        use === undefined || run.facts.fact('size')?.fromStock !== undefined
          ? []
          : [{ title: `Use ${use.written}`, safe: false, edits: [{ place: run.sizePlace, newText: use.written }] }],
    };
    // A size that is in no table is told of as that, and so is one that its device asks to be larger.
    const isInNone = ({ answers }: RuleContext) =>
      answers.runs.get(run)?.some(({ capacity }) => capacity?.reason === 'size-not-in-table') === true;
    return (context) => (isInNone(context) || isToldAsTooSmall(run, context) ? [] : [reported]);
  },
};
