/** The tree prints back to its text: examples of the notation, in every sort of line end and spacing. */
import { describe, expect, it } from 'vitest';
import { parseDocument } from '../../grammar/parse.ts';
import { printStatement } from '../../grammar/printer.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';
import { checkTree } from './invariants.ts';

const examples = [...vocabulary.statements.values()].flatMap(({ example, clauses }) => [
  example,
  ...clauses.map((one) => one.example),
]);

const spec = `# A travelling bicycle workshop: two days away from the mains.
system "Spokewagon" 12 V
    ambient 35 °C, coldest -12 °C, hottest 70 °C
    limits iec-60364-5-52

place ROOF      outdoors, 70 °C
place GARAGE    indoors, 40 °C

stock roof-cable cable 6 mm², class 5, tinned, 120 °C, od 6.3 mm, outdoors

panel P1 and P2  120 W, voc 23.0 V, isc 6.9 A, vmp 19.2 V, imp 6.3 A
    voc drift -0.30 %/°C, at ROOF

enclosure ROOF-BOX  plastic, IP65, outdoors, knockouts 4 x M20, blanks 0
isolator Q1 "Roof isolator"  4 poles, 25 A dc, 150 V, category DC-PV2, in ROOF-BOX

controller U1  mppt, pv 100 V 30 A, output 20 A, common negative, at GARAGE
battery B1     lithium-iron-phosphate, 12.8 V, 150 Ah, discharge 150 A, charge 75 A, internal 5 mΩ, frost cut-off, at GARAGE
fuse F1        80 A, cartridge, 125 V, breaks 20 kA
isolator Q2    1 pole, 100 A dc, 60 V
busbar POS     150 A
busbar NEG     150 A
fuse F2        ? A, blade, 32 V, breaks 1 kA
load LAMPS     36 W, 4 h/day, lowest 11.0 V
link Q1 1-3, 2-4

run W1  = roof-cable red, 4.2 m, P1:+ to Q1:1
    enters ROOF-BOX by gland M20
run W20  2 x ? mm², 5.5 m, along GARAGE
    red    F2:out to LAMPS:+
    black  NEG to LAMPS:-

case night   sun 0 %, charge 50 %, all loads on
expect LAMPS voltage at least 11.5 V in night
reading 2026-04-18 Q1:1 to Q1:2 0.2 Ω with Q1 on
allow drop-over-limit on W9 "horn, used for a second"
use "../stock.amps"
`;

describe('printed back', () => {
  it.each([
    ['as it is', spec],
    ['with CRLF', spec.replaceAll('\n', '\r\n')],
    ['without the last line end', spec.trimEnd()],
    ['with tabs', spec.replaceAll('    ', '\t')],
    ['with no-break spaces', spec.replaceAll(' ', '\u00a0')],
    ['with a mark of byte order', `\uFEFF${spec}`],
    ['with comments behind every line', spec.replaceAll('\n', ' # note\n')],
    ['with blank lines between all', spec.replaceAll('\n', '\n \n')],
    ['backwards', [...spec].reverse().join('')],
    ['on one line', spec.replaceAll('\n', ' ')],
  ])('the design’s whole example, %s', (_, text) => {
    checkTree(text);
  });

  it('the design’s whole example reads without a problem', () => {
    const problems = parseDocument(spec, vocabulary).statements.flatMap(({ shaped }) => shaped.problems);
    expect(problems).toEqual([]);
  });

  it('every statement’s and clause’s example', () => {
    expect(examples.length).toBeGreaterThan(200);
    for (const example of examples) checkTree(example);
    checkTree(examples.join('\n'));
  });

  it('one statement from its atoms', () => {
    for (const { node } of parseDocument(spec, vocabulary).statements) expect(printStatement(node)).toBe(node.text);
  });
});
