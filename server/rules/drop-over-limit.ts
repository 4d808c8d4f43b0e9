/** A load that loses more of its voltage on the way than the set of limits allows. */
import type { LoadFigures } from '../answers/answers.ts';
import { coreOhmsAt20 } from '../answers/conditions.ts';
import { standardSizes } from '../answers/work-out.ts';
import type { Run } from '../model/model.ts';
import { cite } from '../tables/table.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import type { Fix, Rule, RuleContext } from './rule.ts';
import { percent, volts } from './words.ts';

export const rule: Rule = {
  slug: 'drop-over-limit',
  severity: 'warning',
  group: 'cable',
  reads: ['run.size', 'run.length', 'load.power', 'load.essential', 'system.limits', 'battery.voltage'],
  page: {
    title: 'Too much voltage lost on the way',
    why: 'At 12 V a lost volt is a twelfth of everything: lamps dim, a cooler cuts out while the battery is still half full, a heater does not start on a cold night.',
    limit:
      'Of the supply’s nominal voltage, out and back, in the worst case: 3 % for essential loads (ISO 10133 annex C, confirmed), else 5 % with `iec-60364-5-52` (IEC 60364-5-52 table G.52.1, from memory) or with `nec-310` (NEC 210.19, confirmed), or 10 % with `cfr-33-183` and `iso-13297` (ISO 10133, from memory).',
    mend: 'Use a larger size on the run that loses most, shorten it, or run fewer loads at once.',
    see: ['cable-too-small', 'conductor-class-unknown'],
    wrong: [
      lampSpec({
        load: 'load LAMP 48 W',
        out: 'run W2 1.5 mm² red, 8 m, F1:out to LAMP:+ # finds: drop-over-limit "1.5 mm²"',
        back: 'run W3 1.5 mm² black, 6 m, LAMP:- to B1:-',
      }),
      lampSpec({
        load: 'load LAMP 36 W, essential',
        out: 'run W2 1.5 mm² red, 8 m, F1:out to LAMP:+ # finds: drop-over-limit "1.5 mm²"',
      }),
    ],
    right: [
      lampSpec({
        load: 'load LAMP 48 W',
        out: 'run W2 4 mm² red, 8 m, F1:out to LAMP:+',
        back: 'run W3 4 mm² black, 6 m, LAMP:- to B1:-',
      }),
      lampSpec({
        load: 'load LAMP 36 W, essential',
        out: 'run W2 2.5 mm² red, 8 m, F1:out to LAMP:+',
      }),
    ],
  },
  *check(context) {
    for (const figures of context.answers.loads.values()) {
      const { load, dropPercent, dropVolts, worstCase, source } = figures;
      if (load.facts.says('cranking') || load.kind.word === 'charger' || worstCase === '') continue;
      const limit = context.answers.limits.drop(load.facts.says('essential'));
      const limitPercent = 100 * limit.ratio;
      if (!exceeds(dropPercent, limitPercent)) continue;
      const worst = worstRun(figures, context);
      const fixes =
        worst === undefined
          ? []
          : largerSize(worst.run, worst.dropVolts, dropVolts - limit.ratio * figures.supplyVolts);
      const use =
        fixes[0] === undefined
          ? 'shorten it or use a larger size'
          : `${fixes[0].title.replace('Use', 'use')} there, or shorten it`;
      yield {
        message: `${load.name} loses ${volts(dropVolts)} (${percent(dropPercent)}) on the way from ${source?.name ?? 'its source'} and back in case ${worstCase}, more than ${percent(limitPercent)}${worst === undefined ? '' : `; most of it in ${worst.run.name}, ${volts(worst.dropVolts)}: ${use}`}.${limit.source.status === 'confirmed' ? '' : ` The limit is from ${cite(limit.source)}.`}`,
        place: worst?.run.sizePlace ?? load.namePlace,
        subject: worst?.run.name ?? load.name,
        figures: {
          load: load.name,
          dropVolts,
          dropPercent,
          limitPercent,
          case: worstCase,
          supplyVolts: figures.supplyVolts,
          ...(worst === undefined ? {} : { runDropVolts: worst.dropVolts }),
        },
        related: [{ message: `${load.name} gets what is left`, place: load.namePlace }],
        fixes,
      };
    }
  },
};

/** The run of the way that loses most in the worst case, all its cores on the way together. */
function worstRun(
  { cores, worstCase }: LoadFigures,
  { answers }: RuleContext,
): { run: Run; dropVolts: number } | undefined {
  const answer = answers.cases.find(({ name }) => name === worstCase);
  const lost = new Map<Run, number>();
  for (const core of cores) {
    const inCase = answer?.cores.find((one) => one.core === core);
    lost.set(core.run, (lost.get(core.run) ?? 0) + Math.abs(inCase?.dropVolts ?? 0));
  }
  let worst: { run: Run; dropVolts: number } | undefined;
  for (const [run, dropVolts] of lost)
    if (worst === undefined || dropVolts > worst.dropVolts) worst = { run, dropVolts };
  return worst;
}

/** The smallest larger size that saves enough on that run alone. */
function largerSize(run: Run, lostVolts: number, excessVolts: number): Fix[] {
  const { size } = run;
  if (size === undefined || run.facts.fact('size')?.fromStock !== undefined) return [];
  const now = coreOhmsAt20(run, size);
  if (now === undefined || now <= 0) return [];
  const larger = standardSizes(size.system === 'awg').find((candidate) => {
    const ohms = coreOhmsAt20(run, candidate);
    // A little room: with less loss the load sees more voltage, but its cores are also cooler.
    return ohms !== undefined && ohms < now && lostVolts * (1 - ohms / now) >= excessVolts * 1.02;
  });
  return larger === undefined
    ? []
    : [{ title: `Use ${larger.written}`, safe: false, edits: [{ place: run.sizePlace, newText: larger.written }] }];
}
