/** The limits of the rules on cables, terminals and what is expected: just within nothing is found, just over it the finding. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

interface Lines {
  readonly system: string;
  readonly battery: string;
  readonly fuse: string;
  readonly load: string;
  readonly feed: string;
  readonly out: string;
  readonly back: string;
}

const usual: Lines = {
  system: 'system "Shed" 12 V',
  battery: 'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
  fuse: 'fuse F1 5 A, blade, 32 V, breaks 2 kA',
  load: 'load LAMP 1 A',
  feed: 'run W1 6 mm² red, 0.1 m, B1:+ to F1:in',
  out: 'run W2 6 mm² red, 1 m, F1:out to LAMP:+',
  back: 'run W3 6 mm² black, 1 m, LAMP:- to B1:-',
};

const lamp = (changes: Partial<Lines>, ...more: string[]) =>
  `${[...Object.values({ ...usual, ...changes }), ...more].join('\n')}\n`;

const set = (id: string) => `system "Shed" 12 V, limits ${id}`;
const thin = (words: string) =>
  lamp({ fuse: 'fuse F1 2 A, blade, 32 V, breaks 2 kA', out: `run W2 ${words}, F1:out to LAMP:+` });
const gauge = (id: string, words: string) => thin(words).replace(usual.system, set(id));

/** A charger of 20 A over so many metres of 10 mm² (1.91 Ω/km at 20 °C, IEC 60228 table 3) out and back. */
const charger = (metres: number) =>
  lamp(
    {},
    'charger U1 12 V, 20 A, from mains',
    'chassis G1',
    'fuse F2 30 A, blade, 32 V, breaks 2 kA',
    'run W4 10 mm² red, 0.5 m, B1:+ to F2:in',
    `run W5 10 mm² red, ${metres - 0.5} m, F2:out to U1:out+`,
    `run W6 10 mm² black, ${metres} m, U1:out- to B1:-`,
    'run W7 10 mm² green/yellow, 1 m, U1:case to G1',
    'case idle LAMP on',
  );

/** One panel, its plus in insulation for so much. */
const sun = (rated: string) =>
  lamp(
    { system: 'system "Shed" 12 V, coldest -10 °C' },
    'panel SUN 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.6 A, voc drift -0.3 %/°C',
    'isolator Q1 2 poles, 25 A dc, 150 V, category DC-PV2',
    'controller U1 mppt, pv 75 V 15 A, output 10 A, common negative',
    'fuse F2 15 A, blade, 32 V, breaks 2 kA',
    `run P2 6 mm² red, ${rated}, 2 m, SUN:+ to Q1:1`,
    'run P3 6 mm² black, 2 m, SUN:- to Q1:3',
    'run P4 6 mm² red, 2 m, Q1:2 to U1:pv+',
    'run P5 6 mm² black, 2 m, Q1:4 to U1:pv-',
    'run P6 6 mm² red, 0.5 m, U1:bat+ to F2:out',
    'run P7 6 mm² red, 0.2 m, F2:in to B1:+',
    'run P8 6 mm² black, 0.5 m, U1:bat- to B1:-',
  );

const stacked = (count: number, clause: string) =>
  lamp(
    { back: 'run W3 6 mm² black, 1 m, LAMP:- to NEG' },
    `busbar NEG 50 A, ${clause}`,
    'run N0 6 mm² black, 0.3 m, NEG to B1:-',
    ...Array.from({ length: count - 2 }, (_, i) => [
      `load L${i} 0.1 A`,
      `run P${i + 1} 6 mm² red, 1 m, F1:out to L${i}:+`,
      `run N${i + 1} 6 mm² black, 1 m, L${i}:- to NEG`,
    ]).flat(),
  );

