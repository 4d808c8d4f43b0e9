/** A conductor whose capacity, where it lies, is below what its device lets through or its loads take. */
import type { Answers, CoreFigures } from '../answers/answers.ts';
import { capacityOf } from '../answers/conditions.ts';
import type { Run } from '../model/model.ts';
import type { Capacity } from '../physics/limits/limit-set.ts';
import { cite, citeWithin } from '../tables/table.ts';
import { goodFor, insulationUnstated, returnsBeside, whatFeeds } from './beside-too-small.ts';
import { cableMends } from './cable-mends.ts';
import { type Verdict, worstCore } from './cable-verdict.ts';
import { crankingReport } from './cranking.ts';
import { exceeds } from './exceeds.ts';
import { headOfRow } from './in-a-row.ts';
import { lampSpec } from './language.ts';
import { isToldWithFeed } from './returns-with-feed.ts';
import type { Reported, Rule, RuleContext } from './rule.ts';
import { thinReturn } from './thin-returns.ts';
import { amps, conditions, forTime, panelFactor, protectedAt, sources, temperature } from './words.ts';

/** A small fuse on a thin cable from a busbar. */
const tailSpec = (tail: string) =>
  lampSpec(
    {
      fuse: 'fuse F1 80 A, bolt-in, 58 V, breaks 2 kA',
      feed: 'run W1 16 mm² red, 0.1 m, B1:+ to F1:in',
      out: 'run W2 16 mm² red, 1 m, F1:out to POS',
    },
    'busbar POS',
    'fuse F2 5 A, blade, 32 V, breaks 2 kA',
    tail,
    'run W5 1.5 mm² red, 1 m, F2:out to LAMP:+',
  );

