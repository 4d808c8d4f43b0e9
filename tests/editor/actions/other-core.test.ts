import { describe, expect, it } from 'vitest';
import { offering, titles } from './offering.ts';

const kind = 'refactor.rewrite.core';
const hut = (runs: string, parts = '') => `system "Hut" 12 V

enclosure BOX  plastic, IP54
battery B1     agm, 12 V, 60 Ah
fuse F1        5 A, blade, 32 V, breaks 2 kA
busbar NEG     50 A
load LAMP      9 W
${parts}
run W1  6 mm² red, 0.1 m, B1:+ to F1:in
run W2  6 mm² black, 0.3 m, B1:- to NEG
${runs}`;

describe('the other core of a run', () => {
  const feed = `# to the lamp
run W3  1.5 mm² |red, 2 m, F1:out to LAMP:+  # kept
    105 °C
`;

  it('is laid beside it, from the other pole of the one end to that of the other', () => {
    const found = offering(hut(feed), kind);
    expect(titles(found)).toEqual([
      'Lay the negative beside W3: run W4, black, NEG to LAMP:-',
      'Make W3 a cable of two cores, 2 x 1.5 mm²: black core from NEG to LAMP:-; two cores warm each other',
    ]);
    expect(found.chosen('Lay')).toBe(
      hut(`${feed.replace('|', '')}run W4  1.5 mm² black, 2 m, NEG to LAMP:-\n    105 °C\n`),
    );
  });

  it('or in the same cable, a line for each core', () => {
    expect(offering(hut(feed), kind).chosen('Make')).toBe(
      hut(`# to the lamp
run W3  2 x 1.5 mm², 2 m  # kept
    105 °C
    red    F1:out to LAMP:+
    black  NEG    to LAMP:-
`),
    );
  });

  it('of a cable in stock is one that is like it but for its cores, if there is one', () => {
    const stock = 'stock one   cable 2.5 mm², 105 °C, od 3 mm\nstock flat  cable 2 x 2.5 mm², 105 °C, od 7 mm\n';
    const runs = 'run W3  = one brown, 2 m, |F1:out to LAMP:+\n';
    const found = offering(hut(runs, stock), kind);
    expect(found.chosen('Lay')).toBe(
      hut('run W3  = one brown, 2 m, F1:out to LAMP:+\nrun W4  = one blue, 2 m, NEG to LAMP:-\n', stock),
    );
    expect(found.chosen('Make')).toBe(
      hut('run W3  = flat, 2 m\n    brown  F1:out to LAMP:+\n    blue   NEG    to LAMP:-\n', stock),
    );
    const other = stock.replace('2 x 2.5 mm², 105', '2 x 2.5 mm², 70');
    expect(titles(offering(hut(runs, other), kind))).toHaveLength(1);
  });

  it('goes through the next pole of a switch, and can be the feed of a return', () => {
    const parts = 'isolator Q1    2 poles, 10 A dc\n';
    const runs =
      'run W3  1.5 mm² red, 1 m, F1:out to Q1:1\nrun W4  1.5 mm² |black, 2 m, LAMP:- to Q1:4\nrun W5  1.5 mm² black, 1 m, Q1:3 to NEG\n';
    expect(titles(offering(hut(runs, parts), kind))[0]).toBe('Lay the positive beside W4: run W6, red, LAMP:+ to Q1:2');
  });

  it('is not offered where it is there already, where no pole is free, or where the other pole is nowhere', () => {
    const none = (runs: string) => expect(titles(offering(hut(runs), kind))).toEqual([]);
    none(`${feed}run W4  1.5 mm² black, 2 m, NEG to LAMP:-\n`);
    none('run W3  6 |mm² green/yellow, 2 m, NEG to LAMP:-\n');
    none('run W3  2 x 1.5 mm², 2 m\n    red    F1:out |to LAMP:+\n    black  NEG to LAMP:-\n');
    none('run W3  1.5 mm² |red, 2 m, F1:out to NOWHERE\n');
    // The load has its way back, though the switch has a pole to spare.
    none(
      'switch S1      2 poles, 10 A dc\nrun W3  1.5 mm² red, 1 m, F1:out to S1:1\nrun W4  1.5 mm² |red, 1 m, S1:2 to LAMP:+\nrun W5  1.5 mm² black, 2 m, LAMP:- to NEG\n',
    );
  });
});
