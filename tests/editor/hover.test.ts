import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Analysis, analyse } from '../../server/analysis.ts';
import { diskSource, uriOf } from '../../server/cli/files.ts';
import { at as wordAt } from '../../server/editor/at.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';
import { analyseText } from '../analysed.ts';
import { placeOf, read, tablesIn } from './hovering.ts';

const shed = `# What keeps the dog warm.
system "Dog shed" 12 V, ambient 35 °C, coldest -12 °C
    limits iec-60364-5-52
place LEAN-TO  indoors, 40 °C
place BAY      engine space

# Behind the door.
battery B1 "Shed battery"  lead-acid, 12 V, 80 Ah, internal 5 mΩ, at LEAN-TO
fuse F1 "Main fuse"  15 A, blade, 32 V, breaks 1 kA
isolator Q1  2 poles, 20 A dc, 60 V, 2 in parallel 30 A
link Q1  1-3, 2-4
fusebox FB   2 ways, total 40 A
    way 1 fuse 5 A
    way 2 fuse 10 A
load LAMP "Reading lamp"  24 W, 4 h/day, lowest 11 V  # by the bench
load MAT     48 W, lowest 10.5 V

run W1  = lead red, 0.1 m, B1:+ to F1:in
run W2  = lead red, 1.2 m, F1:out to Q1:1
run W3  = lead red, 1.2 m, Q1:2 to FB:in
run W4  2 x 1.5 mm², 14 m, along LEAN-TO 2 m and BAY, bunched with 2
    red           FB:1 to LAMP:+
    green/yellow  B1:- to LAMP:-
    enters BOX by gland M20
run W5  1.5 mm² brown, 2 m, FB:2 to MAT:+
run W6  1.5 mm² blue, 2 m, MAT:- to B1:-
enclosure BOX  plastic, IP54
stock lead  cable 10 AWG, 105 °C

case night  sun 0 %, B1 charge 60 %, LAMP and MAT on
case noon   all loads off, B1 at 12.5 V
expect LAMP voltage at least 11 V in night
allow drop-over-limit on W4 "a lamp may be dim"
`;

const spec = analyseText(shed);
const at = (word: string, nth = 1) => placeOf(shed, word, nth);
const plain = (word: string, nth = 1, within = 0) => read(spec, at(word, nth) + within)?.value;
const marked = (word: string, nth = 1, within = 0) => read(spec, at(word, nth) + within, true)?.value;

