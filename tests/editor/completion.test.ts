import { describe, expect, it } from 'vitest';
import { allKinds } from '../../server/kinds/all.ts';
import { isStockOnly } from '../../server/kinds/vocabulary.ts';
import { allRules } from '../../server/rules/all.ts';
import { areasMm2, bladeAmps, fuseAmps, largeFuseAmps } from '../../server/tables/sizes.ts';
import { complete, inShed, labels, shed, take } from './completing.ts';

const kinds = allKinds.filter((kind) => !isStockOnly(kind)).map(({ word }) => word);
/** What a stock may be of, the cable first. */
const stocked = ['cable', ...allKinds.map(({ word }) => word).filter((word) => word !== 'cable')];
const firstWords = ['run', ...kinds, 'case', 'expect', 'place', 'stock', 'link', 'allow', 'reading', 'use'];
const gauges = ['18', '16', '14', '12', '10', '8', '6', '4', '2', '1', '1/0', '2/0', '3/0', '4/0'].map(
  (g) => `${g} AWG`,
);
const areas = areasMm2.map((area) => `${area} mm²`);
const size = ['2 x', ...areas, ...gauges, '? mm²'];
const amps = (list: readonly number[]) => list.map((a) => `${a} A`);
const others = ['brown', 'orange', 'yellow', 'green', 'blue', 'violet', 'grey', 'white', 'pink', 'gold'];
const colours = ['red', 'black', ...others, 'turquoise', 'silver', 'light-blue', 'tan', 'clear', 'green/yellow'];
const cable = ['class', 'solid', 'stranded', 'tinned', 'plain', 'copper', 'aluminium', '? °C', '? V', 'od', 'outdoors'];
const needed = [
  'B1:-',
  'F2:in',
  'F2:out',
  'Q1:1',
  'Q1:2',
  'FB:in',
  'LAMP:-',
  'FAN:+',
  'FAN:-',
  'K1:86',
  'K1:85',
  'K1:30',
];
const spare = ['Q1:3', 'Q1:4', 'FB:1', 'FB:2', 'FB:3', 'K1:87', 'K1:87a'];
const withTerminals = ['B1:', 'F1:', 'F2:', 'Q1:', 'FB:', 'LAMP:', 'FAN:', 'K1:'];
const ends = [...needed, 'POS', ...spare, ...withTerminals];
/** The same for a red core: what is marked as a minus comes after all that may be meant. */
const minus = ['B1:-', 'LAMP:-', 'FAN:-'];
const plusFirst = ['FAN:+', ...needed.filter((end) => end !== 'FAN:+' && !minus.includes(end))];
const redEnds = [...plusFirst, 'POS', ...spare, ...minus, ...withTerminals];
const way = ['along', 'bunched with', 'in conduit', 'sheathed', 'enters'];
const styles = ['blade', 'mini-blade', 'maxi-blade', 'bolt-in', 'strip', 'cartridge', 'glass', 'class-t', 'gpv'];
const fuseVolts = ['32 V', '58 V', '80 V', '125 V', '? V'];
const common = ['in', 'at', 'terminals', 'stud', 'torque', 'reference', 'price'];
const fuseRest = [...fuseVolts, 'breaks', 'operates', 'spares', '= blade-5', ...common, 'contacts'];
const volts = ['V', 'mV', 'kV'];
const current = ['A', 'mA', 'kA'];
const lengths = ['m', 'mm', 'cm', 'ft', 'inch'];
const glands = ['M12', 'M16', 'M20', 'M25', 'M32', 'M40', 'M50', 'M63'];
const ip = ['IP20', 'IP40', 'IP44', 'IP54', 'IP55', 'IP65', 'IP66', 'IP67', 'IP68'];
const caseClauses = ['sun', 'charge', 'B1', 'all', 'LAMP', 'FAN', 'F1', 'F2', 'Q1', 'FB', 'ambient', 'conductors at'];

