/** Each limit from both sides: just within it nothing is found, just over it the finding, with its figures. */
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../server/rules/rule.ts';
import { analyseText } from '../analysed.ts';

interface Lamp {
  readonly system: string;
  readonly battery: string;
  readonly fuse: string;
  readonly load: string;
  readonly feed: string;
  readonly out: string;
  readonly back: string;
}

const usual: Lamp = {
  system: 'system "Shed" 12 V',
  battery: 'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
  fuse: 'fuse F1 10 A, blade, 32 V',
  load: 'load LAMP 1 A',
  feed: 'run W1 35 mm² red, 0.1 m, B1:+ to F1:in',
  out: 'run W2 35 mm² red, 1 m, F1:out to LAMP:+',
  back: 'run W3 35 mm² black, 1 m, LAMP:- to B1:-',
};

/** One lamp behind one fuse, all of its cables ample, with some lines replaced and others added. */
const lamp = (changes: Partial<Lamp>, ...more: string[]) =>
  `${[...Object.values({ ...usual, ...changes }), ...more].join('\n')}\n`;

const switched = (changes: Partial<Lamp>, ...more: string[]) =>
  lamp(
    { ...changes, out: 'run W2 35 mm² red, 1 m, F1:out to S1:1' },
    'run W4 35 mm² red, 1 m, S1:2 to LAMP:+',
    ...more,
  );

/** A bar behind 30 A, with 10 A and 5 A behind it. */
const barred = (rating: string) =>
  lamp(
    {
      fuse: 'fuse F1 30 A, blade, 32 V',
      load: 'socket LAMP 30 A, plugged in 9 A',
      out: 'run W2 35 mm² red, 1 m, F1:out to J',
    },
    `busbar J ${rating}`,
    'fuse F2 10 A, blade, 32 V',
    'fuse F3 5 A, blade, 32 V',
    'load FAN 1 A',
    'run W4 35 mm² red, 0.1 m, J to F2:in',
    'run W5 35 mm² red, 1 m, F2:out to LAMP:+',
    'run W6 35 mm² red, 0.1 m, J to F3:in',
    'run W7 35 mm² red, 1 m, F3:out to FAN:+',
    'run W8 35 mm² black, 1 m, FAN:- to B1:-',
  );

/** A panel of a short-circuit current, its other figures as they belong to it. */
const power = (isc: string) => {
  const imp = 0.93 * Number.parseFloat(isc);
  return `${(19 * imp).toFixed(0)} W, voc 23 V, isc ${isc}, vmp 19 V, imp ${imp.toFixed(3)} A`;
};

const sun = (isc: string, more: Partial<Record<'string' | 'isolator', string>> = {}) =>
  `${[
    'system "Shed" 12 V',
    `panel P1 ${power(isc)}`,
    more.isolator ?? 'isolator Q1 2 poles, 100 A dc, 150 V',
    more.string ?? 'run W1 35 mm² red, 2 m, P1:+ to Q1:1',
    'run W2 35 mm² black, 2 m, P1:- to Q1:3',
    'run W3 35 mm² red, 2 m, Q1:2 to U1:pv+',
    'run W4 35 mm² black, 2 m, Q1:4 to U1:pv-',
    'controller U1 mppt, pv 100 V 60 A, output 15 A, common negative',
    'fuse F1 20 A, blade, 32 V',
    'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    'run W5 35 mm² red, 0.4 m, U1:bat+ to F1:out',
    'run W6 35 mm² red, 0.2 m, F1:in to B1:+',
    'run W7 35 mm² black, 0.4 m, U1:bat- to B1:-',
  ].join('\n')}\n`;

/** `count` panels in parallel at two splices. */
const array = (count: number, isc: string, seriesFuse: string, isolator = 'isolator Q1 2 poles, 100 A dc, 150 V') =>
  `${[
    'system "Shed" 12 V',
    ...Array.from({ length: count }, (_, i) => [
      `panel P${i + 1} ${power(isc)}${seriesFuse}`,
      `run R${i + 1} 35 mm² red, 2 m, P${i + 1}:+ to JP`,
      `run K${i + 1} 35 mm² black, 2 m, P${i + 1}:- to JN`,
    ]).flat(),
    'splice JP and JN',
    isolator,
    'run W1 35 mm² red, 2 m, JP to Q1:1',
    'run W2 35 mm² black, 2 m, JN to Q1:3',
    'run W3 35 mm² red, 2 m, Q1:2 to U1:pv+',
    'run W4 35 mm² black, 2 m, Q1:4 to U1:pv-',
    'controller U1 mppt, pv 100 V 60 A, output 15 A, common negative',
    'fuse F1 20 A, blade, 32 V',
    'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    'run W5 35 mm² red, 0.4 m, U1:bat+ to F1:out',
    'run W6 35 mm² red, 0.2 m, F1:in to B1:+',
    'run W7 35 mm² black, 0.4 m, U1:bat- to B1:-',
  ].join('\n')}\n`;

/** The drop of 10 A over so many metres of 2.5 mm² (7.98 Ω/km at 20 °C, IEC 60228 table 3) in all, out and back. */
const long = (metres: number, load: string, system = usual.system) =>
  lamp(
    {
      system,
      fuse: 'fuse F1 15 A, blade, 32 V',
      load: `load LAMP ${load}`,
      feed: 'run W1 2.5 mm² red, 0.1 m, B1:+ to F1:in',
      out: `run W2 2.5 mm² red, ${metres - 1.1} m, F1:out to LAMP:+`,
      back: 'run W3 2.5 mm² black, 1 m, LAMP:- to B1:-',
    },
    'case full all loads on, conductors at 20 °C',
  );

/** Poles that are linked and no figure said, and ratings that nobody makes, are what some of these are on purpose. */
const aside = ['linked-rating-unstated', 'fuse-odd-rating'];
const foundIn = (text: string) => analyseText(text).findings.filter((one) => !aside.includes(one.slug));
const slug = (text: string) => foundIn(text).map((one) => `${one.slug} ${one.subject} ${one.severity}`);

