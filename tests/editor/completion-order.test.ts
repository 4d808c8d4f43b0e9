/** What stands first among the offers: what must still be said, what statements around say, what a fitter would do next. */
import { describe, expect, it } from 'vitest';
import { complete, labels } from './completing.ts';

const van = `system "Hut" 12 V

place LOFT  50 °C
place DEN   30 °C
stock feed  cable 4 mm²
stock main  cable 16 mm²
enclosure BOX  plastic, IP65, at DEN
enclosure POD  plastic, IP65, at LOFT

battery B1  agm, 12 V, 60 Ah, at DEN
fuse F1     60 A, bolt-in, 58 V, at DEN
isolator Q1  1 pole, 100 A dc, 48 V, at DEN
busbar NEG  100 A, at DEN
load LAMP   5 A, lowest 10.5 V, at LOFT
fuse F2     10 A, blade, 32 V, in POD

run W1  = main red, 0.2 m, along DEN, B1:+ to F1:in
run W2  = main black, 0.4 m, along DEN, B1:- to NEG
`;
const first = (line: string, count = 1, spec = van) => labels(complete(`${spec}${line}`)).slice(0, count);

/** A line below the van, the offers that stand first, and why. */
const likely: readonly (readonly [line: string, first: readonly string[], why: string])[] = [
  ['|', ['run', 'fuse', 'load'], 'rows go on'],
  ['run W3  |', ['= main', '= feed'], 'the stock that was taken last'],
  ['run W3  = |', ['main', 'feed'], 'the stock that was taken last'],
  ['run W3  = main red, 1 m, |', ['along'], 'what the run before says next'],
  ['run W3  = main red, 1 m, along |', ['DEN', 'LOFT'], 'where the run before lies'],
  ['run W3  = main red, 1 m, along DEN, |', ['F1:out'], 'the chain goes on behind the last fuse'],
  ['run W3  = main red, 1 m, along DEN, F1:out to |', ['LAMP:+', 'Q1:1'], 'of the pole that it has'],
  ['fuse F3  5 A, |', ['blade'], 'as the fuse before'],
  ['fuse F3  5 A, blade, |', ['32 V'], 'as the fuse before'],
  ['fuse F3  80 A, |', ['bolt-in'], 'no blade fuse is of 80 A'],
  ['fuse F3  80 A, bolt-in, 58 V, at |', ['LOFT', 'DEN'], 'where the nearest part stands'],
  ['fuse F3  blade, |', ['10 A'], 'its rating must be said'],
  ['load FAN  5 W, |', ['lowest'], 'as the load before'],
  ['load FAN  lowest 10 V, |', ['? A'], 'what it takes must be said'],
  ['isolator Q2  2 |', ['poles'], 'so few are counted'],
  ['isolator Q2  25 |', ['A'], 'so many are no poles'],
  ['fusebox FB  6 |', ['ways'], 'its ways must be said'],
  ['run W3  2.|', ['2.5 mm²'], 'the decimal point is being typed'],
  ['run W3  4 mm² red, 1 m, F2:out to LAMP:+\n    enters |', ['POD'], 'the box that the fuse stands in'],
  ['run W3  2 x 4 mm², 1 m\n    red  F2:out to LAMP:+\n    black  |', ['NEG'], 'the return begins at the bar'],
  ['run W3  2 x 4 mm², 1 m\n    red  F2:out to LAMP:+\n    black  NEG to |', ['LAMP:-'], 'both cores end at one part'],
  ['fuse F3  80 A, bolt-in, 58 V, |', ['in', 'at'], 'as its neighbours stand somewhere'],
  ['entry E1  in POD\nrun W3  4 mm² red, 1 m, F2:out to LAMP:+\n    enters POD by |', ['E1'], 'the entry is there'],
  ['chassis G1\ninverter INV  350 W\nrun W3  4 mm² green/yellow, 1 m, INV:case to |', ['G1'], 'a case is bonded'],
  ['load FAN  5 W\nrun W3  4 mm² red, 1 m, B1:+ to |', ['F2:in'], 'what leaves a battery is fused'],
  ['run W3  4 mm² black, 1 m, LAMP:- to |', ['NEG'], 'a minus goes to the bar of the minuses'],
];

describe('first comes what is likely', () => {
  it.each(likely)('%s', (line, offers, why) => {
    expect(first(line, offers.length), why).toEqual(offers);
  });

  it('where the statement is the first of its kind, in the order in which the reference writes it', () => {
    const begun = 'system "Hut" 12 V\nbattery B1  agm, 12 V, 60 Ah\nfuse F1  ? A\n';
    expect(first('run W1  |', 1, begun)).toEqual(['0.5 mm²']);
    expect(first('run W1  4 mm² red, 1 m, |', 1, begun)).toEqual(['B1:+']);
    expect(first('run W1  4 mm² red, 1 m, B1:+ to |', 1, begun)).toEqual(['F1:in']);
  });

  it('names that runs use and nothing declares are declared first, and used again', () => {
    const runs = 'run W3  = main red, 1 m, POS to F7:in\nrun W4  = main red, 1 m, F7:out to STOVE:+\n';
    const kinds = first(`${runs}# parts\n|`, 4);
    expect(kinds[0]).toBe('run');
    expect(kinds.slice(1)).toEqual(expect.arrayContaining(['fuse', 'load', 'busbar']));
    expect(first(`${runs}fuse |`, 2)).toEqual(['F7', 'F3']);
    expect(first(`${runs}load |`, 2)).toContain('STOVE');
    expect(first(`${runs}busbar |`)).toContain('POS');
    const ends = labels(complete(`${van}${runs}run W5  = main red, 1 m, |`));
    expect(ends).toContain('POS');
    expect(ends).not.toContain('STOVE');
  });

  it('an empty spec begins with its system, one with a system goes on with what all others name', () => {
    expect(first('|', 1, '')).toEqual(['system']);
    expect(first('|', 4, 'system "Hut" 12 V\n')).toEqual(['use', 'place', 'stock', 'battery']);
  });
});
