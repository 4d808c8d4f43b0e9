/** A load that loses more of its voltage on the way than the set of limits allows. */
import type { LoadFigures } from '../answers/answers.ts';
import { groupBy } from '../answers/grouping.ts';
import { worstCore } from './cable-verdict.ts';
import {
  type LargerSize,
  type Leg,
  largerSize,
  legsOf,
  lossOf,
  mendsWithin,
  savedBy,
  stretchesOf,
  worstLegs,
} from './drop-legs.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import { largerCable } from './larger-cable.ts';
import { citedBriefly, saidWhole } from './limit-beside.ts';
import { isToldAsForHigher } from './other-voltage.ts';
import type { Reported, Rule, RuleContext } from './rule.ts';
import { isTold } from './told-as-too-small.ts';
import { names, percent, volts } from './words.ts';

export const rule: Rule = {
  slug: 'drop-over-limit',
  severity: 'warning',
  group: 'cable',
  reads: [
    'run.size',
    'run.length',
    'load.power',
    'load.essential',
    'load.cranking',
    'load.lowest',
    'system.limits',
    'battery.voltage',
  ],
  page: {
    title: 'Too much voltage lost on the way',
    why: 'At 12 V a lost volt is a twelfth of everything: lamps dim, a cooler cuts out while the battery is still half full, a heater does not start on a cold night.',
    limit:
      'Of the supply’s nominal voltage, out and back, in the worst case: 3 % for essential loads (ISO 10133 annex C, confirmed), else 5 % with `iec-60364-5-52` (IEC 60364-5-52 table G.52.1, from memory) or with `nec-310` (NEC 210.19, confirmed), or 10 % with `cfr-33-183` and `iso-13297` (ISO 10133, from memory). A starter motor (`cranking`) must have its lowest stated voltage left at the current it cranks with (common practice, no source).',
    mend: 'Use a larger size out and back alike, shorten the way, or run fewer loads at once.',
    see: ['cable-too-small', 'conductor-class-unknown', 'inverter-input-drop'],
    wrong: [
      lampSpec({
        load: 'load LAMP 48 W',
        out: 'run W2 1.5 mm² red, 8 m, F1:out to LAMP:+ # finds: drop-over-limit "1.5 mm²"',
        back: 'run W3 1.5 mm² black, 6 m, LAMP:- to B1:-',
      }),
      lampSpec({
        load: 'load LAMP 36 W, essential',
        out: 'run W2 1.5 mm² red, 8 m, F1:out to LAMP:+ # finds: drop-over-limit "1.5 mm²"',
        back: 'run W3 1.5 mm² black, 7 m, LAMP:- to B1:-',
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
        out: 'run W2 4 mm² red, 8 m, F1:out to LAMP:+',
        back: 'run W3 4 mm² black, 7 m, LAMP:- to B1:-',
      }),
    ],
  },
  *check(context) {
    yield* startersBelowLowest(context);
    const lossy = [...tooMuch(context)].filter((one) => !isMendedForDevice(one, context));
    for (const [worst, ...others] of byCause(lossy)) if (worst !== undefined) yield report(worst, others);
  },
};

/** A load that loses too much, and what would mend that. */
interface Lossy {
  readonly figures: LoadFigures;
  readonly limit: ReturnType<RuleContext['answers']['limits']['drop']>;
  /** Of its whole way. */
  readonly all: readonly Leg[];
  readonly excessVolts: number;
  /** Those to change. */
  readonly legs: readonly Leg[];
  readonly larger: LargerSize | undefined;
}

function* tooMuch(context: RuleContext): Generator<Lossy> {
  for (const figures of context.answers.loads.values()) {
    const { load, dropPercent, dropVolts, worstCase } = figures;
    if (load.facts.says('cranking') || load.kind.word === 'charger' || worstCase === '') continue;
    const limit = context.answers.limits.drop(load.facts.says('essential'));
    if (!exceeds(dropPercent, 100 * limit.ratio)) continue;
    // At half its voltage it takes twice its current.
    if (isToldAsForHigher(load, context)) continue;
    const all = legsOf(figures, context);
    const legs = worstLegs(all);
    const excessVolts = dropVolts - limit.ratio * figures.supplyVolts;
    yield { figures, limit, all, excessVolts, legs, larger: largerSize(legs, excessVolts) };
  }
}

/** Whether the sizes that their devices ask of runs on its way save enough here too: then it is told as that. */
function isMendedForDevice({ all, excessVolts }: Lossy, context: RuleContext): boolean {
  const saved = all.map(({ run, dropVolts }) => {
    const own = worstCore(context.answers.runs.get(run) ?? [], context);
    if (own?.by !== 'device' || !isTold(own, context)) return 0;
    const size = largerCable(own.figures, { deviceAmps: own.needed, byWarming: false }, context);
    return size === undefined ? 0 : savedBy(size, run, dropVolts);
  });
  return saved.reduce((sum, one) => sum + one, 0) >= excessVolts;
}

/**
 * What is lost on the same stretch has one cause and one mend: first that which a larger size on a stretch they share would mend
 * for several, as on the feed of a fusebox, then what loses most in the same run. That which wants the largest size stands first.
 */
