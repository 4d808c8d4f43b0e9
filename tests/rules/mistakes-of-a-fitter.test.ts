/** A complete van with one mistake that fitters do make: one finding, at the words to change, whose fix leaves nothing behind. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';
import { applied } from './applied.ts';

const van = (name: string) => readFileSync(`tests/good-systems/${name}.amps`, 'utf8');
const vans = {
  panel: van('panel-van'),
  small: van('small-camper'),
  split: van('split-charge-relay'),
  truck: van('truck-24-v'),
};

interface Mistake {
  readonly title: string;
  readonly in: keyof typeof vans;
  /** Words that stand there once, and what stands there by mistake. */
  readonly changes: readonly (readonly [from: string, to: string])[];
  readonly more?: string;
  /** All that is found: rule, and the words that are underlined. */
  readonly finds: readonly (readonly [slug: string, words: string])[];
  readonly says?: string;
  /** Titles of the fixes; each of them leaves nothing. */
  readonly fixes?: readonly string[];
}

const mistakes: readonly Mistake[] = [
  {
    title: 'a pump the wrong way round has no voltage that is too low besides',
    in: 'panel',
    changes: [
      ['red    S1:2   to PUMP:+', 'red    S1:2   to PUMP:-'],
      ['black  FB:neg to PUMP:-', 'black  FB:neg to PUMP:+'],
    ],
    finds: [['polarity-reversed', 'PUMP:-']],
    fixes: ['Swap PUMP:+ and PUMP:-'],
  },
  {
    title: 'a bare hole in a box whose ready holes are taken is mended by an entry that has room',
    in: 'panel',
    changes: [['P1:+ to QP:1\n    enters RB by E1', 'P1:+ to QP:1\n    enters RB open']],
    finds: [['entry-without-gland', 'open']],
    says: 'take it through E1, which has a free hole.',
    fixes: ['Enter by E1'],
  },
  {
    title: 'a second bond of the negative makes no cable of the loop too small',
    in: 'panel',
    changes: [],
    more: 'chassis G3\nrun W50  = c16 black, 1 m, FB:neg to G3\n',
    finds: [['negative-bonded-twice', 'W50']],
  },
  {
    title: 'the earth of a coil on the contact beside it is told as the short that it makes',
    in: 'split',
    changes: [['K1:85 to NEG', 'K1:87 to NEG']],
    finds: [['short-circuit', 'W15']],
    says: 'End it on K1:85, which nothing reaches, or take it out.',
    fixes: ['End W15 on K1:85'],
  },
  {
    title: 'a battery whose two leads are swapped by their colours is told itself',
    in: 'small',
    changes: [
      ['B1:+ to F1:in', 'B1:- to F1:in'],
      ['B1:- to U1:bat-', 'B1:+ to U1:bat-'],
    ],
    finds: [['polarity-reversed', 'B1:-']],
    says: 'B1:+ is on U1’s negative side (U1:bat-) and B1:- on its positive (U1:bat+): swap them.',
    fixes: ['Swap B1:+ and B1:-'],
  },
  {
    title: 'a panel the wrong way round is told itself, and not the isolator through which red goes on as red',
    in: 'small',
    changes: [
      ['P1:+ to QP:1', 'P1:- to QP:1'],
      ['P1:- to QP:3', 'P1:+ to QP:3'],
    ],
    finds: [['polarity-reversed', 'P1:-']],
    fixes: ['Swap P1:+ and P1:-'],
  },
  {
    title: 'an isolator with one side of the panels on each of its poles',
    in: 'small',
    changes: [
      ['QP:2 to U1:pv+', 'QP:3 to U1:pv+'],
      ['P1:- to QP:3', 'P1:- to QP:2'],
    ],
    finds: [['poles-crossed', 'QP:3']],
    says: 'but the cores on 2 and 3 are swapped',
    fixes: ['Swap QP:2 and QP:3'],
  },
  {
    title: 'no fuse before a controller whose positives are one wants one fuse',
    in: 'small',
    changes: [
      ['fuse F1  25 A, blade, 32 V, breaks 3 kA, at CABIN\n', ''],
      ['run W5  = c4 red, 0.2 m, B1:+ to F1:in\n', ''],
      ['F1:out to U1:bat+', 'B1:+ to U1:bat+'],
    ],
    finds: [['supply-unfused', 'W6']],
  },
];

function changed({ in: base, changes, more = '' }: Mistake): string {
  return changes.reduce((before, [from, to]) => {
    expect(before.split(from), from).toHaveLength(2);
    return before.replace(from, to);
  }, vans[base] + more);
}

describe.each(mistakes)('$title', (mistake) => {
  const text = changed(mistake);
  const { findings } = analyseText(text);

  it('is found once, where it is', () => {
    const all = findings.map(({ slug, place: { span } }) => [slug, text.slice(span.start, span.end)]);
    expect(all).toEqual(mistake.finds);
    if (mistake.says !== undefined) expect(findings[0]?.message).toContain(mistake.says);
  });

  it('is cured by each of its fixes', () => {
    const fixes = findings.flatMap((one) => one.fixes);
    if (mistake.fixes !== undefined) expect(fixes.map(({ title }) => title)).toEqual(mistake.fixes);
    for (const { title, edits } of fixes) {
      const after = applied({ 'spec.amps': text }, edits)['spec.amps'] ?? '';
      expect(
        analyseText(after).findings.map(({ slug }) => slug),
        title,
      ).toEqual([]);
    }
  });
});

describe('what works on a wide range of voltages', () => {
  const strip = (lowest: string) =>
    analyseText(`${vans.truck}fuse F90  5 A, blade, 32 V, breaks 10 kA, at CABIN
load STRIP  60 W, lowest ${lowest}, highest 32 V
run W90  = feed-6 red, 0.3 m, along CABIN, POS to F90:in
run W91  = feed-6 red, 2 m, along CABIN, F90:out to STRIP:+
run W92  = feed-6 black, 2 m, along CABIN, STRIP:- to NEG
`).findings.map(({ slug }) => slug);

  it('is reckoned with no less than its source ever has', () => {
    // 60 W at 9 V were 6.7 A; no truck’s bank falls to that.
    expect(strip('9 V')).toEqual([]);
    expect(strip('18 V')).toEqual([]);
  });
});

describe('a fuse in the negative of the only battery', () => {
  it('is not the only device of a starter motor, which needs none', () => {
    const text = `system "Cart" 12 V
battery B1 lead-acid, 12 V, 60 Ah, internal 8 mΩ
fuse F1 30 A, bolt-in, 58 V, breaks 5 kA
fuse F2 10 A, blade, 32 V, breaks 5 kA
load LAMP 24 W
load STARTER 150 A, cranking, for 5 s
chassis G1
run W1 16 mm² red, 105 °C, 0.3 m, B1:+ to F2:in
run W2 4 mm² red, 105 °C, 2 m, F2:out to LAMP:+
run W3 4 mm² black, 105 °C, 0.3 m, LAMP:- to G1
run W4 25 mm² red, 105 °C, 1 m, B1:+ to STARTER:+
run W5 25 mm² black, 105 °C, 0.3 m, STARTER:- to G1
run W6 16 mm² black, 105 °C, 0.2 m, B1:- to F1:in
run W7 16 mm² black, 105 °C, 0.4 m, F1:out to G1
`;
    expect(analyseText(text).findings.filter(({ slug }) => slug === 'fuse-in-return')).toEqual([]);
  });
});