export const rule: Rule = {
  slug: 'cable-too-small',
  severity: 'error',
  group: 'cable',
  reads: [
    'run.size',
    'run.insulation',
    'run.along',
    'run.bunched',
    'run.method',
    'place.temperature',
    'system.ambient',
    'system.limits',
    'run.length',
    'run.sheathed',
    'fuse.rating',
    'panel.isc',
    'load.for',
    'load.surge',
    'load.cranking',
  ],
  page: {
    title: 'A cable too small for what can flow in it',
    why: 'The fuse must be the first thing to go. A cable that carries less than its fuse lets through gets hot before the fuse blows: the insulation softens, and the van can burn. Warm places and cables bunched together carry less than the table says.',
    limit: [
      'The set of limits that the spec names:',
      '',
      '- `iec-60364-5-52`: BS 7671 tables 4D1A (70 °C) and 4E1A (90 °C), method C or B, with the factors of IEC 60364-5-52 tables B.52.14 and B.52.17 (confirmed); Ib ≤ In ≤ Iz by IEC 60364-4-43 clause 433.1 (confirmed).',
      '- `cfr-33-183`: 33 CFR 183.425 table 5, device up to 150 % of it below 50 V, from 50 V on the next standard size where none is as much (183.455; all confirmed).',
      '- `nec-310`: NEC tables 310.16, 310.15(B)(1) and 310.15(C)(1), and 240.4(D) for the device of a small conductor (all confirmed).',
      '- `iso-13297`: its capacities are from memory, and every finding says so.',
      '- A set of your own (`limit-set`) replaces any of it, and the finding cites it.',
      '',
      'Above 90 °C the capacity is carried on from the 90 °C column by the square-root rule, and said to be reckoned.',
      '',
      'On the panel side the rating needed is 1.25 times the short-circuit current (IEC 62548, from memory), with `nec-310` 1.56 times (NEC 690.8, confirmed).',
      '',
      'A short tail may have the device that protects it at its far end, such as a thin cable from a busbar to a small fuse, where nothing branches off:',
      '',
      '- `iec-60364-5-52` up to 3 m (IEC 60364-4-43 clauses 433.2.2 and 434.2.1, from memory; keep it from chafing and from what burns)',
      '- `cfr-33-183` 7 inches, or 40 inches where sheathed (33 CFR 183.455(b), confirmed)',
      '- `nec-310` 10 ft, with a device before it of at most 10 times its capacity (NEC 240.21(B)(1), from memory)',
      '- `iso-13297` 200 mm, or 3 m where sheathed (ISO 10133 clause 8.1 and IEC 60364-4-43, from memory).',
      '',
      'A current that flows for a time only (`for`, `surge`) counts as the lasting one that warms the cable as much: with the time constant that follows from the capacity and from the heat that the copper alone stores by the rule of IEC 60364-5-54 annex A (from memory); `h/day` tells how often it comes.',
      '',
      'A starter motor (`cranking`) is held to k²S² of IEC 60364-4-43 table 43A (confirmed) over the time it turns.',
      '',
      'Behind a selector that cannot join both of its supplies the larger of their devices counts, not their sum. Where only several devices of different loads together are more than a shared return may have, each of them and what its fixed loads draw being within it, that is a warning. Devices that feed one cable side by side count together: one fault behind it takes all of them.',
    ].join('\n'),
    mend: 'Take the next larger size, a smaller fuse if the loads allow it, a cooler way, or fewer cables in the bunch. If the insulation is better than 70 °C, state it. A fuse above its cable is told of here and nowhere else: it is the cable that is found, with a smaller fuse among what mends it, unless its load would blow that. Where the fuse is below its load as well, both must be larger, and each finding says so. A return that is too small for the same device as its feed is told with the feed.',
    see: [
      'fuse-below-load',
      'cable-withstand',
      'connector-below-fuse',
      'supply-unfused',
      'drop-over-limit',
      'heat-source-near-cable',
    ],
    wrong: [
      lampSpec({
        fuse: 'fuse F1 30 A, blade, 32 V',
        out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+ # finds: cable-too-small "1.5 mm²"',
        feed: 'run W1 10 mm² red, 0.1 m, B1:+ to F1:in',
        back: 'run W3 10 mm² black, 1.3 m, LAMP:- to B1:-',
      }),
      lampSpec(
        {
          fuse: 'fuse F1 15 A, blade, 32 V',
          out: 'run W2 1.5 mm² red, 1.2 m, along LOFT, bunched with 3, F1:out to LAMP:+ # finds: cable-too-small "1.5 mm²"',
        },
        'place LOFT 45 °C',
      ),
      lampSpec({ out: 'run W2 1.5 mm² red, 60 °C, 1.2 m, F1:out to LAMP:+ # finds: cable-too-small "1.5 mm²"' }),
      // One fault behind the bar takes from both fuses.
      lampSpec(
        {
          fuse: 'fuse F1 and F2 10 A, blade, 32 V, breaks 5 kA',
          load: 'load LAMP 60 W, lowest 10.5 V',
          feed: 'run W1 4 mm² red, 0.1 m, B1:+ to F1:in',
          out: 'run W2 4 mm² red, 0.3 m, F1:out to POS',
          back: 'run W3 4 mm² black, 1.3 m, LAMP:- to B1:-',
        },
        'busbar POS',
        'run W4 4 mm² red, 0.1 m, B1:+ to F2:in',
        'run W5 4 mm² red, 0.3 m, F2:out to POS',
        'run W6 1 mm² red, 1 m, POS to LAMP:+ # finds: cable-too-small "1 mm²"',
      ),
      lampSpec(
        { out: 'run W2 1.5 mm² red, 1.2 m, along OVEN, F1:out to LAMP:+ # finds: cable-too-small "1.5 mm²"' },
        'place OVEN 70 °C',
      ),
      tailSpec('run W4 6 mm² red, 3.4 m, POS to F2:in # finds: cable-too-small "6 mm²"'),
    ],
    right: [
      lampSpec({
        fuse: 'fuse F1 30 A, blade, 32 V',
        out: 'run W2 4 mm² red, 1.2 m, F1:out to LAMP:+',
        feed: 'run W1 10 mm² red, 0.1 m, B1:+ to F1:in',
        back: 'run W3 10 mm² black, 1.3 m, LAMP:- to B1:-',
      }),
      lampSpec(
        {
          fuse: 'fuse F1 10 A, blade, 32 V',
          out: 'run W2 1.5 mm² red, 1.2 m, along LOFT, bunched with 3, F1:out to LAMP:+',
        },
        'place LOFT 45 °C',
      ),
      lampSpec({ out: 'run W2 1.5 mm² red, 70 °C, 1.2 m, F1:out to LAMP:+' }),
      lampSpec({ out: 'run W2 1.5 mm² red, 105 °C, 1.2 m, along OVEN, F1:out to LAMP:+' }, 'place OVEN 70 °C'),
      tailSpec('run W4 6 mm² red, 0.4 m, POS to F2:in'),
    ],
  },
  *check(context) {
    for (const [run, cores] of context.answers.runs) {
      const worst = worstCore(cores, context);
      // A return that is weaker than its feed is told as such.
      const elsewhere = (worst?.by === 'device' || worst?.by === 'design') && thinReturn(run, context) !== undefined;
      if (worst === undefined || elsewhere || isUnfused(worst, context) || isToldWithFeed(worst, context)) continue;
      if (headOfRow(worst, context) !== run) continue;
      yield report(run, worst, context);
    }
  },
};

