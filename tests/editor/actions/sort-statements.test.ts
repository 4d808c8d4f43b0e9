import { describe, expect, it } from 'vitest';
import { offering, titles } from './offering.ts';

const kind = 'source.sort';
const sorted = (text: string) => offering(`|${text}`, kind).chosen('Sort');

describe('sorting', () => {
  const mixed = `# The hut, by its owner.

# What holds for all.
system "Hut" 12 V

load LAMP  9 W  # by the door
run W1  1.5 mm² red, 0.1 m, B1:+ to F1:in
    # bought in spring
    105 °C

# ---- The battery ----

# Second-hand.
battery B1  agm, 12 V, 60 Ah
case night  LAMP on
run W2  1.5 mm² red, 2 m, F1:out to LAMP:+
fuse F1  5 A, blade
run W3  1.5 mm² black, 2 m, LAMP:- to B1:-
stock thin  cable 1.5 mm²

# The end.
`;

  it('brings sources, protection, runs and loads into their order, and every comment with its statement', () => {
    expect(sorted(mixed)).toBe(`# The hut, by its owner.

# What holds for all.
system "Hut" 12 V

stock thin  cable 1.5 mm²

# ---- The battery ----

# Second-hand.
battery B1  agm, 12 V, 60 Ah

fuse F1  5 A, blade

run W1  1.5 mm² red, 0.1 m, B1:+ to F1:in
    # bought in spring
    105 °C
run W2  1.5 mm² red, 2 m, F1:out to LAMP:+
run W3  1.5 mm² black, 2 m, LAMP:- to B1:-

load LAMP  9 W  # by the door

case night  LAMP on

# The end.
`);
  });

  it('sorts what is sorted no more', () => {
    expect(titles(offering(`|${sorted(mixed)}`, kind))).toEqual([]);
  });

  it('keeps the line ends of the file, and ends its last line', () => {
    expect(sorted('load LAMP  9 W\r\nbattery B1  agm, 12 V, 60 Ah')).toBe(
      'battery B1  agm, 12 V, 60 Ah\r\n\r\nload LAMP  9 W\r\n',
    );
  });

  it('is not offered while something cannot be read, or is said twice', () => {
    expect(titles(offering('|load LAMP  9 watt\nbattery B1  agm, 12 V, 60 Ah\n', kind))).toEqual([]);
    // The first of two is the one that counts.
    expect(titles(offering('|load X  9 W\nbattery X  agm, 12 V, 60 Ah\n', kind))).toEqual([]);
    expect(titles(offering('|load X  9 W\nsystem "A" 12 V\nsystem "B" 24 V\n', kind))).toEqual([]);
    expect(titles(offering('|load LAMP  9 W\nwhat is this\nbattery B1  agm, 12 V, 60 Ah\n', kind))).toEqual([]);
  });
});