interface Pair {
  readonly limit: string;
  readonly within: string;
  readonly over: string;
  readonly found: string;
  readonly figures: Readonly<Record<string, number>>;
  readonly says?: readonly string[];
}

const at = (celsius: string) => `system "Shed" 12 V, ambient ${celsius}`;
const thin = (extra = '') => `run W2 1.5 mm² red${extra}, 1 m, F1:out to LAMP:+`;
const cfr = 'system "Shed" 12 V, limits cfr-33-183';

/** One lamp, its feed over a joint. */
const jointed = (joint: string, load = 'socket LAMP 10 A, plugged in 8 A') =>
  lamp({ load, out: 'run W2 35 mm² red, 1 m, F1:out to J' }, joint, 'run W9 35 mm² red, 1 m, J to LAMP:+');

/** A board of two ways behind 30 A, a socket on each. */
const boarded = (total: string, ...ways: string[]) =>
  lamp(
    {
      fuse: 'fuse F1 30 A, bolt-in, 58 V',
      load: 'socket LAMP 40 A, plugged in 1 A',
      out: 'run W2 35 mm² red, 1 m, F1:out to FB:in',
    },
    `fusebox FB 2 ways, ${[total, ...ways].join(', ')}`,
    'socket OTHER 40 A, plugged in 1 A',
    'run W9 35 mm² red, 1 m, FB:1 to LAMP:+',
    'run W10 35 mm² red, 1 m, FB:2 to OTHER:+',
    'run W11 35 mm² black, 1 m, OTHER:- to B1:-',
  );

/** Two panels in parallel of which the second allows 6 A and has a fuse. */
const stringFused = (fuse: string) =>
  array(2, '6.1 A', ', most series fuse 6 A')
    .replace('most series fuse 6 A', 'most series fuse 10 A')
    .replace('P2:+ to JP', `P2:+ to F9:in\nfuse F9 ${fuse}, gpv, 150 V\nrun W19 35 mm² red, 1 m, F9:out to JP`);

/** Opens within so many seconds at twice its rating. */
const slowFuse = (seconds: number) =>
  `fuse F1 12.2 A, cartridge, 125 V, breaks 20 kA, operates 200 % in 1 s to ${seconds} s`;

