import { describe, expect, it } from 'vitest';
import { parseDocument } from '../../grammar/parse.ts';
import type { Problem } from '../../grammar/tree.ts';
import { vocabulary } from './vocabulary.ts';

interface Placed {
  readonly slug: string;
  readonly words: string;
  readonly problem: Problem;
  readonly offset: number;
}

function problemsIn(text: string): Placed[] {
  return parseDocument(text, vocabulary).statements.flatMap(({ shaped, offset }) =>
    shaped.problems.map((problem) => ({
      slug: problem.slug,
      words: text.slice(offset + problem.span.start, offset + problem.span.end),
      problem,
      offset,
    })),
  );
}

/** `slug "words"` of every problem, in order of place. */
const found = (text: string) => problemsIn(text).map(({ slug, words }) => `${slug} "${words}"`);

/** The text with one fix of its one problem made. */
function fixed(text: string, which = 0): string {
  const [only, ...others] = problemsIn(text);
  expect(others).toEqual([]);
  const fix = only?.problem.fixes?.[which];
  if (only === undefined || fix === undefined) throw new Error(`no fix ${which} in ${text}`);
  return [...fix.edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce(
      (edited, { span, newText }) =>
        edited.slice(0, only.offset + span.start) + newText + edited.slice(only.offset + span.end),
      text,
    );
}

const clauseIds = (text: string) =>
  parseDocument(text, vocabulary).statements.map(({ shaped }) => shaped.clauses.map(({ spec }) => spec.id).join(' '));

/** One mistake: the one problem it makes, and what its fix makes of it, whether safe, which then reads without a problem. */
const mistakes: readonly [text: string, problem: string, fixed?: string, safe?: boolean][] = [
  // Statements
  ['fues F1 80 A', 'unknown-statement "fues"', 'fuse F1 80 A', true],
  ['Run W1 6 mm², 1 m', 'unknown-statement "Run"', 'run W1 6 mm², 1 m', true],
  ['zyzzyva X', 'unknown-statement "zyzzyva"'],
  ['stock thin cabel 6 mm²', 'unknown-statement "cabel"', 'stock thin cable 6 mm²', true],
  ['stock thin 6 mm²', 'unknown-statement "6 mm²"'],
  ['stock thin', 'unknown-statement "thin"'],
  ['run W1 1 m\n6 mm² red # note', 'unknown-statement "6 mm² red"', 'run W1 1 m\n    6 mm² red # note', false],
  [
    'run W1 1 m\nenters BOX by gland M20',
    'unknown-statement "enters"',
    'run W1 1 m\n    enters BOX by gland M20',
    false,
  ],
  ['run W1 1 m\nred A:1 to B:1', 'unknown-statement "red"', 'run W1 1 m\n    red A:1 to B:1', false],
  ['@!', 'unknown-statement "@!"'],
  ['    fuse F1 80 A', 'indented-statement "fuse"', 'fuse F1 80 A', true],
  ['load L 5 W\n  fuse F1 80 A', 'indented-statement "fuse"', 'load L 5 W\nfuse F1 80 A', true],
  ['load L 5 W\n  use "x.amps"', 'indented-statement "use"', 'load L 5 W\nuse "x.amps"', true],
  // Names
  ['load 5 W', 'missing-name "load"'],
  ['load 5 W, essential', 'missing-name "load"'],
  ['panel in BOX, 120 W', 'missing-name "panel"'],
  ['case charge 60 %', 'missing-name "case"'],
  ['isolator 4 poles, 25 A', 'missing-name "isolator"'],
  ['fuse', 'missing-name "fuse"'],
  ['panel P1 and 120 W', 'missing-name "and"'],
  ['isolator core 4 poles, 25 A', 'reserved-name "core"', 'isolator CORE1 4 poles, 25 A', false],
  ['busbar left/right 150 A', 'bad-name "left/right"', 'busbar left-right 150 A', false],
  ['fuse 1F 80 A', 'bad-name "1F"', 'fuse N1F 80 A', false],
  ['fuse 12 80 A', 'bad-name "12"', 'fuse N12 80 A', false],
  ['fuse 12V-MAIN 80 A', 'bad-name "12V-MAIN"', 'fuse N12V-MAIN 80 A', false],
  ['fuse F:1 80 A', 'bad-name "F:1"', 'fuse F-1 80 A', false],
  ['fuse _F1 80 A', 'bad-name "_F1"', 'fuse F1 80 A', false],
  ['fuse F1.1 80 A', 'bad-name "F1.1"', 'fuse F1-1 80 A', false],
  ['fuse F1.1 "Main" 80 A', 'bad-name "F1.1"', 'fuse F1-1 "Main" 80 A', false],
  ['fuse V2.0.1 80 A', 'bad-name "V2.0.1"', 'fuse V2-0-1 80 A', false],
  ['fuse F1.A 80 A', 'bad-name "F1.A"', 'fuse F1-A 80 A', false],
  ['fuse F1. 80 A', 'bad-name "F1."', 'fuse F1 80 A', false],
  ['fuse F1.5 A', 'bad-name "F1.5 A"', 'fuse F1 0.5 A', false],
  ['panel P1 and P1.2 120 W', 'bad-name "P1.2"', 'panel P1 and P1-2 120 W', false],
  ['stock cable-2.5 cable 2.5 mm²', 'bad-name "cable-2.5"', 'stock cable-2-5 cable 2.5 mm²', false],
  ['panel P1 and 2P 120 W', 'bad-name "2P"', 'panel P1 and N2P 120 W', false],
  // Separators
  ['fuse F1 80 A blade', 'missing-separator "80 A blade"', 'fuse F1 80 A, blade', true],
  ['fuse F1 80 A, blade 32 V', 'missing-separator "blade 32 V"', 'fuse F1 80 A, blade, 32 V', true],
  [
    'run W1 6 mm² red, 4.2 m P1:+ to Q1:1',
    'missing-separator "4.2 m P1:+"',
    'run W1 6 mm² red, 4.2 m, P1:+ to Q1:1',
    true,
  ],
  ['run W1 = thin 4.2 m', 'missing-separator "thin 4.2 m"', 'run W1 = thin, 4.2 m', true],
  // Clauses
  ['load L 5 W, esential', 'unknown-clause "esential"', 'load L 5 W, essential', true],
  ['load L 5 W, Lowest 11 V', 'unknown-clause "Lowest"', 'load L 5 W, lowest 11 V', true],
  ['run W1 6 mm² red, 1 m, A:1 ot B:1', 'unknown-clause "ot"', 'run W1 6 mm² red, 1 m, A:1 to B:1', true],
  ['run W1 6 mm² rde, 1 m', 'unknown-clause "rde"', 'run W1 6 mm² red, 1 m', true],
  ['isolator Q1 4 ploes, 25 A', 'unknown-clause "ploes"', 'isolator Q1 4 poles, 25 A', true],
  ['fuse F1 80 A, breaks', 'unknown-clause "breaks"'],
  ['fuse F1 80 A, wibble', 'unknown-clause "wibble"'],
  ['fuse F1 80 A, wibble 5 V 3 A, blade', 'unknown-clause "wibble"'],
  ['fuse F1 80 A, "note"', 'unknown-clause ""note""'],
  ['fuse F1 80 A;', 'unknown-clause ";"', 'fuse F1 80 A', false],
  ['run W1 6 mm², 1 m, along to', 'unknown-clause "to"'],
  [
    'run W1 6 mm², 1 m, along LOFT, GARAGE',
    'unknown-clause "GARAGE"',
    'run W1 6 mm², 1 m, along LOFT and GARAGE',
    false,
  ],
  ['panel P1, P2 120 W', 'unknown-clause "P2"', 'panel P1 and P2 120 W', false],
  ['system Horse box, 12 V', 'unknown-clause "Horse box"', 'system "Horse box", 12 V', true],
  ['fuse main fuse 80 A', 'unknown-clause "fuse"', 'fuse main-fuse 80 A', false],
  ['load TACK ROOM LIGHT 5 W', 'unknown-clause "ROOM LIGHT"', 'load TACK-ROOM-LIGHT 5 W', false],
  ['load L 5 W, 2 poles', 'misplaced-clause "2 poles"'],
  ['run W1 2 core 1.5 mm², 1 m', 'unknown-clause "2 core 1.5 mm²"', 'run W1 2 x 1.5 mm², 1 m', false],
  ['run W1 6 mm², 1 m, A positive to B:1', 'unknown-clause "A positive"', 'run W1 6 mm², 1 m, A:+ to B:1', true],
  ['solar panel P1 120 W', 'unknown-statement "solar"', 'panel P1 120 W', false],
  ['load lamp W', 'unknown-clause "W"'],
  ['fuse F1 wibble 80 A', 'unknown-clause "wibble"'],
  ['run W1 6 mm², 1 m, A:1 to B:1 and C:1', 'unknown-clause "and C:1"'],
  ['run W1 6 mm², 1 m, A:1 to B:1, C:1', 'unknown-clause "C:1"'],
  ['run W1 6 mm², 1 m, A:1 to B:1 to C:1', 'unknown-clause "to C:1"'],
  ['run W1 6 mm², 1 m, A:1 and B:1 to C:1', 'unknown-clause "and B:1"'],
  ['run W1 6 mm², 1 m, A and B to C:1', 'unknown-clause "and B"'],
  ['fuse F1 80 A, tilt 10°', 'misplaced-clause "tilt 10°"'],
  ['stock s cable 6 mm², tilt 10°', 'misplaced-clause "tilt 10°"'],
  ['load L 5 W, lowest 11 V, lowest 12 V', 'clause-twice "lowest 12 V"'],
  ['fuse F1 80 A, blade, bolt-in', 'clause-twice "bolt-in"'],
  // Quantities
  ['load L 5 W, lowest 11 A', 'wrong-unit "11 A"'],
  ['load L 5 m', 'wrong-unit "5 m"'],
  ['load L 5 V', 'wrong-unit "5 V"'],
  ['fuse F1 80 A, operates 200 A in 0.15 s to 5 s', 'wrong-unit "200 A"'],
  ['load L 5 W, lowest 11', 'missing-unit "11"', 'load L 5 W, lowest 11 V', true],
  ['fuse F1 80, blade', 'missing-unit "80"', 'fuse F1 80 A, blade', false],
  ['fuse F1 80 A, 32', 'missing-unit "32"', 'fuse F1 80 A, 32 V', true],
  ['fuse F1 ?, blade', 'missing-unit "?"', 'fuse F1 ? A, blade', false],
  ['run W1 6 red, 4.2 m', 'missing-unit "6"', 'run W1 6 mm² red, 4.2 m', false],
  ['panel P1 120 W, tilt 10', 'missing-unit "10"', 'panel P1 120 W, tilt 10°', true],
  [
    'fuse F1 80 A, operates 200 in 0.15 s to 5 s',
    'missing-unit "200"',
    'fuse F1 80 A, operates 200 % in 0.15 s to 5 s',
    true,
  ],
  ['run W1 2,5 mm² red, 1 m', 'decimal-comma "2,5 mm²"', 'run W1 2.5 mm² red, 1 m', true],
  ['load L -0,5 W', 'decimal-comma "-0,5 W"', 'load L -0.5 W', true],
  ['load L 1,000 W', 'decimal-comma "1,000 W"', 'load L 1000 W', false],
  ['load L 1,000.5 W', 'decimal-comma "1,000.5 W"', 'load L 1000.5 W', true],
  ['load L 1.000,5 W', 'decimal-comma "1.000,5 W"', 'load L 1000.5 W', true],
  ['load L 1,000,000 W', 'decimal-comma "1,000,000 W"', 'load L 1000000 W', true],
  ['load L 5 w', 'unit-spelling "w"', 'load L 5 W', true],
  ['load L 5amps', 'unit-spelling "amps"', 'load L 5 A', true],
  ['run W1 6 mm², 4 metres', 'unit-spelling "metres"', 'run W1 6 mm², 4 m', true],
  ['run W1 AWG 10 red, 1 m', 'unit-spelling "AWG 10"', 'run W1 10 AWG red, 1 m', true],
  ['run W1 00 AWG red, 1 m', 'unit-spelling "00 AWG"', 'run W1 2/0 AWG red, 1 m', true],
  ['run W1 5/0 AWG red, 1 m', 'unit-spelling "5/0 AWG"'],
  ['run W1 10 AWG, 6"', 'unit-spelling """', 'run W1 10 AWG, 6 inch', true],
  ["run W1 10 AWG, 6'", 'unit-spelling "\'"', 'run W1 10 AWG, 6 ft', true],
  ['run W1 10 AWG, 5\'6"', 'unit-spelling "5\'6""', 'run W1 10 AWG, 5.5 ft', true],
  ['run W1 2.5 mm red, 2 m', 'unit-spelling "2.5 mm"', 'run W1 2.5 mm² red, 2 m', false],
  ['run W1 2 m, 2.5mm, black', 'unit-spelling "2.5mm"', 'run W1 2 m, 2.5 mm², black', false],
  ['run W1 2 x 2.5 mm, 2 m', 'unit-spelling "2.5 mm"', 'run W1 2 x 2.5 mm², 2 m', false],
  // Terminals
  ['run W1 B1+ to F1:in', 'unknown-clause "B1+"', 'run W1 B1:+ to F1:in', true],
  ['run W1 B1:+ to F1.in', 'unknown-clause "F1.in"', 'run W1 B1:+ to F1:in', true],
  ['run W1 B1:+ to F1/in', 'unknown-clause "F1/in"', 'run W1 B1:+ to F1:in', true],
  ['run W1 F1/in to B1:+', 'unknown-clause "F1/in"', 'run W1 F1:in to B1:+', true],
  ['run W1 B1:+ to Q1.2', 'unknown-clause "Q1.2"', 'run W1 B1:+ to Q1:2', true],
  ['run W1 B1:+ to Q1/2', 'unknown-clause "Q1/2"', 'run W1 B1:+ to Q1:2', true],
  ['run W1 U1.pv+ to B1:+', 'unknown-clause "U1.pv+"', 'run W1 U1:pv+ to B1:+', true],
  ['run W1 10 AWG, 6 in', 'unit-spelling "6 in"', 'run W1 10 AWG, 6 inch', false],
  ['run W1 10 AWG, 6 milimetres', 'unit-spelling "6 milimetres"', 'run W1 10 AWG, 6 mm', false],
  ['run W1 #10 red, 4 ft, A:1 to B:1', 'hash-gauge "#10"', 'run W1 10 AWG red, 4 ft, A:1 to B:1', true],
  ['run W1 #10 AWG red, 4 ft, A:1 to B:1', 'hash-gauge "#10 AWG"', 'run W1 10 AWG red, 4 ft, A:1 to B:1', true],
  ['fuse F1 5 A, breaks 5000', 'missing-unit "5000"', 'fuse F1 5 A, breaks 5000 kA', false],
  ['stock s cable 2.5 mm², 5', 'unknown-clause "5"', 'stock s cable 2.5 mm², class 5', false],
  ['stock s cable 2.5 mm², 6', 'unknown-clause "6"', 'stock s cable 2.5 mm², class 6', false],
  ['run W1 2 x #10, 4 ft', 'hash-gauge "#10"', 'run W1 2 x 10 AWG, 4 ft', true],
  ['run W1 4 ft, #2/0 red', 'hash-gauge "#2/0"', 'run W1 4 ft, 2/0 AWG red', true],
  ['stock s cable #10', 'hash-gauge "#10"', 'stock s cable 10 AWG', true],
  // Texts
  ['system "Shed 12 V', 'unclosed-text ""Shed 12 V"', 'system "Shed 12 V"', true],
  ['use "stock.amps  ', 'unclosed-text ""stock.amps"', 'use "stock.amps"  ', true],
];

describe('one mistake makes one problem, at the smallest words', () => {
  it.each(mistakes)('%s', (text, problem, mended, safe) => {
    expect(found(text)).toEqual([problem]);
    if (mended === undefined) return;
    expect(fixed(text)).toBe(mended);
    expect(problemsIn(text)[0]?.problem.fixes?.[0]?.safe).toBe(safe);
    expect(found(mended)).toEqual([]);
  });
});

describe('a mistake leaves the rest of its statement read', () => {
  it.each([
    ['fuse F1 80 A, breaks, blade', 'rating style'],
    ['fuse F1 80 A, wibble, blade', 'rating style'],
    ['fuse F1 80 A wibble blade', 'rating style'],
    ['run W1 6 red, 4.2 m, A:1 to B:1', 'colour length ends'],
    ['run W1 2,5 mm² red, 4.2 m', 'size colour length'],
    ['run W1 #10 red, 4.2 m', 'size colour length'],
    ['load L 5 W, lowest 11 A, essential', 'power lowest essential'],
    ['load L 5 W, lowset 11 V, essential', 'power lowest essential'],
    ['fuse F1 80 A, operates 200 in 0.15 to 5 s', 'rating operates'],
    ['fuse 1F 80 A, blade', 'rating style'],
    ['panel P1, P2 120 W', 'power'],
    ['load L 5 W, lenght 4 m, essential', 'power essential'],
    ['fuse F1 @ 80 A', 'rating'],
  ])('%s', (text, ids) => {
    expect(clauseIds(text)).toEqual([ids]);
  });

  it('reads a value of the wrong kind as one not known yet, and a misspelt word as the one meant', () => {
    const [wrong] = parseDocument('load L 5 W, lowest 11 A', vocabulary).statements;
    expect(wrong?.shaped.clauses[1]?.values[0]?.atom).toMatchObject({ kind: 'blank', text: '11 A' });
    const [misspelt] = parseDocument('fuse F1 80 A, bladde', vocabulary).statements;
    expect(misspelt?.shaped.clauses[1]?.values[0]?.atom).toMatchObject({ value: 'blade', text: 'bladde' });
  });

  it('makes one problem of each of several mistakes', () => {
    expect(found('run W1 2,5 mm² red 4.2 metres, P1:+ ot Q1:1')).toEqual([
      'decimal-comma "2,5 mm²"',
      'missing-separator "red 4.2 metres"',
      'unit-spelling "metres"',
      'unknown-clause "ot"',
    ]);
  });
});

describe('a broken statement hurts only itself', () => {
  it.each([
    'run W1 "open',
    'fuse (((',
    '@',
    'stock',
    'fuse F1 80 A,,, "',
    'run W1 6 mm², A:1 to',
    'link Q1 1 - 3',
    'pänel',
  ])('between two sound ones: %s', (broken) => {
    const sound = 'load L 5 W\n    essential\n';
    const { statements } = parseDocument(`${sound}${broken}\n${sound}`, vocabulary);
    expect(statements).toHaveLength(3);
    expect(statements[0]?.shaped).toBe(statements[2]?.shaped);
    expect(statements[2]?.shaped.problems).toEqual([]);
    expect(statements[2]?.shaped.clauses.map(({ spec }) => spec.id)).toEqual(['power', 'essential']);
  });
});

describe('messages and fixes', () => {
  const only = (text: string) => {
    const [first, ...others] = problemsIn(text);
    expect(others).toEqual([]);
    return first?.problem;
  };

  it('offers both readings of 1,000 W, neither in bulk', () => {
    expect(only('load L 1,000 W')?.fixes?.map(({ title, safe }) => [title, safe])).toEqual([
      ['Write 1000 W', false],
      ['Write 1.000 W', false],
    ]);
  });

  it('offers units by what must still be said, and none that is said already', () => {
    expect(only('fuse F1 80')?.fixes?.map(({ title }) => title)).toEqual(['Write 80 A', 'Write 80 V']);
    expect(only('fuse F1 80 A, 80')?.fixes?.map(({ title }) => title)).toEqual(['Write 80 V']);
    expect(only('run W1 2.5 red')?.fixes?.map(({ title }) => title)).toEqual(['Write 2.5 mm²']);
    expect(only('run W1 6 red')?.fixes?.map(({ title }) => title)).toEqual(['Write 6 mm²', 'Write 6 AWG']);
    expect(only('run W1 6')?.fixes?.map(({ title }) => title)).toEqual(['Write 6 mm²', 'Write 6 AWG', 'Write 6 m']);
  });

  it('tells both ends of a run that are written alike once, and leaves a short length what it is', () => {
    expect(found('run W1 B1+ to F1.in')).toEqual(['unknown-clause "B1+"']);
    expect(fixed('run W1 B1+ to F1.in')).toBe('run W1 B1:+ to F1:in');
    expect(found('run W1 50 mm, 6 mm² red')).toEqual([]);
    expect(found('run W1 = thin, 50 mm, red')).toEqual([]);
    expect(found('run W1 red, od 6 mm, 200 mm')).toEqual([]);
  });

  it('says that a name is one word, and offers the rest as a title', () => {
    const text = 'fuse main fuse 80 A';
    expect(problemsIn(text)[0]?.problem.message).toMatch(
      /^A fuse does not say “fuse”: it says .* and the like; as part of its name write main-fuse\.$/,
    );
    expect(fixed(text, 1)).toBe('fuse main "fuse" 80 A');
  });

  it('says that a core leads to one terminal', () => {
    expect(problemsIn('run W1 6 mm², 1 m, A:1 to B:1 and C:1')[0]?.problem.message).toBe(
      'A core leads from one terminal to one other: give “C:1” a core or a run of its own.',
    );
  });

  it('says what stands where the unit is wrong', () => {
    expect(only('load L 5 W, lowest 11 A')?.message).toBe(
      '11 A is a current, where a voltage belongs: write it like “lowest 11.0 V”.',
    );
    expect(only('load L 5 W, 5 V')?.message).toContain(
      'that follows from the circuit, and limits alone are said, behind lowest',
    );
  });

  it('says to whom a misplaced clause belongs', () => {
    expect(only('fuse F1 80 A, voc 23 V')?.message).toBe('A fuse does not say “voc”: that belongs to a panel.');
    expect(only('stock s fuse 80 A, voc 23 V')?.message).toContain('A stock of fuse');
  });

  it('lists near words where there are several, none of them safe', () => {
    const near = only('case c LAMPS o');
    expect(near?.fixes?.every(({ safe }) => !safe) ?? true).toBe(true);
  });

  it('names what is said twice with both values', () => {
    expect(only('load L 5 W, lowest 11 V, lowest 12 V')?.message).toContain('lowest 11 V and lowest 12 V');
  });

  it('keeps problems in order of place', () => {
    const text = 'run W1 2,5 mm², wibble, 4 metres, tilt 10°';
    const starts = problemsIn(text).map(({ problem }) => problem.span.start);
    expect(starts).toHaveLength(4);
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
  });
});

describe('what is right makes no problem', () => {
  it.each([
    'system "Shed" 12 V\n    ambient 35 °C, coldest -12 °C\n    limits strict',
    'use "../stock.amps"',
    'place LOFT 55 °C, indoors\nplace LOCKER gas locker',
    'stock thin cable 2 x 2.5 mm², class 5, 105 °C, od 4.8 mm',
    'link Q1 1-3, 2-4',
    'run W1 = thin red, 4.2 m, P1:+ to Q1:1',
    'run W1 2 x ? mm², 5.5 m, along LOFT 2.4 m and GARAGE 1.8 m\n    red F2:out to LAMPS:+\n    core 2 black NEG to LAMPS:-\n    green/yellow spare',
    'run W1 6 mm² red, 4.2 m, P1:+ to\n    # which one?\n\n    Q1:1',
    'run W1 6 mm², 4 m, along LOFT and\n    GARAGE, enters BOX open, enters BOX by E1',
    'run W1, 6 mm², 4 m,\n    bunched with 5',
    'run W1 10 AWG, 6 ft # 10 is not a gauge here',
    'case dusk sun 0 %, charge 60 %, B1 at 12.5 V, LAMPS and FAN on, all loads off',
    'reading 2026-04-18 10:30 Q1:1 to Q1:2 0.2 Ω',
    'reading 2026-04-18 Q1:1 12.4 V',
    'panel P1 and P2 "East" 120 W, voc drift -0.30 %/°C, tilt 10°',
    'isolator Q1 4 poles, 25 A dc, 2 in parallel 40 A, pairs 1-5 2-6, face 1 3 over 2 4',
    'fuse F2 ? A, blade, breaks 2 kA, terminals 0.5 to 16 mm², price 12.50 EUR a piece',
    'fuse A 10 A\nfuse V1 10 A\nfuse AWG 10 A',
    'enclosure BOX plastic, IP65, knockouts 4 x M20, knockouts 2 x M25',
    'controller U1 mppt, pv 100 V 30 A, output 20 A\n    load output 15 A',
    'busbar POS',
    'panel Zuid-1 and Ø 120 W\nbusbar Ωμέγα 100 A\nbusbar 蓄电池 100 A',
  ])('%s', (text) => {
    expect(found(text)).toEqual([]);
  });
});
