/** A good system with one fault put into it has the finding of that fault, and nothing that only follows from it. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

type Change = readonly [from: string | RegExp, to: string];

const van = (name: string) => readFileSync(`tests/good-systems/${name}.amps`, 'utf8');
const vans = { split: van('split-charge-relay'), truck: van('truck-24-v'), box: van('sun-lamp-box') };

function changed(text: string, changes: readonly Change[]): string {
  return changes.reduce((before, [from, to]) => {
    const after = before.replace(from, to);
    if (after === before) throw new Error(`“${from}” does not stand there`);
    return after;
  }, text);
}

const line = (start: string): Change => [new RegExp(`^${start} .*\\n`, 'mu'), ''];
const found = (text: string) => analyseText(text).findings;

interface Fault {
  readonly title: string;
  readonly in: keyof typeof vans;
  readonly changes?: readonly Change[];
  readonly more?: string;
  /** All that is found, by rule and subject. */
  readonly finds: readonly string[];
  readonly says?: string;
}

const past = 'run W90  = lead-4 red, 1 ft, along FLOOR, K1:30 to K1:87\n';

const faults: readonly Fault[] = [
  {
    title: 'a house battery of twice the voltage',
    in: 'split',
    changes: [['agm, 12 V', 'agm, 24 V']],
    finds: ['voltages-joined B2'],
    says: 'B2:+ (24 V) and B1:+ (12 V) are joined',
  },
  {
    title: 'a cable past the relay between two sorts of batteries',
    in: 'split',
    more: past,
    finds: ['batteries-mixed B2'],
  },
  {
    title: 'a second bond of the house negative',
    in: 'split',
    more: 'chassis G3\nrun W90  = lead-1 black, 2 ft, along FLOOR, NEG to G3\n',
    finds: ['negative-bonded-twice W90'],
  },
  {
    title: 'no fuse at the house end of the link',
    in: 'split',
    changes: [line('fuse F3'), line('run W9  '), ['F3:in to B2:+', 'K1:87 to B2:+']],
    finds: ['both-ends-need-protection W8'],
  },
  {
    title: 'no fuse at the engine end of the link',
    in: 'split',
    changes: [line('fuse F2'), line('run W7  '), ['F2:out to K1:30', 'B1:+ to K1:30']],
    finds: ['both-ends-need-protection W8'],
  },
  {
    title: 'no fuse on the link at all',
    in: 'split',
    changes: [
      line('fuse F2'),
      line('run W7  '),
      ['F2:out to K1:30', 'B1:+ to K1:30'],
      line('fuse F3'),
      line('run W9  '),
      ['F3:in to B2:+', 'K1:87 to B2:+'],
    ],
    finds: ['supply-unfused W8'],
  },
  {
    title: 'the output of the converter on the bar of the bank',
    in: 'truck',
    more: 'run W90  = feed-6 red, 0.5 m, along CABIN, U1:out+ to POS\n',
    finds: ['voltages-joined U1'],
    says: 'BT2:+ (24 V, BT1 and BT2 in series) and U1:out+ (12 V) are joined',
  },
  {
    title: 'an alternator of another system',
    in: 'truck',
    changes: [['28.2 V', '14.2 V']],
    finds: ['voltages-joined A1'],
  },
  {
    title: 'a battery of the bank that is half as large',
    in: 'truck',
    changes: [
      [
        /^battery B1 and B2 {4}agm, 12 V, 230 Ah(.*)$/mu,
        'battery B1  agm, 12 V, 230 Ah$1\nbattery B2  agm, 12 V, 115 Ah$1',
      ],
    ],
    finds: ['batteries-mixed B2'],
  },
  {
    title: 'a battery of another voltage in the bank',
    in: 'truck',
    changes: [
      [
        /^battery B1 and B2 {4}agm, 12 V, 230 Ah(.*)$/mu,
        'battery B1  agm, 12 V, 230 Ah$1\nbattery B2  agm, 6 V, 230 Ah$1',
      ],
    ],
    finds: ['voltages-joined B2'],
    says: 'B2:+ (18 V, B1 and B2 in series)',
  },
  {
    title: 'a second bond of the house negative of the truck',
    in: 'truck',
    more: 'chassis G3\nrun W90  = lead-70 black, 0.8 m, along CABIN, NEG to G3\n',
    finds: ['negative-bonded-twice W90'],
  },
  {
    title: 'panels that no plug parts',
    in: 'box',
    changes: [
      line('connector X1'),
      [/ {2}# finds: .*/u, ''],
      ['P1:+ to X1:1', 'P1:+ to U1:pv+'],
      ['P1:- to X1:2', 'P1:- to U1:pv-'],
      line('run W3  '),
      line('run W4  '),
    ],
    finds: ['no-isolation U1'],
    says: 'Nothing can part P1 from U1',
  },
];

describe.each(faults)('$title', ({ in: base, changes = [], more = '', finds, says }) => {
  it('is found once', () => {
    const findings = found(changed(vans[base], changes) + more);
    expect(findings.map(({ slug, subject }) => `${slug} ${subject}`)).toEqual(finds);
    if (says !== undefined) expect(findings[0]?.message).toContain(says);
  });
});

describe('a cable to a second battery from a bar that others hang on', () => {
  it('is to have a fuse at the battery; that of another circuit is not to be brought there', () => {
    const bar = `system "Dray" 12 V
battery B1 and B2 lead-acid, 12 V, 100 Ah
busbar BAR 200 A
fuse F1 100 A, bolt-in, 58 V, breaks 10 kA
fuse F2 10 A, blade, 32 V, breaks 5 kA
load FAN 24 W
run W1 25 mm² red, 0.15 m, B1:+ to F1:in
run W2 25 mm² red, 0.3 m, F1:out to BAR
run W3 25 mm² red, 4 m, BAR to B2:+
run W4 6 mm² red, 0.2 m, BAR to F2:in
run W5 6 mm² red, 1 m, F2:out to FAN:+
run W6 6 mm² black, 1 m, FAN:- to B1:-
run W7 25 mm² black, 0.3 m, B1:- to B2:-
`;
    const [far] = found(bar).filter(({ slug }) => slug === 'protection-too-far');
    expect(far?.message).toContain('put one on W3 within 3 m of B2, the closer the better (');
    const alone = bar
      .replace(/^run W[12] .*\n/gmu, '')
      .replace(/^fuse F1 .*\n/mu, '')
      .replace('B1 and B2', 'B2')
      .replaceAll('B1:-', 'B2:-')
      .replace(/^run W7 .*\n/mu, '');
    const [only] = found(alone).filter(({ slug }) => slug === 'protection-too-far');
    expect(only?.message).toContain('bring it within 3 m, the closer the better (');
  });
});

describe('a charger behind the house isolator, with a starter motor on its other side', () => {
  const charger = `charger U9  24 V, 20 A, from mains, insulated case, at CABIN
fuse F9     30 A, bolt-in, 58 V, breaks 10 kA, at CABIN
run W90  = feed-10 red, 0.5 m, along CABIN, U9:out+ to F9:out
run W91  = feed-10 red, 0.2 m, along CABIN, F9:in to POS
run W92  = feed-10 black, 0.5 m, along CABIN, U9:out- to NEG
`;

  it('turns no motor through it', () => {
    expect(found(vans.truck + charger)).toEqual([]);
  });

  it('does not hide that an isolator before the motor is to bear it', () => {
    const before = changed(vans.truck + charger, [['along CAB, BT2:+ to STARTER:+', 'along CAB, Q9:2 to STARTER:+']]);
    const own =
      'isolator Q9  1 pole, 600 A dc, 48 V, category DC-21B, at CAB\nrun W93  = lead-70 red, 0.2 m, along CAB, BT2:+ to Q9:1\n';
    expect(found(before + own).map(({ slug, subject }) => `${slug} ${subject}`)).toEqual(['switch-category Q9']);
  });
});

describe('two batteries side by side of which one gives more than its share', () => {
  const bank = (one: string, two: string, lead = '0.3 m') => `system "Bank" 12 V
battery B1 agm, 12 V, ${one}
battery B2 agm, 12 V, ${two}
busbar POS 500 A
busbar NEG 500 A
fuse F1 and F2 150 A, class-t, 125 V, breaks 20 kA
fuse F3 100 A, class-t, 125 V, breaks 20 kA
load HEATER 80 A, lowest 10.5 V
run W1 70 mm² red, 105 °C, 0.1 m, B1:+ to F1:in
run W2 70 mm² red, 105 °C, 0.3 m, F1:out to POS
run W3 70 mm² black, 105 °C, 0.3 m, B1:- to NEG
run W4 70 mm² red, 105 °C, 0.1 m, B2:+ to F2:in
run W5 70 mm² red, 105 °C, ${lead}, F2:out to POS
run W6 70 mm² black, 105 °C, ${lead}, B2:- to NEG
run W7 70 mm² red, 105 °C, 0.3 m, POS to F3:in
run W8 70 mm² red, 105 °C, 0.5 m, F3:out to HEATER:+
run W9 70 mm² black, 105 °C, 0.5 m, HEATER:- to NEG
`;
  const why = (...of: Parameters<typeof bank>) => {
    const findings = found(bank(...of));
    expect(findings.map(({ slug, subject }) => `${slug} ${subject}`)).toEqual(['bank-unbalanced B1']);
    return findings[0]?.message.split('because ')[1];
  };

  it('is told why: its leads, its resistance inside, or its capacity', () => {
    const alike = '100 Ah, internal 5 mΩ';
    expect(found(bank(alike, alike))).toEqual([]);
    expect(why(alike, alike, '3 m')).toContain('its leads are shorter than the others’: take plus and minus off');
    expect(why('100 Ah, internal 3 mΩ', '100 Ah, internal 6 mΩ')).toBe(
      'its resistance inside is lower than the others’: take batteries of one capacity and make.',
    );
    expect(why('100 Ah, internal 5 mΩ', '200 Ah, internal 5 mΩ')).toBe(
      'B1 (100 Ah) and B2 (200 Ah) are unlike, and the smaller’s resistance inside is too low for its size: take batteries of one capacity and make.',
    );
    expect(why('50 Ah, internal 8 mΩ', '200 Ah, internal 2 mΩ', '1.5 m')).toContain(
      'B1 (50 Ah) and B2 (200 Ah) are unlike and their leads are not in proportion',
    );
  });
});

describe('panels below the voltage that their battery is charged to', () => {
  const sun = (
    vmp: number,
    controller: string,
    battery = 'lead-acid, 12 V',
  ) => `system "Shed" 12 V, ambient 30 °C, coldest -10 °C
panel P1 100 W, voc 21.6 V, isc 6.4 A, vmp ${vmp} V, imp 5.9 A, voc drift -0.30 %/°C
controller U1 ${controller}, output 15 A, common negative
battery B1 ${battery}, 100 Ah, internal 12 mΩ
isolator Q1 2 poles, 25 A dc, 150 V, category DC-PV2
fuse F1 20 A, blade, 58 V, breaks 5 kA
run W1 4 mm² red, 3 m, P1:+ to Q1:1
run W2 4 mm² black, 3 m, P1:- to Q1:3
run W3 4 mm² red, 1 m, Q1:2 to U1:pv+
run W4 4 mm² black, 1 m, Q1:4 to U1:pv-
run W5 4 mm² red, 105 °C, 0.5 m, U1:bat+ to F1:out
run W6 4 mm² red, 105 °C, 0.1 m, F1:in to B1:+
run W7 4 mm² black, 105 °C, 0.5 m, U1:bat- to B1:-
`;
  const told = (text: string) =>
    found(text)
      .filter(({ slug }) => slug === 'pv-below-charging-voltage')
      .map(({ severity, message }) => `${severity}: ${message.split(': ')[1]}`);

  it('are to be in series where the controller bears and uses that, and else others', () => {
    // 17.2 V are 14.2 V with cells at 65 °C: a panel of 36 cells, which a pwm controller is for.
    expect(told(sun(17.2, 'pwm, pv 50 V 15 A'))).toEqual([]);
    const twice = 'put more panels in series, or take panels of a higher voltage.';
    expect(told(sun(17.2, 'mppt, pv 50 V 15 A'))).toEqual([`advice: ${twice}`]);
    expect(told(sun(14.8, 'mppt, pv 50 V 15 A'))).toEqual([`warning: ${twice}`]);
    expect(told(sun(14.8, 'mppt, pv 40 V 15 A'))).toEqual([
      'warning: take panels of a higher voltage; 2 in series are more than the 40 V it bears.',
    ]);
    expect(told(sun(14.8, 'pwm, pv 50 V 15 A'))).toEqual([
      'warning: take panels of a higher voltage; in series a pwm controller would waste what is too much.',
    ]);
    // For 24 V two of them in series are right with a pwm controller as well.
    expect(told(sun(18.6, 'pwm, pv 60 V 15 A', 'lead-acid, 24 V'))).toEqual([`warning: ${twice}`]);
  });
});