const pairs: readonly Pair[] = [
  {
    // BS 7671 table 4D1A: 1.5 mm², clipped, 20 A at 30 °C.
    limit: 'a fuse of the cable’s capacity (20 A at 30 °C, 4D1A)',
    within: lamp({ fuse: 'fuse F1 20 A, blade, 32 V', out: thin() }),
    over: lamp({ fuse: 'fuse F1 20.1 A, blade, 32 V', out: thin() }),
    found: 'cable-too-small W2 error',
    // 25 A in table 4E1A × √((105 − 30) / 60).
    figures: { deviceAmps: 20.1, capacityAmps: 20, capacityAt105Amps: 25 * Math.sqrt(75 / 60) },
    says: ['W2 is protected at 20.1 A (F1)', 'stated as 105 °C it would be good for 28 A'],
  },
  {
    limit: 'ambient: 20 A × √((70 − θ) / 40)',
    within: lamp({ system: at('40.3 °C'), fuse: 'fuse F1 17.2 A, blade, 32 V', out: thin() }),
    over: lamp({ system: at('40.5 °C'), fuse: 'fuse F1 17.2 A, blade, 32 V', out: thin() }),
    found: 'cable-too-small W2 error',
    figures: { capacityAmps: 20 * Math.sqrt(29.5 / 40), ambientCelsius: 40.5 },
    says: ['at 40.5 °C'],
  },
  {
    // ⌈(1 + 1) / 2⌉ = 1 circuit: no reduction; ⌈(2 + 1) / 2⌉ = 2 circuits: 0.80 (table B.52.17).
    limit: 'bunching: one other single core makes one circuit, two make two',
    within: lamp({ fuse: 'fuse F1 20 A, blade, 32 V', out: thin(', bunched with 1') }),
    over: lamp({ fuse: 'fuse F1 20 A, blade, 32 V', out: thin(', bunched with 2') }),
    found: 'cable-too-small W2 error',
    figures: { capacityAmps: 16, bunchingFactor: 0.8 },
    says: ['bunched with 2 others'],
  },
  {
    // 33 CFR 183.425 table 5: 16 AWG at 105 °C, 25 A; the device at most 150 % of it (183.455).
    limit: 'a fuse of 150 % of the gauge’s capacity',
    within: lamp({
      system: cfr,
      fuse: 'fuse F1 37.5 A, 32 V, breaks 2 kA',
      out: 'run W2 16 AWG red, 105 °C, 1 m, F1:out to LAMP:+',
    }),
    over: lamp({
      system: cfr,
      fuse: 'fuse F1 37.6 A, 32 V, breaks 2 kA',
      out: 'run W2 16 AWG red, 105 °C, 1 m, F1:out to LAMP:+',
    }),
    found: 'cable-too-small W2 error',
    figures: { capacityAmps: 25, permittedAmps: 37.5, deviceAmps: 37.6 },
    says: ['its device may be 37.5 A'],
  },
  {
    limit: 'a load of the cable’s capacity, where the device may be larger',
    within: lamp({
      system: cfr,
      fuse: 'fuse F1 30 A, 32 V, breaks 2 kA',
      load: 'load LAMP 25 A',
      out: 'run W2 16 AWG red, 105 °C, 1 m, F1:out to LAMP:+',
    }),
    over: lamp({
      system: cfr,
      fuse: 'fuse F1 30 A, 32 V, breaks 2 kA',
      load: 'load LAMP 25.1 A',
      out: 'run W2 16 AWG red, 105 °C, 1 m, F1:out to LAMP:+',
    }),
    found: 'cable-too-small W2 error',
    figures: { designAmps: 25.1, capacityAmps: 25 },
    says: ['W2 carries 25.1 A'],
  },
  {
    limit: 'a panel’s short-circuit current × 1.25 at the cable’s capacity',
    within: sun('16 A', { string: 'run W1 1.5 mm² red, 2 m, P1:+ to Q1:1' }),
    over: sun('16.1 A', { string: 'run W1 1.5 mm² red, 2 m, P1:+ to Q1:1' }),
    found: 'cable-too-small W1 error',
    figures: { shortCircuitAmps: 16.1, neededAmps: 20.125, capacityAmps: 20 },
    says: ['must bear 20.1 A', '16.1 A', 'not checked against the printed standard'],
  },
  {
    limit: 'insulation of 70 °C, the least the table covers',
    within: lamp({ out: thin(', 70 °C') }),
    over: lamp({ out: thin(', 69 °C') }),
    found: 'cable-too-small W2 error',
    figures: { capacityAmps: 0, insulationCelsius: 69 },
    says: ['69 °C insulation is below what the table of capacities covers', 'of 70 °C or better'],
  },
  {
    limit: 'ambient below that of the column which a set in gauges has for the insulation',
    within: lamp({ system: 'system "Shed" 12 V, limits cfr-33-183, ambient 59 °C', fuse: 'fuse F1 1 A, blade, 32 V' }),
    over: lamp({
      system: 'system "Shed" 12 V, limits cfr-33-183, ambient 60 °C',
      fuse: 'fuse F1 1 A, blade, 32 V',
      feed: `${usual.feed}, 90 °C`,
      back: `${usual.back}, 90 °C`,
    }),
    found: 'cable-too-small W2 error',
    figures: { capacityAmps: 0, ambientCelsius: 60, insulationCelsius: 70 },
    says: ['at 60 °C the table of capacities leaves no current for its 70 °C insulation', 'a cooler way'],
  },
  {
    limit: 'ambient below what the insulation bears',
    within: lamp({ system: at('69 °C'), fuse: 'fuse F1 1 A, blade, 32 V' }),
    over: lamp({
      system: at('70 °C'),
      fuse: 'fuse F1 1 A, blade, 32 V',
      feed: `${usual.feed}, 90 °C`,
      back: `${usual.back}, 90 °C`,
    }),
    found: 'cable-too-small W2 error',
    figures: { capacityAmps: 0, ambientCelsius: 70 },
    says: ['at 70 °C its 70 °C insulation is at its limit before any current flows', 'a cooler way'],
  },
  {
    limit: 'a switch of its fuse’s rating',
    within: switched({ load: 'socket LAMP 10 A, plugged in 8 A' }, 'switch S1 1 pole, 10 A dc, 24 V'),
    over: switched({ load: 'socket LAMP 10 A, plugged in 8 A' }, 'switch S1 1 pole, 9.9 A dc, 24 V'),
    found: 'switch-below-fuse S1 error',
    figures: { ratedAmps: 9.9, deviceAmps: 10 },
    says: ['rated 9.9 A', 'protected at 10 A (F1)'],
  },
  {
    limit: 'poles in parallel at the maker’s stated figure',
    within: switched(
      { load: 'socket LAMP 50 A, plugged in 32 A', fuse: 'fuse F1 45 A, 32 V, breaks 2 kA' },
      'switch S1 2 poles, 32 A dc, 24 V, 2 in parallel 45 A',
      'link S1 1-3, 2-4',
    ),
    over: switched(
      { load: 'socket LAMP 50 A, plugged in 32 A', fuse: 'fuse F1 45.1 A, 32 V, breaks 2 kA' },
      'switch S1 2 poles, 32 A dc, 24 V, 2 in parallel 45 A',
      'link S1 1-3, 2-4',
    ),
    found: 'switch-below-fuse S1 error',
    figures: { ratedAmps: 45, deviceAmps: 45.1 },
  },
  {
    limit: 'poles in parallel without a figure count as one',
    within: switched(
      { load: 'socket LAMP 50 A, plugged in 32 A', fuse: 'fuse F1 32 A, 32 V, breaks 2 kA' },
      'switch S1 2 poles, 32 A dc, 24 V',
      'link S1 1-3, 2-4',
    ),
    over: switched(
      { load: 'socket LAMP 50 A, plugged in 32 A', fuse: 'fuse F1 32.1 A, 32 V, breaks 2 kA' },
      'switch S1 2 poles, 32 A dc, 24 V',
      'link S1 1-3, 2-4',
    ),
    found: 'switch-below-fuse S1 error',
    figures: { ratedAmps: 32, deviceAmps: 32.1 },
    says: ['without the maker’s figure (2 in parallel … A)'],
  },
  {
    limit: 'a switch of its load’s current',
    within: switched({ load: 'load LAMP 10 A' }, 'switch S1 1 pole, 10 A dc, 24 V'),
    over: switched({ load: 'load LAMP 10 A' }, 'switch S1 1 pole, 9.9 A dc, 24 V'),
    found: 'switch-below-load S1 error',
    figures: { ratedAmps: 9.9, designAmps: 10 },
    says: ['rated 9.9 A, but carries 10 A'],
  },
  {
    limit: 'an isolator of 1.25 × the panel’s short-circuit current',
    within: sun('8 A', { isolator: 'isolator Q1 2 poles, 10 A dc, 150 V' }),
    over: sun('8.1 A', { isolator: 'isolator Q1 2 poles, 10 A dc, 150 V' }),
    found: 'switch-below-load Q1 error',
    figures: { shortCircuitAmps: 8.1, neededAmps: 10.125, ratedAmps: 10 },
    says: ['panels can give 8.1 A, which asks for 10.1 A', 'not checked against the printed standard'],
  },
  {
    limit: 'a fuse of its load’s current',
    within: lamp({ load: 'load LAMP 10 A' }),
    over: lamp({ load: 'load LAMP 10.1 A' }),
    found: 'fuse-below-load F1 warning',
    figures: { deviceAmps: 10, designAmps: 10.1 },
    says: ['F1 is 10 A, but LAMP can take 10.1 A', 'fit 15 A'],
  },
  {
    limit: 'watts at the lowest stated voltage',
    within: lamp({ load: 'load LAMP 100 W, lowest 10 V' }),
    over: lamp({ load: 'load LAMP 101 W, lowest 10 V' }),
    found: 'fuse-below-load F1 warning',
    figures: { designAmps: 10.1 },
  },
  {
    limit: 'watts at 0.875 of nominal where no lowest voltage is stated',
    within: lamp({ load: 'load LAMP 105 W' }),
    over: lamp({ load: 'load LAMP 106 W' }),
    found: 'fuse-below-load F1 warning',
    figures: { designAmps: 106 / 10.5 },
  },
  {
    // 0.6 V / (10 A × 7.98 mΩ/m) = 7.519 m.
    limit: 'a drop of 5 %',
    within: long(7.51, '10 A'),
    over: long(7.53, '10 A'),
    found: 'drop-over-limit W2 warning',
    figures: { limitPercent: 5, dropVolts: 7.53 * 0.00798 * 10, dropPercent: (7.53 * 0.00798 * 1000) / 12 },
    says: ['not checked against the printed standard'],
  },
  {
    // 0.36 V: 4.511 m.
    limit: 'a drop of 3 % for an essential load',
    within: long(4.5, '10 A, essential'),
    over: long(4.52, '10 A, essential'),
    found: 'drop-over-limit W2 warning',
    figures: { limitPercent: 3, dropVolts: 4.52 * 0.00798 * 10 },
  },
  {
    // 1.2 V: 15.038 m.
    limit: 'a drop of 10 % by the other set',
    within: long(15.03, '10 A', cfr),
    over: long(15.05, '10 A', cfr),
    found: 'drop-over-limit W2 warning',
    figures: { limitPercent: 10, dropVolts: 15.05 * 0.00798 * 10 },
  },
  {
    limit: '3 m to the first fuse',
    within: lamp({ feed: 'run W1 35 mm² red, 3 m, B1:+ to F1:in' }),
    over: lamp({ feed: 'run W1 35 mm² red, 3.01 m, B1:+ to F1:in' }),
    found: 'protection-too-far W1 error',
    figures: { metres: 3.01, limitMetres: 3 },
    says: ['3.01 m', 'not checked against the printed standard'],
  },
  {
    limit: '3 m to the first fuse over two runs',
    within: lamp({ feed: 'run W1 35 mm² red, 1.6 m, B1:+ to J' }, 'splice J', 'run W9 35 mm² red, 1.4 m, J to F1:in'),
    over: lamp({ feed: 'run W1 35 mm² red, 1.6 m, B1:+ to J' }, 'splice J', 'run W9 35 mm² red, 1.41 m, J to F1:in'),
    found: 'protection-too-far W1 error',
    figures: { metres: 3.01, limitMetres: 3 },
  },
  {
    limit: '72 inches to the first fuse',
    within: lamp({ system: cfr, feed: 'run W1 2 AWG red, 72 inch, B1:+ to F1:in' }),
    over: lamp({ system: cfr, feed: 'run W1 2 AWG red, 73 inch, B1:+ to F1:in' }),
    found: 'protection-too-far W1 error',
    figures: { metres: 73 * 0.0254, limitMetres: 72 * 0.0254 },
    says: ['6.1 ft', 'within 6 ft'],
  },
  {
    limit: 'others in parallel at the maker’s series fuse',
    within: array(2, '6 A', ', most series fuse 6 A').replace('most series fuse 6 A', 'most series fuse 10 A'),
    over: array(2, '6.1 A', ', most series fuse 6 A').replace('most series fuse 6 A', 'most series fuse 10 A'),
    found: 'string-fuse-needed P2 error',
    figures: { reverseAmps: 6.1, mostSeriesFuseAmps: 6 },
    says: ['P1 in parallel can drive 6.1 A backwards through P2'],
  },
  {
    // The feed of the fuse carries 12.72 V / (15 mΩ + R) and what the table of its chemistry gives full.
    limit: 'a fuse that breaks just what can flow',
    within: lamp({ fuse: 'fuse F1 10 A, cartridge, 125 V, breaks 860 A' }),
    over: lamp({ fuse: 'fuse F1 10 A, cartridge, 125 V, breaks 820 A' }),
    found: 'fuse-breaking-capacity F1 error',
    figures: { breaksAmps: 820 },
  },
  {
    limit: 'a fuse of what the appliance allows',
    within: lamp({ load: 'load LAMP 1 A, most fuse 10 A' }),
    over: lamp({ load: 'load LAMP 1 A, most fuse 9.9 A' }),
    found: 'fuse-above-appliance LAMP error',
    figures: { deviceAmps: 10, mostAmps: 9.9 },
    says: ['LAMP is protected at 10 A (F1), but its maker allows a fuse of 9.9 A at most'],
  },
  {
    // 10 A × (1 − 0.002 × 35) = 9.3 A at 60 °C.
    limit: 'a load of what a fuse bears in a hot place',
    within: lamp(
      { fuse: 'fuse F1 10 A, blade, 32 V, at BAY', load: 'load LAMP 9.3 A' },
      'place BAY engine space, 60 °C',
    ),
    over: lamp(
      { fuse: 'fuse F1 10 A, blade, 32 V, at BAY', load: 'load LAMP 9.31 A' },
      'place BAY engine space, 60 °C',
    ),
    found: 'fuse-hot F1 advice',
    figures: { bearsAmps: 9.3, celsius: 60 },
    says: ['0.2 % less a degree above 25 °C; common practice, no source'],
  },
  {
    limit: 'a joint of its fuse’s rating',
    within: jointed('splice J 10 A'),
    over: jointed('splice J 9.9 A'),
    found: 'connector-below-fuse J error',
    figures: { ratedAmps: 9.9, neededAmps: 10 },
    says: ['J is rated 9.9 A, but its circuit is protected at 10 A (F1)'],
  },
  {
    limit: 'a bar of what the fuses behind it let through together',
    within: barred('15 A'),
    over: barred('14.9 A'),
    found: 'connector-below-fuse J error',
    figures: { ratedAmps: 14.9, neededAmps: 15, deviceAmps: 15 },
    says: ['J is rated 14.9 A, but its circuit is protected at 15 A (F2 and F3)'],
  },
  {
    limit: 'a joint of its load’s current',
    within: jointed('splice J 10 A', 'load LAMP 10 A'),
    over: jointed('splice J 9.9 A', 'load LAMP 10 A'),
    found: 'connector-below-fuse J error',
    figures: { ratedAmps: 9.9, designAmps: 10 },
    says: ['carries 10 A'],
  },
  {
    limit: 'a fuse-board of the fuses in its ways',
    within: boarded('total 15 A', 'way 1 fuse 5 A', 'way 2 fuse 10 A'),
    over: boarded('total 14.9 A', 'way 1 fuse 5 A', 'way 2 fuse 10 A'),
    found: 'fusebox-total FB error',
    figures: { totalAmps: 14.9, waysAmps: 15, beforeAmps: 30 },
    says: ['its ways are fused at 15 A together'],
  },
  {
    limit: 'a way’s fuse of what the way takes',
    within: boarded('total 60 A', 'way 1 fuse 5 A most 5 A', 'way 2 fuse 10 A'),
    over: boarded('total 60 A', 'way 1 fuse 5 A most 4.9 A', 'way 2 fuse 10 A'),
    found: 'fusebox-total FB error',
    figures: { ratedAmps: 5, mostAmps: 4.9, pole: 1 },
  },
  {
    limit: 'a device below the one before it',
    within: boarded('total 60 A', 'way 1 fuse 5 A', 'way 2 fuse 29.9 A'),
    over: boarded('total 60 A', 'way 1 fuse 5 A', 'way 2 fuse 30.1 A'),
    found: 'not-selective FB warning',
    figures: { ratedAmps: 30.1, beforeAmps: 30 },
    says: ['FB:2 is 30.1 A, but F1 before it is only 30 A'],
  },
  {
    // From twice the rating on I²t is (2 × 12.2 A)² × t, whatever flows; k²S² of 1.5 mm² is (115 × 1.5)² = 29,756 A²s: 49.98 s.
    limit: 'what a fuse lets through at what the cable bears',
    within: lamp({ fuse: slowFuse(49), out: thin() }),
    over: lamp({ fuse: slowFuse(51), out: thin() }),
    found: 'cable-withstand W2 error',
    figures: { withstand: (115 * 1.5) ** 2 },
    says: ['lets 30400 A²s through', 'bears 29800 A²s', 'use 2.5 mm², or'],
  },
  {
    limit: 'a fuse for the nominal voltage',
    within: lamp({ fuse: 'fuse F1 10 A, cartridge, 12 V, breaks 5 kA' }),
    over: lamp({ fuse: 'fuse F1 10 A, cartridge, 11.9 V, breaks 5 kA' }),
    found: 'fuse-voltage F1 error',
    figures: { ratedVolts: 11.9, circuitVolts: 12 },
    says: ['F1 is rated 11.9 V, but B1 gives 12 V'],
  },
  {
    limit: 'a fuse for the charging voltage that is stated',
    within: lamp({
      battery: `${usual.battery}, charge voltage 14.4 V`,
      fuse: 'fuse F1 10 A, cartridge, 14.4 V, breaks 5 kA',
    }),
    over: lamp({
      battery: `${usual.battery}, charge voltage 14.4 V`,
      fuse: 'fuse F1 10 A, cartridge, 14.3 V, breaks 5 kA',
    }),
    found: 'fuse-voltage F1 warning',
    figures: { ratedVolts: 14.3, circuitVolts: 14.4 },
  },
  {
    // 1.5 to 2.4 times 6.1 A are 9.15 and 14.64 A; the maker allows 6 A.
    limit: 'a string fuse of what the maker allows',
    within: stringFused('6 A'),
    over: stringFused('6.1 A'),
    found: 'string-fuse-too-large F9 error',
    figures: { ratedAmps: 6.1, mostSeriesFuseAmps: 6, reverseAmps: 6.1 },
  },
];

