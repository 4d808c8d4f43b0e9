/** Every problem that building the model finds: the words underlined, and that nothing else is said. */
import { describe, expect, it } from 'vitest';
import { type Files, mended, modelOf, onlyProblem, problemsIn } from './built.ts';

/** Two nodes to end cores on, so that a spec is about one thing. */
const nodes = 'splice AA and BB\n';

describe('unknown-name', () => {
  it.each([
    ['a place', 'place LOFT 50 °C\nload LAMP 12 W, at LOTF\n', 'LOTF', /no place “LOTF”: did you mean LOFT\?/],
    [
      'an enclosure',
      'enclosure BOX plastic\nload LAMP 12 W, in BXO\n',
      'BXO',
      /no enclosure “BXO”: did you mean BOX\?/,
    ],
    [
      'stock',
      'stock thin6 cable 6 mm²\nrun W1 = thin7, 1 m, AA to BB\nsplice AA and BB\n',
      'thin7',
      /no stock “thin7”: did you mean thin6\?/,
    ],
    [
      'a place to lie in',
      `${nodes}place LOFT 50 °C\nrun W1 6 mm², 1 m, along LOFT and ATTIC, AA to BB\n`,
      'ATTIC',
      /no place “ATTIC” here/,
    ],
    [
      'an entry',
      `${nodes}enclosure BOX plastic\nrun W1 6 mm², 1 m, AA to BB, enters BOX by E7\n`,
      'E7',
      /no entry “E7” here.*entry E1 in ROOF-BOX/,
    ],
    ['a wall', `${nodes}run W1 6 mm², 1 m, AA to BB, enters BOX by gland M20\n`, 'BOX', /no enclosure “BOX” here/],
    ['a part in a case', 'case night LAMP on\n', 'LAMP', /no part “LAMP” here/],
    ['a battery in a case', 'case night BAT charge 40 %\n', 'BAT', /no battery “BAT” here/],
    [
      'a case',
      'load LAMP 12 W\nexpect LAMP voltage at least 11 V in night\n',
      'night',
      /no case “night” here.*case night sun/,
    ],
    ['the subject of an expectation', 'expect LAMP voltage at least 11 V\n', 'LAMP', /no part or run “LAMP”/],
    ['a part of a reading', 'reading 2026-04-18 LAMP:+ 12.1 V\n', 'LAMP', /no part “LAMP”/],
    ['what an allow is about', 'allow drop-over-limit on W9 "short"\n', 'W9', /“W9”/],
    ['the part of a link', 'link Q1 1-3\n', 'Q1', /no part “Q1”/],
    [
      'a set of limits',
      'system 12 V, limits iec-60364-5-51\n',
      'iec-60364-5-51',
      /no set of limits “iec-60364-5-51”: did you mean iec-60364-5-52\?/,
    ],
    [
      'a terminal written without its colon',
      'busbar NEG\nload LAMP 12 W\nrun W1 1.5 mm², 1 m, LAMP- to NEG\n',
      'LAMP-',
      /“LAMP-” is no part: did you mean LAMP:-\?/,
    ],
    ['the part a core ends on', `${nodes}run W1 6 mm², 1 m, AA to CC:+\n`, 'CC', /no part “CC”/],
  ])('of %s', (_, text, words, message) => {
    expect(problemsIn(text)).toEqual([`unknown-name "${words}"`]);
    expect(onlyProblem(text).message).toMatch(message);
  });

  it.each([
    [
      'a part for a place',
      'load LAMP 12 W, at FAN\nload FAN 4 W\n',
      'FAN',
      /“FAN” is a load, where the name of a place belongs/,
    ],
    [
      'a place for an enclosure',
      'place LOFT 50 °C\nload LAMP 12 W, in LOFT\n',
      'LOFT',
      /“LOFT” is a place: write at LOFT/,
    ],
    ['a fuse for a battery', 'fuse F1 3 A\ncase night F1 at 12 V\n', 'F1', /“F1” is a fuse, .* a battery/],
    [
      'a run for a part',
      `${nodes}run W1 6 mm², 1 m, AA to BB\nrun W2 6 mm², 1 m, AA to W1\n`,
      'W1',
      /“W1” is a run, .* a part/,
    ],
  ])('takes %s for a mistake', (_, text, words, message) => {
    const found = onlyProblem(text);
    expect(problemsIn(text)).toEqual([`unknown-name "${words}"`]);
    expect(found.message).toMatch(message);
    expect(found.related).toHaveLength(1);
  });

  it('mends a slip of the hand by itself, and offers a name of another number only', () => {
    expect(onlyProblem('enclosure ROOF-BOX plastic\nload LAMP 12 W, in ROOF-BXO\n').fixes).toMatchObject([
      { title: 'Write ROOF-BOX', safe: true },
    ]);
    expect(onlyProblem('enclosure ROOF-BOX plastic\nload LAMP 12 W, in roof_box\n').fixes).toMatchObject([
      { safe: true },
    ]);
    for (const slip of ['ROFO-BOX', 'OROF-BOX', 'ROOOF-BOX', 'ROF-BOX', 'RoofBox'])
      expect(
        onlyProblem(`enclosure ROOF-BOX plastic\nload LAMP 12 W, in ${slip}\n`).fixes.map(({ safe }) => safe),
        slip,
      ).toEqual([true]);
    expect(onlyProblem('fuse F1 3 A\ncase night F2 off\n').fixes).toMatchObject([{ title: 'Write F1', safe: false }]);
    expect(
      onlyProblem('place LOFT 50 °C\nplace LIFT 20 °C\nload LAMP 12 W, at LAFT\n').fixes.map(({ safe }) => safe),
    ).toEqual([false, false]);
    expect(mended('place LOFT 50 °C\nload LAMP 12 W, at LOTF\n', 'Write LOFT')).toBe(
      'place LOFT 50 °C\nload LAMP 12 W, at LOFT\n',
    );
  });

  it.each([
    ['LAMP', 'LAMPS'],
    ['LAMPS', 'LAMP'],
    ['LAMP-A', 'LAMP-B'],
    ['LAMP-A', 'LAMP'],
    ['A-LAMP', 'B-LAMP'],
    ['HEATER', 'HEATERB'],
    ['PUMPS2', 'PUMP2'],
    ['FRONT-LAMPS', 'FRONT-LAMP'],
    ['LIGHT', 'NIGHT'],
    ['PUMP', 'LUMP'],
    ['LAMP', 'LUMP'],
    ['LAMP-AB', 'LAMP-BA'],
  ])('offers %s for %s and leaves it to a person: that may be another thing', (declared, named) => {
    expect(onlyProblem(`load ${declared} 12 W\ncase night ${named} off\n`).fixes).toMatchObject([
      { title: `Write ${declared}`, safe: false },
    ]);
  });

  it('leaves it to a person which name is meant where several statements say the same one', () => {
    const fixes = (text: string) => onlyProblem(text).fixes.map(({ title, safe }) => [title, safe]);
    const heater = 'load HEATER 12 W\n';
    expect(fixes(`${heater}case night HAETER off\n`)).toEqual([['Write HEATER', true]]);
    expect(fixes(`${heater}case night HAETER off\ncase day HAETER off\n`)).toEqual([
      ['Write HEATER in both places', false],
    ]);
    // The declaration may be what is wrong.
    const sheds = 'place BNCH 20 °C\nload LAMP 12 W, at BENCH\nload FAN 12 W, at BENCH\n';
    expect(fixes(sheds)).toEqual([['Write BNCH in both places', false]]);
  });

  it('is told once where several names or parts take it from one place', () => {
    expect(problemsIn('load A1 and A2 and A3 12 W, at LOFT\n')).toEqual(['unknown-name "LOFT"']);
    expect(problemsIn('stock lamp load 12 W, at LOFT\nload A1 = lamp\nload A2 = lamp\n')).toEqual([
      'unknown-name "LOFT"',
    ]);
    expect(problemsIn('load A1 and A2 = lamp\n')).toEqual(['unknown-name "lamp"']);
  });
});

