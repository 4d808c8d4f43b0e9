/** Wiring that is wrong whatever the sizes, and what the answers say of it. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const base = [
  'system "Dray" 12 V',
  'battery B1 lead-acid, 12 V, 100 Ah',
  'fuse F1 10 A, blade, 32 V, breaks 5 kA',
  'run W1 2.5 mm² red, 0.2 m, B1:+ to F1:in',
];
const analysed = (...lines: string[]) => analyseText(`${[...base, ...lines].join('\n')}\n`);
const told = (...lines: string[]) => analysed(...lines).findings.map(({ slug, subject }) => `${slug} ${subject}`);

const panels = (first: string, second: string) => [
  'panel P1 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.6 A',
  'controller U1 pwm, pv 50 V 10 A, output 10 A',
  'run W2 4 mm² red, 1 m, F1:out to U1:bat+',
  'run W3 4 mm² black, 1 m, U1:bat- to B1:-',
  `run W4 4 mm² red, 2 m, P1:+ to ${first}`,
  `run W5 4 mm² black, 2 m, P1:- to ${second}`,
];

describe('a source shorted by its conductors', () => {
  it('is told once, and nothing of sizes beside it', () => {
    const lines = [
      'load LAMP 12 W',
      'run W2 2.5 mm² red, 1 m, F1:out to LAMP:+',
      'run W3 2.5 mm² black, 1 m, LAMP:- to B1:-',
    ];
    expect(told(...lines, 'run W4 2.5 mm² black, 1 m, LAMP:+ to B1:-')).toContain('short-circuit W4');
    const short = told(...lines, 'run W4 2.5 mm² black, 1 m, LAMP:+ to B1:-');
    expect(short.filter((one) => /cable-too-small|fuse-below-load/u.test(one))).toEqual([]);
    expect(told(...lines)).toEqual([]);
  });

  it('is told of the core whose colour is unlike all else where it ends', () => {
    const joints = (red: string, black: string) =>
      analysed(
        'splice JP and JN and JP2 and JN2',
        'load LAMP and FAN 1 A',
        'run W2 2.5 mm² red, 1 m, F1:out to JP',
        'run W3 2.5 mm² black, 1 m, JN to B1:-',
        `run W4 2.5 mm² red, 1 m, JP to ${red}`,
        `run W5 2.5 mm² black, 1 m, JN to ${black}`,
        'run W6 1 mm² red, 1 m, JP2 to LAMP:+',
        'run W7 1 mm² black, 1 m, JN2 to LAMP:-',
        'run W8 1 mm² red, 1 m, JP2 to FAN:+',
        'run W9 1 mm² black, 1 m, JN2 to FAN:-',
      ).findings.filter(({ slug }) => slug === 'short-circuit');
    expect(joints('JP2', 'JN2')).toEqual([]);
    expect(joints('JN2', 'JN2').map(({ subject }) => subject)).toEqual(['W4']);
    expect(joints('JP2', 'JP2').map(({ subject }) => subject)).toEqual(['W5']);
  });

  it('is not what a relay that changes over could do', () => {
    const relay = ['relay K1 coil 12 V 150 mA, contact 20 A', 'load MOTOR 3 A'];
    const found = told(
      ...relay,
      'run W2 2.5 mm² red, 1 m, F1:out to K1:87',
      'run W3 2.5 mm² black, 1 m, K1:87a to B1:-',
      'run W4 2.5 mm² red, 1 m, K1:30 to MOTOR:+',
      'run W5 2.5 mm² black, 1 m, MOTOR:- to B1:-',
      'run W6 1 mm² red, 1 m, F1:out to K1:86',
      'run W7 1 mm² black, 1 m, K1:85 to B1:-',
    );
    expect(found.filter((one) => /short-circuit|polarity|no-return/u.test(one))).toEqual([]);
  });
});

describe('polarity', () => {
  it('of a panel and an input is told of the one that has red on its minus', () => {
    // An isolator between would be told as crossed instead.
    const found = (first: string, second: string) =>
      told(...panels(first, second)).filter((one) => !one.startsWith('no-isolation'));
    expect(found('U1:pv+', 'U1:pv-')).toEqual([]);
    expect(found('U1:pv-', 'U1:pv+')).toEqual(['polarity-reversed U1']);
  });

  it('of batteries is told once, of the second', () => {
    const found = told(
      'battery B2 lead-acid, 12 V, 100 Ah',
      'run W2 2.5 mm² red, 1 m, F1:out to B2:-',
      'run W3 2.5 mm² black, 1 m, B2:+ to B1:-',
      'load LAMP 12 W',
      'run W4 2.5 mm² red, 1 m, F1:out to LAMP:+',
      'run W5 2.5 mm² black, 1 m, LAMP:- to B1:-',
    );
    expect(found.filter((one) => one.startsWith('polarity'))).toEqual(['polarity-reversed B2']);
  });
});

describe('a load without a way back', () => {
  const lines = (end: string) => [
    'splice NEG and LOST',
    'load LAMP 12 W',
    'run W2 2.5 mm² red, 1 m, F1:out to LAMP:+',
    `run W3 2.5 mm² black, 1 m, LAMP:- to ${end}`,
    'run W4 2.5 mm² black, 1 m, NEG to B1:-',
  ];

  it('is told, and has nothing across it', () => {
    const { findings, answers } = analysed(...lines('LOST'));
    expect(findings.map(({ slug, message }) => `${slug}: ${message}`)).toEqual([
      'no-return: LAMP has no way back to B1, so it gets nothing: join LOST to NEG.',
    ]);
    expect(answers.cases[0]?.parts.get('LAMP')?.volts).toBe(0);
  });

  it('has its voltage when it is joined, also when it is off', () => {
    const { findings, answers } = analysed(...lines('NEG'));
    expect(findings).toEqual([]);
    for (const { parts } of answers.cases) expect(parts.get('LAMP')?.volts).toBeGreaterThan(11.5);
  });

  it('may go back to the joint of batteries in series', () => {
    const found = told(
      'battery B2 lead-acid, 12 V, 100 Ah',
      'fuse F2 10 A, blade, 32 V, breaks 5 kA',
      'load LAMP 12 W',
      'run W2 4 mm² red, 0.2 m, B1:+ to B2:-',
      'run W3 4 mm² red, 0.2 m, B2:+ to F2:in',
      'run W4 4 mm² red, 1 m, F2:out to LAMP:+',
      'run W5 4 mm² black, 1 m, LAMP:- to F1:out',
    );
    expect(found.filter((one) => /no-return|polarity|short/u.test(one))).toEqual([]);
  });
});

describe('a case without an answer', () => {
  const relay = [
    'relay K1 coil 12 V 150 mA, contact 20 A',
    'run W20 2.5 mm² red, 1 m, F1:out to K1:30',
    'run W21 1 mm² red, 1 m, K1:87a to K1:86',
    'run W22 1 mm² black, 1 m, K1:85 to B1:-',
  ];
  const reversed = [
    'load LAMP and FAN 12 W',
    'run W2 2.5 mm² red, 1 m, F1:out to LAMP:-',
    'run W3 2.5 mm² black, 1 m, LAMP:+ to B1:-',
    'run W4 2.5 mm² red, 1 m, F1:out to FAN:+',
    'run W5 2.5 mm² black, 1 m, FAN:- to B1:-',
  ];
  const of = (findings: readonly { slug: string; message: string }[], rule: string) =>
    findings.filter(({ slug }) => slug === rule).map(({ message }) => message);

  it('is told with its trouble, those alike together', () => {
    const [first, ...more] = of(analysed(...relay).findings, 'case-unanswered');
    expect(more).toEqual([]);
    expect(first).toMatch(/^Cases loads-only.*have no answer, so nothing is checked there; K1 never comes to rest/);
  });

  it('is told by the load alone where that is the wrong way round', () => {
    const { findings } = analysed(...reversed);
    expect(findings.map(({ slug, subject }) => `${slug} ${subject}`)).toEqual(['polarity-reversed LAMP']);
    expect(findings[0]?.message).toContain(
      'swap them. Until then cases loads-only and sun-and-loads have no answer, so nothing is checked there.',
    );
  });

  it('is told where the load is meant to be the wrong way round, or something else is the reason', () => {
    const allow = (slug: string) => `allow ${slug} on LAMP "runs backwards"`;
    const accepted = analysed(...reversed, allow('polarity-reversed'));
    expect(of(accepted.findings, 'case-unanswered')[0]).toContain('nothing can feed LAMP');
    const both = analysed(...reversed, ...relay);
    expect(of(both.findings, 'case-unanswered')[0]).toContain('K1 never comes to rest');
    expect(of(both.findings, 'polarity-reversed').length).toBe(1);
  });
});

describe('behind a selector of two batteries', () => {
  const selected = (plus: string, minus: string, positions = 'positions 1 2 both') => [
    'battery B2 lead-acid, 12 V, 100 Ah',
    'fuse F2 10 A, blade, 32 V, breaks 5 kA',
    `selector S9 100 A, 48 V, ${positions}`,
    'load LAMP 12 W',
    'run W2 2.5 mm² red, 0.2 m, B2:+ to F2:in',
    'run W3 2.5 mm² red, 1 m, F1:out to S9:1',
    'run W4 2.5 mm² red, 1 m, F2:out to S9:2',
    'run W5 2.5 mm² black, 1 m, B1:- to B2:-',
    `run W6 4 mm² red, 1 m, S9:common to LAMP:${plus}`,
    `run W7 4 mm² black, 1 m, LAMP:${minus} to B1:-`,
  ];

  it('a load the wrong way round in every position is told, where it is', () => {
    for (const positions of ['positions 1 2 both', 'positions off 1 2']) {
      const { findings } = analysed(...selected('-', '+', positions));
      expect(findings.map(({ slug }) => slug)).toEqual(['polarity-reversed']);
      expect(findings[0]?.fixes.length).toBe(1);
      expect(told(...selected('+', '-', positions))).toEqual([]);
    }
  });

  it('a motor that two relays turn round is none', () => {
    const turned = (n: number, end: string) => [
      `relay K${n} coil 12 V 150 mA, contact 20 A`,
      `run W${n}1 2.5 mm² red, 1 m, F1:out to K${n}:87`,
      `run W${n}2 2.5 mm² black, 1 m, K${n}:87a to B1:-`,
      `run W${n}3 2.5 mm² red, 1 m, K${n}:30 to MOTOR:${end}`,
      `run W${n}4 1 mm² red, 1 m, F1:out to K${n}:86`,
      `run W${n}5 1 mm² black, 1 m, K${n}:85 to B1:-`,
    ];
    const found = told('load MOTOR 3 A', ...turned(1, '+'), ...turned(2, '-'));
    expect(found.filter((one) => one.startsWith('polarity'))).toEqual([]);
  });
});

describe('a load output', () => {
  it('that has to give more than is stated asks for no larger fuse', () => {
    const { findings } = analysed(
      ...panels('U1:pv+', 'U1:pv-').map((line) => line.replace('output 10 A', 'output 10 A, load output 8 A')),
      'load LAMP 12 W',
      'load KETTLE 150 W',
      'run W6 4 mm² red, 1 m, U1:load+ to LAMP:+',
      'run W7 4 mm² black, 1 m, LAMP:- to U1:load-',
      'run W8 4 mm² red, 1 m, U1:load+ to KETTLE:+',
      'run W9 4 mm² black, 1 m, KETTLE:- to U1:load-',
    );
    const fuses = findings.filter(({ slug }) => slug === 'fuse-below-load');
    expect(fuses.map(({ subject }) => subject)).toEqual(['U1']);
    expect(fuses[0]?.message).toContain('rated 8 A');
    expect(fuses[0]?.message).toContain('feed KETTLE from the battery with a fuse of its own');
    // 162 W at 0.875 × 12 V.
    expect(fuses[0]?.figures.designAmps).toBeCloseTo(162 / 10.5, 6);
  });
});

describe('two batteries in series', () => {
  const truck = (alternator: string, ...more: string[]) =>
    told(
      'battery BT1 and BT2 lead-acid, 12 V, 140 Ah',
      `alternator A1 ${alternator}, 80 A, fixed`,
      'fuse F2 100 A, bolt-in, 58 V, breaks 10 kA',
      'run W10 50 mm² red, 0.4 m, BT1:+ to BT2:-',
      'run W11 50 mm² red, 0.2 m, BT2:+ to F2:in',
      'run W12 50 mm² red, 1 m, F2:out to A1:+',
      'run W13 50 mm² black, 1 m, A1:- to BT1:-',
      ...more,
    ).filter((one) => one.startsWith('voltages-joined'));

  it('have the voltage of both where an alternator of that voltage charges them', () => {
    expect(truck('28.2 V')).toEqual([]);
    expect(truck('14.2 V')).toEqual(['voltages-joined BT2']);
    // A lamp on one of the two changes nothing of that.
    const tapped = [
      'load LAMP 5 A',
      'run W14 2.5 mm² red, 1 m, BT2:- to LAMP:+',
      'run W15 2.5 mm² black, 1 m, LAMP:- to BT1:-',
    ];
    expect(truck('28.2 V', ...tapped)).toEqual([]);
  });
});
