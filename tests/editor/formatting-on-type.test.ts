/** Formatting while typing: what is typed at the `|` last, and the text and pointer it gives. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { formattingOnType } from '../../server/editor/formatting-on-type.ts';
import { analyseText } from '../analysed.ts';
import { edited } from './editing.ts';

/** The character before the `|` has just been typed. */
function typed(marked: string): string {
  const offset = marked.indexOf('|');
  const text = marked.replace('|', '');
  const edits = formattingOnType(analyseText(text), offset, text.charAt(offset - 1));
  return edited(text, edits);
}

describe('a comma', () => {
  it.each([
    ['tidies the words before it', 'run W1   6mm2 red ,|', 'run W1  6 mm² red,'],
    ['and leaves those behind it', 'run W1   6mm2 red,|2m, B1:+   to  F1:in', 'run W1  6 mm² red,2m, B1:+   to  F1:in'],
    [
      'and those of other lines',
      'fuse  F1  5A\nfuse F2   5A,|\nfuse  F3  5A\n',
      'fuse  F1  5A\nfuse F2  5 A,\nfuse  F3  5A\n',
    ],
    ['on a line that goes on', 'run W1  6 mm²\n  along   LOFT ,|\n', 'run W1  6 mm²\n    along LOFT,\n'],
    ['in a text is a letter', 'fuse F1 "a  b ,|"  5A', 'fuse F1 "a  b ,"  5A'],
    ['in a remark is a letter', 'fuse F1   5A  # a ,|', 'fuse F1   5A  # a ,'],
    ['in a line that is a remark', '#  a ,|\nfuse F1  5 A', '#  a ,\nfuse F1  5 A'],
    ['of a statement that cannot be read leaves its words', 'fusee   F1   5A ,|', 'fusee   F1   5A,'],
  ])('%s', (_, marked, wanted) => {
    expect(typed(marked)).toBe(wanted);
  });

  it('keeps the column of the names around it', () => {
    expect(typed('fuse F1           5 A\nload LAMP  24W ,|\nfuse LONG-NAME-1  5 A\n')).toBe(
      'fuse F1           5 A\nload LAMP         24 W,\nfuse LONG-NAME-1  5 A\n',
    );
  });
});