/** The lines below the shed, everything that is offered, and what must not be. */
const places: readonly (readonly [marked: string, offered: readonly string[], never: readonly string[]])[] = [
  // First words.
  ['|', firstWords, ['system', 'cable', 'red', 'F1', 'W3', 'to']],
  ['ru|', firstWords, ['system', 'red', 'F1']],
  ['fuse F3 5 A\n|', firstWords, ['blade', 'breaks', 'V']],
  ['fuse F3 5 A\n\n|', firstWords, ['blade', 'breaks']],
  // New names.
  ['run |', ['W3'], ['W1', 'W2', 'F1', 'red', 'run']],
  ['run W|', ['W3'], ['W1', 'W2']],
  ['fuse |', ['F3'], ['F1', 'F2', '5 A']],
  ['fuse | 5 A', ['F3'], ['F1', 'F2']],
  ['panel |', ['P1'], ['POS', 'POD']],
  ['panel P1 and |', ['P2'], ['P1']],
  ['load |', [], ['LAMP', 'FAN', 'L1', 'K2', '12 W']],
  ['stock |', [], ['thin', 'flat', 'cable', 'fuse']],
  ['case |', [], ['dusk', 'noon', 'sun']],
  ['place |', [], ['LOFT', 'GARAGE', 'BOX']],
  // Links name a part that has poles to link.
  ['link |', ['Q1'], ['FB', 'K1', 'F1', 'W1', 'Q2']],
  ['link Q1 |', ['1-3', '2-4', '2-3'], ['1-2', '3-4', '1']],
  ['link Q1 1-3, |', ['2-4', '2-3'], ['1-3', '1-2']],
  // Stock.
  ['stock bar |', stocked, ['run', 'thin', 'system', 'case']],
  ['stock bar ca|', stocked, ['case', 'run']],
  [
    'stock slim cable |',
    [...size, ...cable, ...colours, '= thin', '= flat', 'reference', 'price'],
    ['? m', 'along', '= slim'],
  ],
  ['stock slow fuse 5 A, |', [...styles, ...fuseRest], ['5 A', '? A', '= thin', 'way', 'to']],
  // Runs: size, clauses, cores.
  [
    'run W3 |',
    ['= thin', '= flat', ...size, ...cable, '? m', ...colours, 'core', ...ends, 'spare', ...way],
    ['at', 'in', 'breaks', '= blade-5', 'F1:in'],
  ],
  ['run W3 = |', ['thin', 'flat'], ['blade-5', 'LOFT', 'W1', '6 mm²']],
  ['run W3 =th|', ['thin', 'flat'], ['blade-5', 'LOFT']],
  ['run W3 6 mm², =|', ['thin', 'flat'], ['blade-5']],
  ['run W3 2 x |', [...areas, ...gauges, '? mm²'], ['2 x', 'red', '? A']],
  ['run W3 2 |', ['mm²', 'AWG', ...lengths, '°C', '°F', ...volts, 'x'], ['A', 'W', 'Ω', '%', 'Ah', 'mm2', 'kg']],
  [
    'run W3 2|',
    ['2.5 mm²', '25 mm²', '240 mm²', '2/0 AWG', 'mm²', 'AWG', ...lengths, '°C', '°F', ...volts, 'x'],
    ['2 AWG', '6 mm²', 'A', '2 mm²'],
  ],
  ['run W3 6m|', ['mm²', 'AWG', ...lengths, '°C', '°F', ...volts, 'x'], ['A', 'mA', 'W', '6 mm²']],
  ['run W3 ? |', ['mm²', 'AWG', ...lengths, '°C', '°F', ...volts], ['A', 'W', '? mm²', 'x']],
  [
    'run W3 6 mm² |, 4 m, F2:out to FAN:+',
    [...colours, '= thin', '= flat', ...cable, ...way],
    ['2 x', '? m', 'core', 'FB:1', 'to'],
  ],
  [
    'run W3 6 mm² red, 4 m, |',
    ['= thin', '= flat', ...cable, 'core', ...redEnds, 'spare', ...way],
    ['red', 'black', '6 mm²', '? m', 'to', 'F1:in', 'BOX:', 'LOFT'],
  ],
  [
    'run W3 6 mm² red, 4 m, F2:out to FAN:+, |',
    ['= thin', '= flat', ...cable, ...way],
    ['FB:1', 'POS', 'spare', 'core', 'red', '? m'],
  ],
  ['run W3 6 mm² red, class |', ['1', '2', '5', '6'], ['3', '6 mm²', '5 A', 'red']],
  ['run W3 6 mm² red, bunched |', ['with'], ['bunched with', 'and']],
  ['run W3 6 mm² red, in |', ['conduit'], ['BOX', 'POD']],
  [
    'run W3 = flat, 2 m\n    |',
    [...cable, ...colours, 'core', ...ends, 'spare', ...way, ...size],
    ['? m', '= thin', 'F1:in'],
  ],
  ['run W3 = flat, 2 m\n    red |', ['core', ...redEnds, 'spare', ...cable, ...way, ...size], ['black', '? m', 'to']],
  [
    'run W3 = flat, 2 m\n    red POS to FAN:+\n    |',
    [...cable, ...colours.slice(1), 'red', 'core', ...ends.filter((end) => end !== 'FAN:+'), 'spare', ...way, ...size],
    ['? m', 'FAN:+'],
  ],
  [
    'run W3 = flat, 2 m\n    red POS to FAN:+\n    black F2:out to FAN:-\n    |',
    [...cable, ...way, ...size],
    ['red', 'black', 'POS', 'spare', 'core', 'FB:1'],
  ],
  // Ends: free terminals first.
  ['run W3 6 mm² red, 4 m, F2:out |', ['to'], ['F1:in', 'POS', 'and', 'along']],
  [
    'run W3 6 mm² red, 4 m, F2:out to |',
    redEnds.filter((end) => end !== 'F2:out'),
    ['F2:out', 'F1:in', 'BOX', 'BOX:', 'E1', 'LOFT', 'W1', 'red', 'B1:+'],
  ],
  ['run W3 6 mm² red, 4 m, POS to |', redEnds.filter((end) => end !== 'POS'), ['POS', 'to', 'F1:out']],
  ['run W3 6 mm² red, 4 m, POS to\n    |', redEnds.filter((end) => end !== 'POS'), ['POS', 'along', 'red']],
  ['run W3 6 mm² red, 4 m, POS to F|', [...redEnds.filter((end) => end !== 'POS'), 'F3:in'], ['fuse', 'POS', '? °C']],
  ['run W3 6 mm² red, 4 m, B1:|', ['B1:-', 'B1:+'], ['F1:in', 'to', 'POS', 'B1:']],
  ['run W3 6 mm² red, 4 m, POS to F1:o|', ['F1:in', 'F1:out'], ['F2:in', 'POS']],
  ['run W3 6 mm² red, 4 m, POS to lamp:|', ['LAMP:+', 'LAMP:-'], ['lamp:+', 'lamp:in', 'POS']],
  ['run W3 3 x 1.5 mm², core |', ['1', '2', '3'], ['0', '4', 'core']],
  ['run W3 3 x 1.5 mm²\n    core 1 POS to FAN:+\n    core |', ['2', '3'], ['1', '4']],
  ['run W3 6 mm² red, 4 m, FB:2 to FB:|', ['FB:in', 'FB:1', 'FB:3'], ['FB:2', 'FB:4', 'FB:neg']],
  ['run W3 6 mm² red, 4 m, K1:|', ['K1:86', 'K1:85', 'K1:30', 'K1:87', 'K1:87a'], ['K1:coil+', 'F1:in']],
  ['run W3 6 mm² red, 4 m, NOBODY:|', ['NOBODY:+', 'NOBODY:out', 'NOBODY:2'], ['F1:in', 'POS']],
  ['run W3 6 mm² red, 4 m, POS to LAMP:- |', ['= thin', '= flat', ...cable, ...way], ['to', 'and', 'F2:in', 'red']],
  // The way of a run.
  ['run W3 along |', ['LOFT', 'GARAGE'], ['BOX', 'POD', 'F1', '? m']],
  ['run W3 along LOFT and |', ['GARAGE'], ['LOFT', 'BOX', 'and']],
  ['run W3 along LOFT 2 |', lengths, ['mm²', 'A', 'V', '°C', 'and']],
  ['run W3 6 mm² red, 4 m, POS to FAN:+, enters |', ['BOX', 'POD'], ['E1', 'LOFT', 'F1', 'by']],
  ['run W3 enters BOX by |', ['gland', 'grommet', 'conduit', 'E1'], ['E2', 'BOX', 'open', 'by']],
  ['run W3 enters POD by |', ['gland', 'grommet', 'conduit', 'E2'], ['E1', 'POD']],
  [
    'run W3 = thin, 1 m, POS to FAN:+, enters BOX by grommet |',
    ['? mm', ...cable.filter((word) => word !== 'od'), ...colours, ...way, ...size, 'od'],
    ['M20', 'E1', '? m', 'POS'],
  ],
  // Fuses: ratings of the style, clauses not given.
  [
    'fuse F3 |',
    [...amps(fuseAmps(undefined)), '? A', ...styles, ...fuseRest],
    ['F1', 'poles', 'red', '6 mm²', 'to', '= thin'],
  ],
  ['fuse F3 strip, |', [...amps(largeFuseAmps), '? A', ...fuseRest], ['1 A', '5 A', 'blade', 'strip']],
  ['fuse F3 blade, |', [...amps(bladeAmps), '? A', ...fuseRest], ['400 A', '50 A', 'blade']],
  ['fuse F3 5|', ['50 A', '58 V', ...current, ...volts], ['5 A', '10 A', 'W', 'Ω', 'mm²', 'blade']],
  ['fuse F3 5 |', [...current, ...volts], ['W', 'amps', 'mm²', 'blade', '5 A']],
  ['fuse F3 5 A|', [...current, ...volts], ['W', 'blade']],
  ['fuse F3 5 A |', [...styles, ...fuseRest], ['5 A', '? A', 'V', 'to']],
  ['fuse F3 5 A, bla|', [...styles, ...fuseRest], ['5 A', '? A', 'red']],
  [
    'fuse F3 5 A, |, 32 V',
    [...styles, 'breaks', 'operates', 'spares', '= blade-5', ...common, 'contacts'],
    ['32 V', '? V', '? A'],
  ],
  ['fuse F3 5 A, breaks |', ['? kA'], ['5 A', '? V', 'breaks']],
  ['fuse F3 5 A, breaks 2 |', ['kA', 'A', 'mA'], ['V', 'W']],
  ['fuse F3 5 A, operates 200 |', ['%'], ['A', 's', 'V']],
  ['fuse F3 5 A, operates 200 % in |', ['? s'], ['BOX', 'POD', '? %']],
  ['fuse F3 = |', ['blade-5'], ['thin', 'flat']],
  ['fuse F3 5 A, in |', ['BOX', 'POD'], ['E1', 'LOFT', 'conduit']],
  ['fuse F3 5 A, at |', ['LOFT', 'GARAGE'], ['BOX', 'least']],
  ['fuse F3 5 A, stud |', ['M5', 'M6', 'M8', 'M10', 'M12'], ['M20', '? mm']],
  ['fuse F3 5 A, price 2 |', ['EUR', 'GBP', 'USD'], ['A', 'V', 'a']],
  // Other kinds.
  ['isolator Q2 4 |', [...current, ...volts, 'poles', 'in parallel', 'in series'], ['pole', 'W', 'BOX']],
  ['isolator Q2 1 |', [...current, ...volts, 'pole'], ['poles', 'in parallel']],
  ['isolator Q2 2 in |', ['parallel', 'series'], ['BOX', 'POD']],
  [
    'isolator Q2 2 poles, category |',
    ['DC-20A', 'DC-20B', 'DC-21A', 'DC-21B', 'DC-22A', 'DC-22B', 'DC-23A', 'DC-23B', 'DC-PV0', 'DC-PV1', 'DC-PV2'],
    ['AC-21', '25 A'],
  ],
  ['battery B2 lead-acid, 12 V, 80 Ah, charge |', ['? A', 'voltage'], ['? V', 'charge voltage', '? %']],
  ['battery B2 lead-acid, 12 |', [...volts, 'Ah'], ['A', 'mA', 'W', 'Wh']],
  [
    'load X 5 W, |',
    ['surge', 'for', '? h/day', 'lowest', 'highest', 'most fuse', 'essential', 'cranking', 'terminal', ...common],
    ['? W', '? A', '? Ω', 'blade'],
  ],
  ['load X 5 |', ['W', 'kW', ...current, 'Ω', 'mΩ', 'h/day', 'min/day'], ['V', 'Ah', 'mm²', 's']],
  ['load X surge |', ['? W', '? A'], ['? V', '? Ω']],
  ['enclosure NEW in |', ['BOX', 'POD'], ['NEW', 'E1']],
  [
    'enclosure NEW plastic, |',
    [...ip, 'indoors', 'outdoors', 'knockouts', 'blanks', ...common],
    ['metal', 'plastic', 'gland'],
  ],
  ['enclosure NEW knockouts |', ['2 x'], ['? x', 'M20']],
  ['run W3 = flat, 4.2|', [...lengths, '°C', '°F', ...volts, 'mm²'], ['x', 'AWG', '2 x']],
  ['run W3 2/0 |', ['AWG'], ['mm²', 'm', 'V', 'x']],
  ['isolator Q2 1.5 |', [...current, ...volts], ['pole', 'poles', 'in parallel']],
  ['enclosure NEW knockouts 4 |', ['x'], ['mm²', 'M20']],
  ['fusebox NEW spares 2 |', ['x'], ['A']],
  ['busbar NEW terminals 0.5 |', ['mm²', 'to'], ['A', 'x', 'studs']],
  ['enclosure NEW knockouts 4 x |', glands, ['M8', 'IP54', '4 x']],
  ['entry E3 in BOX, gland |', glands, ['? mm', 'E1', 'BOX']],
  ['entry E3 in BOX, gland M20, 2 |', ['holes'], ['hole', 'A', 'mm']],
  ['fusebox FC 4 ways, way 1 fuse 5 A, way |', ['2', '3', '4'], ['1', '5', 'fuse']],
  ['fusebox FC 4 ways, way 1 fuse 5 A, ways |', ['2', '3', '4'], ['1', '5', 'to']],
  ['fusebox FC 5 ways, way 1 fuse 5 A, ways 2 to |', ['3', '4', '5'], ['1', '2', '6', 'fuse']],
  ['fusebox FC 4 ways, way 1 fuse |', [...amps(bladeAmps), '? A'], ['400 A', 'blade', '32 V']],
  ['panel P1 voc |', ['? V', 'drift'], ['? A', '? W']],
  ['panel P1 voc drift -0.3 |', ['%/°C', 'V/°C', 'mV/°C'], ['%', 'V', 'mA/°C']],
  ['panel P1 tilt 10|', ['°'], ['°C', '%']],
  // Cases, expectations, readings.
  ['case x |', caseClauses, ['K1', 'POS', 'BOX', 'W1', 'dusk', 'on']],
  ['case x LAMP |', ['and', 'on', 'off'], ['charge', 'at', 'LAMP']],
  ['case x B1 |', ['charge', 'at', 'and', 'on', 'off'], ['? %', 'sun']],
  ['selector S9 200 A\ncase x S9 |', ['and', 'on', 'off', 'at'], ['charge', '1']],
  ['selector S9 200 A\ncase x S9 at |', ['off', 'both', '1', '2'], ['? V', 'on']],
  ['selector S9 200 A, positions off 1\ncase x LAMP on, S9 at |', ['off', '1'], ['both', '2']],
  ['case x LAMP and |', ['FAN', 'B1', 'F1', 'F2', 'Q1', 'FB'], ['LAMP', 'K1', 'POS', 'on']],
  ['case x LAMP on, |', caseClauses.filter((word) => word !== 'LAMP'), ['LAMP', 'on']],
  ['case x sun 50 |', ['%'], ['A', '°C', '°']],
  ['case x all |', ['loads', 'sources'], ['on', 'LAMP']],
  [
    'expect |',
    ['B1', 'F1', 'F2', 'Q1', 'FB', 'POS', 'LAMP', 'FAN', 'K1', 'W1', 'W2', ...withTerminals],
    ['BOX', 'E1', 'LOFT', 'dusk', 'thin'],
  ],
  ['expect LAMP |', ['voltage at', 'current at', 'drop at'], ['temperature at', 'charge at', 'LAMP', 'in']],
  ['expect F1 |', ['current at'], ['voltage at', 'drop at', 'temperature at', 'charge at']],
  ['expect F1:out |', ['voltage at', 'current at'], ['drop at', 'charge at']],
  ['expect W1 |', ['current at', 'drop at', 'temperature at'], ['voltage at', 'charge at']],
  ['expect NEWCOMER |', ['voltage at', 'current at', 'drop at', 'temperature at', 'charge at'], ['in', 'on']],
  ['expect B1 |', ['voltage at', 'current at', 'charge at'], ['drop at', 'temperature at', 'in', 'on']],
  ['expect LAMP voltage at least |', ['? V'], ['? A', '? %', '? W']],
  ['expect LAMP voltage at least 11 |', volts, ['A', '%', 'W', 'mm²']],
  ['expect LAMP drop at most 3 |', ['%', ...volts], ['A', '°C', '%/°C']],
  ['expect LAMP voltage at least 11 V in |', ['dusk', 'noon'], ['BOX', 'POD', 'loads-only']],
  ['reading |', [], ['with', 'sun', 'B1', '"…"']],
  ['reading 2026-04-18 B1:+ 12 V\nreading |', ['2026-04-18'], ['with', 'sun']],
  ['reading 2026-04-18 B1:+ to B1:- 12 |', [...volts, ...current, 'Ω', 'mΩ', '°C', '°F'], ['W', 'mm²', '%']],
  ['reading 2026-04-18 Q1:1 to Q1:2 0.2 Ω with |', caseClauses, ['with', 'K1', 'POS']],
  // Accepted findings: what is found first.
  [
    'allow terminal-unconnected on |',
    [
      ...['B1', 'F2', 'Q1', 'FB', 'LAMP', 'FAN', 'K1'],
      ...[
        'BOX',
        'POD',
        'E1',
        'E2',
        'F1',
        'POS',
        'W1',
        'W2',
        'LOFT',
        'GARAGE',
        'dusk',
        'noon',
        'thin',
        'flat',
        'blade-5',
      ],
    ],
    ['F1:in', 'loads-only', 'cable-too-small'],
  ],
  ['allow drop-over-limit |', ['on', '"…"'], ['LAMP', 'in']],
  // System, files, places.
  [
    'system |',
    ['12 V', '24 V', '48 V', '? V', 'ambient', 'coldest', 'hottest', 'limits', 'both poles', 'site'],
    ['system', '? A', 'red'],
  ],
  [
    'system 12 V, limits |',
    ['iec-60364-5-52', 'cfr-33-183', 'nec-310', 'iso-13297'],
    ['limits', 'limits iec-60364-5-52'],
  ],
  ['place X |', ['? °C', 'indoors', 'outdoors', 'gas locker', 'engine space', 'heat source'], ['LOFT', 'in', 'at']],
  ['place X 20 |', ['°C', '°F'], ['°', 'V', '%']],
  ['use |', ['"…"'], ['thin', 'stock']],
  // Nothing at all.
  ['use "st|ock.amps"', [], ['"…"', 'stock']],
  ['fuse F3 "My |', [], ['5 A', 'blade']],
  ['# a note |', [], ['run', 'fuse']],
  ['fuse F3 5 A # |', [], ['blade', 'breaks']],
  ['wibble X |', [], ['red', 'F1', 'run']],
  ['fuse F3 wibble |', [], ['5 A', 'blade']],
];