const quick = ', operates 200 % in 0.01 s to 0.02 s';

/** A small fuse at the end of a tail of so many lines from a busbar behind a large one. */
const tail = (lines: readonly string[], changes: Partial<Lamp> = {}) =>
  lamp(
    {
      // So quick that no tail is too thin for what it lets through.
      fuse: `fuse F1 80 A, bolt-in, 58 V, breaks 2 kA${quick}`,
      out: 'run W2 35 mm² red, 1 m, F1:out to POS',
      ...changes,
    },
    'busbar POS',
    'fuse F2 10 A, blade, 32 V, breaks 2 kA',
    ...lines,
    'run W5 35 mm² red, 1 m, F2:out to LAMP:+',
  );

// 4 mm² is good for 32 A or so here: enough for F2, not for F1; 6 AWG bears F1 with this set.
const tails: readonly Pair[] = [
  {
    limit: 'a tail of 3 m to its fuse',
    within: tail(['run W4 4 mm² red, 3 m, POS to F2:in']),
    over: tail(['run W4 4 mm² red, 3.01 m, POS to F2:in']),
    found: 'cable-too-small W4 error',
    figures: { deviceAmps: 80 },
    says: ['bring F2, which is small enough for it, within 3 m along the cable of where it begins', 'clauses 433.2.2'],
  },
  {
    limit: 'a tail of 3 m in two lengths; what is thick enough for the fuse before it does not count',
    within: tail([
      'splice J and K',
      'run W6 35 mm² red, 5 m, POS to J',
      'run W4 4 mm² red, 1.4 m, J to K',
      'run W7 4 mm² red, 1.6 m, K to F2:in',
    ]),
    over: tail([
      'splice J and K',
      'run W6 35 mm² red, 1 m, POS to J',
      'run W4 35 mm² red, 1.4 m, J to K',
      'run W7 4 mm² red, 3.1 m, K to F2:in',
    ]),
    found: 'cable-too-small W7 error',
    figures: { deviceAmps: 80 },
  },
  {
    limit: 'a tail through a switch, of 3 m with both its sides',
    within: tail([
      'switch S1 1 pole, 80 A dc, 24 V',
      'run W6 4 mm² red, 1 m, POS to S1:1',
      'run W4 4 mm² red, 2 m, S1:2 to F2:in',
    ]),
    over: tail([
      'switch S1 1 pole, 80 A dc, 24 V',
      'run W6 35 mm² red, 1 m, POS to S1:1',
      'run W4 4 mm² red, 3.1 m, S1:2 to F2:in',
    ]),
    found: 'cable-too-small W4 error',
    figures: { deviceAmps: 80 },
  },
  {
    limit: 'a tail that branches off',
    within: tail(['splice J', 'run W4 4 mm² red, 0.4 m, POS to J', 'run W6 35 mm² red, 0.4 m, J to F2:in']),
    over: tail([
      'splice J',
      'run W4 4 mm² red, 0.4 m, POS to J',
      'run W6 35 mm² red, 0.4 m, J to F2:in',
      'load FAN 1 A',
      'fuse F3 10 A, blade, 32 V, breaks 2 kA',
      'run W7 35 mm² red, 0.4 m, J to F3:in',
      'run W8 35 mm² red, 1 m, F3:out to FAN:+',
      'run W9 35 mm² black, 1 m, FAN:- to B1:-',
    ]),
    found: 'cable-too-small W4 error',
    figures: { deviceAmps: 80 },
  },
  {
    limit: 'a tail whose fuse is what it may have',
    within: tail(['run W4 2.5 mm² red, 1 m, POS to F2:in']).replace('fuse F2 10 A', 'fuse F2 25 A'),
    over: tail(['run W4 2.5 mm² red, 1 m, POS to F2:in']).replace('fuse F2 10 A', 'fuse F2 35 A'),
    found: 'cable-too-small W4 error',
    figures: { deviceAmps: 80 },
  },
  {
    limit: 'a tail of 7 inches',
    within: tail(['run W4 14 AWG red, 7 inch, POS to F2:in'], { system: cfr }),
    over: tail(['run W4 14 AWG red, 7.1 inch, POS to F2:in'], { system: cfr }),
    found: 'cable-too-small W4 error',
    figures: { deviceAmps: 80 },
    says: ['33 CFR 183.455(b)'],
  },
  {
    limit: 'a tail of 40 inches, sheathed',
    within: tail(['run W4 14 AWG red, 40 inch, sheathed, POS to F2:in'], { system: cfr }),
    over: tail(['run W4 14 AWG red, 40.1 inch, sheathed, POS to F2:in'], { system: cfr }),
    found: 'cable-too-small W4 error',
    figures: { deviceAmps: 80 },
  },
  {
    limit: 'a tail of 10 ft behind a fuse of ten times what it carries',
    within: tail(['run W4 14 AWG red, 9 ft, POS to F2:in'], { system: 'system "Shed" 12 V, limits nec-310' }).replace(
      'fuse F2 10 A',
      'fuse F2 5 A',
    ),
    over: tail(['run W4 14 AWG red, 2 ft, POS to F2:in'], {
      system: 'system "Shed" 12 V, limits nec-310',
      battery: 'battery B1 lead-acid, 12 V, 200 Ah, internal 6 mΩ',
      fuse: `fuse F1 175 A, bolt-in, 58 V, breaks 3 kA${quick}`,
      feed: 'run W1 120 mm² red, 90 °C, 0.1 m, B1:+ to F1:in',
      out: 'run W2 120 mm² red, 90 °C, 1 m, F1:out to POS',
    }).replace('fuse F2 10 A', 'fuse F2 5 A'),
    found: 'cable-too-small W4 error',
    figures: { deviceAmps: 175 },
    says: ['no more than 10 times what it carries'],
  },
];