const pairs: readonly {
  readonly limit: string;
  readonly within: string;
  readonly over: string;
  readonly found: string;
  readonly figures?: Readonly<Record<string, number>>;
}[] = [
  {
    limit: '1 mm² laid by itself',
    within: thin('1 mm² red, 0.3 m'),
    over: thin('0.99 mm² red, 105 °C, 0.3 m'),
    found: 'below-least-size W2 warning',
    figures: { areaMm2: 0.99, leastMm2: 1 },
  },
  {
    limit: '0.75 mm² in a sheath',
    within: thin('0.75 mm² red, sheathed, 0.3 m'),
    over: thin('0.74 mm² red, sheathed, 0.3 m'),
    found: 'below-least-size W2 warning',
  },
  {
    limit: 'a piece of 200 mm is let off',
    within: thin('0.75 mm² red, 0.2 m'),
    over: thin('0.75 mm² red, 0.21 m'),
    found: 'below-least-size W2 warning',
  },
  {
    limit: '16 AWG by itself',
    within: gauge('cfr-33-183', '16 AWG red, 1 ft'),
    over: gauge('cfr-33-183', '18 AWG red, 1 ft'),
    found: 'below-least-size W2 warning',
    figures: { leastMm2: 1.3087 },
  },
  {
    limit: 'a terminal for 6 mm²',
    within: lamp({ load: 'load LAMP 1 A, terminals 1 to 6 mm²' }),
    over: lamp({ load: 'load LAMP 1 A, terminals 1 to 5.9 mm²', back: 'run W3 4 mm² black, 1 m, LAMP:- to B1:-' }),
    found: 'terminal-too-small-for-cable W2 warning',
    figures: { areaMm2: 6, mostMm2: 5.9 },
  },
  {
    limit: 'a terminal from 6 mm² on',
    within: lamp({ load: 'load LAMP 1 A, terminals 6 to 16 mm²' }),
    over: lamp({ load: 'load LAMP 1 A, terminals 6.1 to 16 mm²', back: 'run W3 10 mm² black, 1 m, LAMP:- to B1:-' }),
    found: 'terminal-too-small-for-cable W2 warning',
    figures: { leastMm2: 6.1 },
  },
  {
    limit: 'a terminal for gauges',
    within: lamp({ load: 'load LAMP 1 A, terminals 14 to 6 AWG' }),
    over: lamp({ load: 'load LAMP 1 A, terminals 14 to 10 AWG', back: 'run W3 4 mm² black, 1 m, LAMP:- to B1:-' }),
    found: 'terminal-too-small-for-cable W2 warning',
  },
  {
    limit: 'a stud for 6 mm²: M12',
    within: lamp({ load: 'load LAMP 1 A, stud M12' }),
    over: lamp({ load: 'load LAMP 1 A, stud M16' }),
    found: 'stud-mismatch LAMP warning',
    figures: { threadMm: 16, mostMm: 12 },
  },
  {
    limit: 'a stud for 6 mm²: M4',
    within: lamp({ load: 'load LAMP 1 A, stud M4' }),
    over: lamp({ load: 'load LAMP 1 A, stud M3' }),
    found: 'stud-mismatch LAMP warning',
    figures: { threadMm: 3, leastMm: 4 },
  },
  {
    limit: 'four on one stud',
    within: stacked(4, '1 stud'),
    over: stacked(5, '1 stud'),
    found: 'too-many-on-one-stud NEG warning',
    figures: { cables: 5, most: 4 },
  },
  {
    limit: 'eight on two studs',
    within: stacked(8, '2 studs'),
    over: stacked(9, '2 studs'),
    found: 'too-many-on-one-stud NEG warning',
    figures: { cables: 9, most: 8 },
  },
  {
    limit: 'cables in parallel that differ by 5 %',
    within: lamp({}, 'run W4 6 mm² red, 1.05 m, F1:out to LAMP:+'),
    over: lamp({}, 'run W4 6 mm² red, 1.06 m, F1:out to LAMP:+'),
    found: 'parallel-cores-unequal W2 warning',
    figures: { timesTheResistance: 1.06, sharePercent: 100 / (1 + 1 / 1.06) },
  },
  {
    // 0.36 V / (20 A × 1.91 mΩ/m × 2) = 4.712 m.
    limit: '3 % between a charger and its battery',
    within: charger(4.7),
    over: charger(4.72),
    found: 'charging-drop W6 warning',
    figures: { limitPercent: 3, amps: 20, dropVolts: 2 * 4.72 * 0.00191 * 20 },
  },
  {
    // 12 V − 1 A × (15 mΩ + 2.1 m × 3.3 mΩ/m at 20 °C).
    limit: 'the lowest voltage of a load',
    within: lamp(
      { load: 'load LAMP 1 A, lowest 11.97 V' },
      'case on LAMP on, conductors at 20 °C'.replace('case on', 'case night'),
    ),
    over: lamp({ load: 'load LAMP 1 A, lowest 11.98 V' }, 'case night LAMP on, conductors at 20 °C'),
    found: 'load-below-lowest-voltage LAMP warning',
    figures: { lowestVolts: 11.98, volts: 12 - 0.015 - 2.1 * 0.0033 },
  },
  {
    limit: 'an expected voltage',
    within: lamp({}, 'case night LAMP on, conductors at 20 °C', 'expect LAMP voltage at least 11.978 V in night'),
    over: lamp({}, 'case night LAMP on, conductors at 20 °C', 'expect LAMP voltage at least 11.979 V in night'),
    found: 'expect-not-met LAMP warning',
    figures: { value: 12 - 0.015 - 2.1 * 0.0033, limit: 11.979 },
  },
  {
    limit: 'an expected current',
    within: lamp({}, 'case night LAMP on', 'expect F1 current at most 1 A'),
    over: lamp({}, 'case night LAMP on', 'expect F1 current at most 0.99 A'),
    found: 'expect-not-met F1 warning',
    figures: { value: 1 },
  },
  {
    limit: 'an expected current at a terminal and in a run',
    within: lamp({}, 'case night LAMP on', 'expect F1:out current at least 1 A', 'expect W2 current at least 1 A'),
    over: lamp({}, 'case night LAMP on', 'expect F1:out current at least 1.01 A'),
    found: 'expect-not-met F1:out warning',
  },
  {
    // 2.1 m × 3.3 mΩ/m × 1 A = 6.93 mV, 0.0578 % of 12 V.
    limit: 'an expected drop',
    within: lamp(
      {},
      'case night LAMP on, conductors at 20 °C',
      'expect LAMP drop at most 0.058 %',
      'expect W2 drop at most 0.0034 V',
    ),
    over: lamp({}, 'case night LAMP on, conductors at 20 °C', 'expect LAMP drop at most 0.057 %'),
    found: 'expect-not-met LAMP warning',
    figures: { value: (2.1 * 0.0033) / 12 },
  },
  {
    limit: 'an expected charge',
    within: lamp({}, 'case night charge 60 %, LAMP on', 'expect B1 charge at least 60 %'),
    over: lamp({}, 'case night charge 60 %, LAMP on', 'expect B1 charge at least 61 %'),
    found: 'expect-not-met B1 warning',
    figures: { value: 0.6, limit: 0.61 },
  },
  {
    limit: 'an expected temperature',
    within: lamp({}, 'case night LAMP on, conductors at 20 °C', 'expect W2 temperature at most 20 °C'),
    over: lamp({}, 'case night LAMP on, conductors at 20 °C', 'expect W2 temperature at most 19.9 °C'),
    found: 'expect-not-met W2 warning',
    figures: { value: 20 },
  },
  {
    limit: 'insulation for the voltage of its circuit',
    within: lamp({ out: 'run W2 6 mm² red, 12 V, 1 m, F1:out to LAMP:+' }),
    over: lamp({ out: 'run W2 6 mm² red, 11.9 V, 1 m, F1:out to LAMP:+' }),
    found: 'insulation-for-place W2 warning',
    figures: { ratedVolts: 11.9 },
  },
  {
    // 22 V × (1 + 0.003 × 35 K) = 24.31 V at -10 °C.
    limit: 'insulation for the voltage of panels in the cold',
    within: sun('24.4 V'),
    over: sun('24.3 V'),
    found: 'insulation-for-place P2 warning',
    figures: { ratedVolts: 24.3, circuitVolts: 22 * (1 + 0.003 * 35) },
  },
];