/** A way between batteries that has no device is told as such, and what its device may be: those beyond it do not count. */
function isUnfused({ by, figures }: Verdict, { answers }: RuleContext): boolean {
  return by === 'device' && answers.unfusedStretches.some(({ cores }) => cores.includes(figures.core));
}

/** What flows for a time is told with that, and as what it warms like. */
function carried({ name }: Run, { core, designFrom }: CoreFigures, needed: number, { directions }: Answers): string {
  const { lastingAmps, runs, timedStarts } = directions.ofCore(core);
  const inCase = designFrom === '' ? '' : ` in case ${designFrom}`;
  const [worst] = [...runs, ...timedStarts].sort((one, other) => Math.abs(other.amps) - Math.abs(one.amps));
  if (worst === undefined || !exceeds(needed, lastingAmps)) return `${name} carries ${amps(needed)}${inCase}`;
  return `${name} carries ${amps(Math.abs(worst.amps))} ${forTime(worst)}, which warms it like ${amps(needed)} without end`;
}

function report(run: Run, verdict: Verdict, context: RuleContext): Reported {
  const { figures, needed, permitted, by, atEnd } = verdict;
  if (by === 'cranking') return crankingReport(run, verdict, context);
  const { model, answers } = context;
  const capacity = figures.capacity as NonNullable<CoreFigures['capacity']>;
  const written = `${run.size?.written ?? 'this size'}${run.material === 'aluminium' ? ' of aluminium' : ''}`;
  const carries =
    by === 'device'
      ? protectedAt(run.name, amps(needed), figures.protection)
      : by === 'panels'
        ? `${run.name} must bear ${amps(needed)} (the panels’ ${amps(figures.shortCircuitAmps ?? 0)} × ${panelFactor(answers)})`
        : by === 'nothing'
          ? `Nothing is known to flow in ${run.name}`
          : carried(run, figures, needed, answers);
  const { mend, fixes } = cableMends(verdict, context);
  let good: string;
  if (capacity.reason === 'ambient-at-limit') {
    const [warm, insulation] = [capacity.ambientCelsius, capacity.insulationCelsius].map((one) =>
      temperature(one, model),
    );
    // A table may have no insulation for just that, or none of it for such warm air.
    const spent =
      capacity.ambientCelsius < capacity.insulationCelsius
        ? `the table of capacities leaves no current for its ${insulation} insulation`
        : `its ${insulation} insulation is at its limit before any current flows`;
    good = `at ${warm} ${spent}: use better insulation or a cooler way`;
  } else if (capacity.reason === 'insulation-below-table')
    good = `its ${temperature(capacity.insulationCelsius, model)} insulation is below what the table of capacities covers, so no capacity is known: use a cable of ${temperature(70, model)} or better`;
  else if (capacity.reason === 'size-not-in-table')
    good = `${written} is not in the table of capacities: use a listed size`;
  else
    good = `${written} ${conditions(capacity, run, model)} is good for ${goodFor(capacity)}${ownSet(capacity)}${deviceWords(capacity, context)}: ${mend}`;
  const unstated =
    run.insulationCelsius === undefined && run.size !== undefined
      ? capacityOf({ ...run, insulationCelsius: 105 }, run.size, model, answers.limits, answers.systemVolts, {
          bunch: capacity.bunch,
        })
      : undefined;
  const calm = by === 'device' ? untilSeveral(figures, permitted, context) : undefined;
  return {
    ...(calm === undefined ? {} : { severity: 'warning' as const }),
    message: `${carries}, but ${good}.${atEnd?.why(run) ?? ''}${calm ?? ''}`,
    place: run.sizePlace,
    subject: run.name,
    figures: {
      capacityAmps: capacity.amps,
      tableAmps: capacity.tableAmps,
      ambientFactor: capacity.ambientFactor,
      bunchingFactor: capacity.bunchingFactor,
      ambientCelsius: capacity.ambientCelsius,
      insulationCelsius: capacity.insulationCelsius,
      insulationStated: run.insulationCelsius !== undefined,
      derived: capacity.derived,
      designAmps: figures.designAmps,
      permittedAmps: permitted,
      ...(Number.isFinite(figures.protection.amps) && !figures.onPanelSide
        ? { deviceAmps: figures.protection.amps }
        : {}),
      ...(figures.shortCircuitAmps === undefined
        ? {}
        : { shortCircuitAmps: figures.shortCircuitAmps, neededAmps: figures.neededAmps ?? 0 }),
      ...(unstated === undefined ? {} : { capacityAt105Amps: unstated.amps }),
      limits: answers.limits.id,
      source: sources(capacity),
      core: figures.core.label,
    },
    related: [
      ...(unstated === undefined ? [] : insulationUnstated(run, capacity, unstated, model)),
      ...whatFeeds(run, figures),
      ...(atEnd?.related(run) ?? []),
      ...returnsBeside(verdict, context),
    ],
    fixes,
  };
}

