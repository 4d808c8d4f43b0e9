import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalText } from '../../grammar/canonical.ts';
import { parseDocument, type ShapedTree } from '../../grammar/parse.ts';
import { formatDocument, formatEdits } from '../../grammar/printer.ts';
import { vocabulary as real } from '../../server/kinds/vocabulary.ts';
import { mutated, pieces } from './invariants.ts';
import { vocabulary } from './vocabulary.ts';

const tidy = (text: string) => formatDocument(parseDocument(text, vocabulary));

function withEdits(text: string, from = 0, to = text.length): string {
  const edits = formatEdits(parseDocument(text, vocabulary), { start: from, end: to });
  return [...edits]
    .reverse()
    .reduce((now, { span, newText }) => now.slice(0, span.start) + newText + now.slice(span.end), text);
}

const lines = (...all: string[]) => `${all.join('\n')}\n`;

describe('units, numbers and signs', () => {
  it.each([
    ['run W1 6mm2 red', 'run W1  6 mm² red'],
    ['run W1 6 mm^2', 'run W1  6 mm²'],
    ['run W1 6 sq mm', 'run W1  6 mm²'],
    ['run W1 2x2.5mm²', 'run W1  2 x 2.5 mm²'],
    ['run W1 2 × ?mm2', 'run W1  2 x ? mm²'],
    ['run W1 10AWG', 'run W1  10 AWG'],
    ['run W1 2/0AWG', 'run W1  2/0 AWG'],
    ['run W1 .5 mm²', 'run W1  0.5 mm²'],
    ['run W1 4.20\u2009m', 'run W1  4.20 m'],
    ['load L 5 \u2126', 'load L  5 Ω'],
    ['load L 4\u00a0h/d', 'load L  4 h/d'],
    ['place P \u221212degC', 'place P  -12 °C'],
    ['place P \u20133 ºC', 'place P  -3 °C'],
    ['panel P tilt 10 °', 'panel P  tilt 10°'],
    ['panel P voc drift -0.30%/degC', 'panel P  voc drift -0.30 %/°C'],
    ['link Q 1–3', 'link Q  1-3'],
    ['run W1 A:pv\u2212 to B', 'run W1  A:pv- to B'],
    ['fuse F \u201cMain\u201d 5 A', 'fuse F "Main"  5 A'],
    ['fuse Gru\u0308n 5 A', 'fuse Grün  5 A'],
  ])('%s', (text, formatted) => {
    expect(tidy(text)).toBe(`${formatted}\n`);
  });

  it.each([
    ['what is misspelt', 'load L  5 amps'],
    ['a gauge behind its unit', 'run W1  AWG 10'],
    ['noughts for a gauge', 'run W1  00 AWG'],
    ['a mark of inches', 'run W1  6" , 5\'6"'.replace(' ,', ',')],
    ['a decimal comma', 'run W1  2,5 mm²'],
    ['#10', 'run W1  #10 red'],
    ['an open text', 'system "Shed 12 V'],
  ])('%s is a finding and stays', (_, text) => {
    expect(tidy(text)).toBe(`${text}\n`);
  });
});

describe('spaces', () => {
  it('are one between words, none before a comma, none at a line’s end', () => {
    expect(tidy('fuse   F1\t80 A ,blade,  breaks   2 kA  \n')).toBe('fuse F1  80 A, blade, breaks 2 kA\n');
    expect(tidy('run W1 =thin red')).toBe('run W1  = thin red\n');
    expect(tidy('system   "Shed"12 V')).toBe('system "Shed" 12 V\n');
    expect(tidy('use"x.amps"')).toBe('use "x.amps"\n');
  });

  it('indent continuation lines by four', () => {
    expect(tidy('load L 5 W\n\tessential\n  lowest 11 V\n')).toBe(
      lines('load L  5 W', '    essential', '    lowest 11 V'),
    );
    expect(tidy('run W1 6 mm², A:1 to\n B:1')).toBe(lines('run W1  6 mm², A:1 to', '    B:1'));
  });

  it('put an indented statement at the margin', () => {
    expect(tidy('load L 5 W\n  fuse F1 5 A\n')).toBe(lines('load L   5 W', 'fuse F1  5 A'));
  });

  it('leave commas and line ends where they stand', () => {
    expect(tidy('fuse F1, 80 A,, blade,\n  breaks 2 kA,\n')).toBe(lines('fuse F1, 80 A,, blade,', '    breaks 2 kA,'));
  });
});