describe('just within and just over', () => {
  it.each(pairs)('$limit', ({ within, over, found, figures = {} }) => {
    const told = (text: string) =>
      analyseText(text).findings.map((one) => `${one.slug} ${one.subject} ${one.severity}`);
    expect(told(within)).toEqual([]);
    expect(told(over)).toEqual([found]);
    const [finding] = analyseText(over).findings;
    for (const [name, value] of Object.entries(figures)) expect(finding?.figures[name]).toBeCloseTo(value, 4);
  });
});

describe('an expectation', () => {
  const told = (...lines: string[]) =>
    analyseText(lamp({}, ...lines)).findings.map(({ slug, message }) => `${slug}: ${message}`);

  it('without a case holds in every one, and is told with the worst', () => {
    const cases = ['case night LAMP on', 'case low LAMP on, B1 at 11.5 V', 'case lower LAMP on, B1 at 11.4 V'];
    expect(told(...cases, 'expect LAMP voltage at least 11 V')).toEqual([]);
    const [found, ...more] = told(...cases, 'expect LAMP voltage at least 11.6 V');
    expect(more).toEqual([]);
    expect(found).toContain('The voltage of LAMP is 11.38 V in case lower, but at least 11.6 V is expected');
  });

  it('of a load says nothing where that is off', () => {
    const cases = [
      'switch S1 1 pole, 10 A dc, 24 V',
      'run W4 6 mm² red, 1 m, S1:2 to FAN:+',
      'load FAN 1 A',
      'run W5 6 mm² black, 1 m, FAN:- to B1:-',
      'run W6 6 mm² red, 1 m, F1:out to S1:1',
    ];
    const quiet = 'case quiet S1 off, LAMP on';
    expect(told(...cases, quiet, 'case busy all loads on', 'expect FAN voltage at least 11 V')).toEqual([]);
    // Where it is on in none, that is told.
    expect(told(...cases, quiet, 'expect FAN voltage at least 11 V')).toEqual([
      expect.stringMatching(/^expect-unchecked: FAN draws nothing in any case/),
    ]);
    expect(told(...cases, quiet, 'expect FAN voltage at least 11 V in quiet')).toHaveLength(1);
  });
});

