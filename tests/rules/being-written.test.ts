/** What is told while a statement is being written: one thing of what is half written, and nothing that only follows from it. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const lines = {
  system: 'system "Hut" 12 V, coldest -8 °C',
  battery: 'battery B1  agm, 12 V, 60 Ah',
  fuse: 'fuse F1  10 A, blade, 32 V, breaks 2 kA',
  bar: 'busbar NEG  100 A',
  load: 'load LAMP  12 W',
  feed: 'run W1  2.5 mm² red, 0.1 m, B1:+ to F1:in',
  out: 'run W2  2.5 mm² red, 2 m, F1:out to LAMP:+',
  back: 'run W3  2.5 mm² black, 2 m, LAMP:- to NEG',
  bond: 'run W4  2.5 mm² black, 0.3 m, NEG to B1:-',
  case: 'case dusk  LAMP on',
};
const hut = (written: Partial<typeof lines>) => `${Object.values({ ...lines, ...written }).join('\n')}\n`;
const told = (written: Partial<typeof lines>) =>
  analyseText(hut(written)).findings.map(({ slug, message }) => `${slug}: ${message}`);

const missing = 'missing-required-clause: ';
const ends = 'its two ends, such as “F1:out to LAMP:+”; write ? where a figure is not decided yet.';

const half: readonly (readonly [what: string, written: Partial<typeof lines>, found: readonly string[]])[] = [
  ['nothing', {}, []],
  [
    'a run of which the name stands',
    { back: 'run W3' },
    [`${missing}Run W3 must say its length, such as “4.2 m”; its size, such as “6 mm²” or “10 AWG”; ${ends}`],
  ],
  [
    'a run of which the size stands',
    { back: 'run W3  2.5 mm²' },
    [`${missing}Run W3 must say its length, such as “4.2 m”; ${ends}`],
  ],
  [
    'a run up to its colour',
    { back: 'run W3  2.5 mm² black,' },
    [`${missing}Run W3 must say its length, such as “4.2 m”; ${ends}`],
  ],
  [
    'a run without its ends',
    { back: 'run W3  2.5 mm² black, 2 m,' },
    ['end-missing: The core of W3 does not say where it goes: give its two ends, or say spare.'],
  ],
  [
    'a run up to the busbar that it begins at',
    { back: 'run W3  2.5 mm² black, 2 m, NEG' },
    ['unknown-clause: “NEG” is one end of a core: say the other too, as in “NEG to LAMP:+”.'],
  ],
  [
    'a run up to the part that it begins at',
    { back: 'run W3  2.5 mm² black, 2 m, LAMP' },
    ['unknown-clause: “LAMP” is one end of a core: say its terminal and the other end too, as in “F1:out to LAMP:+”.'],
  ],
  [
    'a run up to its to',
    { back: 'run W3  2.5 mm² black, 2 m, LAMP:- to' },
    ['unknown-clause: This is not finished: it reads like “P1:+ to Q1:1”.'],
  ],
  [
    'a run that the whole spec hangs on',
    { feed: 'run W1  2.5 mm² red, 0.1 m,' },
    ['end-missing: The core of W1 does not say where it goes: give its two ends, or say spare.'],
  ],
  [
    'a busbar for which no run is there yet',
    { bar: 'busbar NEG  100 A\nbusbar POS  100 A', bond: `${lines.bond}\nrun W5  2.5 mm² red, 1 m,` },
    ['end-missing: The core of W5 does not say where it goes: give its two ends, or say spare.'],
  ],
  [
    'a cable of two cores of which one stands',
    { out: 'run W2  2 x 2.5 mm², 2 m\n    red  F1:out to LAMP:+', back: '' },
    [
      'cores-miscounted: Run W2 has 2 cores by its size but says where one goes: write a line for each core, those not used as spare, or correct the size to 2.5 mm².',
    ],
  ],
  [
    'an inverter of which the name stands',
    { case: 'inverter INV' },
    [`${missing}Inverter INV must say its power, such as “350 W”; write ? where it is not decided yet.`],
  ],
  [
    'a breaker whose poles are not written yet',
    { fuse: 'breaker F1', feed: lines.feed.replace('in', '1'), out: lines.out.replace('out', '2') },
    [`${missing}Breaker F1 must say its rating, such as “40 A”; write ? where it is not decided yet.`],
  ],
  [
    'a load in a case',
    { case: 'case dusk  LAMP' },
    ['unknown-clause: “LAMP” is not finished: say LAMP on or LAMP off.'],
  ],
];

describe('while a statement is written', () => {
  it.each(half)('%s', (_, written, found) => {
    expect(told(written)).toEqual(found);
  });

  it('what its last words may say is not missed yet', () => {
    const slugs = (battery: string) =>
      analyseText(
        hut({
          battery: `battery B1  lithium-iron-phosphate, 12.8 V, ${battery}`,
          bond: `${lines.bond}
fuse F2  20 A, blade, 32 V, breaks 5 kA
charger U1  from mains, 14.4 V, 10 A, insulated case
run W5  4 mm² red, 0.2 m, B1:+ to F2:in
run W6  4 mm² red, 1 m, F2:out to U1:out+
run W7  4 mm² black, 1 m, NEG to U1:out-`,
        }),
      ).findings.map(({ slug }) => slug);
    expect(slugs('60 Ah')).toContain('lithium-charged-in-frost');
    expect(slugs('')).not.toContain('lithium-charged-in-frost');
  });

  it('what is wrong with the finished ones is told all the same', () => {
    const odd = { fuse: 'fuse F1  16 A, blade, 32 V, breaks 2 kA', back: 'run W3  2.5 mm² black, 2 m' };
    expect(analyseText(hut(odd)).findings.map(({ slug }) => slug)).toEqual(['fuse-odd-rating', 'end-missing']);
  });
});
