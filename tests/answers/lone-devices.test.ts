/** Ways between two batteries: one device at each is right, one alone is told by what is told of nothing else. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const base = [
  'system "Dray" 12 V',
  'battery B1 lead-acid, 12 V, 100 Ah',
  'battery B2 lead-acid, 12 V, 80 Ah',
  'run RET 35 mm² black, 1 m, B1:- to B2:-',
  'load LAMP 12 W',
  'fuse FL 5 A, blade, 32 V, breaks 5 kA',
  'run L1 2.5 mm² red, 0.1 m, B1:+ to FL:in',
  'run L2 2.5 mm² red, 1 m, FL:out to LAMP:+',
  'run L3 2.5 mm² black, 1 m, LAMP:- to B1:-',
];
const spec = (...lines: string[]) => `${[...base, ...lines].join('\n')}\n`;
const fuse = (name: string) => `fuse ${name} 100 A, bolt-in, 58 V, breaks 10 kA`;
/** Whether a fuse that something leads past opens, and what else there is to batteries that are joined, are other questions. */
const others = ['fuse-never-blows', 'not-selective', 'bank-unbalanced', 'bank-fuse-each', 'charging-drop'];
const findings = (text: string) =>
  analyseText(text)
    .findings.filter(({ slug }) => !others.includes(slug))
    .map(({ slug, subject, severity }) => `${slug} ${subject} ${severity}`);

/** B1, so many metres, a fuse, so many metres, B2. */
const single = (first: number, second: number, more = '') =>
  spec(
    fuse('F1'),
    `run W1 25 mm² red, ${first} m${more}, B1:+ to F1:in`,
    `run W2 25 mm² red, ${second} m${more}, F1:out to B2:+`,
  );

describe('a single device between two batteries', () => {
  it('is an error where the farther battery is beyond the limit, and nothing else is said of that length', () => {
    expect(findings(single(0.15, 3.01))).toEqual(['both-ends-need-protection W2 error']);
    expect(findings(single(3.01, 0.15))).toEqual(['both-ends-need-protection W1 error']);
    expect(findings(single(4, 5))).toEqual(['both-ends-need-protection W2 error']);
  });

  it('in the middle is a warning where both halves together are beyond it', () => {
    expect(findings(single(1.5, 1.5))).toEqual([]);
    expect(findings(single(1.51, 1.5))).toEqual(['both-ends-need-protection W1 warning']);
    expect(findings(single(2.9, 2.9))).toEqual(['both-ends-need-protection W2 warning']);
    const [found] = analyseText(single(1.6, 2.5)).findings;
    expect(found?.figures).toMatchObject({ nearMetres: 1.6, farMetres: 2.5, limitMetres: 3, device: 'F1' });
    expect(found?.message).toContain('F1 alone stands between B1 and B2, 1.6 m from one and 2.5 m from the other');
  });

  it('is judged by the limit of the set', () => {
    const iso = (text: string) =>
      text.replace('12 V\n', '12 V, limits iso-13297\n').replace('L1 2.5 mm² red, 0.1 m', 'L1 2.5 mm² red, 0.05 m');
    expect(findings(iso(single(0.1, 0.1)))).toEqual([]);
    expect(findings(iso(single(0.1, 0.11)))).toEqual(['both-ends-need-protection W2 warning']);
    expect(findings(iso(single(0.1, 0.21)))).toEqual(['both-ends-need-protection W2 error']);
    // Sheathed over all its length a cable may be 3 m.
    expect(findings(iso(single(0.1, 2.8, ', sheathed')))).toEqual([]);
    expect(findings(iso(single(0.1, 2.95, ', sheathed')))).toEqual(['both-ends-need-protection W2 warning']);
  });

  it('may be a breaker, with relays and isolators on the way', () => {
    const split = (device: string) =>
      spec(
        device,
        'isolator Q1 1 pole, 150 A dc, 60 V',
        'run W1 25 mm² red, 0.2 m, B1:+ to F1:in',
        'run W2 25 mm² red, 2.2 m, F1:out to Q1:1',
        'run W3 25 mm² red, 2.1 m, Q1:2 to B2:+',
      );
    expect(findings(split('breaker F1 100 A, 60 V dc, breaks 10 kA'))).toEqual(['both-ends-need-protection W2 error']);
    expect(findings(split(fuse('F1')))).toEqual(['both-ends-need-protection W2 error']);
  });

  it('is not told where there is a way past it: then nothing is between them', () => {
    expect(
      findings(
        `${single(0.2, 4)}run W3 25 mm² red, 4 m, B1:+ to B2:+
`,
      ),
    ).toEqual(['protection-too-far W2 error', 'supply-unfused W3 error']);
  });

  it('is left to the first device that is too far along the same cable, which one at the battery mends too', () => {
    expect(
      findings(
        spec(
          'busbar BAR 200 A',
          fuse('F1'),
          'fuse F2 10 A, blade, 32 V, breaks 5 kA',
          'load FAN 24 W',
          'run W1 25 mm² red, 0.15 m, B1:+ to F1:in',
          'run W2 25 mm² red, 0.3 m, F1:out to BAR',
          'run W3 25 mm² red, 4 m, BAR to B2:+',
          'run W4 6 mm² red, 0.2 m, BAR to F2:in',
          'run W5 6 mm² red, 1 m, F2:out to FAN:+',
          'run W6 6 mm² black, 1 m, FAN:- to B1:-',
        ),
      ),
    ).toEqual(['protection-too-far W3 error']);
  });

  it('drives nothing through a diode from behind', () => {
    const diode = (second: number) =>
      spec(
        'alternator A1 14.2 V, 70 A, fixed',
        'diode D1 120 A, 2 outputs',
        fuse('F1'),
        'run W1 25 mm² red, 1 m, A1:+ to D1:in',
        'run W2 25 mm² red, 0.4 m, D1:out2 to B2:+',
        `run W3 25 mm² red, ${second} m, D1:out to F1:out`,
        'run W4 25 mm² red, 0.2 m, F1:in to B1:+',
        'run W5 25 mm² black, 1 m, A1:- to B2:-',
      );
    expect(analyseText(diode(4)).answers.loneDevices).toEqual([]);
    expect(findings(diode(4))).not.toContain('both-ends-need-protection W3 error');
    expect(findings(diode(4)).filter((one) => one.startsWith('protection-too-far'))).toEqual([]);
  });
});