describe('colours', () => {
  const slugs = (text: string) => analyseText(text).findings.map(({ slug, subject }) => `${slug} ${subject}`);

  it('black may be a plus where vehicles are wired so', () => {
    const black = lamp({ out: 'run W2 6 mm² black, 1 m, F1:out to LAMP:+' });
    expect(slugs(black)).toEqual(['colour-and-polarity W2']);
    expect(
      slugs(black.replace(usual.system, set('nec-310')).replace('black, 1 m, LAMP:-', 'white, 1 m, LAMP:-')),
    ).toEqual([]);
  });

  it('of links in series are free', () => {
    const series = (colour: string) =>
      lamp(
        { system: 'system "Shed" 24 V', back: 'run W3 6 mm² black, 1 m, LAMP:- to B2:-' },
        'battery B2 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
        `run W4 6 mm² ${colour}, 0.3 m, B1:- to B2:+`,
      );
    for (const colour of ['red', 'black', 'blue']) expect(slugs(series(colour))).toEqual([]);
  });

  it('of a core that is swapped are told once', () => {
    const text = lamp(
      {
        out: 'run W2 2 x 6 mm², 1 m\n    black F1:out to LAMP:+\n    red LAMP:- to NEG',
        back: 'run W3 6 mm² black, 1 m, NEG to B1:-',
      },
      'busbar NEG',
    );
    const [found, ...more] = analyseText(text).findings;
    expect(more).toEqual([]);
    expect(found?.message).toContain('The colours of W2 are swapped');
  });
});