describe('hover tells in plain text', () => {
  it('a run: cores, current, capacity with its factors, drop, loss, protection', () => {
    expect(plain('W4')).toMatchInlineSnapshot(`
      "W4: cable run

      2 x 1.5 mm², 14 m, along LEAN-TO 2 m and BAY, bunched with 2

      core          from, to        most current  in case  then good for  drop      loss    temperature
      red           FB:1 to LAMP:+  2.12 A        night    9.9 A          0.443 V   0.94 W  51 °C
      green/yellow  B1:- to LAMP:-  -2.12 A       night    9.9 A          -0.443 V  0.94 W  51 °C

      A minus means that the current flows from the second end to the first.

      Design current 2.18 A: case night, each load at its lowest voltage. Resistance 186 mΩ at 20 °C.

      Good for 9.9 A: 20 A by the table × 0.71 for 50 °C with insulation for 70 °C × 0.7 for 3 circuits together.

      BS 7671 (17th and 18th edition) table 4D1A; IEC 60364-5-52 table B.52.14; IEC 60364-5-52 table B.52.17, item 1 (BS 7671 table 4C1)

      Protected by FB:1 (5 A). That is 50.5 % of what it is good for. Serves LAMP.

      Short circuit at its far end: at least 25.1 A, cleared by FB:1 within 0.17 s, which lets 107 A²s through at most. It bears 29800 A²s (k²S², k 115).

      - Enters BOX by gland M20.

      - Accepted, “a lamp may be dim”: LAMP loses 0.94 V (7.8 %) from B1 and back in case night, more than 5 % (IEC 60364-5-52 table G.52.1, not checked against the printed standard); W4 loses 0.89 V of it: use 2.5 mm² there, or shorten it."
    `);
  });
  it('a run of one core, with its stock', () => {
    expect(plain('W2')).toMatchInlineSnapshot(`
      "W2: cable run

      = lead, 1.2 m

      from lead: 10 AWG, 105 °C

      core  from, to        most current  in case  then good for  drop     loss    temperature
      red   F1:out to Q1:1  6.13 A        night    58.8 A         0.026 V  0.16 W  36 °C

      Design current 6.75 A: case night, each load at its lowest voltage. Resistance 4.01 mΩ at 20 °C.

      Good for 58.8 A: 54.4 A by the table (reckoned from it, not read in it) × 1.08 for 35 °C with insulation for 105 °C × 1 for one circuit alone.

      BS 7671 (17th and 18th edition) table 4E1A; IEC 60364-5-52 table B.52.14

      Protected by F1 (15 A). That is 25.5 % of what it is good for. Serves LAMP and MAT.

      Short circuit at its far end: at least 1074 A, cleared by F1 within 0.7 ms, which lets 810 A²s through at most. It bears 212000 A²s (k²S², k 88)."
    `);
  });
  it('a fuse: what it protects, and how near', () => {
    expect(plain('F1')).toMatchInlineSnapshot(`
      "F1 “Main fuse”: fuse

      15 A, blade, 32 V, breaks 1 kA

      Rated 15 A, design current 6.75 A, 45 % of its rating.

      protects  good for  design current  rating to capacity
      W1 red    56.7 A    6.75 A          26.5 %
      W2 red    58.8 A    6.75 A          25.5 %
      W3 red    58.8 A    6.75 A          25.5 %

      Short circuit: at most 2381 A through it, cleared within 0.14 ms; it breaks 1000 A. At least 718 A, at the far end of W3: cleared within 1.6 ms.

      - Feeds LAMP, MAT.

      case   current
      night  6.13 A
      noon   0 A"
    `);
  });
  it('a fusebox: way by way', () => {
    expect(plain('FB')).toMatchInlineSnapshot(`
      "FB: fusebox (fuse-board)

      2 ways, total 40 A, way 1 fuse 5 A, way 2 fuse 10 A

      way  rated  design current  used    on it              weakest cable
      1    5 A    2.18 A          43.6 %  W4 red to LAMP:+   W4, 9.9 A
      2    10 A   4.57 A          45.7 %  W5 brown to MAT:+  W6, 17.3 A

      case   current
      night  6.13 A
      noon   0 A"
    `);
    expect(plain('way 2')).toMatchInlineSnapshot(`
      "FB:2

      Rated 10 A, design current 4.57 A, 45.7 % of its rating.

      protects  good for  design current  rating to capacity
      W6 blue   17.3 A    4.57 A          57.7 %
      W5 brown  18.7 A    4.57 A          53.5 %

      Short circuit: at most 1024 A through it, cleared within 0.34 ms; it breaks 1000 A as usual for its kind (not checked against the printed standard). At least 145 A, at the far end of W5: cleared within 17 ms.

      - Feeds MAT.

      fusebox: way

      The fuse in a way, or in several alike; and the largest the way takes. May stand several times.

      Form: (way ‹way› | ways ‹way› to ‹last›) fuse ‹rating› [most ‹most›]

      Example: way 3 fuse 10 A"
    `);
  });
  it('an isolator: which terminal goes to which, what is on each', () => {
    expect(plain('Q1')).toMatchInlineSnapshot(`
      "Q1: isolator (switch-disconnector)

      2 poles, 20 A dc, 60 V, 2 in parallel 30 A

      pole  from  on it                            to  on it                           design current  rated
      1     1     W2 red to F1:out, a bar to Q1:3  2   W3 red to FB:in, a bar to Q1:4  6.75 A          30 A
      2     3     a bar to Q1:1                    4   a bar to Q1:2                   6.75 A          30 A

      - Poles 1 and 2 are linked on both sides: together rated 30 A, as its maker states.
      - Protected by F1 (15 A).

      case   current
      night  6.13 A
      noon   0 A"
    `);
  });
  it('a load: its voltage case by case', () => {
    expect(plain('LAMP')).toMatchInlineSnapshot(`
      "LAMP “Reading lamp”: load (current-using equipment)

      24 W, 4 h/day, lowest 11 V

      Fed from B1 over W1, W2, W3 and W4. Design current 2.18 A.

      Protected by FB:1 (5 A).

      Worst in night: 0.941 V lost on the way, 7.8 % of 12 V; at least 11.31 V at its terminals in every case, and it works down to 11 V.

      terminal  for                   on it
      +         positive of the load  W4 red to FB:1
      -         negative of the load  W4 green/yellow to B1:-

      case   voltage  current  power  drop     drop %
      night  11.31 V  2.12 A   24 W   0.941 V  7.8 %
      noon   12.5 V   0 A      0 W    0 V      0 %"
    `);
  });
  it('a battery', () => {
    expect(plain('B1')).toMatchInlineSnapshot(`
      "B1 “Shed battery”: battery (secondary battery)

      Behind the door.

      lead-acid, 12 V, 80 Ah, internal 5 mΩ, at LEAN-TO

      Full, it lasts about 12 h at the 6.13 A of night (Peukert’s rule: exponent 1.2 and capacity rated over 20 h, usual for lead-acid; common practice, no source).

      terminal  for                      on it
      +         positive of the battery  W1 red to F1:in
      -         negative of the battery  W4 green/yellow to LAMP:-, W6 blue to MAT:-

      case   voltage  current  power
      night  12.25 V  6.13 A   75.1 W
      noon   12.5 V   0 A      0 W"
    `);
  });
  it('a terminal, and the part before its colon', () => {
    expect(plain('Q1:1', 1, 2)).toMatchInlineSnapshot(`
      "Q1:1 of an isolator: incoming terminal of pole 1, pairs with 2

      On it: W2 red to F1:out, a bar to Q1:3.

      - Goes to Q1:2 when closed, pole 1.

      Short circuit here: at most 1432 A to B1:-, at least 1074 A to B1:-.

      case   voltage
      night  12.22 V
      noon   12.5 V"
    `);
    expect(plain('Q1:1')).toBe(plain('Q1'));
    expect(plain('FB:1', 1, 3)).toMatchInlineSnapshot(`
      "FB:1 of a fusebox: way 1, behind its fuse

      On it: W4 red to LAMP:+.

      - Goes to FB:in through the device of way 1.

      Short circuit here: at most 1024 A to B1:-, at least 48.5 A to LAMP:-.

      case   voltage
      night  12.19 V
      noon   12.5 V

      Rated 5 A, design current 2.18 A, 43.6 % of its rating.

      protects         good for  design current  rating to capacity
      W4 red           9.9 A     2.18 A          50.5 %
      W4 green/yellow  9.9 A     2.18 A          50.5 %

      Short circuit: at most 1024 A through it, cleared within 0.086 ms; it breaks 1000 A as usual for its kind (not checked against the printed standard). At least 25.1 A, at the far end of W4: cleared within 0.17 s.

      - Feeds LAMP."
    `);
    expect(plain('B1:-', 1, 3)).toMatchInlineSnapshot(`
      "B1:- of a battery “Shed battery”: negative of the battery

      On it: W4 green/yellow to LAMP:-, W6 blue to MAT:-.

      Short circuit here: at most 2520 A to B1:+, at least 2320 A to B1:+.

      case   voltage
      night  0 V
      noon   0 V"
    `);
  });
  it('the bar of a link', () => {
    expect(plain('1-3')).toMatchInlineSnapshot(`
      "A bar from Q1:1 to Q1:3.

      - Poles 1 and 2 are linked on both sides: together rated 30 A, as its maker states.

      link: bar

      A bar between two terminals. Must be said. May stand several times.

      Form: ‹bar›

      Example: 1-3"
    `);
  });
  it('an enclosure, a place, a stock, a case', () => {
    expect(plain('BOX', 2)).toMatchInlineSnapshot(`
      "BOX: enclosure

      plastic, IP54

      Nothing stands in it.

      enters  by         outside diameter
      W4      gland M20"
    `);
    expect(plain('BAY')).toMatchInlineSnapshot(`
      "BAY: place

      engine space

      An engine space counts as 50 °C at least.

      - Cables along it: W4."
    `);
    expect(plain('lead', 4)).toMatchInlineSnapshot(`
      "lead: cable from stock

      10 AWG, 105 °C

      Taken by W1, W2, W3."
    `);
    expect(plain('night')).toMatchInlineSnapshot(`
      "night: case

      sun 0 %, B1 charge 60 %, LAMP and MAT on

      - Expected: LAMP voltage at least 11 V in night.

      part  voltage  current  power   drop %
      B1    12.25 V  6.13 A   75.1 W
      LAMP  11.31 V  2.12 A   24 W    7.8 %
      MAT   11.97 V  4.01 A   48 W    2.4 %"
    `);
    expect(plain('noon')).toMatchInlineSnapshot(`
      "noon: case

      all loads off, B1 at 12.5 V

      Nothing flows."
    `);
  });
  it('the installation', () => {
    expect(plain('"Dog shed"')).toMatchInlineSnapshot(`
      "Dog shed: 7 parts, 6 cables

      12 V, ambient 35 °C, coldest -12 °C, limits iec-60364-5-52"
    `);
    expect(plain('system')).toContain(plain('"Dog shed"'));
  });
  it('a colour, and the core it stands for', () => {
    expect(plain('green/yellow')).toMatchInlineSnapshot(`
      "green/yellow: core colour, GNYE in the letters of IEC 60757

      W4 green/yellow: B1:- to LAMP:-"
    `);
  });
  it('a finding that is accepted: its page, and what it accepts', () => {
    expect(plain('drop-over-limit')).toMatchInlineSnapshot(`
      "Too much voltage lost on the way

      At 12 V a lost volt is a twelfth of everything: lamps dim, a cooler cuts out while the battery is still half full, a heater does not start on a cold night.

      Of the supply’s nominal voltage, out and back, in the worst case: 3 % for essential loads (ISO 10133 annex C, confirmed), else 5 % with iec-60364-5-52 (IEC 60364-5-52 table G.52.1, not checked against the printed standard) or with nec-310 (NEC 210.19, confirmed), or 10 % with cfr-33-183 and iso-13297 (ISO 10133, not checked against the printed standard). A starter motor (cranking) must have its lowest stated voltage left at the current it cranks with (common practice, no source).

      - Accepted here: LAMP loses 0.94 V (7.8 %) from B1 and back in case night, more than 5 % (IEC 60364-5-52 table G.52.1, not checked against the printed standard); W4 loses 0.89 V of it: use 2.5 mm² there, or shorten it."
    `);
    expect(plain('W4', 2)).toContain('Accepted, “a lamp may be dim”: ');
  });
  it('words of statements and clauses', () => {
    expect(plain('run')).toMatchInlineSnapshot(`
      "run: cable run

      One physical cable: its size, its length, its way and its cores, a line each when there are several.

      run W1 6 mm² red, 4.2 m, P1:+ to Q1:1"
    `);
    expect(plain('parallel')).toMatchInlineSnapshot(`
      "isolator: parallel

      The maker’s current with poles linked in parallel. May stand several times.

      Form: ‹poles› in parallel ‹current›

      Example: 2 in parallel 40 A"
    `);
    expect(plain('lowest')).toMatchInlineSnapshot(`
      "load: lowest

      Lowest voltage it works at.

      Form: lowest ‹voltage›

      Example: lowest 11.0 V"
    `);
    expect(plain('along')).toMatchInlineSnapshot(`
      "run: along

      The places it lies in, with lengths if wanted; the warmest governs. May stand several times.

      Form: along ‹place› [‹length›] [and ‹place› [‹length›]]…

      Example: along LOFT 2.4 m and GARAGE 1.8 m"
    `);
    expect(plain('iec-60364-5-52')).toMatchInlineSnapshot(`
      "iec-60364-5-52: IEC 60364-5-52 with the capacities of BS 7671

      - Device: up to 100 % of the cable’s capacity.
      - Voltage drop: up to 5 %, by IEC 60364-5-52 table G.52.1: 5 % for uses other than lighting (not checked against the printed standard); 3 % where essential, by ISO 10133 annex C: 3 % for main feeders, navigation lights, pumps and other safety equipment.
      - Without a fuse: up to 3 m, by IEC 60364-4-43 clause 433.2.2: up to 3 m where the risk of short-circuit and fire is kept small (not checked against the printed standard).
      - A device at the far end of a thin tail: within 3 m, by IEC 60364-4-43 clauses 433.2.2 and 434.2.1 (not checked against the printed standard).
      - Bunches: a cable that carries no more than 30 % of its capacity does not count, by IEC 60364-5-52 clause 523.5: a cable expected to carry no more than 30 % of its grouped capacity (not checked against the printed standard).
      - Panels: rated for 1.25 times the short-circuit current, by IEC 62548: 1.25 times the sum of the short-circuit currents of the strings in parallel (not checked against the printed standard)."
    `);
  });
});