describe('name-twice', () => {
  it.each([
    ['two parts', 'fuse F1 3 A\nload F1 5 W\n', 'F1'],
    ['a part and a run', `${nodes}run AA 6 mm², 1 m, AA to BB\n`, 'AA'],
    ['stock and a place', 'stock thin cable 6 mm²\nplace thin 20 °C\n', 'thin'],
    ['two names of one head', 'panel P1 and P1 120 W, voc 23 V, isc 6.9 A, vmp 19.2 V, imp 6.3 A\n', 'P1'],
    ['two cases', 'case night sun 0 %\ncase night sun 5 %\n', 'night'],
  ])('underlines the second of %s', (_, text, words) => {
    const found = onlyProblem(text);
    expect(problemsIn(text)).toEqual([`name-twice "${words}"`]);
    expect(found.place.span.start).toBe(
      text.lastIndexOf(words, text.includes('run AA') ? text.indexOf('AA 6') : undefined),
    );
    expect(found.related[0]?.place.span.start).toBe(text.indexOf(words));
  });

  it('lets a case be called as a place is', () => {
    expect(problemsIn('place night 20 °C\ncase night sun 0 %\n')).toEqual([]);
  });

  it('offers the next name that is free', () => {
    expect(onlyProblem('fuse F1 3 A\nfuse F2 3 A\nfuse F1 5 A\n').fixes.map(({ title }) => title)).toEqual([
      'Write F3',
    ]);
  });

  it('does not make what the second run reaches seem unconnected', () => {
    const text = `${nodes}load LAMP 5 W\nrun W1 6 mm², 1 m, AA to LAMP:+\nrun W1 6 mm², 1 m, BB to LAMP:-\n`;
    expect(problemsIn(text)).toEqual(['name-twice "W1"']);
  });
});