describe('a reading', () => {
  const told = (...lines: string[]) =>
    analyseText(lamp({}, ...lines)).findings.map(({ slug, message }) => `${slug}: ${message}`);
  const reading = (words: string) => told(`reading 2026-04-18 ${words}`);

  it.each([
    // 1 m of 6 mm² is 3.3 mΩ; half an ohm more is let off.
    ['F1:out to LAMP:+ 0.5 Ω', 'F1:out to LAMP:+ 0.51 Ω', '0.003 Ω'],
    // 12.5 V − 1 A × (15 mΩ + 2.1 m × 3.3 mΩ/m); 3 % of 12 V is 0.36 V.
    ['LAMP:+ 12.15 V with LAMP on, B1 at 12.5 V', 'LAMP:+ 12.1 V with LAMP on, B1 at 12.5 V', '12.48 V'],
    ['LAMP:+ 12.8 V with LAMP on, B1 at 12.5 V', 'LAMP:+ 12.9 V with LAMP on, B1 at 12.5 V', '12.48 V'],
    ['F1:out to LAMP:+ 0.1 V with LAMP on', 'F1:out to LAMP:+ 0.11 V with LAMP on', 'loose or corroded joint'],
    // 1 A; 0.4 A are let off.
    ['F1:out 1.4 A with LAMP on', 'F1:out 1.41 A with LAMP on', 'what draws besides'],
    ['F1:out 0.6 A with LAMP on', 'F1:out 0.59 A with LAMP on', 'does not draw'],
    ['B1:+ to LAMP:+ continuity', 'B1:+ to LAMP:+ open', 'look for a broken core'],
  ])('%s is within, %s is not', (within, over, says) => {
    expect(reading(within)).toEqual([]);
    const [found, ...more] = reading(over);
    expect(more).toEqual([]);
    expect(found).toMatch(/^reading-outside-expectation: /);
    expect(found).toContain(says);
  });

  it('of half of what must be there, or the wrong way round, is found whatever the charge', () => {
    // 12 V − 0.07 V; half of that is 5.97 V.
    expect(reading('LAMP:+ 6 V with LAMP on')).toEqual([]);
    expect(reading('LAMP:+ 5.9 V with LAMP on').join()).toContain('look for a blown fuse or a broken core');
    expect(reading('LAMP:+ to LAMP:- -12.6 V').join()).toContain('two leads are swapped');
    // The probes the other way round, and no sign written.
    expect(reading('LAMP:- to LAMP:+ 12.6 V')).toEqual([]);
    expect(reading('LAMP:- to LAMP:+ -12.6 V')).toEqual([]);
    // A drop is small and has no sign that counts.
    expect(reading('F1:out to LAMP:+ -0.05 V with LAMP on')).toEqual([]);
  });

  it('goes by the batteries that drive its ends', () => {
    const lines = [
      'battery B2 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
      'fuse F2 5 A, blade, 32 V',
      'fuse F3 5 A, blade, 32 V',
      'switch S1 1 pole, 10 A dc, 24 V',
      'run W4 6 mm² red, 0.1 m, B2:+ to F2:in',
      'run W5 6 mm² red, 0.3 m, F2:out to S1:1',
      'run W6 6 mm² red, 0.3 m, S1:2 to F3:out',
      'run W7 6 mm² red, 0.1 m, F3:in to B1:+',
      'run W8 6 mm² black, 0.3 m, B2:- to B1:-',
    ];
    const found = (words: string) =>
      told(...lines, `reading 2026-04-18 ${words}`).filter((one) => one.startsWith('reading'));
    expect(found('LAMP:+ 9 V with LAMP on, S1 off, B1 at 12.5 V')).toHaveLength(1);
    expect(found('LAMP:+ 9 V with LAMP on, S1 off, B2 at 12.5 V')).toEqual([]);
    // Joined, either may be the one that is empty.
    expect(found('LAMP:+ 9 V with LAMP on, B1 at 12.5 V')).toEqual([]);
    expect(found('LAMP:+ 9 V with LAMP on, B1 at 12.5 V, B2 at 12.5 V')).toHaveLength(1);
    expect(found('S1:1 9 V with S1 off, B2 at 12.5 V')).toHaveLength(1);
  });

  it('through a switch goes by whether that was on', () => {
    const lines = [
      'switch S1 1 pole, 10 A dc, 24 V',
      'run W4 6 mm² red, 1 m, F1:out to S1:1',
      'run W5 6 mm² red, 1 m, S1:2 to LAMP:+',
    ];
    expect(told(...lines, 'reading 2026-04-18 S1:1 to S1:2 open with S1 off')).toHaveLength(1);
    const alone = lines
      .map((line) => line.replace('LAMP:+', 'FAN:+'))
      .concat('load FAN 1 A', 'run W6 6 mm² black, 1 m, FAN:- to B1:-');
    expect(told(...alone, 'reading 2026-04-18 S1:1 to S1:2 open with S1 off')).toEqual([]);
    expect(told(...alone, 'reading 2026-04-18 S1:1 to S1:2 open with S1 on')).toHaveLength(1);
  });

  it('that cannot be judged is left alone', () => {
    for (const words of [
      'LAMP:+ 9 V with LAMP on',
      'LAMP:+ to LAMP:- 900 Ω',
      'LAMP:+ to B1:- continuity',
      'LAMP:+ 12 Ω',
    ])
      expect(reading(words)).toEqual([]);
  });
});