describe('hover tells in Markdown', () => {
  it('a run', () => {
    expect(marked('W4')).toMatchInlineSnapshot(`
      "**W4**: cable run

      2 x 1.5 mm², 14 m, along LEAN-TO 2 m and BAY, bunched with 2

      | core | from, to | most current | in case | then good for | drop | loss | temperature |
      | --- | --- | --: | --- | --: | --: | --: | --: |
      | red | FB:1 to LAMP:+ | 2.12 A | night | 9.9 A | 0.443 V | 0.94 W | 51 °C |
      | green/yellow | B1:- to LAMP:- | -2.12 A | night | 9.9 A | -0.443 V | 0.94 W | 51 °C |

      *A minus means that the current flows from the second end to the first.*

      Design current 2.18 A: case night, each load at its lowest voltage. Resistance 186 mΩ at 20 °C.

      Good for 9.9 A: 20 A by the table × 0.71 for 50 °C with insulation for 70 °C × 0.7 for 3 circuits together.

      *BS 7671 (17th and 18th edition) table 4D1A; IEC 60364-5-52 table B.52.14; IEC 60364-5-52 table B.52.17, item 1 (BS 7671 table 4C1)*

      Protected by FB:1 (5 A). That is 50.5 % of what it is good for. Serves LAMP.

      Short circuit at its far end: at least 25.1 A, cleared by FB:1 within 0.17 s, which lets 107 A²s through at most. It bears 29800 A²s (k²S², k 115).

      - Enters BOX by gland M20.

      - Accepted, “a lamp may be dim”: LAMP loses 0.94 V (7.8 %) from B1 and back in case night, more than 5 % (IEC 60364-5-52 table G.52.1, not checked against the printed standard); W4 loses 0.89 V of it: use 2.5 mm² there, or shorten it."
    `);
  });
  it('a fuse', () => {
    expect(marked('F1')).toMatchInlineSnapshot(`
      "**F1** “Main fuse”: fuse

      15 A, blade, 32 V, breaks 1 kA

      Rated 15 A, design current 6.75 A, 45 % of its rating.

      | protects | good for | design current | rating to capacity |
      | --- | --: | --: | --: |
      | W1 red | 56.7 A | 6.75 A | 26.5 % |
      | W2 red | 58.8 A | 6.75 A | 25.5 % |
      | W3 red | 58.8 A | 6.75 A | 25.5 % |

      Short circuit: at most 2381 A through it, cleared within 0.14 ms; it breaks 1000 A. At least 718 A, at the far end of W3: cleared within 1.6 ms.

      - Feeds LAMP, MAT.

      | case | current |
      | --- | --: |
      | night | 6.13 A |
      | noon | 0 A |"
    `);
  });
  it('a load', () => {
    expect(marked('LAMP')).toMatchInlineSnapshot(`
      "**LAMP** “Reading lamp”: load (current-using equipment)

      24 W, 4 h/day, lowest 11 V

      Fed from B1 over W1, W2, W3 and W4. Design current 2.18 A.

      Protected by FB:1 (5 A).

      Worst in night: 0.941 V lost on the way, 7.8 % of 12 V; at least 11.31 V at its terminals in every case, and it works down to 11 V.

      | terminal | for | on it |
      | --- | --- | --- |
      | + | positive of the load | W4 red to FB:1 |
      | - | negative of the load | W4 green/yellow to B1:- |

      | case | voltage | current | power | drop | drop % |
      | --- | --: | --: | --: | --: | --: |
      | night | 11.31 V | 2.12 A | 24 W | 0.941 V | 7.8 % |
      | noon | 12.5 V | 0 A | 0 W | 0 V | 0 % |"
    `);
  });
  it('a clause', () => {
    expect(marked('lowest')).toMatchInlineSnapshot(`
      "**load: lowest**

      Lowest voltage it works at.

      Form: \`lowest ‹voltage›\`

      Example: \`lowest 11.0 V\`"
    `);
  });
  it('texts of the spec so that they cannot break it', () => {
    const text = 'system "S" 12 V\nload L1 "a|b *c* `d` <e> [f](g)"  12 W\n';
    const { value = '' } = read(analyseText(text), text.indexOf('L1'), true) ?? {};
    expect(value.split('\n')[0]).toBe(
      '**L1** “a\\|b \\*c\\* \\`d\\` \\<e\\> \\[f\\](g)”: load (current-using equipment)',
    );
    const note = '# a note with | and `ticks` and *stars*\nload L1  12 W\n';
    expect(read(analyseText(note), note.indexOf('L1'), true)?.value.split('\n\n')[1]).toBe(
      '*a note with \\| and \\`ticks\\` and \\*stars\\**',
    );
  });
});