describe('just within and just over', () => {
  it.each([...pairs, ...tails])('$limit', ({ within, over, found, figures, says }) => {
    expect(slug(within)).toEqual([]);
    expect(slug(over)).toEqual([found]);
    const finding = foundIn(over)[0] as Finding;
    for (const [name, value] of Object.entries(figures)) expect(finding.figures[name]).toBeCloseTo(value, 4);
    const told = [finding.message, ...finding.related.map(({ message }) => message)].join('\n');
    for (const said of says ?? []) expect(told).toContain(said);
  });
});

describe('a fuse that its load blows', () => {
  it('is not to be enlarged beyond what its cable may have', () => {
    // 20 A × 0.45 for ten circuits (table B.52.17) is 9 A; the next fuse is 10 A.
    const thick = lamp({ fuse: 'fuse F1 5 A, blade, 32 V', load: 'load LAMP 8 A' });
    const bunched = thick.replace(/^run W2 .*$/m, thin(', bunched with 18'));
    expect(analyseText(thick).findings.map(({ fixes }) => fixes.map(({ title }) => title))).toEqual([['Fit 10 A']]);
    const [finding, ...more] = analyseText(bunched).findings;
    expect(more).toEqual([]);
    expect(finding?.slug).toBe('fuse-below-load');
    expect(finding?.message).toContain('fit 10 A and 2.5 mm² or larger for W2, which may have 9 A at most');
    expect(finding?.fixes.map(({ title }) => title)).toEqual(['Fit 10 A for F1 and 2.5 mm² for W2']);
  });

  it('for which there is no larger one of its kind says to take another, or to share the load where it is several', () => {
    const one = lamp({ fuse: 'fuse F1 40 A, blade, 32 V', load: 'load LAMP 41 A' });
    const two = `${one}load FAN 3 A\nrun W8 1.5 mm² red, 1 m, LAMP:+ to FAN:+\nrun W9 1.5 mm² black, 1 m, FAN:- to LAMP:-\n`;
    const said = (text: string) => analyseText(text).findings.find(({ slug }) => slug === 'fuse-below-load');
    expect(said(one)?.message).toContain('fit a larger one of another style');
    expect(said(two)?.message).toContain('share the load over several circuits');
    expect([said(one), said(two)].flatMap((finding) => finding?.fixes)).toEqual([]);
  });
});

