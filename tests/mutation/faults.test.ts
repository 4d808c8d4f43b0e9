/** The clean van with one deliberate fault put in: exactly the finding that it deserves, where it belongs. */
import { describe, expect, it } from 'vitest';
import { analyse } from '../../server/analysis.ts';
import { allRules } from '../../server/rules/all.ts';
import type { Finding } from '../../server/rules/rule.ts';
import { specUri } from '../analysed.ts';
import { sampleFiles, sourceOf } from './checks.ts';

const van = sampleFiles['spokewagon.amps'] ?? '';

/** Each `was` stands once in the van. */
function changed(...changes: readonly (readonly [was: string, is: string])[]): string {
  return changes.reduce((text, [was, is]) => {
    const parts = text.split(was);
    if (parts.length !== 2) throw new Error(`“${was}” stands ${parts.length - 1} times`);
    return parts.join(is);
  }, van);
}

const analysed = (text: string) => analyse(specUri, sourceOf(text)).findings;

type Change = readonly [was: string, is: string];

interface Fault {
  readonly title: string;
  readonly changes: readonly Change[];
  readonly slug: string;
  readonly severity: Finding['severity'];
  readonly subject: string;
  /** The words underlined. */
  readonly words: string;
  /** What the message must say, figures and all. */
  readonly says: readonly string[];
  readonly figures?: Readonly<Record<string, number>>;
}