describe('unknown-terminal', () => {
  it.each([
    [
      'beyond the poles',
      `${nodes}isolator Q1 4 poles, 20 A dc\nrun W1 6 mm², 1 m, AA to Q1:9\n`,
      '9',
      /an isolator without a terminal “9”: it has 1, 2, 3, 4, 5, 6, 7 and 8/,
    ],
    [
      'of a load',
      `${nodes}load LAMP 5 W\nrun W1 6 mm², 1 m, AA to LAMP:plus\n`,
      'plus',
      /a load without a terminal “plus”: it has \+ and -/,
    ],
    ['of a busbar', `${nodes}run W1 6 mm², 1 m, AA to BB:1\n`, '1', /it is one node, written BB/],
    ['of an enclosure', `${nodes}enclosure BOX plastic\nrun W1 6 mm², 1 m, AA to BOX:1\n`, '1', /it has none/],
    [
      'not said yet',
      `${nodes}load LAMP 5 W\nrun W1 6 mm², 1 m, AA to LAMP:\n`,
      'LAMP:',
      /does not say which terminal of the load/,
    ],
    [
      'of a part with several, by its name',
      `${nodes}load LAMP 5 W\nrun W1 6 mm², 1 m, AA to LAMP\n`,
      'LAMP',
      /several terminals: say which one, LAMP:\+ or LAMP:-/,
    ],
    [
      'of a part with none, by its name',
      `${nodes}enclosure BOX plastic\nrun W1 6 mm², 1 m, AA to BOX\n`,
      'BOX',
      /has no terminals/,
    ],
    ['of a bar', 'isolator Q1 2 poles, 20 A dc\nlink Q1 1-7\n', '7', /without a terminal “7”/],
    ['of an expectation', 'fuse F1 3 A\nexpect F1:oot voltage at least 3 V\n', 'oot', /it has in and out/],
  ])('%s', (_, text, words, message) => {
    expect(problemsIn(text)).toEqual([`unknown-terminal "${words}"`]);
    expect(onlyProblem(text).message).toMatch(message);
  });

  it('offers near terminals, the name alone, or all of a few', () => {
    const load = `${nodes}load LAMP 5 W\nrun W1 6 mm², 1 m, AA to LAMP`;
    expect(mended(`${load}:plus\n`, 'Write LAMP:+')).toBe(`${load}:+\n`);
    expect(mended(`${load}\n`, 'Write LAMP:-')).toBe(`${load}:-\n`);
    const bar = `${nodes}run W1 6 mm², 1 m, AA to BB`;
    expect(mended(`${bar}:1\n`, 'Write BB')).toBe(`${bar}\n`);
    expect(
      onlyProblem(`${nodes}fuse F1 3 A\nrun W1 6 mm², 1 m, AA to F1:oot\n`).fixes.map(({ title }) => title),
    ).toEqual(['Write F1:out']);
  });

  it('says nothing of terminals that are not known for certain', () => {
    const run = 'run W1 6 mm², 1 m, AA to Q1:9\n';
    expect(problemsIn(`${nodes}isolator Q1 ? poles, 20 A dc\n${run}`)).toEqual([]);
    expect(problemsIn(`${nodes}isolator Q1 20 A dc\n${run}`)).toEqual(['missing-required-clause "Q1"']);
    expect(problemsIn(`${nodes}isolator Q1 6 poels, 20 A dc\n${run}`)).toHaveLength(1);
    expect(problemsIn(`${nodes}isolator Q1 = big\n${run}`)).toEqual(['unknown-name "big"']);
  });
});

