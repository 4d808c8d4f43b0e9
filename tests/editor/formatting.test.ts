import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseDocument } from '../../grammar/parse.ts';
import { formatDocument } from '../../grammar/printer.ts';
import { formatting } from '../../server/editor/formatting.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';
import { analyseText } from '../analysed.ts';
import { edited } from './editing.ts';

const untidy = `# Kept as it is.
system "Shed" 12V,ambient 35degC

battery B1 lead-acid,12 V,80Ah   # kept too
run W1   6mm2 red,1.2m,B1:+ to F1:in
fuse F1  10 A, blade


run W2 2x1.5mm2,3 m
  red FB:1 to LAMP:+
  black NEG to LAMP:-
`;
const tidy = (text: string) => formatDocument(parseDocument(text, vocabulary));
const lineOf = (text: string, word: string) => text.slice(0, text.indexOf(word)).split('\n').length - 1;

describe('formatting', () => {
  it('gives what the command’s formatter gives, and is then at rest', () => {
    const analysis = analyseText(untidy);
    const after = edited(untidy, formatting(analysis));
    expect(after).toBe(tidy(untidy));
    expect(after).not.toBe(untidy);
    expect(after).toContain('run W1   6 mm² red, 1.2 m, B1:+ to F1:in'.replace('   ', '  '));
    expect(after).toContain('# kept too');
    expect(formatting(analyseText(after))).toEqual([]);
  });

  it('touches no line that does not change', () => {
    const touched = new Set(
      formatting(analyseText(untidy)).flatMap(({ range }) =>
        Array.from({ length: Math.max(1, range.end.line - range.start.line) }, (_, n) => range.start.line + n),
      ),
    );
    for (const word of ['# Kept', 'fuse F1']) expect([word, touched.has(lineOf(untidy, word))]).toEqual([word, false]);
    for (const word of ['system', 'battery', 'run W1', 'run W2'])
      expect([word, touched.has(lineOf(untidy, word))]).toEqual([word, true]);
  });

  it('of a range changes the statements it touches, and no other', () => {
    const analysis = analyseText(untidy);
    const start = untidy.indexOf('run W1');
    const edits = formatting(analysis, { start: start + 3, end: start + 5 });
    const after = edited(untidy, edits);
    const lines = after.split('\n');
    const before = untidy.split('\n');
    expect(lines).toHaveLength(before.length);
    const changed = lines.flatMap((line, n) => (line === before[n] ? [] : [before[n]]));
    expect(changed.some((line) => line?.startsWith('run W1'))).toBe(true);
    expect(changed.some((line) => line?.startsWith('system') || line?.startsWith('run W2'))).toBe(false);
    expect(formatting(analysis, { start: 0, end: 3 })).toEqual([]);
    // A whole line selected ends where the next one begins, and does not mean that one.
    const remark = untidy.indexOf('system');
    expect(formatting(analysis, { start: 0, end: remark })).toEqual([]);
    expect(formatting(analysis, { start: remark, end: remark })).not.toEqual([]);
  });

  it('keeps the line ends of the file', () => {
    const windows = untidy.replaceAll('\n', '\r\n');
    const after = edited(windows, formatting(analyseText(windows)));
    expect(after).toBe(tidy(windows));
    expect(after.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  });

  it.each(readdirSync('samples').filter((name) => name.endsWith('.amps')))('leaves samples/%s as it is', (name) => {
    expect(formatting(analyseText(readFileSync(`samples/${name}`, 'utf8')))).toEqual([]);
  });

  it('of any lines at all, edits applied are the formatted text; of a range they are some of them', () => {
    const line = fc.constantFrom(
      ...untidy.split('\n'),
      'load  L1   12watts',
      '    enters BOX  by gland M20',
      'use   "x.amps"',
      '\t',
      '# 🔌',
      'run W9 ?mm2 red,2m',
      '"unclosed',
    );
    fc.assert(
      fc.property(fc.array(line, { maxLength: 24 }), fc.boolean(), fc.nat(), fc.nat(), (lines, last, a, b) => {
        const text = lines.join('\n') + (last ? '\n' : '');
        const analysis = analyseText(text);
        const all = formatting(analysis);
        expect(edited(text, all)).toBe(tidy(text));
        const [start, end] = [a % (text.length + 1), b % (text.length + 1)].sort((x, y) => x - y) as [number, number];
        for (const edit of formatting(analysis, { start, end })) expect(all).toContainEqual(edit);
      }),
      { numRuns: 150 },
    );
  });
});