describe('a gauge in Fahrenheit', () => {
  it('is told of in the units it was written in', () => {
    const text = lamp({
      system: 'system "Shed" 12 V, ambient 158 °F, limits cfr-33-183',
      fuse: 'fuse F1 37 A, 32 V, breaks 2 kA',
      out: 'run W2 16 AWG red, 221 °F, 3 ft, F1:out to LAMP:+',
      feed: 'run W1 2 AWG red, 221 °F, 4 inch, B1:+ to F1:in',
      back: 'run W3 2 AWG black, 221 °F, 3 ft, LAMP:- to B1:-',
    });
    const [finding] = analyseText(text).findings;
    expect(finding?.slug).toBe('cable-too-small');
    expect(finding?.message).toContain('16 AWG at 158 °F is good for');
    expect(finding?.message).not.toMatch(/°C|mm²/);
  });
});

describe('switches of fixed loads', () => {
  const two = (second: string, cases = '') =>
    switched(
      { fuse: 'fuse F1 15 A, blade, 32 V', load: 'load LAMP 4 A', out: '' },
      `load FAN ${second}`,
      'switch S1 1 pole, 10 A dc, 24 V',
      'run W5 35 mm² red, 1 m, S1:2 to FAN:+',
      'run W6 35 mm² black, 1 m, FAN:- to B1:-',
      cases,
    );

  it('whose sum is within its rating: a warning that says so', () => {
    const text = two('6 A');
    expect(slug(text)).toEqual(['switch-below-fuse S1 warning']);
    expect(analyseText(text).findings[0]?.message).toContain('It feeds only LAMP and FAN, 10 A in all');
  });

  it('whose sum is above it, though no case has both on: an error', () => {
    expect(slug(two('6.1 A', 'case one LAMP on\ncase other FAN on'))).toEqual(['switch-below-fuse S1 error']);
  });

  it('that are on together above it: the load itself is the finding', () => {
    expect(slug(two('6.1 A'))).toEqual(['switch-below-load S1 error']);
  });

  it('with a socket among them: an error, since anything may be plugged in', () => {
    const text = two('1 A').replace('load FAN 1 A', 'socket FAN 20 A, plugged in 1 A');
    expect(slug(text)).toEqual(['switch-below-fuse S1 error']);
  });
});