describe('terminal-unconnected', () => {
  const battery = 'battery B1 lead-acid, 12 V, 80 Ah\n';

  it('names the empty terminals of a part at its name', () => {
    const text = `${nodes}load LAMP 5 W\nrun W1 6 mm², 1 m, AA to LAMP:+\n`;
    expect(problemsIn(text)).toEqual(['terminal-unconnected "LAMP"']);
    expect(onlyProblem(text)).toMatchObject({ subject: 'LAMP', figures: { terminals: 'LAMP:-' } });
    expect(onlyProblem(text).message).toMatch(/connected to LAMP:-: end a core there/);
  });

  it('tells of a part that nothing reaches at all', () => {
    const text = `${nodes}load LAMP 5 W\nrun W1 6 mm², 1 m, AA to BB\n`;
    expect(onlyProblem(text).message).toMatch(/connected to LAMP: end cores on LAMP:\+ and LAMP:-/);
  });

  it('stands at each name of a head', () => {
    const text = `${nodes}load L1 and L2 5 W\nrun W1 2 x 6 mm², 1 m\n  red AA to L1:+\n  black BB to L1:-\n`;
    expect(problemsIn(text)).toEqual(['terminal-unconnected "L2"']);
  });

  it('is quiet in a list of parts without runs', () => {
    expect(problemsIn(`${battery}load LAMP 5 W\n`)).toEqual([]);
  });

  it('takes poles without cores for spares, and tells of a pole that is wired on one side', () => {
    const poles = `${nodes}isolator Q1 3 poles, 20 A dc\n`;
    expect(problemsIn(`${poles}run W1 6 mm², 1 m, AA to Q1:3\nrun W2 6 mm², 1 m, Q1:4 to BB\n`)).toEqual([]);
    const half = `${poles}run W1 6 mm², 1 m, AA to Q1:3\nrun W2 6 mm², 1 m, Q1:4 to BB\nrun W3 6 mm², 1 m, AA to Q1:5\n`;
    expect(onlyProblem(half).figures).toEqual({ terminals: 'Q1:6' });
  });

  it('leaves two half-wired poles and a bar on one side to their own findings', () => {
    const poles = `${nodes}isolator Q1 2 poles, 20 A dc\n`;
    expect(problemsIn(`${poles}run W1 6 mm², 1 m, AA to Q1:1\nrun W2 6 mm², 1 m, Q1:4 to BB\n`)).toEqual([]);
    expect(problemsIn(`${poles}run W1 6 mm², 1 m, AA to Q1:1\nrun W2 6 mm², 1 m, Q1:2 to BB\nlink Q1 1-3\n`)).toEqual(
      [],
    );
  });

  it('counts bars, and the pole of a conversion part that both sides share', () => {
    const poles = `${nodes}isolator Q1 2 poles, 20 A dc\nrun W1 6 mm², 1 m, AA to Q1:1\nrun W2 6 mm², 1 m, Q1:4 to BB\nlink Q1 2-3\n`;
    expect(problemsIn(poles)).toEqual([]);
    const converter = (common: string) =>
      `${nodes}converter U1 5 V, 6 A, ${common}\nrun W1 6 mm², 1 m, AA to U1:in+\nrun W2 6 mm², 1 m, BB to U1:in-\nrun W3 6 mm², 1 m, AA to U1:out+\n`;
    expect(problemsIn(converter('common negative'))).toEqual([]);
    expect(problemsIn(converter('isolated'))).toEqual(['terminal-unconnected "U1"']);
  });

  it('says nothing of a part that something unread may reach', () => {
    const lamp = `${nodes}load LAMP 5 W\nrun W1 6 mm², 1 m, AA to LAMP:+\n`;
    expect(problemsIn(`${lamp}run W2 6 mm², 1 m, BB to LAPM:-\n`)).toEqual(['unknown-name "LAPM"']);
    expect(problemsIn(`${lamp}run W2 6 mm², 1 m, BB to LAMP:neg\n`)).toEqual(['unknown-terminal "neg"']);
    expect(problemsIn(`${lamp}run W2 6 mm², 1 m, BB to LAMP\n`)).toEqual(['unknown-terminal "LAMP"']);
    expect(problemsIn(`${lamp}runn W2 6 mm², 1 m, BB to LAMP:-\n`)).toEqual(['unknown-statement "runn"']);
    expect(problemsIn(`${lamp}run W2 6 mm², 1 m, BB too LAMP:-\n`)).toHaveLength(1);
    expect(problemsIn(`${lamp}run W2 #10, 1 m, BB to LAMP:-\n`)).toEqual(['hash-gauge "#10"']);
  });
});