describe('a quantity', () => {
  it.each([
    [
      '6 mm²',
      'battery B1 lead-acid, 12 V, 80 Ah\nrun W1 6 mm² red, 1 m, B1:+ to B1:-',
      '6 mm² is between 10 AWG (5.26 mm²) and 8 AWG (8.37 mm²)',
    ],
    ['10 AWG', 'run W1 10 AWG red, 1 m, B1:+ to B1:-', '10 AWG is 5.26 mm², between 4 mm² and 6 mm²'],
    ['2/0 AWG', 'run W1 2/0 AWG red, 1 m, B1:+ to B1:-', '2/0 AWG is 67.43 mm², between 50 mm² and 70 mm²'],
    ['4 ft', 'run W1 6 mm² red, 4 ft, B1:+ to B1:-', '4 ft is 1.22 m'],
    ['6 inch', 'run W1 6 mm² red, 6 inch, B1:+ to B1:-', '6 inch is 152.4 mm'],
    ['4.2 m', 'run W1 6 mm² red, 4.2 m, B1:+ to B1:-', '4.2 m is 13.78 ft'],
    ['105 °C', 'run W1 6 mm² red, 1 m, 105 °C, B1:+ to B1:-', '105 °C is 221 °F'],
    ['95 °F', 'place P 95 °F', '95 °F is 35 °C'],
    ['24 W', 'system "S" 12 V\nload L 24 W', '24 W is 2 A at 12 V'],
    ['24 W', 'system "S" 24 V\nload L 24 W', '24 W is 1 A at 24 V'],
    ['10 A', 'system "S" 12 V\nfuse F 10 A', '10 A is 120 W at 12 V'],
    ['150 mA', 'system "S" 12 V\nrelay K coil 12 V 150 mA, contact 20 A', '150 mA is 0.15 A or 1.8 W at 12 V'],
    ['2 kA', 'fuse F 10 A, breaks 2 kA', '2 kA is 2000 A'],
    ['80 Ah', 'system "S" 12 V\nbattery B lead-acid, 12 V, 80 Ah', '80 Ah is 960 Wh at 12 V'],
    ['5 mΩ', 'battery B lead-acid, 12 V, 80 Ah, internal 5 mΩ', '5 mΩ is 0.005 Ω'],
  ])('%s in other units', (quantity, text, told) => {
    expect(read(analyseText(`${text}\n`), text.lastIndexOf(quantity))?.value.split('\n')[0]).toBe(told);
  });

  it.each(['12 V', '0 %'])('%s has no other unit that tells more', (quantity) => {
    const text = 'system "S" 12 V\ncase C sun 0 %\n';
    expect(read(analyseText(text), text.indexOf(quantity))?.value).toMatch(/^(system: voltage|case: sun)\n/);
  });

  it('left open tells what it would be, and why', () => {
    const text = shed.replace('15 A, blade', '? A, blade').replace('2 x 1.5 mm²', '2 x ? mm²');
    const open = analyseText(text);
    expect(read(open, text.indexOf('? A'))?.value).toMatchInlineSnapshot(`
      "Left open: it would be 7.5 A, the smallest standard rating for its design current of 6.8 A.

      fuse: rating

      Rated current In. Must be said.

      Form: ‹rating›

      Example: 80 A"
    `);
    expect(read(open, text.indexOf('? mm²'))?.value).toMatchInlineSnapshot(`
      "Left open: it would be 4 mm², the smallest standard size that is large enough so that LAMP does not lose too much on the way.

      run: size

      Cross-section or gauge of a conductor, with the number of cores before it when there are several.

      Form: [‹cores›] ‹size›

      Example: 2 x 2.5 mm²"
    `);
    expect(read(open, placeOf(text, 'F1'))?.value).toContain('Rated ? A (would be ');
    const alone = 'fuse F9  ? A, blade\n';
    expect(read(analyseText(alone), alone.indexOf('?'))?.value).toMatch(/^Left open\. Nothing here decides it yet\.\n/);
  });
});