describe('panels in parallel', () => {
  // Numbers of common practice, in tests only.
  it('two of 10.3 A make 20.6 A, and a 32 A isolator passes with half again to spare', () => {
    const text = array(2, '10.3 A', '', 'isolator Q1 2 poles, 32 A dc, 150 V');
    expect(slug(text)).toEqual([]);
    const [contact] = analyseText(text).answers.contacts.get('Q1') ?? [];
    expect(contact?.shortCircuitAmps).toBeCloseTo(20.6, 9);
    expect(contact?.neededAmps).toBeCloseTo(25.75, 9);
    expect((contact?.ratedAmps ?? 0) / (contact?.shortCircuitAmps ?? 1)).toBeCloseTo(1.553, 3);
  });

  it('of which nothing is stated: two pass, three are told of', () => {
    expect(slug(array(2, '6 A', ''))).toEqual([]);
    expect(slug(array(3, '6 A', ''))).toEqual(['string-fuse-needed P1 warning']);
  });

  it('each with a fuse of its own are right, as are two in series', () => {
    const bare = array(3, '6 A', ', most series fuse 10 A');
    expect(slug(bare).length).toBe(3);
    const fused = [1, 2, 3].reduce(
      (text, n) =>
        text.replace(
          `P${n}:+ to JP`,
          `P${n}:+ to SF${n}:in\nfuse SF${n} 10 A, cartridge, 125 V\nrun RR${n} 35 mm² red, 1 m, SF${n}:out to JP`,
        ),
      bare,
    );
    expect(slug(fused)).toEqual([]);
    const series = array(2, '6 A', ', most series fuse 5 A')
      .replace('P1:+ to JP', 'P1:+ to P2:-')
      .replace(/^run K2.*\n/m, '');
    expect(slug(series)).toEqual([]);
  });
});

describe('a load that cranks', () => {
  const starter = (clause: string) =>
    lamp(
      {},
      `load STARTER 300 A${clause}`,
      'run W8 35 mm² red, 1 m, B1:+ to STARTER:+',
      'run W9 35 mm² black, 1 m, STARTER:- to B1:-',
    );

  it('needs no fuse, and its current is not continuous', () => {
    expect(slug(starter(', cranking'))).toEqual([]);
  });

  it('would need both without the word', () => {
    expect(slug(starter(''))).toEqual(expect.arrayContaining(['supply-unfused W8 error', 'cable-too-small W8 error']));
  });
});

describe('a length without a fuse', () => {
  it('from the battery to its first device is judged by protection-too-far, never by supply-unfused', () => {
    const text = lamp({ feed: 'run W1 35 mm² red, 20 m, B1:+ to F1:in' });
    expect(slug(text)).toContain('protection-too-far W1 error');
    expect(slug(text).join()).not.toContain('supply-unfused');
  });

  it('that leads to a load is judged by supply-unfused, never by protection-too-far', () => {
    const text = lamp({
      fuse: 'splice F1',
      feed: 'run W1 35 mm² red, 20 m, B1:+ to F1',
      out: 'run W2 35 mm² red, 1 m, F1 to LAMP:+',
    });
    expect(slug(text)).toContain('supply-unfused W1 error');
    expect(slug(text).join()).not.toContain('protection-too-far');
  });
});