describe('what is offered at a place, and what is not', () => {
  // In which order is told by completion-order.test.ts.
  it.each(places)('%s', (marked, offered, never) => {
    const found = labels(inShed(marked));
    expect([...found].sort()).toEqual([...offered].sort());
    for (const one of never) expect(found).not.toContain(one);
  });

  it('is tried at sixty places and more, unfinished lines among them', () => {
    expect(places.length).toBeGreaterThanOrEqual(60);
    expect(places.every(([, , never]) => never.length > 0)).toBe(true);
  });

  it('offers a system where there is none', () => {
    expect(labels(complete('|')).sort()).toEqual([...firstWords, 'system'].sort());
    expect(labels(complete('|'))[0]).toBe('system');
    expect(labels(complete('sys|'))).toContain('system');
    expect(labels(complete('sys|\nfuse F1 5 A'))).toContain('system');
  });

  it('offers the findings there are before all others, and never those about the spec itself', () => {
    const found = labels(inShed('allow |'));
    expect(found.slice(0, 2).sort()).toEqual(['part-never-used', 'terminal-unconnected']);
    expect([...found].sort()).toEqual(
      [...new Set(allRules.map(({ slug }) => slug))]
        .filter((slug) => !['allow-unknown', 'allow-unused', 'rule-failed', 'answers-failed'].includes(slug))
        .sort(),
    );
    const language = found.indexOf('bad-name');
    expect(found.indexOf('cable-too-small')).toBeLessThan(language);
    expect(found).not.toContain('"…"');
  });
});

