/** A text in blocks says what the same text in one string says, however it was edited, and an edit shares what it does not touch. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LineIndex } from '../../grammar/lines.ts';
import { parseDocument } from '../../grammar/parse.ts';
import { commonEnd, commonStart, TextInBlocks } from '../../grammar/text-in-blocks.ts';
import { vocabulary } from './vocabulary.ts';

const line = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom('\n', '\r\n', 'run W1 6 mm² red\n', '    é🔋 x\r\n', '# Ω\n', 'a\r', 'end') },
  // Longer than a block, and with no line end to part it at.
  {
    weight: 1,
    arbitrary: fc.constantFrom('x'.repeat(20_000), `${'long '.repeat(5000)}\n`, 'fuse F1 5 A\n'.repeat(2000)),
  },
);
const text = fc.array(line, { maxLength: 12 }).map((lines) => lines.join(''));
const edits = fc.array(fc.record({ at: fc.nat(100_000), cut: fc.nat(100_000), put: text, few: fc.boolean() }), {
  maxLength: 6,
});

/** One text by edits of another, in blocks and as a string. */
function edited(first: string, all: readonly { at: number; cut: number; put: string; few: boolean }[]) {
  let plain = first;
  let blocks = TextInBlocks.of(first);
  for (const { at, cut, put, few } of all) {
    const start = at % (plain.length + 1);
    const end = Math.min(plain.length, start + (few ? cut % 5 : cut));
    plain = plain.slice(0, start) + put + plain.slice(end);
    blocks = blocks.edited(start, end, put);
  }
  return { plain, blocks };
}

/** Where something may go wrong: the ends of blocks, and the characters beside them. */
function edges({ offsets, length }: TextInBlocks): number[] {
  const all = [0, 1, length >> 1, length, ...offsets].flatMap((at) => [at - 2, at - 1, at, at + 1]);
  return [...new Set(all)].filter((at) => at >= 0 && at <= length);
}

describe('a text in blocks', () => {
  it('says the same as a string, wherever it is asked', () => {
    fc.assert(
      fc.property(text, edits, (first, all) => {
        const { plain, blocks } = edited(first, all);
        const whole = TextInBlocks.of(plain);
        for (const at of edges(blocks)) {
          expect(blocks.charCodeAt(at)).toBe(plain.charCodeAt(at));
          expect(blocks.charAt(at)).toBe(plain.charAt(at));
          expect(blocks.indexOf('\n', at)).toBe(plain.indexOf('\n', at));
          expect(blocks.lineStart(at)).toBe(at === 0 ? 0 : plain.lastIndexOf('\n', at - 1) + 1);
          for (const end of edges(blocks))
            if (blocks.slice(at, end) !== plain.slice(at, end)) expect([at, end]).toEqual([]);
        }
        expect(blocks.slice(-3)).toBe(plain.slice(-3));
        expect(blocks.length).toBe(plain.length);
        expect(blocks.says(whole)).toBe(true);
        expect(blocks.says(`${plain}x`)).toBe(false);
        expect(blocks.says(plain)).toBe(true);
        expect(String(blocks)).toBe(plain);
      }),
    );
  });

  it('has whole lines in its blocks, of a size that an edit is quick in', () => {
    fc.assert(
      fc.property(text, edits, (first, all) => {
        const { blocks } = edited(first, all);
        for (const [n, { text: own, starts }] of blocks.blocks.entries()) {
          const isLast = n === blocks.blocks.length - 1;
          if (!isLast) expect(own.endsWith('\n')).toBe(true);
          // A longer one is a line of its own, or what was left beside one.
          const longest = Math.max(0, ...starts.map((start, i) => (starts[i + 1] ?? own.length) - start));
          expect(own.length).toBeLessThanOrEqual(2 * 8192 + 2 * longest);
        }
      }),
    );
  });

  it('has its lines where the string has them', () => {
    fc.assert(
      fc.property(text, edits, (first, all) => {
        const { plain, blocks } = edited(first, all);
        const lines = new LineIndex(blocks);
        const starts = [0, ...[...plain.matchAll(/\n/g)].map(({ index }) => index + 1)];
        expect(lines.lineCount).toBe(starts.length);
        for (const at of edges(blocks)) {
          const line = starts.findLastIndex((start) => start <= at);
          expect(lines.position(at)).toEqual({ line, character: at - (starts[line] ?? 0) });
          expect(lines.lineStart(line)).toBe(starts[line]);
        }
      }),
    );
  });

  it('shares with the text before an edit all that the edit does not touch', () => {
    const before = TextInBlocks.of('fuse F1  5 A\n'.repeat(10_000));
    const after = before.edited(70_000, 70_001, 'xy');
    expect(before.blocks.length).toBeGreaterThan(10);
    expect(after.blocks.filter((block) => !before.blocks.includes(block))).toHaveLength(1);
    // Lines of what is shared are not looked for again.
    const starts = before.blocks[0]?.starts;
    expect(after.blocks[0]?.starts).toBe(starts);
    expect(commonStart(before, after)).toBe(70_000);
    expect(commonEnd(before, after, before.length - 70_000)).toBe(before.length - 70_001);
  });

  it('has line feeds for carriage returns alone, in no more blocks than need them', () => {
    fc.assert(
      fc.property(text, edits, (first, all) => {
        const { plain, blocks } = edited(first, all);
        expect(String(blocks.withLineFeeds())).toBe(plain.replace(/\r(?!\n)/g, '\n'));
      }),
    );
    const usual = TextInBlocks.of('fuse F1  5 A\r\n'.repeat(10_000));
    expect(usual.withLineFeeds()).toBe(usual);
    const mixed = usual.edited(70_000, 70_001, '\r\r');
    const [one, again] = [mixed.withLineFeeds(), mixed.withLineFeeds()];
    expect(one.blocks.filter((block) => !usual.blocks.includes(block))).toHaveLength(1);
    expect(one.blocks.every((block, i) => block === again.blocks[i])).toBe(true);
  });

  it('has in common with another what two strings have in common', () => {
    fc.assert(
      fc.property(text, edits, edits, (first, one, other) => {
        const [a, b] = [edited(first, one), edited(first, other)];
        let start = 0;
        while (start < Math.min(a.plain.length, b.plain.length) && a.plain[start] === b.plain[start]) start += 1;
        expect(commonStart(a.blocks, b.blocks)).toBe(start);
        const most = Math.min(a.plain.length, b.plain.length) - start;
        let end = 0;
        while (end < most && a.plain.at(-1 - end) === b.plain.at(-1 - end)) end += 1;
        expect(commonEnd(a.blocks, b.blocks, most)).toBe(end);
      }),
    );
  });

  it('is read as the string is', () => {
    const lines = fc.constantFrom(
      'fuse F1 5 A\n',
      '    blade\n',
      '# note\n',
      '\n',
      `load L 5 W # ${'x'.repeat(9000)}\n`,
      'run W1',
    );
    const said = ({ items }: ReturnType<typeof parseDocument>) =>
      items.map((item) => [item.kind, item.offset, item.line, item.kind === 'gap' ? item.text : item.node.text]);
    fc.assert(
      fc.property(fc.array(lines, { maxLength: 12 }), edits, (first, all) => {
        const { plain, blocks } = edited(first.join(''), all);
        expect(said(parseDocument(blocks, vocabulary))).toEqual(said(parseDocument(plain, vocabulary)));
      }),
      { numRuns: 30 },
    );
  });
});