function* byCause(all: readonly Lossy[]): Generator<readonly Lossy[]> {
  let left = all;
  const groups: (readonly Lossy[])[] = [];
  for (;;) {
    const shared = [...groupBy(left.flatMap(shares), ({ key }) => key).values()].reduce<readonly Share[]>(
      (most, group) => (group.length > most.length ? group : most),
      [],
    );
    if (shared.length < 2) break;
    const who = new Set(shared.map(({ of }) => of));
    left = left.filter((one) => !who.has(one));
    groups.push(shared.map(({ of, legs, larger }) => ({ ...of, legs, larger })));
  }
  const alone = [...groupBy(left, ({ legs, figures }) => legs[0]?.run ?? figures)];
  const isOf = (run: unknown, group: readonly Lossy[]) => group[0]?.legs.some((leg) => leg.run === run) === true;
  for (const group of groups)
    yield inOrder([...group, ...alone.flatMap(([run, own]) => (isOf(run, group) ? own : []))]);
  for (const [run, own] of alone) if (!groups.some((group) => isOf(run, group))) yield inOrder(own);
}

function inOrder(group: readonly Lossy[]): readonly Lossy[] {
  const over = ({ figures, limit }: Lossy) => figures.dropPercent / limit.ratio;
  return [...group].sort((one, other) => (other.larger?.mm2 ?? 0) - (one.larger?.mm2 ?? 0) || over(other) - over(one));
}

/** A stretch of a load’s way that a larger size on it alone would mend. */
interface Share {
  readonly key: string;
  readonly of: Lossy;
  readonly legs: readonly Leg[];
  readonly larger: LargerSize | undefined;
}

function shares(of: Lossy): Share[] {
  const most = Math.max(...stretchesOf(of.all).map(lossOf));
  return stretchesOf(of.all).flatMap((legs) => {
    // What loses little beside another stretch is not the cause.
    if (lossOf(legs) < most / 2 || !mendsWithin(legs, of.excessVolts)) return [];
    const key = legs
      .map(({ run }) => run.name)
      .sort()
      .join(' ');
    return [{ key, of, legs, larger: largerSize(legs, of.excessVolts) }];
  });
}

function report({ figures, limit, legs, larger }: Lossy, others: readonly Lossy[]): Reported {
  const { load, dropPercent, dropVolts, worstCase, source } = figures;
  const limitPercent = 100 * limit.ratio;
  const [worst] = legs;
  const lost = lossOf(legs);
  const where = legs.length <= 3 ? names(legs.map(({ run }) => run)) : `${worst?.run.name} and others like it`;
  const use =
    larger === undefined
      ? `shorten ${legs.length > 1 ? 'them' : 'it'} or use a larger size`
      : `use ${larger.written} ${larger.where}, or shorten ${legs.length > 1 ? 'them' : 'it'}`;
  return {
    message: `${load.name} loses ${volts(dropVolts)} (${percent(dropPercent)}) from ${source?.name ?? 'its source'} and back in case ${worstCase}, more than ${percent(limitPercent)}${limit.source.status === 'confirmed' ? '' : ` (${citedBriefly(limit.source)})`}${worst === undefined ? '' : `; ${where} ${legs.length === 1 ? 'loses' : 'lose'} ${volts(lost)} of it: ${use}`}.`,
    place: worst?.run.sizePlace ?? load.namePlace,
    subject: worst?.run.name ?? load.name,
    figures: {
      load: load.name,
      dropVolts,
      dropPercent,
      limitPercent,
      case: worstCase,
      supplyVolts: figures.supplyVolts,
      ...(worst === undefined ? {} : { runDropVolts: lost }),
    },
    related: [
      { message: `${load.name} is fed from it`, place: load.namePlace },
      ...others.map(({ figures: other, limit: { ratio } }) => ({
        message: `${other.load.name} loses ${volts(other.dropVolts)} (${percent(other.dropPercent)}) by it too, more than ${percent(100 * ratio)}`,
        place: other.load.namePlace,
      })),
      ...(limit.source.status === 'confirmed' ? [] : saidWhole(limit.source, load.namePlace)),
    ],
    fixes: larger === undefined ? [] : [larger.fix],
  };
}

/** A starter motor whose cables lose so much at its current that what is left is below its lowest voltage. */
function* startersBelowLowest({ answers }: RuleContext): Iterable<Reported> {
  const told = new Set<string>();
  const worst = [...answers.directions.cranking].sort((one, other) => one.volts - other.volts);
  for (const { load, source, volts: left, sourceVolts } of worst) {
    const lowest = load.facts.number('lowest');
    if (lowest === undefined || told.has(load.name) || !exceeds(lowest, left)) continue;
    told.add(load.name);
    // Larger cables are no help where the battery itself gives no more.
    const lost = sourceVolts - left;
    if (sourceVolts <= lowest) continue;
    const cores = (answers.loads.get(load.name)?.cores ?? []).flatMap((core) => answers.cores.get(core) ?? []);
    const [most] = [...cores].sort((one, other) => (other.ohms ?? 0) - (one.ohms ?? 0));
    const run = most?.core.run;
    yield {
      message: `${load.name} gets ${volts(left)} while it cranks and works down to ${volts(lowest)}: of the ${volts(sourceVolts)} that ${source.name} then gives, its cables lose ${volts(lost)}, and may lose ${volts(sourceVolts - lowest)}${run === undefined ? '' : `; most of it in ${run.name}`}: use larger or shorter ones.`,
      place: run?.sizePlace ?? load.namePlace,
      subject: run?.name ?? load.name,
      figures: { load: load.name, volts: left, lowestVolts: lowest, sourceVolts, dropVolts: lost },
      related: [{ message: `${load.name} is fed from it`, place: load.namePlace }],
    };
  }
}