describe('missing-required-clause', () => {
  it.each([
    ['of a fuse', 'fuse F1\n', 'F1', /Fuse F1 must say its rating, such as “80 A”; write \? where/],
    ['one of a group', 'load LAMP\n', 'LAMP', /must say its power, current or resistance/],
    ['of several parts', 'load L1 and L2 at LOFT\nplace LOFT 20 °C\n', 'L1 and L2', /^L1 and L2 must say their power/],
    ['length of a run', `${nodes}run W1 6 mm², AA to BB\n`, 'W1', /Run W1 must say its length/],
    ['size of a run', `${nodes}run W1 1 m, AA to BB\n`, 'W1', /Run W1 must say its size, such as “6 mm²” or “10 AWG”/],
    [
      'size in its stock',
      `${nodes}stock drum cable class 5\nrun W1 = drum, 1 m, AA to BB\n`,
      'W1',
      /must say its size/,
    ],
    ['file of a use', 'use\n', 'use', /This use must say its path/],
    ['reason of an allow', 'allow drop-over-limit\n', 'drop-over-limit', /Say why drop-over-limit is accepted/],
    ['bar of a link', 'isolator Q1 2 poles, 20 A dc\nlink Q1\n', 'Q1', /Link Q1 must say its bar/],
    ['what is expected', 'expect\n', 'expect', /This expect must say its what/],
  ])('%s', (_, text, words, message) => {
    expect(problemsIn(text)).toEqual([`missing-required-clause "${words}"`]);
    expect(onlyProblem(text).message).toMatch(message);
  });

  it('offers of terminals the one that the word begins with', () => {
    const ended = 'fuse F1 3 A\nbusbar AA\nrun W1 1 mm², 1 m, F1:output to AA\n';
    expect(onlyProblem(ended).fixes.map(({ title }) => title)).toEqual(['Write F1:out']);
  });

  it('offers a blank in the right place, never by itself', () => {
    expect(mended('fuse F1 "Main" blade\n', 'Add its rating: ? A')).toBe('fuse F1 "Main" ? A, blade\n');
    expect(mended('fuse F1\n', 'Add its rating: ? A')).toBe('fuse F1 ? A\n');
    expect(mended('fuse F1, blade\n', 'Add its rating: ? A')).toBe('fuse F1 ? A, blade\n');
    expect(mended('fuse F1  # main\n    blade\n', 'Add its rating: ? A')).toBe('fuse F1 ? A  # main\n    blade\n');
    expect(mended(`${nodes}run W1 1 m, AA to BB\n`, 'Add its size: ? mm²')).toBe(
      `${nodes}run W1 ? mm², 1 m, AA to BB\n`,
    );
    expect(onlyProblem('fuse F1\n').fixes.every(({ safe }) => !safe)).toBe(true);
  });

  it('is mended by its fixes, one by one or all at once', () => {
    const panel = 'panel P1 isc 6.9 A\n';
    const whole = mended(panel, 'Add ? W, voc ? V, vmp ? V, imp ? A');
    expect(whole).toBe('panel P1 ? W, voc ? V, vmp ? V, imp ? A, isc 6.9 A\n');
    expect(problemsIn(whole)).toEqual([]);
    expect(onlyProblem('battery B1 12 V, 80 Ah\n').fixes.map(({ title }) => title)).toContain(
      'Add its chemistry: lead-acid',
    );
  });

  it('does not ask stock for what its parts may say', () => {
    expect(problemsIn('stock f fuse blade\nfuse F1 = f, 3 A\n')).toEqual([]);
  });

  it('does not ask for what a stock that cannot be read may say', () => {
    expect(problemsIn('stock f fuse 3, blade\nfuse F1 = f\n')).toEqual(['missing-unit "3"']);
    expect(problemsIn('stock f fusee 3 A\nfuse F1 = f\n')).toHaveLength(1);
  });
});

