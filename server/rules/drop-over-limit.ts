/** A load that loses more of its voltage on the way than the set of limits allows. */
import type { LoadFigures } from '../answers/answers.ts';
import { coreOhmsAt20 } from '../answers/conditions.ts';
import { standardSizes } from '../answers/work-out.ts';
import type { Run } from '../model/model.ts';
import { areaMm2 } from '../physics/conductors.ts';
import { worstCore } from './cable-verdict.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import { largerCable } from './larger-cable.ts';
import { citedBriefly, saidWhole } from './limit-beside.ts';
import type { Fix, Reported, Rule, RuleContext } from './rule.ts';
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
    for (const [worst, ...others] of byWorstRun(tooMuch(context))) {
      if (worst !== undefined && !isMendedForDevice(worst, context)) yield report(worst, others);
    }
  },
};

/** A load that loses too much, and what would mend that. */
interface Lossy {
  readonly figures: LoadFigures;
  readonly limit: ReturnType<RuleContext['answers']['limits']['drop']>;
  readonly legs: readonly Leg[];
  readonly larger: LargerSize | undefined;
}

function* tooMuch(context: RuleContext): Generator<Lossy> {
  for (const figures of context.answers.loads.values()) {
    const { load, dropPercent, dropVolts, worstCase } = figures;
    if (load.facts.says('cranking') || load.kind.word === 'charger' || worstCase === '') continue;
    const limit = context.answers.limits.drop(load.facts.says('essential'));
    if (!exceeds(dropPercent, 100 * limit.ratio)) continue;
    const legs = worstRuns(figures, context);
    const larger = largerSize(legs, dropVolts - limit.ratio * figures.supplyVolts);
    yield { figures, limit, legs, larger };
  }
}

/** Whether the size that its device asks of the same run will do here too: then it is told as that. */
function isMendedForDevice({ legs: [worst], larger }: Lossy, context: RuleContext): boolean {
  if (worst === undefined || larger === undefined) return false;
  const own = worstCore(context.answers.runs.get(worst.run) ?? [], context);
  if (own?.by !== 'device') return false;
  const size = largerCable(own.figures, { deviceAmps: own.needed, byWarming: false }, context);
  return size !== undefined && areaMm2(size) >= larger.mm2;
}

/** What loses most in the same run has one cause and one mend: that which wants the largest size first, then the worst. */
function byWorstRun(all: Iterable<Lossy>): Iterable<readonly Lossy[]> {
  const groups = new Map<Run | LoadFigures, Lossy[]>();
  for (const one of all) {
    const key = one.legs[0]?.run ?? one.figures;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  const over = ({ figures, limit }: Lossy) => figures.dropPercent / limit.ratio;
  for (const group of groups.values())
    group.sort((one, other) => (other.larger?.mm2 ?? 0) - (one.larger?.mm2 ?? 0) || over(other) - over(one));
  return groups.values();
}

function report({ figures, limit, legs, larger }: Lossy, others: readonly Lossy[]): Reported {
  const { load, dropPercent, dropVolts, worstCase, source } = figures;
  const limitPercent = 100 * limit.ratio;
  const [worst] = legs;
  const lost = legs.reduce((sum, leg) => sum + leg.dropVolts, 0);
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

/** A run of a load’s way, and what all its cores on the way lose together in the worst case. */
interface Leg {
  readonly run: Run;
  readonly dropVolts: number;
  readonly amps: number;
  /** Whether it leads to the load, back from it, or both. */
  readonly sides: ReadonlySet<'out' | 'back'>;
}

/** Where this much less is lost than in the worst run, a larger size is not worth its price (common practice, no source). */
const worthwhile = 0.25;

/** The run that loses most, first, and those of the same circuit that lose nearly as much: its way back above all. */
function worstRuns({ cores, worstCase, supplyVolts }: LoadFigures, { answers }: RuleContext): Leg[] {
  const answer = answers.cases.find(({ name }) => name === worstCase);
  const legs = new Map<Run, Leg>();
  for (const core of cores) {
    const inCase = answer?.cores.find((one) => one.core === core);
    const before = legs.get(core.run);
    const volts = answer?.volts.get(core.from?.id ?? '') ?? 0;
    legs.set(core.run, {
      run: core.run,
      dropVolts: (before?.dropVolts ?? 0) + Math.abs(inCase?.dropVolts ?? 0),
      amps: Math.max(before?.amps ?? 0, Math.abs(inCase?.amps ?? 0)),
      sides: new Set([...(before?.sides ?? []), Math.abs(volts) > supplyVolts / 2 ? 'out' : 'back']),
    });
  }
  const [worst, ...others] = [...legs.values()].sort((a, b) => b.dropVolts - a.dropVolts);
  if (worst === undefined) return [];
  return [
    worst,
    ...others.filter(
      ({ run, dropVolts, amps }) =>
        dropVolts >= worthwhile * worst.dropVolts &&
        Math.abs(amps - worst.amps) <= 0.02 * worst.amps &&
        run.size?.system === worst.run.size?.system &&
        isOwnSize(run),
    ),
  ];
}

/** Stated by the run itself, so that a larger one changes no other. */
function isOwnSize(run: Run): boolean {
  return run.size !== undefined && run.facts.fact('size')?.fromStock === undefined;
}

interface LargerSize {
  readonly written: string;
  readonly mm2: number;
  readonly where: string;
  readonly fix: Fix;
}

/** The smallest size that, given to all these runs that have less, saves enough. */
function largerSize(legs: readonly Leg[], excessVolts: number): LargerSize | undefined {
  const [worst] = legs;
  if (worst?.run.size === undefined || !isOwnSize(worst.run)) return undefined;
  for (const candidate of standardSizes(worst.run.size.system === 'awg')) {
    const changed: Leg[] = [];
    let savedVolts = 0;
    for (const leg of legs) {
      const now = coreOhmsAt20(leg.run, leg.run.size);
      const ohms = coreOhmsAt20(leg.run, candidate);
      if (now === undefined || ohms === undefined || now <= 0 || ohms >= now) continue;
      changed.push(leg);
      savedVolts += leg.dropVolts * (1 - ohms / now);
    }
    // A little room: with less loss the load sees more voltage, but its cores are also cooler.
    if (!changed.includes(worst) || savedVolts < excessVolts * 1.02) continue;
    const { written } = candidate;
    const where = placesOf(changed, legs);
    return {
      written,
      mm2: areaMm2(candidate),
      where,
      fix: {
        title: where === 'there' ? `Use ${written}` : `Use ${written} ${where}`,
        safe: false,
        edits: changed.map(({ run }) => ({ place: run.sizePlace, newText: written })),
      },
    };
  }
  return undefined;
}

function placesOf(changed: readonly Leg[], legs: readonly Leg[]): string {
  if (legs.length === 1) return 'there';
  const sides = new Set(changed.flatMap((leg) => [...leg.sides]));
  if (sides.size === 2 && changed.length === legs.length) return 'out and back';
  return `for ${names(changed.map(({ run }) => run))}`;
}