describe('an answer that is not there', () => {
  it('is said to be missing, with its reason', () => {
    const text = `system "S" 12 V
battery B1  lead-acid, 12 V, 80 Ah, internal 500 mΩ
fuse F1  80 A, blade, 32 V
load L1  900 W
run W1  16 mm² red, 0.1 m, B1:+ to F1:in
run W2  16 mm² red, 1 m, F1:out to L1:+
run W3  16 mm² black, 1 m, L1:- to B1:-
case on  all loads on
`;
    const analysis = analyseText(text);
    expect(analysis.answers.cases.map(({ converged }) => converged)).toEqual([false]);
    for (const word of ['W2', 'L1', 'B1'])
      expect(read(analysis, placeOf(text, word))?.value).toMatch(/No answer in on: .+\./);
    expect(read(analysis, text.indexOf('on  all'))?.value).toMatch(/No answer: .+\./);
  });
});

/** Every word of a spec that is not a comma or a line end, with the statement it stands in. */
function* words(analysis: Analysis) {
  for (const statement of analysis.model.files[0]?.statements ?? [])
    for (const atom of statement.node.atoms)
      if (atom.kind !== 'comma' && atom.kind !== 'line')
        yield { statement, atom, start: statement.offset + atom.span.start, end: statement.offset + atom.span.end };
}