describe('a spec’s own ways', () => {
  it('offers today for a reading, then the days it has others of', () => {
    const days = (marked: string) => labels(inShed(marked, { snippets: true, markdown: true, today: '2026-05-02' }));
    expect(days('reading |')).toEqual(['2026-05-02']);
    const others = 'reading 2026-05-02 B1:+ 12.6 V\nreading 2026-04-18 B1:+ 12.5 V\n';
    expect(days(`${others}reading |`)).toEqual(['2026-05-02', '2026-04-18']);
    expect(labels(inShed(`${others}reading |`))).toEqual(['2026-05-02', '2026-04-18']);
  });

  it('numbers on as the spec does', () => {
    const next = (text: string) => labels(complete(text));
    expect(next('fuse |')).toEqual(['F1']);
    expect(next('fuse F1 5 A\nfuse F3 5 A\nfuse |')).toEqual(['F4']);
    expect(next('fuse F07 5 A\nfuse |')).toEqual(['F08']);
    expect(next('fuse S-1 5 A\nfuse S-2 5 A\nfuse MAIN 5 A\nfuse |')).toEqual(['S-3']);
    expect(next('fuse F1 5 A\nload F2 5 W\nfuse |')).toEqual(['F3']);
    expect(next('fuse |\nfuse F1 5 A')).toEqual(['F2']);
    expect(next('load LAMP 5 W\nload |')).toEqual([]);
    expect(next('load L1 5 W\nload |')).toEqual(['L2']);
  });

  it('has gauges, feet and Fahrenheit first where it is written in them', () => {
    const cabin = 'place WALL 95 °F\nrun W1 10 AWG red, 8 ft, A:1 to B:1\n';
    const sizes = labels(complete(`${cabin}run W2 |`)).filter((label) => /AWG|mm²/u.test(label));
    expect(sizes).toEqual(['10 AWG', ...gauges.filter((gauge) => gauge !== '10 AWG'), ...areas, '? AWG']);
    expect(labels(complete(`${cabin}run W2 along WALL 3 |`))).toEqual(['ft', 'inch', 'mm', 'cm', 'm']);
    expect(labels(complete(`${cabin}place X |`))[0]).toBe('? °F');
    expect(labels(complete(`${cabin}run W2 10 AWG red, |`))).toContain('? ft');
  });

  it('puts the gland that fits the cable first', () => {
    const threads = labels(inShed('run W3 = thin, 1 m, POS to FAN:+, enters BOX by gland |')).slice(0, 8);
    expect(threads).toEqual(['M12', 'M16', 'M20', 'M25', 'M32', 'M40', 'M50', 'M63']);
    const thick = labels(inShed('run W3 6 mm², od 14 mm, 1 m, POS to FAN:+, enters BOX by gland |')).slice(0, 3);
    expect(thick).toEqual(['M25', 'M12', 'M16']);
  });

  it('tells what is on a terminal that is used, and does not count the end that is being written', () => {
    const used = inShed('run W3 6 mm² red, 4 m, B1:|').items;
    expect(used.map(({ label, detail }) => [label, detail])).toEqual([
      ['B1:-', 'negative of the battery, free'],
      ['B1:+', 'positive of the battery; on it: W1 red to F1:in'],
    ]);
    const own = complete(shed.replace('F1:in', 'F1:i|n')).items;
    expect(own.map(({ label, detail }) => [label, detail])).toEqual([
      ['F1:in', 'side towards the source, free'],
      ['F1:out', 'side towards the load; on it: W2 red to LAMP:+'],
    ]);
  });

  it('counts a terminal as used also while its core has one end only', () => {
    const found = inShed('run W3 6 mm² red, 4 m, F2:in to\nrun W4 6 mm² red, 4 m, POS to F2:|').items;
    expect(found.map(({ label }) => label)).toEqual(['F2:out', 'F2:in']);
  });
});