const faults: readonly Fault[] = [
  // Panels.
  {
    title: 'a controller for a lower panel voltage',
    changes: [['pv 100 V 30 A', 'pv 25 V 30 A']],
    slug: 'pv-voltage-over-controller',
    severity: 'error',
    subject: 'U1',
    words: '25 V',
    says: ['U1 bears 25 V', 'P1 reaches 25.55 V at -12 °C'],
    // 23 V × (1 + 0.003 × 37 K).
    figures: { mostVolts: 25, openVolts: 23, coldVolts: 23 * (1 + 0.003 * 37) },
  },
  {
    title: 'a controller for less panel current',
    changes: [['pv 100 V 30 A', 'pv 100 V 10 A']],
    slug: 'pv-current-over-controller',
    severity: 'advice',
    subject: 'U1',
    words: '10 A',
    says: ['P1 and P2 can give 13.8 A', 'takes 10 A at its panel side'],
    figures: { shortCircuitAmps: 13.8, mostAmps: 10 },
  },
  {
    title: 'a stronger panel of fewer cells, alone',
    changes: [
      ['panel P1 and P2  = panel-120, at ROOF', 'panel P1 and P2  = panel-120, 95 W, voc 18.5 V, vmp 15 V, at ROOF'],
    ],
    slug: 'pv-below-charging-voltage',
    severity: 'warning',
    subject: 'P1',
    words: 'P1',
    says: ['with cells at 70 °C', 'that U1 charges to'],
    // 15 V × (1 − 0.004 × 45 K)/(1 + 0.0005 × 45 K).
    figures: { hotCelsius: 70, hotVmp: (15 * (1 - 0.004 * 45)) / (1 + 0.0005 * 45), chargeVolts: 14.2 },
  },
  {
    title: 'a panel for twice the voltage beside another',
    changes: [
      [
        'panel P1 and P2  = panel-120, at ROOF',
        'panel P1 = panel-120, at ROOF\npanel P2 = panel-120, voc 46 V, isc 3.45 A, vmp 38.4 V, imp 3.15 A, at ROOF',
      ],
    ],
    slug: 'panels-mismatched',
    severity: 'warning',
    subject: 'P1',
    words: 'P1',
    says: ['In parallel at U1 P1 and P2 lose', 'P1 is for 19.2 V and P2 for 38.4 V'],
  },
  {
    title: 'a panel said to be stronger than it is',
    changes: [['panel P1 and P2  = panel-120, at ROOF', 'panel P1 and P2  = panel-120, 180 W, at ROOF']],
    slug: 'panel-figures-disagree',
    severity: 'warning',
    subject: 'P1',
    words: '180 W',
    says: ['P1 and P2: it says 180 W, but 19.2 V times 6.3 A is 121 W'],
    figures: { rated: 180, watts: 19.2 * 6.3 },
  },
  // Cables.
  {
    title: 'the fuse of a flat cable tripled',
    changes: [['way 6 fuse 10 A', 'way 6 fuse 30 A']],
    slug: 'cable-too-small',
    severity: 'error',
    subject: 'W52',
    words: '= flat-25',
    says: ['W52 is protected at 30 A (FB:6)', '2.5 mm² at 40 °C in GARAGE is good for 23.4 A'],
    // 27 A in table 4D1A, clipped; √((70 − 40) / (70 − 30)).
    figures: {
      deviceAmps: 30,
      tableAmps: 27,
      ambientFactor: Math.sqrt(30 / 40),
      capacityAmps: 27 * Math.sqrt(30 / 40),
    },
  },
  {
    title: 'a fuse rating doubled',
    changes: [['F8 "Fuse locker feed"  50 A', 'F8 "Fuse locker feed"  100 A']],
    slug: 'cable-too-small',
    severity: 'error',
    subject: 'W40',
    words: '= lead-10',
    says: ['W40 is protected at 100 A (F8)', 'good for 84.3 A'],
    // 75 A in table 4E1A, clipped, carried on to 105 °C: √((105 − 40) / 60) as the convention has it.
    figures: { deviceAmps: 100 },
  },
  {
    title: 'a cable halved',
    changes: [['run W12  = lead-35 red', 'run W12  16 mm² red, 70 °C']],
    slug: 'cable-too-small',
    severity: 'error',
    subject: 'W12',
    words: '16 mm²',
    says: ['F1'],
  },
  {
    title: 'a cable led through the engine space in a bunch',
    changes: [
      ['run W49  = feed-6 red, 1.4 m, along GARAGE', 'run W49  1 mm² red, 1.4 m, along ENGINE, bunched with 6'],
    ],
    slug: 'cable-too-small',
    severity: 'error',
    subject: 'W49',
    words: '1 mm²',
    says: [
      'is protected at 10 A (FB:4)',
      'at 60 °C in ENGINE, bunched with 6 others, is good for 5 A',
      'stated as 105 °C',
    ],
    figures: { tableAmps: 15.5, ambientFactor: 0.5, bunchingFactor: 0.65 },
  },
  {
    title: 'insulation that the table does not cover',
    changes: [['run W49  = feed-6 red', 'run W49  6 mm² red, 60 °C']],
    slug: 'cable-too-small',
    severity: 'error',
    subject: 'W49',
    words: '6 mm²',
    says: ['60 °C insulation is below what the table of capacities covers'],
    figures: { capacityAmps: 0 },
  },
  {
    title: 'a place as hot as the insulation bears',
    changes: [
      ['run W48  = flat-4, 3.6 m, along GARAGE', 'run W48  = flat-4, 3.6 m, along OVEN'],
      ['place CAB ', 'place OVEN    indoors, 70 °C\nplace CAB '],
    ],
    slug: 'cable-too-small',
    severity: 'error',
    subject: 'W48',
    words: '= flat-4',
    says: ['70 °C insulation is at its limit before any current flows'],
    figures: { capacityAmps: 0, ambientCelsius: 70 },
  },
  {
    title: 'a roof cable too thin for the sun',
    changes: [['run W9   = roof-cable red', 'run W9   1 mm² red, 70 °C, bunched with 4']],
    slug: 'cable-too-small',
    severity: 'error',
    subject: 'W9',
    words: '1 mm²',
    says: ['must bear 17.3 A (the panels’ 13.8 A × 1.25 by IEC 62548, not checked against the printed standard)'],
    figures: { shortCircuitAmps: 13.8, neededAmps: 17.25 },
  },
  {
    title: 'a cable too thin and too long for its load',
    changes: [['run W51  = flat-25, 4.8 m', 'run W51  2 x 1 mm², 12 m']],
    slug: 'drop-over-limit',
    severity: 'warning',
    subject: 'W51',
    words: '1 mm²',
    says: ['FAN loses', 'more than 5 %', 'not checked against the printed standard'],
    figures: { limitPercent: 5 },
  },
  {
    title: 'an essential load at the end of a thin cable',
    changes: [['run W53  = flat-4, 3.0 m', 'run W53  2 x 1.5 mm², 5.0 m']],
    slug: 'drop-over-limit',
    severity: 'warning',
    subject: 'W53',
    words: '1.5 mm²',
    says: ['HEATER loses', 'more than 3 %'],
    figures: { limitPercent: 3 },
  },
  {
    title: 'a cable so long that its load cannot be fed at all',
    changes: [
      ['run W51  = flat-25, 4.8 m', 'run W51  2 x 1 mm², 40 m'],
      ['way 5 fuse 5 A', 'way 5 fuse 3 A'],
    ],
    slug: 'voltage-collapse',
    severity: 'error',
    subject: 'FAN',
    words: '30 W',
    says: ['FAN asks 30 W in cases noon and working', 'can bring 2', 'less than 2'],
    figures: { askedWatts: 30 },
  },
  {
    title: 'a conductor class that does not exist',
    changes: [['run W40  = lead-10 red', 'run W40  = lead-10 red, class 3']],
    slug: 'conductor-class-unknown',
    severity: 'warning',
    subject: 'W40',
    words: 'class 3',
    says: ['no class 3', 'class 5 is assumed'],
    figures: { conductorClass: 3 },
  },
  // Switching.
  {
    title: 'two conductors that swap poles',
    changes: [
      ['Q1:6 to PV-POS', 'Q1:8 to PV-POS'],
      ['Q1:8 to PV-NEG', 'Q1:6 to PV-NEG'],
    ],
    slug: 'poles-crossed',
    severity: 'error',
    subject: 'Q1',
    words: 'Q1:8',
    says: ['short-circuit', '6 and 8 are swapped'],
  },
  {
    title: 'in on one pole, out on another',
    changes: [
      ['S2 "Bench switch"    1 pole, 10 A dc', 'S2 "Bench switch"    2 poles, 10 A dc'],
      ['S2:2 to BENCH:+', 'S2:4 to BENCH:+'],
    ],
    slug: 'poles-crossed',
    severity: 'error',
    subject: 'S2',
    words: 'S2:4',
    says: ['1 goes with 2', 'Move this core to S2:2'],
  },
  {
    title: 'an isolator below its fuse',
    changes: [['Q3 "Inverter isolator"       1 pole, 100 A dc', 'Q3 "Inverter isolator"       1 pole, 50 A dc']],
    slug: 'switch-below-fuse',
    severity: 'error',
    subject: 'Q3',
    words: '50 A',
    says: ['rated 50 A', 'protected at 60 A (F6)', 'use one rated 60 A or more'],
    figures: { ratedAmps: 50, deviceAmps: 60 },
  },
  {
    title: 'a switch below its fuse that feeds a fixed load only',
    changes: [['S2 "Bench switch"    1 pole, 10 A dc', 'S2 "Bench switch"    1 pole, 3 A dc']],
    slug: 'switch-below-fuse',
    severity: 'warning',
    subject: 'S2',
    words: '3 A',
    says: ['rated 3 A', '5 A (FB:1)', 'feeds only BENCH, 2.2 A in all'],
    figures: { ratedAmps: 3, deviceAmps: 5, feedsAmps: 24 / 10.8 },
  },
  {
    title: 'a relay below its load',
    changes: [['contact 60 A', 'contact 20 A']],
    slug: 'switch-below-load',
    severity: 'error',
    subject: 'K1',
    words: '20 A',
    says: ['rated 20 A', 'carries 22.2 A'],
    figures: { ratedAmps: 20, designAmps: 240 / 10.8 },
  },
  {
    title: 'a roof isolator too weak for the sun',
    changes: [['4 poles, 25 A dc', '4 poles, 8 A dc']],
    slug: 'switch-below-load',
    severity: 'error',
    subject: 'Q1',
    words: '8 A',
    says: ['panels can give 6.9 A, which asks for 8.6 A', 'IEC 62548, not checked against the printed standard'],
    figures: { shortCircuitAmps: 6.9, neededAmps: 8.625 },
  },
  {
    title: 'an isolator without a d.c. rating',
    changes: [['4 poles, 25 A dc, 150 V, category DC-PV2', '4 poles, 150 V']],
    slug: 'missing-required-clause',
    severity: 'error',
    subject: 'Q1',
    words: 'Q1',
    says: ['must say its rating', '25 A dc'],
  },
  {
    title: 'a bar on one side',
    changes: [
      [
        'switch S3 "Pump switch"     1 pole, 15 A dc, 24 V, at GARAGE',
        'switch S3 "Pump switch"     2 poles, 15 A dc, 24 V, at GARAGE\nlink S3 1-3',
      ],
    ],
    slug: 'bar-on-one-side',
    severity: 'warning',
    subject: 'S3',
    words: '1-3',
    says: ['poles 1 and 2 of S3 on one side only', 'link 2-4 as well'],
  },
  {
    title: 'a household switch',
    changes: [['S3 "Pump switch"     1 pole, 15 A dc, 24 V', 'S3 "Pump switch"     1 pole, 16 A ac, 250 V']],
    slug: 'switch-not-dc',
    severity: 'error',
    subject: 'S3',
    words: '16 A ac',
    says: ['for alternating current only'],
  },
  {
    title: 'a roof isolator that may not be opened under load',
    changes: [['category DC-PV2', 'category DC-PV0']],
    slug: 'switch-category',
    severity: 'error',
    subject: 'Q1',
    words: 'category DC-PV0',
    says: ['panels are live whenever the sun shines', 'DC-PV1 or DC-PV2'],
  },
  {
    title: 'poles linked without a figure',
    changes: [
      [
        'switch S3 "Pump switch"     1 pole, 15 A dc, 24 V, at GARAGE',
        'switch S3 "Pump switch"     2 poles, 15 A dc, 24 V, at GARAGE\nlink S3 1-3, 2-4',
      ],
    ],
    slug: 'linked-rating-unstated',
    severity: 'advice',
    subject: 'S3',
    words: '1-3',
    says: ['Poles 1 and 2 of S3 are linked', 'they count as one, 15 A'],
    figures: { ratedAmps: 15, poles: 2 },
  },
  {
    title: 'a switch among the gas bottles',
    changes: [
      ['place CAB ', 'place LOCKER  indoors, gas locker\nplace CAB '],
      ['15 A dc, 24 V, at GARAGE', '15 A dc, 24 V, at LOCKER'],
    ],
    slug: 'switch-in-gas-locker',
    severity: 'error',
    subject: 'S3',
    words: 'at LOCKER',
    says: ['S3 stands in LOCKER, where gas bottles are kept'],
  },
  // The battery and the return.
  {
    title: 'a vented battery in the room',
    changes: [['lead-acid, 12 V, 80 Ah, at ENGINE', 'lead-acid, 12 V, 80 Ah, vented, at CAB']],
    slug: 'vented-battery-indoors',
    severity: 'warning',
    subject: 'B2',
    words: 'vented',
    says: ['B2 is vented and stands open at CAB'],
  },
  {
    title: 'an isolator in the box of a vented battery',
    changes: [
      ['lead-acid, 12 V, 80 Ah, at ENGINE', 'lead-acid, 12 V, 80 Ah, vented, in CRATE'],
      [
        'alternator A1',
        'enclosure CRATE plastic, IP44, at ENGINE\nswitch S9 1 pole, 10 A dc, 24 V, in CRATE\nalternator A1',
      ],
      ['along ENGINE, B2:+ to F5:in', 'along ENGINE, B2:+ to F5:in, enters CRATE by grommet 20 mm'],
      ['along ENGINE, B2:- to G2', 'along ENGINE, B2:- to G2, enters CRATE by grommet 20 mm'],
      ['along ENGINE, B2:+ to F3:in', 'along ENGINE, B2:+ to F3:in, enters CRATE by grommet 12 mm'],
      ['chassis G2\n', 'chassis G2\nrun W60 1 mm² red, 0.2 m, S9:1 to S9:2\n'],
    ],
    slug: 'ignition-near-vented-battery',
    severity: 'error',
    subject: 'S9',
    words: 'in CRATE',
    says: ['S9 may make a spark in CRATE', 'the gas of B2'],
  },
  {
    title: 'a lithium battery that does not mind the frost',
    changes: [['    frost cut-off, at GARAGE', '    at GARAGE']],
    slug: 'lithium-charged-in-frost',
    severity: 'warning',
    subject: 'B1',
    words: 'lithium-iron-phosphate',
    says: ['B1 is charged, also at -12 °C'],
    figures: { coldestCelsius: -12 },
  },
  {
    title: 'the bond of the inverter left out',
    changes: [['run W34  = lead-16 green/yellow, 0.9 m, along GARAGE, INV:case to G1\n', '']],
    slug: 'case-not-bonded',
    severity: 'error',
    subject: 'INV',
    words: 'INV',
    says: ['The case of INV is bonded to nothing'],
  },
  {
    title: 'a starter battery of twice the voltage',
    changes: [['lead-acid, 12 V, 80 Ah, at ENGINE', 'lead-acid, 24 V, 80 Ah, at ENGINE']],
    slug: 'voltages-joined',
    severity: 'error',
    subject: 'B2',
    words: '24 V',
    says: ['B2:+ (24 V) and A1:+ (14.2 V) are joined'],
    figures: { highestVolts: 24, lowestVolts: 14.2 },
  },
  {
    title: 'a battery that gives less',
    changes: [['discharge 150 A', 'discharge 40 A']],
    slug: 'discharge-over-battery',
    severity: 'error',
    subject: 'B1',
    words: 'discharge 40 A',
    says: ['in case working', 'more than the 40 A its maker allows'],
    figures: { dischargeAmps: 40 },
  },
  {
    title: 'a battery that takes less',
    changes: [['charge 75 A', 'charge 30 A']],
    slug: 'charge-current-over-battery',
    severity: 'warning',
    subject: 'B1',
    words: 'charge 30 A',
    // 240 W of panels at 12.8 V, and 18 A.
    says: ['U1 and U2 can charge B1 with 36.8 A together, more than the 30 A it may take'],
    figures: { chargeAmps: 240 / 12.8 + 18, mostAmps: 30 },
  },
  {
    title: 'a lithium battery on the alternator',
    changes: [
      [
        'lead-acid, 12 V, 80 Ah, at ENGINE',
        'lithium-iron-phosphate, 12.8 V, 80 Ah, internal 8 mΩ, frost cut-off, at ENGINE',
      ],
    ],
    slug: 'alternator-without-limit',
    severity: 'warning',
    subject: 'A1',
    words: 'A1',
    says: ['A1 charges B2, a lithium battery', 'all its 70 A'],
    figures: { alternatorAmps: 70 },
  },
  {
    title: 'a controller behind a large fuse',
    changes: [
      ['fuse F2 "Sun fuse"  30 A', 'fuse F2 "Sun fuse"  50 A'],
      ['run W18  = feed-6 red', 'run W18  = lead-35 red'],
      ['run W19  = feed-6 black', 'run W19  = lead-35 black'],
    ],
    slug: 'controller-output-unfused',
    severity: 'warning',
    subject: 'U1',
    words: 'U1:bat+',
    says: ['The output of U1, 20 A, is fused by F2 alone, 50 A'],
    figures: { outputAmps: 20, deviceAmps: 50, mostAmps: 40 },
  },
  {
    title: 'a second starter battery of another sort',
    changes: [
      [
        'chassis G2\n',
        'chassis G2\nbattery B3 agm, 12 V, 80 Ah, at ENGINE\nfuse F9 and F10 60 A, bolt-in, 58 V, breaks 5 kA, at ENGINE\nrun W60 = lead-35 red, 0.2 m, along ENGINE, B2:+ to F9:in\nrun W61 = lead-35 red, 0.4 m, along ENGINE, F9:out to F10:out\nrun W62 = lead-35 red, 0.2 m, along ENGINE, F10:in to B3:+\nrun W63 = lead-35 black, 0.5 m, along ENGINE, B3:- to B2:-\n',
      ],
    ],
    slug: 'batteries-mixed',
    severity: 'advice',
    subject: 'B3',
    words: 'agm',
    says: ['B2 is lead-acid and B3 is agm'],
  },
  {
    title: 'a second house battery at the end of long leads',
    changes: [
      [
        'chassis G1\n',
        'chassis G1\nbattery B3 lithium-iron-phosphate, 12.8 V, 150 Ah, internal 5 mΩ, frost cut-off, at GARAGE\nfuse F98 125 A, class-t, 125 V, breaks 20 kA, at GARAGE\nrun W60 = lead-35 red, 1.8 m, along GARAGE, B1:+ to F98:in\nrun W62 = lead-35 red, 0.2 m, along GARAGE, F98:out to B3:+\nrun W61 = lead-35 black, 2.0 m, along GARAGE, B1:- to B3:-\n',
      ],
    ],
    slug: 'bank-unbalanced',
    severity: 'warning',
    subject: 'B1',
    words: 'B1',
    says: ['where its share is', 'because its leads are shorter'],
  },
  {
    title: 'an inverter that the shunt does not see',
    changes: [['NEG to INV:-', 'SH1:battery to INV:-']],
    slug: 'bypasses-shunt',
    severity: 'warning',
    subject: 'INV',
    words: 'INV:-',
    says: ['INV:- is joined to B1:- past SH1', 'does not see what INV takes'],
  },
  {
    title: 'a second bond',
    changes: [['chassis G2\n', 'chassis G2\nrun W60 = lead-16 black, 2 m, along GARAGE, NEG to G2\n']],
    slug: 'negative-bonded-twice',
    severity: 'warning',
    subject: 'W60',
    words: 'W60',
    says: ['bonded to the body twice, by W16 and W60'],
  },
  {
    title: 'a cable along the stove',
    changes: [
      ['place CAB ', 'place STOVE   indoors, heat source\nplace CAB '],
      ['run W48  = flat-4, 3.6 m, along GARAGE', 'run W48  = flat-4, 3.6 m, along STOVE'],
    ],
    slug: 'heat-source-near-cable',
    severity: 'warning',
    subject: 'W48',
    words: 'STOVE',
    says: ['W48 lies along STOVE', 'its insulation bears only 70 °C'],
    figures: { insulationCelsius: 70 },
  },
  // Protection.
  {
    title: 'a fuse below its load',
    changes: [['way 4 fuse 10 A', 'way 4 fuse 5 A']],
    slug: 'fuse-below-load',
    severity: 'warning',
    subject: 'FB',
    words: '5 A',
    says: ['FB:4 is 5 A, but PUMP can take 6 A', 'fit 7.5 A'],
    figures: { deviceAmps: 5, designAmps: 6 },
  },
  {
    title: 'a fuse that cannot break the short circuit at its place',
    changes: [['40 A, bolt-in, 58 V, breaks 5 kA', '40 A, bolt-in, 58 V, breaks 2 kA']],
    slug: 'fuse-breaking-capacity',
    severity: 'advice',
    subject: 'F7',
    words: 'breaks 2 kA',
    says: [
      'F7 breaks 2 kA at most, but 2.51 kA can flow through it',
      'relies on F1 before it',
      'or fit one that breaks 2.51 kA or more',
    ],
    figures: { breaksAmps: 2000 },
  },
  {
    title: 'a main fuse that cannot break the short circuit at its place',
    changes: [['cartridge, 125 V, breaks 20 kA', 'cartridge, 125 V, breaks 2 kA']],
    slug: 'fuse-breaking-capacity',
    severity: 'error',
    subject: 'F1',
    words: 'breaks 2 kA',
    says: ['F1 breaks 2 kA at most', 'may burst or burn on: fit one that breaks'],
    figures: { breaksAmps: 2000 },
  },
  {
    title: 'a fuse-board whose ways say nothing of what they break',
    changes: [['total 80 A, breaks 3 kA', 'total 80 A']],
    slug: 'fuse-breaking-capacity',
    severity: 'advice',
    subject: 'FB',
    words: '8 ways',
    says: ['usually breaks 1 kA by ISO 8820-3, blade, 32 V (', 'relies on F8 before it'],
    figures: { breaksAmps: 1000 },
  },
  {
    title: 'a slow fuse before a thin cable',
    changes: [
      [
        'fuse F4                            30 A, bolt-in, 58 V, breaks 5 kA',
        'fuse F4                            30 A, operates 200 % in 20 s to 60 s, breaks 5 kA',
      ],
      ['run W26  = lead-10 red', 'run W26  4 mm² red, 105 °C'],
    ],
    slug: 'cable-withstand',
    severity: 'error',
    subject: 'W26',
    words: '4 mm²',
    says: ['before F4 has opened', 'use 6 mm² or larger, or a smaller or quicker fuse'],
  },
  {
    title: 'a thin cable so long that its fuse holds in a short circuit at its end',
    changes: [
      ['run W47  = flat-25, 5.2 m, along LOFT, bunched with 2', 'run W47  2 x 1 mm², 105 °C, 32 m, along LOFT'],
      ['18 W, 4 h/day, lowest 10.8 V', '4 W, 4 h/day, lowest 9 V'],
    ],
    slug: 'fuse-never-blows',
    severity: 'warning',
    subject: 'FB',
    words: '5 A',
    says: ['at the far end of W47', 'FB:2 is sure to blow only from 6.8 A on, by ISO 8820-3'],
  },
  {
    title: 'a rating that blade fuses do not have',
    changes: [['way 3 fuse 10 A', 'way 3 fuse 12 A']],
    slug: 'fuse-odd-rating',
    severity: 'warning',
    subject: 'FB',
    words: '12 A',
    says: ['FB:3 is 12 A, but there is no blade fuse of that (ISO 8820-3)', 'fit 10 A or 15 A'],
    figures: { ratedAmps: 12, pole: 3 },
  },
  {
    title: 'a heater that allows a smaller fuse than it has',
    changes: [
      ['6 h/day, lowest 10.5 V, essential\nswitch', '6 h/day, lowest 10.5 V, essential, most fuse 10 A\nswitch'],
    ],
    slug: 'fuse-above-appliance',
    severity: 'error',
    subject: 'HEATER',
    words: '15 A',
    says: ['HEATER is protected at 15 A (FB:7), but its maker allows a fuse of 10 A at most: fit 10 A'],
    figures: { deviceAmps: 15, mostAmps: 10 },
  },
  {
    title: 'the fuse of the compressor near its load in a hot place',
    changes: [
      [
        'fuse F7                            40 A, bolt-in, 58 V, breaks 5 kA, at GARAGE',
        'fuse F7                            40 A, bolt-in, 58 V, breaks 5 kA, at ENGINE',
      ],
      ['240 W, surge 480 W, lowest 10.8 V', '410 W, surge 480 W, lowest 10.8 V'],
    ],
    slug: 'fuse-hot',
    severity: 'advice',
    subject: 'F7',
    words: '40 A',
    says: ['at ENGINE, 60 °C, where a 40 A fuse bears about 37.2 A', 'COMPRESSOR can take 38 A'],
    // 0.2 % for each of 35 °C.
    figures: { bearsAmps: 40 * 0.93, designAmps: 410 / 10.8 },
  },
  {
    title: 'a way with as much as the fuse before the board',
    changes: [
      ['F8 "Fuse locker feed"  50 A', 'F8 "Fuse locker feed"  15 A'],
      [
        'case working  sun 30 %, charge 50 %, all loads on',
        'case working  sun 30 %, charge 50 %, all loads off, FAN on',
      ],
      ['case noon     sun 100 %, charge 60 %, FRIDGE and FAN on', 'case noon     sun 100 %, charge 60 %'],
    ],
    slug: 'not-selective',
    severity: 'advice',
    subject: 'FB',
    words: '15 A',
    says: ['FB:7 is 15 A, but F8 before it is the same', 'may take'],
    figures: { ratedAmps: 15, beforeAmps: 15 },
  },
  {
    title: 'a fuse-board for less than its feed',
    changes: [['total 80 A', 'total 40 A']],
    slug: 'fusebox-total',
    severity: 'error',
    subject: 'FB',
    words: 'total 40 A',
    says: ['FB carries 40 A in all, but it is protected at 50 A (F8)'],
    figures: { totalAmps: 40, beforeAmps: 50, waysAmps: 63 },
  },
  {
    title: 'a spare larger than any fuse of the board',
    changes: [['    way 8 fuse 3 A\n', '    way 8 fuse 3 A\n    spares 1 x 30 A\n']],
    slug: 'spare-fuse-mismatch',
    severity: 'warning',
    subject: 'FB',
    words: 'spares 1 x 30 A',
    says: ['keeps spares of 30 A, but its fuses are 3 A, 5 A, 10 A and 15 A'],
    figures: { spareAmps: 30 },
  },
  {
    title: 'a breaker out of a house in place of a fuse',
    changes: [
      [
        'fuse F7                            40 A, bolt-in, 58 V, breaks 5 kA',
        'breaker F7                         40 A, 230 V ac, breaks 5 kA',
      ],
    ],
    slug: 'breaker-not-dc',
    severity: 'error',
    subject: 'F7',
    words: '230 V ac',
    says: ['F7 is rated 230 V ac, which is for alternating current only'],
    figures: { volts: 230 },
  },
  {
    title: 'a busbar for less than its main fuse',
    changes: [['busbar POS                    200 A', 'busbar POS                    100 A']],
    slug: 'connector-below-fuse',
    severity: 'error',
    subject: 'POS',
    words: '100 A',
    says: ['POS is rated 100 A, but its circuit is protected at', 'use one rated'],
    figures: { ratedAmps: 100 },
  },
  {
    title: 'the fuse of a lamp moved to its return',
    changes: [
      ['FB:2 to CABIN:+', 'B1:+ to CABIN:+'],
      ['NEG2 to CABIN:-', 'F99:in to CABIN:-'],
      [
        'run W48  = flat-4',
        'fuse F99 5 A, blade, 32 V, breaks 5 kA, in POWER-BOX\nrun W99 2.5 mm² black, 105 °C, 0.3 m, NEG2 to F99:out\nrun W48  = flat-4',
      ],
    ],
    slug: 'fuse-in-return',
    severity: 'error',
    subject: 'F99',
    words: 'F99',
    says: [
      'F99 is the only device of CABIN and stands in the negative, which is bonded to the body',
      'move it into W47',
    ],
  },
  {
    title: 'a second battery beside the first, before its fuse',
    changes: [
      ['total 80 A, breaks 3 kA', 'total 80 A, breaks 6 kA'],
      [
        'battery B1 "House battery"    lithium',
        'battery B9                    lithium-iron-phosphate, 12.8 V, 150 Ah, discharge 150 A, charge 75 A, internal 5 mΩ\n    frost cut-off, at GARAGE\nbattery B1 "House battery"    lithium',
      ],
      [
        'run W11  = lead-35 red, 0.15 m, along GARAGE, B1:+ to F1:in',
        'splice TWO\nrun W91 = lead-35 red, 0.3 m, along GARAGE, B1:+ to TWO\nrun W92 = lead-35 red, 0.3 m, along GARAGE, B9:+ to TWO\nrun W93 = lead-35 black, 0.3 m, along GARAGE, B9:- to SH1:battery\nrun W11  = lead-35 red, 0.15 m, along GARAGE, TWO to F1:in',
      ],
    ],
    slug: 'bank-fuse-each',
    severity: 'warning',
    subject: 'W91',
    words: 'W91',
    says: [
      'B9 can drive',
      'through W91 into B1 with no fuse on the way',
      'put a fuse at the positive of each of B1 and B9',
    ],
    figures: { batteries: 2 },
  },
  {
    title: 'the first fuse far from its battery',
    changes: [['run W24  = lead-10 red, 0.15 m', 'run W24  = lead-10 red, 3.2 m']],
    slug: 'protection-too-far',
    severity: 'error',
    subject: 'W24',
    words: '3.2 m',
    says: ['F3 is 3.2 m along the cable from B2', 'within 3 m', 'not checked against the printed standard'],
    figures: { metres: 3.2, limitMetres: 3 },
  },
  {
    title: 'a feed moved from behind its fuse to the battery',
    changes: [['FB:7 to HEATER:+', 'B1:+ to HEATER:+']],
    slug: 'supply-unfused',
    severity: 'error',
    subject: 'W53',
    words: 'W53',
    says: ['W53 feeds HEATER from B1 with no fuse or breaker on the way'],
  },
  {
    title: 'a heater that takes more when it starts than its fuse holds',
    changes: [['surge 120 W for 90 s', 'surge 300 W for 90 s']],
    slug: 'fuse-below-load',
    severity: 'warning',
    subject: 'FB',
    words: '15 A',
    says: ['FB:7 is 15 A, but 28.6 A flow through it for 90 s when HEATER starts', 'it opens within', 'fit 25 A'],
    figures: { deviceAmps: 15, takenAmps: 300 / 10.5, takenSeconds: 90 },
  },
  {
    title: 'a link between the batteries with one fuse',
    changes: [
      [
        '# ---- Heavy loads',
        `isolator Q4 1 pole, 100 A dc, 60 V, at ENGINE
fuse F9 30 A, bolt-in, 58 V, breaks 5 kA, at GARAGE
run W58 = lead-35 red, 0.4 m, along ENGINE, B2:+ to Q4:1
run W59 = lead-35 red, 5.2 m, along CAB, Q4:2 to F9:out
run W60 = lead-35 red, 0.2 m, along GARAGE, B1:+ to F9:in
# ---- Heavy loads`,
      ],
      ['FRIDGE and FAN on', 'FRIDGE and FAN on, Q4 off'],
      ['charge 40 %, FRIDGE on', 'charge 40 %, FRIDGE on, Q4 off'],
      ['charge 50 %, all loads on', 'charge 50 %, all loads on, Q4 off'],
      ['FRIDGE and HEATER on', 'FRIDGE and HEATER on, Q4 off'],
    ],
    slug: 'both-ends-need-protection',
    severity: 'error',
    subject: 'W59',
    words: 'W59',
    says: ['F9 alone stands between B1 and B2', 'the 5.6 m from B2 to it (W58 and W59)', 'within 3 m of B2'],
    figures: { nearMetres: 0.2, farMetres: 5.6, limitMetres: 3 },
  },
  // The network.
  {
    title: 'a link between plus and minus',
    changes: [
      [
        'run W5  = roof-cable red, 0.15 m, Q1:2 to PV-POS',
        'link Q1 2-4\nrun W5  = roof-cable red, 0.15 m, Q1:2 to PV-POS',
      ],
    ],
    slug: 'short-circuit',
    severity: 'error',
    subject: 'Q1',
    words: '2-4',
    says: ['The link 2-4 on Q1 joins P1:+ to P1:-'],
  },
  {
    title: 'a heater the wrong way round',
    changes: [
      ['30 W, surge 120 W for 90 s', '5 Ω'],
      ['NEG2 to HEATER:-', 'NEG2 to HEATER:+'],
      ['FB:7 to HEATER:+', 'FB:7 to HEATER:-'],
    ],
    slug: 'polarity-reversed',
    severity: 'error',
    subject: 'HEATER',
    words: 'HEATER:-',
    says: ['HEATER:+ is on B1’s negative side (B1:-)', 'swap them'],
  },
  {
    title: 'a bar that nothing leads back from',
    changes: [
      ['load HEATER', 'busbar LOST 50 A, in POWER-BOX\nload HEATER'],
      ['NEG2 to HEATER:-', 'LOST to HEATER:-'],
    ],
    slug: 'no-return',
    severity: 'error',
    subject: 'HEATER',
    words: 'HEATER:-',
    says: ['HEATER has no way back to B1', 'join LOST to NEG'],
  },
  {
    title: 'a load that is wired to its switch alone',
    changes: [
      [
        'load HEATER',
        'load BUZZER 1 W, at GARAGE\nswitch S9 1 pole, 10 A dc, 24 V, at GARAGE\nrun W90  = flat-25, 1 m, along GARAGE\n    red    S9:1 to BUZZER:+\n    black  S9:2 to BUZZER:-\nload HEATER',
      ],
    ],
    slug: 'no-source',
    severity: 'warning',
    subject: 'BUZZER',
    words: 'BUZZER',
    says: ['BUZZER is joined to no battery or other source'],
  },
  {
    title: 'a panel that the other can drive backwards',
    changes: [
      [
        'panel P1 and P2  = panel-120, at ROOF',
        'panel P1         = panel-120, at ROOF\npanel P2         = panel-120, most series fuse 6 A, at ROOF',
      ],
    ],
    slug: 'string-fuse-needed',
    severity: 'error',
    subject: 'P2',
    words: 'P2',
    says: ['6.9 A by P1', '6 A'],
    figures: { reverseAmps: 6.9, mostSeriesFuseAmps: 6 },
  },
  // Entries.
  {
    title: 'a gland removed',
    changes: [['PV-POS to U1:pv+\n    enters ROOF-BOX by E3', 'PV-POS to U1:pv+\n    enters ROOF-BOX open']],
    slug: 'entry-without-gland',
    severity: 'error',
    subject: 'W9',
    words: 'open',
    says: ['bare hole', 'M16 for 6.3 mm'],
    figures: { outerDiameterMm: 6.3 },
  },
  {
    title: 'a wall passed without a word',
    changes: [['PV-POS to U1:pv+\n    enters ROOF-BOX by E3', 'PV-POS to U1:pv+']],
    slug: 'entry-unstated',
    severity: 'warning',
    subject: 'W9',
    words: 'W9',
    says: ['passes the wall of ROOF-BOX'],
  },
  {
    title: 'a wall passed and not said how',
    changes: [['PV-POS to U1:pv+\n    enters ROOF-BOX by E3', 'PV-POS to U1:pv+\n    enters ROOF-BOX']],
    slug: 'entry-unstated',
    severity: 'warning',
    subject: 'W9',
    words: 'enters ROOF-BOX',
    says: ['enters ROOF-BOX, but it is not said how'],
  },
  {
    title: 'an entry that clamps thicker cables',
    changes: [
      [
        'entry E4                           in POWER-BOX, gland M32, 4 holes',
        'entry E4 in POWER-BOX, gland M32, 4 holes, clamps 5.1 to 7.8 mm',
      ],
      [
        '= lead-10 black, 0.8 m, along GARAGE, NEG to NEG2',
        '= lead-10 black, od 8 mm, 0.8 m, along GARAGE, NEG to NEG2',
      ],
    ],
    slug: 'gland-and-cable',
    severity: 'warning',
    subject: 'W41',
    words: 'by E4',
    says: ['W41 is 8 mm thick, but E4 clamps 5.1 to 7.8 mm'],
    figures: { outerDiameterMm: 8, mostMm: 7.8 },
  },
  {
    title: 'a gland larger than the holes',
    changes: [
      [
        'entry E7                           in POWER-BOX, gland M32',
        'entry E7                           in POWER-BOX, gland M40',
      ],
    ],
    slug: 'gland-and-knockout',
    severity: 'warning',
    subject: 'E7',
    words: 'gland M40',
    says: ['The gland M40 of E7 does not go into a hole of POWER-BOX, which has M32 ready'],
  },
  {
    title: 'a box with fewer holes',
    changes: [['knockouts 6 x M32', 'knockouts 3 x M32']],
    slug: 'more-entries-than-knockouts',
    severity: 'warning',
    subject: 'POWER-BOX',
    words: 'knockouts 3 x M32',
    says: ['has 3 holes M32 ready, but 4 glands of it go in'],
    figures: { knockouts: 3, glands: 4 },
  },
  {
    title: 'a blank left out',
    changes: [['knockouts 6 x M32', 'knockouts 6 x M32, blanks 1']],
    slug: 'knockout-left-open',
    severity: 'warning',
    subject: 'POWER-BOX',
    words: 'blanks 1',
    says: ['6 holes, of which 4 have glands and 1 a blank, so 1 is open'],
    figures: { open: 1 },
  },
  {
    title: 'a roof box for indoors',
    changes: [['enclosure ROOF-BOX  plastic, IP65', 'enclosure ROOF-BOX  plastic, IP43']],
    slug: 'box-ip-for-place',
    severity: 'warning',
    subject: 'ROOF-BOX',
    words: 'IP43',
    says: ['ROOF-BOX is IP43', 'at ROOF, out of doors'],
    figures: { water: 3, leastWater: 4 },
  },
  {
    title: 'an entry below its box',
    changes: [
      [
        'entry E1            in ROOF-BOX, gland M25, 2 holes',
        'entry E1            in ROOF-BOX, gland M25, 2 holes, IP54',
      ],
    ],
    slug: 'gland-ip-below-box',
    severity: 'warning',
    subject: 'E1',
    words: 'IP54',
    says: ['E1 is IP54', 'ROOF-BOX is IP65'],
  },
  // The language.
  {
    title: 'a terminal left out',
    changes: [['run W44  = signal-1 black, 0.8 m, along GARAGE, K1:85 to NEG2\n    enters POWER-BOX by E7\n', '']],
    slug: 'terminal-unconnected',
    severity: 'warning',
    subject: 'K1',
    words: 'K1',
    says: ['Nothing is connected to K1:85'],
  },
  {
    title: 'a stock there is not',
    changes: [['run W53  = flat-4', 'run W53  = flat-5']],
    slug: 'unknown-name',
    severity: 'error',
    subject: 'flat-5',
    words: 'flat-5',
    says: ['flat-4'],
  },
  {
    title: 'a terminal that the part does not have',
    changes: [['FB:8 to S1:1', 'FB:9 to S1:1']],
    slug: 'unknown-terminal',
    severity: 'error',
    subject: 'FB',
    words: '9',
    says: ['without a terminal “9”'],
  },
  {
    title: 'a comma among the digits',
    changes: [['0.3 h/day', '0,3 h/day']],
    slug: 'decimal-comma',
    severity: 'error',
    subject: 'PUMP',
    words: '0,3 h/day',
    says: ['0.3 h/day'],
  },
  {
    title: 'a number without its unit',
    changes: [['way 7 fuse 15 A', 'way 7 fuse 15']],
    slug: 'missing-unit',
    severity: 'error',
    subject: 'FB',
    words: '15',
    says: ['write 15 A'],
  },
  {
    title: 'a minus before a length',
    changes: [['run W53  = flat-4, 3.0 m', 'run W53  = flat-4, -3.0 m']],
    slug: 'impossible-value',
    severity: 'error',
    subject: 'W53',
    words: '-3.0 m',
    says: ['-3.0 m cannot be'],
  },
  {
    title: 'a gauge written with #',
    changes: [['run W53  = flat-4, 3.0 m', 'run W53  2 x #12, 3.0 m']],
    slug: 'hash-gauge',
    severity: 'error',
    subject: 'W53',
    words: '#12',
    says: ['12 AWG'],
  },
  {
    title: 'a statement indented',
    changes: [['\nload FRIDGE ', '\n  load FRIDGE ']],
    slug: 'indented-statement',
    severity: 'warning',
    subject: 'FRIDGE',
    words: 'load',
    says: ['margin'],
  },
  {
    title: 'a reserved word as a name',
    changes: [['chassis G2\n', 'chassis G2\nsplice all\n']],
    slug: 'reserved-name',
    severity: 'error',
    subject: 'all',
    words: 'all',
    says: ['all'],
  },
  {
    title: 'a name used twice',
    changes: [['chassis G2\n', 'chassis G2\nsplice G2\n']],
    slug: 'name-twice',
    severity: 'error',
    subject: 'G2',
    words: 'G2',
    says: ['G2'],
  },
  {
    title: 'an allow of what is not found any more',
    changes: [['# ---- Cases', 'allow drop-over-limit on W51 "the fan may be slow"\n# ---- Cases']],
    slug: 'allow-unused',
    severity: 'warning',
    subject: 'W51',
    words: 'drop-over-limit',
    says: ['take this allow out'],
  },
  {
    title: 'an allow without its reason',
    changes: [
      ['contact 60 A', 'contact 25 A'],
      [
        '# ---- Cases',
        'allow switch-below-fuse on K1 "it was tested at 40 A"\nallow drop-over-limit on W51\n# ---- Cases',
      ],
    ],
    slug: 'missing-required-clause',
    severity: 'error',
    subject: 'drop-over-limit',
    words: 'drop-over-limit on W51',
    says: ['why drop-over-limit is accepted'],
  },
];

describe('the van', () => {
  it('is clean', () => {
    expect(analysed(van)).toEqual([]);
  });

  it.each(faults)('with $title: $slug', ({ changes, slug, severity, subject, words, says, figures }) => {
    const text = changed(...changes);
    const found = analysed(text);
    expect(found.map((one) => `${one.slug} ${one.subject}`)).toEqual([`${slug} ${subject}`]);
    const [finding] = found;
    expect(finding?.severity).toBe(severity);
    expect(text.slice(finding?.place.span.start, finding?.place.span.end)).toBe(words);
    for (const said of says) expect(finding?.message).toContain(said);
    for (const [name, value] of Object.entries(figures ?? {})) expect(finding?.figures[name]).toBeCloseTo(value, 6);
  });

  it('with all rules of the electrics put to the test', () => {
    const shown = new Set(faults.map(({ slug }) => slug));
    const electrical = allRules.filter(({ group }) => group !== 'language' && group !== 'spec');
    expect(electrical.map(({ slug }) => slug).filter((slug) => !shown.has(slug))).toEqual([]);
    expect(faults.length).toBeGreaterThanOrEqual(25);
  });
});