describe('columns', () => {
  it('hold what follows the heads of neighbouring parts', () => {
    expect(tidy('fuse F1 "Main" 80 A\nbusbar POS 150 A\nisolator Q1 4 poles, 25 A\n')).toBe(
      lines('fuse F1 "Main"  80 A', 'busbar POS      150 A', 'isolator Q1     4 poles, 25 A'),
    );
  });

  it('end at blank and comment lines, and where other statements begin', () => {
    expect(tidy('fuse F1 5 A\n\nfuse LONG 5 A\n# note\nfuse LONGER 5 A\nrun W1 1 m\nrun W10 1 m\nplace A 5 °C\n')).toBe(
      lines(
        'fuse F1  5 A',
        '',
        'fuse LONG  5 A',
        '# note',
        'fuse LONGER  5 A',
        'run W1   1 m',
        'run W10  1 m',
        'place A  5 °C',
      ),
    );
  });

  it('go on over the continuation lines between', () => {
    expect(tidy('load L 5 W\n    essential\nload LONG 5 W\n')).toBe(
      lines('load L     5 W', '    essential', 'load LONG  5 W'),
    );
  });

  it('are not widened by a very long head', () => {
    const title = 'x'.repeat(60);
    expect(tidy(`fuse F1 "${title}" 5 A\nfuse F22 5 A\nfuse F3 5 A\n`)).toBe(
      lines(`fuse F1 "${title}"  5 A`, 'fuse F22  5 A', 'fuse F3   5 A'),
    );
  });

  it('hold the cores of a run', () => {
    expect(
      tidy('run W1 2 x 6 mm²\n  red FB:3 to L:+\n  core 2 black NEG to L:-\n  green/yellow spare\n  enters BOX open\n'),
    ).toBe(
      lines(
        'run W1  2 x 6 mm²',
        '    red           FB:3 to L:+',
        '    core 2 black  NEG  to L:-',
        '    green/yellow  spare',
        '    enters BOX open',
      ),
    );
  });

  it('take no part of a line that only lacks a comma', () => {
    expect(tidy('run W1 6 mm²\n  4 m along LOFT\n  red A:1 to B:1\n')).toBe(
      lines('run W1  6 mm²', '    4 m along LOFT', '    red  A:1 to B:1'),
    );
  });
});

describe('comments and blank lines', () => {
  it('stay in their place', () => {
    expect(tidy('#top\n\nload L 5 W   # behind\n# at the margin\n      # indented\n\n  essential#\n    # last\n')).toBe(
      lines(
        '#top',
        '',
        'load L 5 W   # behind',
        '# at the margin',
        '      # indented',
        '',
        '  essential#',
        '    # last',
      ),
    );
    expect(tidy('#top\n\nload L 5 W   # behind\n# at the margin\n      # indented\n\n  essential #\n  # last\n')).toBe(
      lines(
        '#top',
        '',
        'load L  5 W  # behind',
        '# at the margin',
        '    # indented',
        '',
        '    essential  #',
        '    # last',
      ),
    );
  });

  it('keep at most two blank lines in a row, none at the beginning and the end', () => {
    expect(tidy('\n\n\nload L 5 W\n\n\n\n\nload M 5 W\n \n\t\n\n')).toBe(lines('load L  5 W', '', '', 'load M  5 W'));
    expect(tidy('load L 5 W\n\n\n\n    essential\n')).toBe(lines('load L  5 W', '', '', '    essential'));
    expect(tidy('\n \n')).toBe('');
    expect(tidy('')).toBe('');
    expect(tidy('# only a comment')).toBe('# only a comment\n');
  });

  it('keep the line end of every line, be they mixed', () => {
    const mixed = 'system "x" 12 V\r\nload LA 2 W\n  essential\nload LB 3 W\r\n\n\n\n\r\n\nload LC 3 W';
    const formatted = 'system "x" 12 V\r\nload LA  2 W\n    essential\nload LB  3 W\r\n\n\nload LC  3 W\r\n';
    expect(tidy(mixed)).toBe(formatted);
    expect(withEdits(mixed)).toBe(formatted);
    for (const { newText } of formatEdits(parseDocument(mixed, vocabulary))) expect(newText).not.toMatch(/\r(?!\n)/);
  });

  it('keep the line ends and the mark of byte order the text has', () => {
    expect(tidy('load L 5 W\r\n  essential\r\n\r\n')).toBe('load L  5 W\r\n    essential\r\n');
    expect(tidy('load L 5 W\r\nload M 5 W')).toBe('load L  5 W\r\nload M  5 W\r\n');
    expect(tidy('\uFEFFload L 5 W\n')).toBe('\uFEFFload L  5 W\n');
  });
});

