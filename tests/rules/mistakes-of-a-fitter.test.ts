/** A complete van with one mistake that fitters do make: one finding, at the words to change, whose fix leaves nothing behind. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';
import { applied } from './applied.ts';

const van = (name: string) => readFileSync(`tests/good-systems/${name}.amps`, 'utf8');
const vans = {
  panel: van('panel-van'),
  long: van('long-van'),
  overland: van('overland-truck'),
  small: van('small-camper'),
  split: van('split-charge-relay'),
  truck: van('truck-24-v'),
  cold: van('panels-in-the-cold'),
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
    title: 'a return that ends on the plus of its battery is told where it ends, and not as a feed without a fuse',
    in: 'panel',
    changes: [['B1:- to SH:battery', 'B1:+ to SH:battery']],
    finds: [['polarity-reversed', 'B1:+']],
    says: 'W4 ends on B1:+, which is positive, but leads to INV:- and U1:bat- and 11 more, which belong on the negative: move that end to B1:-, which nothing reaches.',
    fixes: ['Move it to B1:-'],
  },
  {
    title: 'a main fuse that ends on the minus of its battery is told there, and not by the colours behind it',
    in: 'panel',
    changes: [['B1:+ to F1:in', 'B1:- to F1:in']],
    finds: [['polarity-reversed', 'B1:-']],
    fixes: ['Move it to B1:+'],
  },
  {
    title: 'a starter battery with its return on its plus is in series with nothing',
    in: 'panel',
    changes: [['B2:- to G2', 'B2:+ to G2']],
    finds: [['polarity-reversed', 'B2:+']],
    fixes: ['Move it to B2:-'],
  },
  {
    title: 'a house battery whose return ends on its plus is told once, whatever else is driven then',
    in: 'split',
    changes: [['B2:- to NEG', 'B2:+ to NEG']],
    finds: [['polarity-reversed', 'B2:+']],
    fixes: ['Move it to B2:-'],
  },
  {
    title: 'a board fed from the minus of its battery is told once, whatever hangs on it',
    in: 'split',
    changes: [['B2:+ to F5:in', 'B2:- to F5:in']],
    finds: [['polarity-reversed', 'B2:-']],
    fixes: ['Move it to B2:+'],
  },
  {
    title: 'a coil with both its ends on the minus',
    in: 'split',
    changes: [['B1:+ to F4:in', 'B1:- to F4:in']],
    finds: [['polarity-reversed', 'B1:-']],
    says: 'leads to K1:86',
    fixes: ['Move it to B1:+'],
  },
  {
    title: 'a link of two banks that begins between two batteries in series',
    in: 'truck',
    changes: [['BT2:+ to F2:in', 'BT2:- to F2:in']],
    finds: [['polarity-reversed', 'BT2:-']],
    fixes: ['Move it to BT2:+'],
  },
  {
    title: 'a negative bar of a board on the positive bar',
    in: 'panel',
    changes: [['NEG to FB:neg', 'POS to FB:neg']],
    finds: [['polarity-reversed', 'POS']],
    fixes: ['Move it to NEG'],
  },
  {
    title: 'a fuse of a board on the negative bar',
    in: 'panel',
    changes: [['POS to F6:in', 'NEG to F6:in']],
    finds: [['polarity-reversed', 'NEG']],
    says: 'leads to LAMPS:+ and PUMP:+ and 5 more',
    fixes: ['Move it to POS'],
  },
  {
    title: 'an inverter with both its leads on the positive bar',
    in: 'panel',
    changes: [['NEG to INV:-', 'POS to INV:-']],
    finds: [['polarity-reversed', 'POS']],
    fixes: ['Move it to NEG'],
  },
  {
    title: 'a return of a charger on the positive bar puts no batteries in series',
    in: 'panel',
    changes: [['U2:in- to NEG', 'U2:in- to POS']],
    finds: [['polarity-reversed', 'POS']],
    fixes: ['Move it to NEG'],
  },
  {
    title: 'a lamp with both cores on the negative is told whatever their colours are',
    in: 'small',
    changes: [
      ['c15 red, 2 m, F2:out to LAMPS:+', 'c15 brown, 2 m, TN to LAMPS:+'],
      ['c15 black, 2 m, TN to LAMPS:-', 'c15 blue, 2 m, TN to LAMPS:-'],
    ],
    finds: [['polarity-reversed', 'TN']],
    fixes: ['Move it to F2:out'],
  },
  {
    title: 'the case of an inverter bonded to the positive bar is told as that alone',
    in: 'panel',
    changes: [['INV:case to G1', 'INV:case to POS']],
    finds: [['polarity-reversed', 'POS']],
    says: 'W10 ends on POS, which is positive, but leads to INV:case, which belongs on the body: move that end to G1.',
    fixes: ['Move it to G1'],
  },
  {
    title: 'the body on the positive bar puts no batteries in series',
    in: 'panel',
    changes: [['NEG to G1', 'POS to G1']],
    finds: [['polarity-reversed', 'POS']],
    fixes: ['Move it to NEG'],
  },
  {
    title: 'a second lead to the body, from the positive bar, is the one that makes a short',
    in: 'panel',
    changes: [],
    more: 'chassis G9\nrun W90  = c25 red, 0.3 m, POS to G9\n',
    finds: [['short-circuit', 'W90']],
  },
  {
    title: 'panels with nothing to part them are told once where the battery can be opened',
    in: 'small',
    changes: [
      [
        'isolator QP    2 poles, 16 A dc, 60 V, category DC-PV2, at CABIN\n',
        'isolator QB 1 pole, 50 A dc, 48 V, at CABIN\n',
      ],
      ['P1:+ to QP:1', 'P1:+ to U1:pv+'],
      ['P1:- to QP:3', 'P1:- to U1:pv-'],
      ['run W3  = pv4 red, 1 m, QP:2 to U1:pv+\n', ''],
      ['run W4  = pv4 black, 1 m, QP:4 to U1:pv-\n', ''],
      ['F1:out to U1:bat+', 'F1:out to QB:1'],
    ],
    more: 'run W90 = c4 red, 0.5 m, QB:2 to U1:bat+\n',
    finds: [['no-isolation', 'pv 50 V 20 A']],
  },
  {
    title: 'a panel the wrong way round in a string is told by what its string is joined to',
    in: 'cold',
    changes: [
      ['P1:- to P2:+', 'P1:- to P2:-'],
      ['P2:- to JN', 'P2:+ to JN'],
    ],
    finds: [['polarity-reversed', 'P2:-']],
    says: 'P2 is the wrong way round in its string with P1',
    fixes: ['Swap P2:+ and P2:-'],
  },
  {
    title: 'a panel the wrong way round at the beginning of its string makes no colour wrong',
    in: 'cold',
    changes: [
      ['P1:+ to JP', 'P1:- to JP'],
      ['P1:- to P2:+', 'P1:+ to P2:+'],
    ],
    finds: [['polarity-reversed', 'P1:-']],
    fixes: ['Swap P1:+ and P1:-'],
  },
  {
    title: 'a string the wrong way round beside another is told once, with both its ends',
    in: 'cold',
    changes: [
      ['P1:+ to JP', 'P1:+ to JN'],
      ['P2:- to JN', 'P2:- to JP'],
    ],
    finds: [['polarity-reversed', 'JN']],
    says: 'P1:+ is on U1’s negative side (U1:pv-) and P2:- on its positive (U1:pv+): swap the ends of W1 and W3 on JN and JP.',
    fixes: ['Swap the ends of W1 and W3 on JN and JP'],
  },
  {
    title: 'panel terminals of a controller that are swapped are told once, however many strings end there',
    in: 'cold',
    changes: [
      ['Q2:2 to U1:pv+', 'Q2:2 to U1:pv-'],
      ['Q2:4 to U1:pv-', 'Q2:4 to U1:pv+'],
    ],
    finds: [['polarity-reversed', 'U1:pv-']],
    fixes: ['Swap U1:pv+ and U1:pv-'],
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
  {
    title: 'a lamp with both cores on the negative is told with the fuse that nothing is joined to',
    in: 'small',
    changes: [['F2:out to LAMPS:+', 'TN to LAMPS:+']],
    // Both its ends are on one pole whatever the colours are, so it is no matter of colours.
    finds: [['polarity-reversed', 'TN']],
    says: 'move that end to F2:out, which nothing reaches.',
    fixes: ['Move it to F2:out'],
  },
  {
    title: 'a panel cable that is thinner than any may be is told by the fuse that it is to bear',
    in: 'small',
    changes: [['run W3  = pv4 red, 1 m', 'run W3  0.75 mm² red, 105 °C, outdoors, 1 m']],
    finds: [['cable-too-small', '0.75 mm²']],
  },
  {
    title: 'a battery of a bank that hangs on its plus only leaves its share to the other, and that is all',
    in: 'long',
    changes: [['run W5   = c50 black, 0.7 m, B1:- to BNEG\n', '']],
    finds: [['terminal-unconnected', 'B1']],
  },
  {
    title: 'a cable too small for its fuse loses too much as well, which a larger one mends with it',
    in: 'long',
    changes: [['run W38  = t4, 2 m', 'run W38  2 x 1.5 mm², 70 °C, 2 m']],
    finds: [['cable-too-small', '1.5 mm²']],
  },
  {
    title: 'cables in line with a switch and a splice between are told once',
    in: 'long',
    changes: [
      [
        'run W38  = t4, 2 m\n    red    FB:5   to PUMP:+\n    black  FB:neg to PUMP:-\n',
        `switch S1 1 pole, 20 A dc, 24 V, at BAY
splice JB
run W38 1.5 mm² red, 70 °C, 0.5 m, along BAY, FB:5 to S1:1
run W39 1 mm² red, 70 °C, 0.5 m, along BAY, S1:2 to PUMP:+
run W40 2.5 mm² black, 70 °C, 0.5 m, along BAY, FB:neg to JB
run W41 2.5 mm² black, 70 °C, 0.5 m, along BAY, JB to PUMP:-
`,
      ],
    ],
    finds: [['cable-too-small', '1 mm²']],
    says: 'use 2.5 mm² or larger, for W38 in line with it too, or a smaller fuse of 10 A.',
    fixes: ['Use 2.5 mm² for W39 and W38'],
  },
  {
    title: 'a feed of a fusebox that loses too much is told once, whatever hangs on it',
    in: 'panel',
    changes: [
      ['run W31  = c16 red, 1 m', 'run W31  16 mm² red, 105 °C, 4 m, along GARAGE'],
      ['run W32  = c16 black, 1 m', 'run W32  16 mm² black, 105 °C, 4 m, along GARAGE'],
    ],
    finds: [['drop-over-limit', '16 mm²']],
    says: 'W31 and W32 lose 0.28 V of it: use 50 mm² out and back, or shorten them.',
    fixes: ['Use 50 mm² out and back'],
  },
  {
    title: 'a feed of a fusebox that loses much more is told once with the size that the worst load wants',
    in: 'panel',
    changes: [
      ['run W31  = c16 red, 1 m', 'run W31  16 mm² red, 105 °C, 6 m, along GARAGE'],
      ['run W32  = c16 black, 1 m', 'run W32  16 mm² black, 105 °C, 6 m, along GARAGE'],
    ],
    finds: [['drop-over-limit', '16 mm²']],
    fixes: ['Use 70 mm² out and back'],
  },
  {
    title: 'the leads of an alternator on both sides of their fuse, and their returns, are told once',
    in: 'panel',
    changes: [
      ['run W20  = c70 red', 'run W20  35 mm² red, 105 °C'],
      ['run W21  = c70 red', 'run W21  35 mm² red, 105 °C'],
      ['run W22  = c70 black', 'run W22  35 mm² black, 105 °C'],
      ['run W23  = c70 black', 'run W23  35 mm² black, 105 °C'],
    ],
    finds: [['cable-too-small', '35 mm²']],
    says: 'use 70 mm² or larger, for W21 in line with it too, for its returns W22 and W23 too',
    fixes: ['Use 70 mm² for W20, W21, W22 and W23'],
  },
  {
    title: 'a lamp on a way that has no fuse',
    in: 'panel',
    changes: [['red    FB:1   to LAMPS:+', 'red    FB:9   to LAMPS:+']],
    finds: [['supply-unfused', '10 ways']],
    says: 'Something is fed from way 9 of FB, but no fuse is said for it',
  },
  {
    title: 'a load on the negative of another supply is to be joined to its own, and not that whole bar',
    in: 'overland',
    changes: [['FB:neg to ALARM:-', 'NEG to ALARM:-']],
    finds: [['no-return', 'ALARM:-']],
    says: 'join ALARM:- to FB:neg.',
  },
  {
    title: 'a shunt that is turned round is told once, and not for everything on it',
    in: 'panel',
    changes: [
      ['B1:- to SH:battery', 'B1:- to SH:load'],
      ['SH:load to NEG', 'SH:battery to NEG'],
    ],
    finds: [['bypasses-shunt', 'SH:load']],
    fixes: ['Swap SH:battery and SH:load'],
  },
  {
    title:
      'the two ends of a twin cable swapped at the fusebox are swapped there, since its colours are right at the lamp',
    in: 'panel',
    changes: [
      ['red    FB:1   to LAMPS:+', 'red    FB:neg to LAMPS:+'],
      ['black  FB:neg to LAMPS:-', 'black  FB:1   to LAMPS:-'],
    ],
    finds: [['polarity-reversed', 'FB:neg']],
    says: 'swap the ends of W33 on FB:neg and FB:1.',
    fixes: ['Swap the ends of W33 on FB:neg and FB:1'],
  },
  {
    title: 'a load for twice the voltage is not to be helped by a larger battery',
    in: 'panel',
    changes: [['load VENT    30 W, 3 h/day, lowest 11 V', 'load VENT    30 W, 3 h/day, lowest 22 V']],
    finds: [['load-below-lowest-voltage', 'lowest 22 V']],
    says: 'it is made for a higher voltage. Feed it by a converter that gives that, or fit one for 12.8 V.',
  },
  {
    title: 'bars that are too weak for what feeds them are told once for out and back',
    in: 'panel',
    changes: [
      ['busbar POS   300 A', 'busbar POS   200 A'],
      ['busbar NEG   300 A', 'busbar NEG   200 A'],
    ],
    finds: [['connector-below-fuse', '200 A']],
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
