/** Conductors that a starter motor draws on: no continuous rating binds them, but their insulation must outlast the start. */
import type { Answers, CoreFigures, ShortCurrent } from '../answers/answers.ts';
import { capacityOf, insulationOf, physicalSize } from '../answers/conditions.ts';
import { usualCrankingSeconds } from '../answers/duty.ts';
import { standardSizes } from '../answers/work-out.ts';
import type { ConductorSize, Run } from '../model/model.ts';
import { withstandI2t } from '../physics/adiabatic.ts';
import { adiabaticTime, timeConstant } from '../physics/short-time.ts';
import { adiabaticSeconds } from '../tables/adiabatic.ts';
import { citeWithin } from '../tables/table.ts';
import type { Verdict } from './cable-verdict.ts';
import { exceeds } from './exceeds.ts';
import type { Reported, RuleContext } from './rule.ts';
import { amps, forTime, seconds } from './words.ts';

/** The worst that starter motors ask of a core, where it does not withstand it. */
export function crankingVerdict(figures: CoreFigures, answers: Answers): Verdict | undefined {
  if (answers.directions.cranking.length === 0) return undefined;
  const { size } = figures.core.run;
  const worst = worstCranking(figures, answers);
  if (size === undefined || worst === undefined) return undefined;
  const { i2t, tau } = bearing(figures, size, answers);
  const current = Math.abs(worst.amps);
  const lasts = worst.seconds ?? usualCrankingSeconds;
  if (!exceeds(current ** 2 * adiabaticTime(lasts, tau), i2t)) return undefined;
  return { figures, needed: current, permitted: Math.sqrt(i2t / adiabaticTime(lasts, tau)), by: 'cranking' };
}

function worstCranking({ core }: CoreFigures, { directions }: Answers): ShortCurrent | undefined {
  const heat = ({ amps: one, seconds: lasts = usualCrankingSeconds }: ShortCurrent) => one ** 2 * lasts;
  return [...directions.ofCore(core).cranks].sort((one, other) => heat(other) - heat(one))[0];
}

/** What a size in the place of a core's bears, and how fast it warms. */
function bearing(
  { core: { run }, capacity }: CoreFigures,
  size: ConductorSize,
  answers: Answers,
  context?: RuleContext,
) {
  const { i2t, sources } = withstandI2t(physicalSize(size), { celsius: insulationOf(run) }, run.material);
  const own =
    context === undefined
      ? capacity
      : capacityOf(run, size, context.model, answers.limits, answers.systemVolts, { bunch: capacity?.bunch });
  const tau =
    own === undefined || own.reason !== undefined
      ? Number.POSITIVE_INFINITY
      : timeConstant({
          size: physicalSize(size),
          material: run.material,
          ambientCelsius: own.ambientCelsius,
          insulationCelsius: insulationOf(run),
          capacityAmps: own.amps,
        });
  return { i2t, tau, sources };
}

export function crankingReport(run: Run, { figures, needed, permitted }: Verdict, context: RuleContext): Reported {
  const { answers } = context;
  const worst = worstCranking(figures, answers);
  const size = run.size as ConductorSize;
  const { i2t, tau, sources } = bearing(figures, size, answers);
  const lasts = worst?.seconds ?? usualCrankingSeconds;
  const assumed = worst?.seconds === undefined;
  // The time for which heat is held, then with what is given off meanwhile.
  const held = i2t / needed ** 2;
  const bears = held <= adiabaticSeconds ? held : -tau * Math.log1p(-held / tau);
  const fits = (candidate: ConductorSize) => {
    const there = bearing(figures, candidate, answers, context);
    return needed ** 2 * adiabaticTime(lasts, there.tau) <= there.i2t;
  };
  const larger = standardSizes(size.system === 'awg').find(fits);
  const stocked = run.facts.fact('size')?.fromStock !== undefined;
  return {
    // A time that nobody stated makes no error.
    ...(assumed ? { severity: 'warning' as const } : {}),
    message: `${run.name} carries ${amps(needed)} ${worst === undefined ? '' : forTime({ ...worst, seconds: lasts })}, but ${size.written} bears that for ${seconds(bears)} before its insulation is lost (${sources.map(citeWithin).join('; ')}): use ${larger === undefined ? 'a larger size' : `${larger.written} or larger`}.${assumed ? ` How long it cranks is not said, so ${usualCrankingSeconds} s is assumed (common practice, no source): say it with for.` : ''}`,
    place: run.sizePlace,
    subject: run.name,
    figures: {
      crankingAmps: needed,
      crankingSeconds: lasts,
      withstandAmps: permitted,
      withstandSeconds: bears,
      assumed,
      core: figures.core.label,
    },
    related: (worst?.loads ?? []).map((load) => ({ message: `${load.name} draws it`, place: load.namePlace })),
    fixes:
      larger === undefined || stocked
        ? []
        : [{ title: `Use ${larger.written}`, safe: false, edits: [{ place: run.sizePlace, newText: larger.written }] }],
  };
}