/**
 * Of a return that is too small for several devices together only, each of them and its fixed loads being within it. Devices that
 * feed one cable side by side all give into a single fault on it.
 */
function untilSeveral(figures: CoreFigures, permitted: number, { answers }: RuleContext): string | undefined {
  const { core, capacity, protection, loads } = figures;
  const { devices, limitedSources } = protection;
  const all = [...devices, ...limitedSources];
  const carries = answers.directions.heatingAmps(core);
  const isWithin =
    all.length > 1 &&
    figures.isReturn &&
    serveDifferentLoads(devices, answers) &&
    all.every((one) => !exceeds(one.amps, permitted)) &&
    loads.every(({ kind }) => kind.word !== 'socket') &&
    !exceeds(carries, capacity?.amps ?? 0);
  return isWithin
    ? ` Each of these alone is small enough, and no more than ${amps(carries)} is drawn for long, so it will do until several are overloaded at once.`
    : undefined;
}

function serveDifferentLoads(devices: CoreFigures['protection']['devices'], { contacts }: Answers): boolean {
  const served = devices.flatMap(({ part, pole }) => [
    ...new Set(contacts.get(part.name)?.find((one) => one.pole === pole)?.feeds ?? []),
  ]);
  return new Set(served).size === served.length;
}

/** The spec's own set of limits, where the capacity is its own. */
function ownSet({ sources: all }: Capacity): string {
  const own = all.find(({ status }) => status === 'stated in the spec');
  return own === undefined ? '' : ` by ${cite(own)}`;
}

/** Where a set lets the device be more than the capacity, or less. The spec's own set is named once. */
function deviceWords(capacity: Capacity, { answers: { limits, systemVolts } }: RuleContext): string {
  const { amps: permitted, source } = limits.permittedDeviceAmps(capacity, systemVolts);
  const isOwn = source?.status === 'stated in the spec';
  const own = isOwn && ownSet(capacity) === '' ? ` by ${cite(source)}` : '';
  if (permitted > capacity.amps * 1.001) return ` (its device may be ${amps(permitted)}${own})`;
  if (permitted > capacity.amps * 0.999 || source === undefined) return '';
  return `, yet its device may be no more than ${amps(permitted)}${isOwn ? own : ` (${citeWithin(source)})`}`;
}