describe('a line end', () => {
  it.each([
    ['tidies the line that was finished', 'fuse F1   5A\n|', 'fuse F1  5 A\n'],
    [
      'and no other',
      'fuse   F0  5A\n\nfuse F1   5A\n|\nfuse   F2  5A\n',
      'fuse   F0  5A\n\nfuse F1  5 A\n\nfuse   F2  5A\n',
    ],
    ['behind a comma indents the next', 'battery B1  agm,\n|', 'battery B1  agm,\n    '],
    ['behind `to` and `and` too', 'run W1  6 mm² red, 2 m, B1:+ to\n|', 'run W1  6 mm² red, 2 m, B1:+ to\n    '],
    ['behind the head of a run of several cores', 'run W1  2 x 1.5 mm², 2 m\n|', 'run W1  2 x 1.5 mm², 2 m\n    '],
    ['keeps an indent that the editor has made', 'run W1  2 x 1.5 mm², 2 m\n    |', 'run W1  2 x 1.5 mm², 2 m\n    '],
    ['behind a remark with a comma does not', 'fuse F1  5 A  # old,\n|', 'fuse F1  5 A  # old,\n'],
    ['behind a comma whose line has `#` in a title', 'battery B1 "No # 1"  agm,\n|', 'battery B1 "No # 1"  agm,\n    '],
    ['behind a mark of byte order too', '\ufeffrun W1  2 x 1.5 mm², 2 m\n|', '\ufeffrun W1  2 x 1.5 mm², 2 m\n    '],
    ['at the beginning of the file', '\n|', '\n'],
  ])('%s', (_, marked, wanted) => {
    expect(typed(marked.endsWith('    |') ? marked.replace('    |', '|    ') : marked)).toBe(wanted);
  });

  it.each([
    ['behind a comma', 'battery B1  agm,\n|12 V, 60 Ah\n', 'battery B1  agm,\n    12 V, 60 Ah\n'],
    ['before one', 'battery B1  agm\n|, 12 V\n', 'battery B1  agm\n    , 12 V\n'],
    ['before a space', 'battery B1  agm,\n| 12 V\n', 'battery B1  agm,\n    12 V\n'],
    ['behind its name', 'run W1\n|6 mm² red, 2 m\n', 'run W1\n    6 mm² red, 2 m\n'],
    ['on a line that goes on', 'load L1  5 W\n    for 2 s,\n|1 h/day\n', 'load L1  5 W\n    for 2 s,\n    1 h/day\n'],
    [
      'before a word that begins statements too',
      'fusebox FB  6 ways\n    way 3\n|fuse 5 A\n',
      'fusebox FB  6 ways\n    way 3\n    fuse 5 A\n',
    ],
    ['with Windows line ends', 'battery B1  agm,\r\n|12 V\r\n', 'battery B1  agm,\r\n    12 V\r\n'],
  ])('in a statement, %s, keeps the rest in it', (_, marked, wanted) => {
    expect(typed(marked)).toBe(wanted);
  });

  it.each([
    ['alone', '# the old lamp, \n|which is spare\nfuse F1  5 A\n', '# the old lamp,\n# which is spare\nfuse F1  5 A\n'],
    ['behind a mark of byte order', '\ufeff# the old\n|one\n', '\ufeff# the old\n# one\n'],
    ['with an indent', 'load L1  5 W\n    # the old\n|    one\n', 'load L1  5 W\n    # the old\n    # one\n'],
    ['behind words', 'load L1  5 W  # the old\n| one\n', 'load L1  5 W  # the old\n    # one\n'],
    ['before its `#`', 'load L1  5 W\n|# the old one\n', 'load L1  5 W\n# the old one\n'],
  ])('in a remark %s makes two of it', (_, marked, wanted) => {
    expect(typed(marked)).toBe(wanted);
  });

  it.each([
    ['before a statement', 'fuse F1  5 A\n|fuse F2  5 A\n'],
    ['above one', 'load L1  5 W,\n\n|fuse F2  5 A\n'],
    ['in what cannot be read', 'a lamp that\n|hums\n'],
  ])('%s leaves it at the margin', (_, marked) => {
    expect(typed(marked)).toBe(marked.replace('|', ''));
  });

  it('leaves the part of an indent that stays, behind which the pointer is', () => {
    const text = 'battery B1  agm,\n     12 V\n';
    const [edit, ...more] = formattingOnType(analyseText(text), text.indexOf('    12 V') + 3, '\n');
    expect([edit?.range, edit?.newText, more]).toEqual([
      { start: { line: 1, character: 4 }, end: { line: 1, character: 5 } },
      '',
      [],
    ]);
  });

  it('keeps Windows line ends', () => {
    expect(typed('fuse F1   5A\r\n|fuse F2  5 A\r\n')).toBe('fuse F1  5 A\r\nfuse F2  5 A\r\n');
  });
});

describe('other letters and tidy text', () => {
  it('bring nothing', () => {
    expect(formattingOnType(analyseText('fuse F1   5A'), 12, 'A')).toEqual([]);
    expect(formattingOnType(analyseText('fuse F1   5A'), 3, ',')).toEqual([]);
  });

  it.each(readdirSync('samples').filter((name) => name.endsWith('.amps')))('of samples/%s change nothing', (name) => {
    const text = readFileSync(`samples/${name}`, 'utf8');
    const analysis = analyseText(text);
    const places = [...text.matchAll(/[,\n]/gu)].filter((_, i) => i % 29 === 0);
    expect(places.length).toBeGreaterThan(0);
    for (const { index, 0: letter } of places)
      expect([index, formattingOnType(analysis, index + 1, letter)]).toEqual([index, []]);
  });
});