describe('what cannot be read', () => {
  it('stays as it stands, but for white space at line ends', () => {
    expect(tidy('fues   F1   5A  \n')).toBe('fues   F1   5A\n');
    expect(tidy('fuse  F1  (5A)\n')).toBe('fuse  F1  (5A)\n');
    expect(tidy('6mm2   red\n')).toBe('6mm2   red\n');
  });

  it('is spaced where it is only misplaced or misspelt', () => {
    expect(tidy('fuse F1 5A ,wibble   3A,tilt 10 °')).toBe('fuse F1  5 A, wibble 3 A, tilt 10°\n');
  });

  it.each([
    ['a point in a name', 'stock cable-2.5  cable 2.5 mm²'],
    ['a point behind a short name', 'fuse F1.1 5 A'],
    ['two points in a number', 'load L 1.5.2 W'],
    ['a quote that only closes', 'load LAMP Bench lamp" 6 W, lowest 10 V'],
    ['a quote that only closes behind the first word', 'system" 12 V'],
    ['a number whose spelling a message quotes', 'load L .5, lowest 10 V'],
  ])('stays as it is written where its words touch: %s', (_, text) => {
    expect(tidy(`${text}\n`)).toBe(`${text}\n`);
  });

  it('stays where other spaces would make it read otherwise', () => {
    // With spaces between, the name would be gone: a number and a word.
    expect(tidy('fuse 12V-MAIN 80A\n')).toBe('fuse 12V-MAIN 80A\n');
  });
});

describe('edits', () => {
  const untidy = '\n\nload L 5W\n\n\n\n# note  \nrun W1 6mm2\n  red A to B\n  black LONG to B';

  it('make the formatted text', () => {
    expect(withEdits(untidy)).toBe(tidy(untidy));
    expect(formatEdits(parseDocument(tidy(untidy), vocabulary))).toEqual([]);
  });

  it('touch only what differs', () => {
    const text = 'load L  5 W\nload M  5W\nload N  5 W\n';
    expect(formatEdits(parseDocument(text, vocabulary))).toEqual([
      { span: { start: text.indexOf('5W') + 1, end: text.indexOf('5W') + 1 }, newText: ' ' },
    ]);
  });

  it.each([
    ['at the beginning', '\uFEFFload L 5W\nload M 5W\n\nload N 5W\n'],
    ['before a comment', '\uFEFF# note\nload L 5W\nload M 5W\n'],
    ['between statements', 'load L 5W\n\uFEFFload M 5W\nload N 5W\n'],
    ['behind a blank line', 'load L 5W\n\n\uFEFFload M 5W\nload N 5W\n'],
    ['at the end', 'load L 5W\nload M 5W\n\uFEFF'],
  ])('keep every line beside a mark of byte order %s', (_, text) => {
    expect(withEdits(text)).toBe(tidy(text));
    expect(tidy(text).split('\n').length).toBe(text.split('\n').length);
  });

  it('keep to the lines of a span', () => {
    const text = 'load L 5W\nload M 5W\nload N 5W\n';
    expect(withEdits(text, 12, 13)).toBe('load L 5W\nload M  5 W\nload N 5W\n');
    expect(withEdits(`\uFEFF${text}`, 13, 14)).toBe('\uFEFFload L 5W\nload M  5 W\nload N 5W\n');
  });
});

/** All that a text says: clauses with their values, names, titles, comments, problems. */
function meaning(tree: ShapedTree): unknown {
  const comments = (text: string) =>
    text
      .split('\n')
      .map((line) => line.trim())
      .filter((line) => line.startsWith('#'));
  return tree.items.flatMap<unknown>((item) =>
    item.kind === 'gap'
      ? comments(item.text.replace(/^\uFEFF/, ''))
      : [
          item.node.keyword?.value,
          item.node.names.map(({ value }) => value),
          item.node.title?.value,
          item.shaped.clauses.map(({ spec, values, segment }) => [
            spec.id,
            segment,
            values.map(({ atom }) => (atom.kind === 'blank' ? '?' : canonicalText(atom))),
          ]),
          item.node.comments.map(({ text }) => text.trimEnd()),
          // Formatting mends the indentation, and takes out what cannot be seen between words.
          item.shaped.problems
            .map(({ slug }) => slug)
            .filter((slug) => slug !== 'indented-statement' && slug !== 'stray-character'),
          item.notes,
        ],
  );
}

function checkFormat(text: string): void {
  const tree = parseDocument(text, real);
  const once = formatDocument(tree);
  const again = parseDocument(once, real);
  expect(formatDocument(again)).toBe(once);
  expect(meaning(again)).toEqual(meaning(tree));
  const edited = [...formatEdits(tree)]
    .reverse()
    .reduce((now, { span, newText }) => now.slice(0, span.start) + newText + now.slice(span.end), text);
  expect(edited).toBe(once);
}

describe('formatting', () => {
  const samples = readdirSync('samples').filter((name) => name.endsWith('.amps'));

  it('twice is formatting once, loses no comment and changes no meaning, in any text', () => {
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 50 }), (parts) => checkFormat(parts.join(''))),
      { numRuns: 1500 },
    );
  });

  it.each(samples)('so too of %s, mutated', (name) => {
    const text = readFileSync(`samples/${name}`, 'utf8').slice(0, 4000);
    fc.assert(
      fc.property(fc.nat(text.length), fc.nat(30), fc.array(pieces, { maxLength: 3 }), (from, length, put) =>
        checkFormat(mutated(text, from, length, put.join(''))),
      ),
      { numRuns: 40 },
    );
  });
});