describe('taking an offer', () => {
  const taken = (marked: string, label: string, options = { snippets: true, markdown: true }) => {
    const at = inShed(marked, options);
    const item = at.items.find((one) => one.label === label);
    expect(item, label).toBeDefined();
    return item === undefined ? '' : take(at, item).slice(shed.length);
  };

  it.each([
    ['fuse F3 5 A, bla|', 'blade', 'fuse F3 5 A, blade'],
    ['fuse F3 5 A, bla|de, 32 V', 'bolt-in', 'fuse F3 5 A, bolt-in, 32 V'],
    ['fuse F3 5 A |', 'blade', 'fuse F3 5 A, blade'],
    ['fuse F3 5 A   bl|', 'blade', 'fuse F3 5 A,   blade'],
    ['fuse F3 5|', 'A', 'fuse F3 5 A'],
    ['fuse F3 5 |', 'A', 'fuse F3 5 A'],
    ['fuse F3 5|', '50 A', 'fuse F3 50 A'],
    ['fuse F3 5 k|', 'kA', 'fuse F3 5 kA'],
    ['fuse F3 5k|', 'kA', 'fuse F3 5 kA'],
    ['fuse F3 5|A', 'mA', 'fuse F3 5 mA'],
    ['fuse F3 |32 V', '5 A', 'fuse F3 5 A 32 V'],
    ['fuse F3 |', '? A', 'fuse F3 ? A'],
    ['run W3 2|', '2.5 mm²', 'run W3 2.5 mm²'],
    ['run W3 6mm|', 'mm²', 'run W3 6 mm²'],
    ['run W3 2|', 'x', 'run W3 2 x'],
    ['run W3 =|', 'thin', 'run W3 = thin'],
    ['run W3 =th|', 'thin', 'run W3 = thin'],
    ['run W3 |', '= thin', 'run W3 = thin'],
    ['run W3 6 mm² |', 'red', 'run W3 6 mm² red'],
    ['run W3 6 mm² |', '? m', 'run W3 6 mm², ? m'],
    ['run W3 6 mm² red, 4 m, F|', 'F2:out', 'run W3 6 mm² red, 4 m, F2:out'],
    ['run W3 6 mm² red, 4 m, POS to F1:o|', 'F1:in', 'run W3 6 mm² red, 4 m, POS to F1:in'],
    ['run W3 6 mm² red, 4 m, POS to F1:|out', 'F1:in', 'run W3 6 mm² red, 4 m, POS to F1:in'],
    ['run W3 6 mm² red, 4 m, P| to FAN:+', 'POS', 'run W3 6 mm² red, 4 m, POS to FAN:+'],
    ['run W3 enters BOX |', 'by E1', 'run W3 enters BOX by E1'],
    ['case x sun 0 %,LA|', 'LAMP', 'case x sun 0 %, LAMP'],
    ['panel P1 tilt 10|', '°', 'panel P1 tilt 10°'],
    ['isolator Q2 4 |', 'poles', 'isolator Q2 4 poles'],
    ['isolator Q2 |', '? in parallel ? A', 'isolator Q2 ? in parallel ? A'],
    ['run W|', 'W3', 'run W3'],
    ['run |W9 6 mm²', 'W3', 'run W3 6 mm²'],
    ['use |', '"…"', 'use ""'],
    ['allow drop-over-limit |', '"…"', 'allow drop-over-limit ""'],
    ['fu|', 'fuse', 'fuse F3 ? A'],
    ['|', 'battery', 'battery B2 lithium-iron-phosphate, ? V, ? Ah'],
    ['|', 'run', 'run W3 ? mm² red, ? m, FROM to TO'],
    ['lo| X 5 W', 'load', 'load X 5 W'],
  ])('%s takes %s', (marked, label, result) => {
    expect(taken(marked, label)).toBe(result);
  });

  it('writes words alone where the editor knows no placeholders', () => {
    const plain = { snippets: false, markdown: false };
    expect(taken('fu|', 'fuse', plain)).toBe('fuse');
    expect(taken('fuse F3 |', '? A', plain)).toBe('fuse F3 ? A');
    expect(inShed('fuse F3 |', plain).items.every((item) => item.insertTextFormat !== 2)).toBe(true);
  });

  it('leaves a wider line end and what stands behind alone', () => {
    const text = 'fuse F1 5 A, bla| # keep\r\nload L 5 W\r\n';
    const at = complete(text);
    const item = at.items.find(({ label }) => label === 'blade');
    expect(item && take(at, item)).toBe('fuse F1 5 A, blade # keep\r\nload L 5 W\r\n');
  });
});