describe('a way between two batteries with a device at each', () => {
  const both = (middle: number) =>
    spec(
      fuse('F1'),
      fuse('F2'),
      'run W1 25 mm² red, 0.2 m, B1:+ to F1:in',
      `run W2 25 mm² red, ${middle} m, F1:out to F2:out`,
      'run W3 25 mm² red, 0.2 m, F2:in to B2:+',
    );

  it('is right, however long it is', () => {
    expect(findings(both(9))).toEqual([]);
  });

  it('is right with a charger between them', () => {
    expect(
      findings(
        spec(
          'charger U1 12 V, 18 A, common negative',
          'fuse F1 30 A, bolt-in, 58 V, breaks 10 kA',
          'fuse F2 30 A, bolt-in, 58 V, breaks 10 kA',
          'run W1 10 mm² red, 0.2 m, B2:+ to F1:in',
          'run W2 10 mm² red, 5 m, F1:out to U1:in+',
          'run W3 10 mm² red, 0.6 m, U1:out+ to F2:out',
          'run W4 10 mm² red, 0.2 m, F2:in to B1:+',
          'run W5 10 mm² black, 0.6 m, U1:in- to B1:-',
          'run W6 10 mm² black, 0.6 m, U1:out- to B1:-',
        ),
      ),
    ).toEqual([]);
  });

  it('needs none at the end of a source with a limit of its own, where the cable carries that', () => {
    const alternator = (size: string) =>
      spec(
        'alternator A1 14.2 V, 120 A, fixed',
        'fuse F1 60 A, bolt-in, 58 V, breaks 10 kA',
        `run W1 ${size} red, 105 °C, 5 m, A1:+ to F1:out`,
        'run W2 35 mm² red, 0.2 m, F1:in to B1:+',
        'run W3 35 mm² black, 1 m, A1:- to B1:-',
      );
    // The second battery has no cable here.
    const cables = (text: string) =>
      findings(text).filter((one) => !/^(fuse-below-load|terminal-unconnected) /u.test(one));
    expect(cables(alternator('35 mm²'))).toEqual([]);
    // Its fuse would suit the thin cable, but what the alternator gives does not (75 A in table 4E1A at 90 °C).
    expect(cables(alternator('10 mm²'))).toEqual(['cable-too-small W1 error']);
    const found = analyseText(alternator('10 mm²')).findings.find(({ slug }) => slug === 'cable-too-small');
    expect(found?.message).toContain('W1 is protected at 120 A (the output of A1)');
  });

  it('has the one that is too far told as that', () => {
    expect(findings(both(9).replace('W3 25 mm² red, 0.2 m', 'W3 25 mm² red, 3.2 m'))).toEqual([
      'protection-too-far W3 error',
    ]);
  });
});

describe('batteries that are one', () => {
  it('by a short link need none, in series none at the joint, and behind fuses at one bar have one each', () => {
    expect(findings(spec('run W1 25 mm² red, 0.4 m, B1:+ to B2:+'))).toEqual([]);
    expect(
      findings(
        `system "Dray" 24 V
battery B1 and B2 lead-acid, 12 V, 100 Ah
fuse F1 and F2 100 A, bolt-in, 58 V, breaks 10 kA
load LAMP 24 W
run W1 25 mm² black, 4 m, B1:+ to F1:in
run W2 25 mm² black, 4 m, F1:out to B2:-
run W3 25 mm² red, 0.2 m, B2:+ to F2:in
run W4 25 mm² red, 1 m, F2:out to LAMP:+
run W5 25 mm² black, 1 m, LAMP:- to B1:-
`,
      ),
    ).toEqual([]);
    expect(
      findings(
        spec(
          'busbar BAR 200 A',
          fuse('F1'),
          fuse('F2'),
          'run W1 25 mm² red, 0.3 m, B1:+ to F1:in',
          'run W2 25 mm² red, 3.5 m, F1:out to BAR',
          'run W3 25 mm² red, 3.5 m, BAR to F2:out',
          'run W4 25 mm² red, 0.3 m, F2:in to B2:+',
        ),
      ),
    ).toEqual([]);
  });
});
