import { describe, expect, it } from 'vitest';
import { parseDocument } from '../../grammar/parse.ts';
import type { Atom, StatementNode } from '../../grammar/tree.ts';
import { vocabulary } from './vocabulary.ts';

function nodeOf(text: string): StatementNode {
  const [statement, ...others] = parseDocument(text, vocabulary).statements;
  expect(others).toEqual([]);
  if (statement === undefined) throw new Error(`no statement in ${text}`);
  return statement.node;
}

const body = (text: string): readonly Atom[] => nodeOf(`fuse F ${text}`).body;
const kinds = (text: string) => body(text).map(({ kind, text: own }) => `${kind} ${own}`);

describe('atoms', () => {
  it.each<[string, readonly string[]]>([
    ['blade', ['word blade']],
    ['green/yellow', ['word green/yellow']],
    ['a/b/c', ['word a/b/c']],
    ['Zuid-1 Ø_2 Ωα 蓄电池', ['word Zuid-1', 'word Ø_2', 'word Ωα', 'word 蓄电池']],
    ['𝔅1', ['word 𝔅1']],
    ['Q1:1 B1:+ U1:pv- U1:bat+', ['terminal Q1:1', 'terminal B1:+', 'terminal U1:pv-', 'terminal U1:bat+']],
    ['Q1:', ['terminal Q1:']],
    ['K1:87a R:ground-2', ['terminal K1:87a', 'terminal R:ground-2']],
    ['Ω1:+', ['terminal Ω1:+']],
    ['6 mm²', ['quantity 6 mm²']],
    ['6mm2', ['quantity 6mm2']],
    ['2 x 2.5 mm²', ['times 2 x', 'quantity 2.5 mm²']],
    ['2x2.5mm2', ['times 2x', 'quantity 2.5mm2']],
    ['2 × 2.5 mm²', ['times 2 ×', 'quantity 2.5 mm²']],
    ['2 x ? mm²', ['times 2 x', 'quantity ? mm²']],
    ['4 x M20', ['times 4 x', 'word M20']],
    ['4xM20', ['times 4x', 'word M20']],
    ['3 x', ['times 3 x']],
    ['3 xy 3x-a 3x:1', ['number 3', 'word xy', 'number 3', 'word x-a', 'number 3', 'terminal x:1']],
    ['1-3 2–4', ['range 1-3', 'range 2–4']],
    ['1-3z', ['number 1', 'number -3', 'word z']],
    ['-12 °C', ['quantity -12 °C']],
    ['4 poles', ['number 4', 'word poles']],
    ['2/0', ['number 2/0']],
    ['12.50', ['number 12.50']],
    ['.5', ['number .5']],
    ['?', ['blank ?']],
    ['? A', ['quantity ? A']],
    ['2026-04-18', ['date 2026-04-18']],
    ['10:30 9:05', ['clock 10:30', 'clock 9:05']],
    ['= thin', ['equals =', 'word thin']],
    ['=thin', ['equals =', 'word thin']],
    ['80 A,blade', ['quantity 80 A', 'comma ,', 'word blade']],
    ['1,2', ['number 1', 'comma ,', 'number 2']],
    ['1,2,3 A', ['number 1', 'comma ,', 'quantity 2,3 A']],
    ['bunched with 5 A:+ to B:+', ['word bunched', 'word with', 'number 5', 'terminal A:+', 'word to', 'terminal B:+']],
    ['6\n    A', ['number 6', 'line \n', 'word A']],
    ['6 "mm"', ['number 6', 'text "mm"']],
    ['6"', ['quantity 6"']],
    ['5\'6"', ['quantity 5\'6"']],
    ['AWG 10 red', ['quantity AWG 10', 'word red']],
    ['AWG 10 A', ['word AWG', 'quantity 10 A']],
    ['AWG', ['word AWG']],
    ['(a)', ['junk (', 'word a', 'junk )']],
    ['a;b', ['word a', 'junk ;', 'word b']],
    ['🔋', ['junk 🔋']],
    ['a#b', ['word a', 'junk #', 'word b']],
  ])('%s', (text, atoms) => {
    expect(kinds(text)).toEqual(atoms);
  });

  it('names and terminals are in NFC, with a plain minus', () => {
    const decomposed = 'Gru\u0308n';
    expect(nodeOf(`fuse ${decomposed} 80 A`).names[0]).toMatchObject({ value: 'Grün', text: decomposed });
    expect(body(`${decomposed}:pv\u2212`)[0]).toMatchObject({ part: 'Grün', terminal: 'pv-' });
    expect(body('U1:pv\u2013')[0]).toMatchObject({ terminal: 'pv-' });
  });

  it('a terminal has places of part and designation', () => {
    expect(body('Q1:1')[0]).toMatchObject({
      part: 'Q1',
      terminal: '1',
      partSpan: { start: 7, end: 9 },
      terminalSpan: { start: 10, end: 11 },
    });
  });

  it.each([
    ['"Roof isolator"', 'Roof isolator', true],
    ['\u201cRoof isolator\u201d', 'Roof isolator', true],
    ['"open  ', 'open', false],
    ['""', '', true],
    ['"', '', false],
    ['"# no comment"', '# no comment', true],
  ])('text %s', (text, value, closed) => {
    expect(nodeOf(`fuse F ${text}`).title).toMatchObject({ kind: 'text', value, closed });
  });

  it('ranges, counts and plain numbers have values', () => {
    expect(body('1-12')[0]).toMatchObject({ from: 1, to: 12 });
    expect(body('12 x 1 mm²')[0]).toMatchObject({ value: 12 });
    expect(body('-4.5')[0]).toMatchObject({ value: -4.5 });
  });

  it('white space of any kind parts them', () => {
    expect(kinds('80\u00a0A,\u2009blade\tx')).toEqual(['quantity 80\u00a0A', 'comma ,', 'word blade', 'word x']);
  });
});