describe('items', () => {
  it('say what they are in plain words, in Markdown only where it is read', () => {
    const find = (markdown: boolean) =>
      inShed('fuse F3 5 A, |', { snippets: true, markdown }).items.find(({ label }) => label === 'breaks');
    expect(find(true)).toMatchObject({
      detail: 'Breaking capacity: the greatest fault current it can interrupt.',
      documentation: { kind: 'markdown', value: expect.stringContaining('`breaks 2 kA`') },
    });
    expect(find(false)).toMatchObject({
      documentation: { kind: 'plaintext', value: expect.not.stringContaining('`') },
    });
  });

  it('keep their order in editors and are found by what can be typed', () => {
    const { items } = inShed('run W3 6 |');
    expect(items.map(({ sortText }) => sortText)).toEqual([...items.map(({ sortText }) => sortText)].sort());
    const filter = (label: string) => items.find((item) => item.label === label)?.filterText;
    expect([filter('mm²'), filter('°C'), filter('m')]).toEqual(['mm2 mm²', 'degC °C', 'm']);
    const colour = inShed('run W3 6 mm² |').items.find(({ label }) => label === 'violet');
    expect(colour?.filterText).toBe('violet purple');
  });

  it('come out the same each time', () => {
    expect(inShed('run W3 |').items).toEqual(inShed('run W3 |').items);
  });
});