describe('stock', () => {
  it('of another kind', () => {
    const text = 'stock f fuse 3 A\nstock lamp load 5 W\nload LAMP = f\n';
    expect(problemsIn(text)).toEqual(['wrong-stock-kind "f"']);
    expect(onlyProblem(text).message).toBe(
      '“f” is stock of a fuse, but a load takes stock of a load: take another, or take this = out.',
    );
    expect(mended(text, 'Write lamp')).toContain('load LAMP = lamp');
    const run = `${nodes}stock f fuse 3 A\nrun W1 = f, 1 m, AA to BB\n`;
    expect(onlyProblem(run).message).toMatch(/a run takes stock of a cable/);
  });

  it('in a circle', () => {
    expect(problemsIn('stock a cable = b, 1 mm²\nstock b cable = c\nstock c cable = a\n')).toEqual([
      'circle-of-names "a"',
    ]);
    expect(problemsIn('stock a cable = a\n')).toEqual(['circle-of-names "a"']);
    expect(onlyProblem('stock a cable = b\nstock b cable = a\n').message).toContain('(a = b = a)');
  });

  it('in a chain of thousands is read without harm', () => {
    const chain = Array.from({ length: 6000 }, (_, i) => `stock s${i} cable = s${i + 1}`).join('\n');
    const model = modelOf(`${chain}\nstock s6000 cable 6 mm²\n`);
    expect(model.problems).toEqual([]);
    expect(model.stocks.get('s0')?.facts.written('size', 'size')).toBe('6 mm²');
  });

  it('by itself at the margin is not a part', () => {
    expect(problemsIn(`${nodes}cable C1 6 mm²\n`)).toEqual(['unknown-statement "cable"']);
    expect(mended('cable C1 6 mm²\n', 'Make it stock')).toBe('stock C1 cable 6 mm²\n');
    expect(modelOf('cable C1 6 mm²\n').parts.size).toBe(0);
  });
});

describe('enclosures', () => {
  it('in a circle', () => {
    const text = 'enclosure IN in OUT\nenclosure OUT in IN\nfuse F1 3 A, in OUT\n';
    expect(problemsIn(text)).toEqual(['circle-of-names "in IN"']);
    expect(modelOf(text).parts.get('F1')?.enclosure?.name).toBe('OUT');
  });

  it('in a chain of thousands are read without harm', () => {
    const chain = Array.from({ length: 6000 }, (_, i) => `enclosure E${i} in E${i + 1}`).join('\n');
    const model = modelOf(`place LOFT 50 °C\n${chain}\nenclosure E6000 plastic, at LOFT\n`);
    expect(model.problems).toEqual([]);
    expect(model.parts.get('E0')?.location?.name).toBe('LOFT');
  });
});