describe('comments', () => {
  it('begin at a line’s start or behind white space, and run to the line’s end', () => {
    const node = nodeOf('fuse F1 80 A # main, "quoted"\r\n# own line\r\n    blade\t#\n');
    expect(node.comments.map(({ text }) => text)).toEqual(['# main, "quoted"', '# own line', '#']);
    expect(node.body.map(({ kind }) => kind)).toEqual(['quantity', 'line', 'line', 'word', 'line']);
    for (const { span, text } of node.comments) expect(node.text.slice(span.start, span.end)).toBe(text);
  });

  it.each([
    'run W1 6 mm² #10',
    'run W1 = thin #10',
    'run W1 6 mm², #10 is not a gauge here',
    'run W1 # 10 red',
    'run W1 #100 red',
    'run W1\n    #10 red\n    4 m',
    'run W1 4 m #10',
    'fuse F1 #10',
    'run #10',
    'stock s #10',
    'run W1 #10red',
  ])('%s is no gauge', (text) => {
    const node = nodeOf(text);
    expect(node.comments).toHaveLength(1);
    expect(node.problems).toEqual([]);
  });
});

describe('the head', () => {
  const head = (text: string) => {
    const { keyword, names, title, body: rest } = nodeOf(text);
    return [keyword?.value, names.map(({ value }) => value), title?.value, rest.map(({ text: own }) => own).join(' ')];
  };

  it.each<[string, readonly unknown[]]>([
    ['fuse F1 80 A', ['fuse', ['F1'], undefined, '80 A']],
    ['panel P1 and P2 and P3 "East" 120 W', ['panel', ['P1', 'P2', 'P3'], 'East', '120 W']],
    ['run W1 and W2', ['run', ['W1'], undefined, 'and W2']],
    ['system "Shed" 12 V', ['system', [], 'Shed', '12 V']],
    ['use "a.amps"', ['use', [], undefined, '"a.amps"']],
    ['panel P1 and 120 W', ['panel', ['P1'], undefined, 'and 120 W']],
    ['panel in BOX', ['panel', [], undefined, 'in BOX']],
    ['fuse "Main" 80 A', ['fuse', [], 'Main', '80 A']],
    ['fuse 80 A', ['fuse', [], undefined, '80 A']],
    ['wibble W 3', ['wibble', ['W'], undefined, '3']],
    ['80 A', [undefined, [], undefined, '80 A']],
    ['fuse', ['fuse', [], undefined, '']],
    ['fuse A 10 A', ['fuse', ['A'], undefined, '10 A']],
  ])('%s', (text, parts) => {
    expect(head(text)).toEqual(parts);
  });
});