describe('what a device can break, where the resistance of the battery is not said', () => {
  const found = (battery: string, breaks: string) =>
    analyseText(lamp({ battery: `battery B1 ${battery}`, fuse: `fuse F1 10 A, blade, 32 V, breaks ${breaks}` }))
      .findings;

  it('is an error only where twice the usual resistance would still leave too much', () => {
    // 100 Ah agm is taken for 4 mΩ: 3.16 kA where F1 is.
    expect(found('agm, 12 V, 100 Ah, sealed', '3.2 kA')).toEqual([]);
    const [doubtful, ...none] = found('agm, 12 V, 100 Ah, sealed', '2 kA');
    expect([doubtful?.slug, doubtful?.severity, none]).toEqual(['fuse-breaking-capacity', 'advice', []]);
    expect(doubtful?.related.map(({ message }) => message)).toEqual([
      'The resistance of B1 is a usual one: say `internal` where its maker states it',
    ]);
    expect(found('agm, 12 V, 100 Ah, sealed', '1 kA').map(({ severity }) => severity)).toEqual(['error']);
    expect(found('agm, 12 V, 100 Ah, sealed, internal 4 mΩ', '2 kA').map(({ severity }) => severity)).toEqual([
      'error',
    ]);
    expect(found('agm, 12 V, 100 Ah, sealed, internal 8 mΩ', '2 kA')).toEqual([]);
  });
});

describe('a negative that several circuits share', () => {
  const shared = (size: string, ways: string, first = 'load LAMP 3 A', second = 'load FAN 3 A') => `system "Shed" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fusebox FB ${ways}
${first}
${second}
busbar NEG
run W1 35 mm² red, 0.1 m, B1:+ to FB:in
run W2 2.5 mm² red, 1 m, FB:1 to LAMP:+
run W3 2.5 mm² red, 1 m, FB:2 to FAN:+
run W4 2.5 mm² black, 1 m, LAMP:- to NEG
run W5 2.5 mm² black, 1 m, FAN:- to NEG
run W6 ${size} black, 1 m, NEG to B1:-
`;
  const two = '2 ways, way 1 fuse 10 A, way 2 fuse 15 A';

  it('is held to its devices also where the board has ways that nothing is on and no fuse is said for', () => {
    expect(slug(shared('2.5 mm²', two))).toEqual([]);
    for (const ways of [two, two.replace('2 ways', '6 ways')])
      expect(slug(shared('1.5 mm²', ways, 'socket LAMP 10 A', 'socket FAN 15 A'))).toEqual([
        'cable-too-small W6 error',
      ]);
    // One that is used and blank leaves it open.
    expect(slug(shared('1.5 mm²', '2 ways, way 1 fuse 10 A', 'socket LAMP 10 A', 'socket FAN 9 A'))).not.toContain(
      'cable-too-small W6 error',
    );
  });

  it('is a warning where each of them is within it, and so are the loads', () => {
    const [found, ...others] = analyseText(shared('1.5 mm²', two)).findings;
    expect([found?.subject, found?.severity, others]).toEqual(['W6', 'warning', []]);
    expect(found?.message).toContain('Each of these alone is small enough, and no more than 6 A is drawn for long');
    expect(slug(shared('1.5 mm²', two, 'load LAMP 3 A', 'socket FAN 15 A, plugged in 3 A'))).toEqual([
      'cable-too-small W6 error',
    ]);
  });

  it('counts an alternator beside the loads only as broken, and not both at once', () => {
    const engine = (fuse: string, size: string) => `system "Shed" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
alternator A1 14.2 V, 60 A, fixed
fuse F1 ${fuse}, bolt-in, 58 V
fuse F2 60 A, bolt-in, 58 V
socket S1 60 A
chassis G1
run W1 35 mm² red, 0.1 m, B1:+ to F1:in
run W2 35 mm² red, 1 m, F1:out to A1:+
run W3 35 mm² black, 1 m, A1:- to G1
run W4 35 mm² red, 0.1 m, B1:+ to F2:in
run W5 35 mm² red, 1 m, F2:out to S1:+
run W6 35 mm² black, 1 m, S1:- to G1
run W7 ${size} black, 0.2 m, B1:- to G1
`;
    // 10 mm² carries 65 A and 16 mm² 87 A (4D1A).
    expect(slug(engine('80 A', '16 mm²'))).toEqual([]);
    const [found, ...others] = analyseText(engine('80 A', '10 mm²')).findings;
    expect([found?.subject, others]).toEqual(['W7', []]);
    expect(found?.message).toContain('protected at 80 A (F1)');
  });
});

describe('who brings a fuse above its rating', () => {
  const told = (text: string) => analyseText(text).findings.map(({ slug: found, message }) => `${found} ${message}`);

  it('is the load that it feeds, and never the starter motor beside an alternator', () => {
    expect(told(lamp({ load: 'load LAMP 12 A' })).join()).toContain('F1 is 10 A, but LAMP can take 12 A');
    const engine = lamp(
      {},
      'alternator A1 14.2 V, 60 A, fixed',
      'fuse F2 50 A, bolt-in, 58 V',
      'load STARTER 100 A, cranking, for 4 s',
      'run W4 35 mm² red, 0.1 m, B1:+ to F2:in',
      'run W5 35 mm² red, 1 m, F2:out to A1:+',
      'run W6 35 mm² black, 1 m, A1:- to B1:-',
      'run W7 35 mm² red, 1 m, B1:+ to STARTER:+',
      'run W8 35 mm² black, 1 m, STARTER:- to B1:-',
    );
    expect(told(engine).join()).toContain('F2 is 50 A, but 60 A can flow through it, so it will blow');
  });

  it('of a fuse that never blows it is what limits the current', () => {
    const converted = lamp(
      { battery: 'battery B1 lead-acid, 24 V, 80 Ah, internal 15 mΩ', out: 'run W2 35 mm² red, 1 m, F1:out to U1:in+' },
      'converter U1 12 V, 8 A, common negative',
      'fuse F2 10 A, blade, 32 V',
      'run W4 35 mm² black, 1 m, U1:in- to B1:-',
      'run W5 35 mm² red, 1 m, U1:out+ to F2:in',
      'run W6 35 mm² red, 1 m, F2:out to LAMP:+',
      'run W9 35 mm² black, 1 m, U1:out- to LAMP:-',
    ).replace('run W3 35 mm² black, 1 m, LAMP:- to B1:-\n', '');
    expect(told(converted).join()).toContain('fuse-never-blows F2 never blows from what U1 gives: that is 8 A');
  });
});