describe('runs', () => {
  it.each([
    ['without ends', `${nodes}run W1 6 mm², 1 m\n`, 'end-missing "W1"'],
    ['with a core without ends', `${nodes}run W1 2 x 6 mm², 1 m\n  red AA to BB\n  black\n`, 'end-missing "black"'],
    ['with fewer cores than said', `${nodes}run W1 2 x 6 mm², 1 m, AA to BB\n`, 'cores-miscounted "2 x"'],
    [
      'with more cores than said',
      `${nodes}run W1 6 mm², 1 m\n  red AA to BB\n  black AA to BB\n`,
      'cores-miscounted "6 mm²"',
    ],
    [
      'with fewer cores than its stock',
      `${nodes}stock two cable 2 x 6 mm²\nrun W1 = two, 1 m, AA to BB\n`,
      'cores-miscounted "= two"',
    ],
    [
      'with a core told of twice',
      `${nodes}run W1 2 x 6 mm², 1 m\n  core 1 AA to BB\n  core 1 AA to BB\n`,
      'cores-miscounted "1"',
    ],
    [
      'with a core of too high a number',
      `${nodes}run W1 2 x 6 mm², 1 m\n  core 1 AA to BB\n  core 3 AA to BB\n`,
      'cores-miscounted "3"',
    ],
    [
      'with a colour of its own and cores',
      `${nodes}run W1 2 x 6 mm² red, 1 m\n  red AA to BB\n  black AA to BB\n`,
      'cores-miscounted "red"',
    ],
  ])('%s', (_, text, found) => {
    expect(problemsIn(text)).toEqual([found]);
  });

  it('are mended', () => {
    expect(mended(`${nodes}run W1 6 mm², 1 m\n  red AA to BB\n  black AA to BB\n`, 'Write 2 x 6 mm²')).toContain(
      'run W1 2 x 6 mm², 1 m',
    );
    expect(mended(`${nodes}run W1 2 x 6 mm², 1 m, AA to BB\n`, 'Write 6 mm²')).toContain('run W1 6 mm², 1 m');
    expect(
      problemsIn(mended(`${nodes}run W1 2 x 6 mm², 1 m\n  red AA to BB\n  black\n`, 'Say that it is spare')),
    ).toEqual([]);
  });

  it('with blanks are valid', () => {
    expect(
      problemsIn(`${nodes}run W1 ? mm² red, ? m, AA to BB\nrun W2 2 x ? mm², 1 m\n  red AA to BB\n  spare\n`),
    ).toEqual([]);
  });
});

describe('second-system', () => {
  it('in one file', () => {
    const text = 'system "A" 12 V\nsystem "B" 24 V\n';
    expect(problemsIn(text)).toEqual(['second-system "system"']);
    expect(onlyProblem(text).place.span.start).toBe(text.lastIndexOf('system'));
    expect(modelOf(text).system).toMatchObject({ title: 'A', nominalVolts: 12 });
  });

  it('in a used file, however deep', () => {
    const files: Files = { 'a.amps': 'use "b.amps"\n', 'b.amps': 'system 24 V\n' };
    const text = 'system 12 V\nuse "a.amps"\n';
    expect(problemsIn(text, files)).toEqual(['second-system ""a.amps""']);
    expect(onlyProblem(text, files).message).toMatch(/^b\.amps has a system statement/);
    expect(modelOf(text, files).system.nominalVolts).toBe(12);
  });
});

describe('a broken statement hurts only itself', () => {
  it.each([
    ['an unknown kind', 'bussbar AA 100 A\n', 'unknown-statement'],
    ['an unknown kind with two names', 'bussbar CC and AA 100 A\n', 'unknown-statement'],
    ['an unreadable clause', 'busbar AA 100 A, colour blue\n', ''],
    ['a decimal comma', 'busbar AA 100,5 A\n', 'decimal-comma'],
    ['an indent', 'splice X\n  busbar AA 100 A\n', 'indented-statement'],
    ['a name in quotes', 'busbar "AA" 100 A\n', 'missing-name'],
  ])('%s', (_, statement, slug) => {
    const found = problemsIn(
      `${statement}splice BB\nrun W1 6 mm², 1 m, AA to BB\nrun W2 6 mm², 1 m, BB to AA\nload L 5 W\nrun W3 2 x 6 mm², 1 m\n  red AA to L:+\n  black BB to L:-\n`,
    );
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(slug);
  });

  it('a name with a colon is still a name', () => {
    const { problems } = modelOf('fuse F1: 3 A\nsplice AA and BB\nrun W1 6 mm², 1 m, AA to F1:in\n');
    expect(problems.every(({ place }) => place.span.end <= 'fuse F1: 3 A'.length)).toBe(true);
    expect(problems.length).toBeGreaterThan(0);
  });
});