const samples = readdirSync('samples').filter((name) => name.endsWith('.amps'));
const all: readonly (readonly [string, Analysis])[] = [
  ['the shed', spec],
  ...samples.map((name) => [name, analyse(uriOf(resolve('samples', name)), diskSource())] as const),
];

describe.each(all)('in %s', (_, analysis) => {
  it('every word is told about, and the range is that word', () => {
    const silent = new Set<string>();
    for (const { atom, statement, start, end } of words(analysis)) {
      const told = read(analysis, start);
      if (told === undefined) {
        silent.add(atom.text);
        expect(
          statement.shaped.clauses.some(({ span }) => span.start <= atom.span.start && atom.span.end <= span.end),
        ).toBe(false);
        continue;
      }
      const word = analysis.text.slice(start, end);
      expect(told.words).toBe(atom.kind === 'terminal' ? atom.part : word);
      if (atom.kind === 'terminal') expect(read(analysis, end - 1)?.words).toBe(word);
      // The whole of a word tells the same.
      if (atom.kind !== 'terminal') expect(read(analysis, end - 1)).toEqual(told);
    }
    // Between the names of parts that are alike nothing is left to tell.
    expect([...silent].filter((word) => word !== 'and')).toEqual([]);
  });

  it('nothing is told in gaps, in comments and behind the end', () => {
    const covered = new Uint8Array(analysis.text.length + 1);
    for (const { start, end } of words(analysis)) covered.fill(1, start, end + 1);
    let gaps = 0;
    for (let offset = 0; offset <= analysis.text.length; offset += 1) {
      if (covered[offset] === 1) continue;
      gaps += 1;
      if (read(analysis, offset) !== undefined)
        expect(`${offset} ${analysis.text.slice(offset, offset + 20)}`).toBe('');
    }
    for (const { node, offset } of analysis.model.files[0]?.statements ?? [])
      for (const { span } of node.comments) expect(wordAt(analysis, offset + span.start + 1)).toBeUndefined();
    expect(gaps).toBeGreaterThan(String(analysis.text).match(/#/g)?.length ?? 0);
  });

  it('both writings are whole: no figure that is none, no broken table, nothing empty', () => {
    for (const { start } of words(analysis)) {
      const text = read(analysis, start)?.value;
      const markdown = read(analysis, start, true)?.value;
      if (text === undefined || markdown === undefined) continue;
      for (const one of [text, markdown]) {
        expect(one).not.toMatch(/undefined|NaN|Infinity|\[object|null/);
        expect(one).not.toMatch(/\n\n\n|^\n|\n$|[ \t]\n/);
      }
      expect(text).not.toMatch(/\*\*|^\| /m);
      for (const { head, rows } of tablesIn(markdown)) for (const row of rows) expect(row.length).toBe(head.length);
    }
  });
});

describe('a run in air as warm as it may get', () => {
  const goodFor = (limits: string, ambient: string) => {
    const text = `system "Oven" 12 V, ambient ${ambient}, limits ${limits}
battery B1 agm, 12 V, 80 Ah
load LAMP 9 W
run W1 10 AWG red, 2 m, B1:+ to LAMP:+
run W2 10 AWG black, 2 m, B1:- to LAMP:-
`;
    return /^Good for .*$/m.exec(read(analyseText(text), placeOf(text, 'W1'))?.value ?? '')?.[0];
  };

  it('is told why it is good for nothing', () => {
    expect(goodFor('iec-60364-5-52', '70 °C')).toBe(
      'Good for 0 A: at 70 °C the air is as warm as its insulation may get (70 °C).',
    );
    // That table has insulation of 60 and 75 °C, and none between.
    expect(goodFor('cfr-33-183', '60 °C')).toBe(
      'Good for 0 A: at 60 °C the table leaves no current for insulation of 70 °C.',
    );
  });
});

describe('the vocabulary', () => {
  const clauses = [...vocabulary.statements.values()].flatMap((statement) =>
    statement.clauses.map((clause) => ({ word: statement.word, statement, clause, id: clause.id })),
  );

  it.each([...vocabulary.statements.values()].map((statement) => ({ word: statement.word, statement })))(
    'tells what $word means',
    ({ word, statement }) => {
      const text = `${statement.example}\n`;
      // A cable is only ever in stock.
      const told = read(analyseText(text), placeOf(text, word));
      expect(told?.words).toBe(word);
      expect(told?.value).toContain(statement.meaning);
      expect(told?.value).toContain(statement.example);
    },
  );

  it.each(clauses)('tells what $id of $word means', ({ statement, clause }) => {
    const head = statement.head === 'none' ? statement.word : `${statement.word} NAME`;
    const text = `${head}  ${clause.example}\n`;
    const analysis = analyseText(text);
    const found = [...words(analysis)].filter(({ start }) => start >= head.length);
    expect(found.length).toBeGreaterThan(0);
    const told = found.map(({ start, atom }) => ({
      word: atom.text,
      value: read(analysis, start)?.value ?? read(analysis, start + atom.text.length - 1)?.value,
    }));
    // What names another thing tells of that thing, and of nothing while it is not there.
    const speaking = told.filter(({ value }) => value?.includes(clause.meaning));
    if (clause.id.endsWith('colour'))
      expect(told.map(({ value }) => value)).toEqual([expect.stringMatching(/core colour/)]);
    else expect(speaking.length > 0 ? [] : told).toEqual([]);
  });
});

it('the samples are all there', () => {
  expect(samples.length).toBeGreaterThanOrEqual(5);
  for (const name of samples) expect(readFileSync(`samples/${name}`, 'utf8').length).toBeGreaterThan(0);
});
