import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LineIndex } from '../../grammar/lines.ts';

const text = 'run W1\r\n    é🔋 x\n\nlast';
const index = new LineIndex(text);

describe('places in a text', () => {
  it('are lines and UTF-16 characters from 0', () => {
    expect(index.lineCount).toBe(4);
    expect(index.position(0)).toEqual({ line: 0, character: 0 });
    expect(index.position(text.indexOf('é'))).toEqual({ line: 1, character: 4 });
    expect(index.position(text.indexOf('x'))).toEqual({ line: 1, character: 8 });
    expect(index.position(text.length)).toEqual({ line: 3, character: 4 });
    expect(index.lineStart(2)).toBe(text.indexOf('\n\nlast') + 1);
  });

  it('beyond an end are that end', () => {
    expect(index.position(-5)).toEqual({ line: 0, character: 0 });
    expect(index.position(9999)).toEqual({ line: 3, character: 4 });
    expect(index.offset({ line: 0, character: 7 })).toBe('run W1'.length);
    expect(index.offset({ line: 0, character: 40 })).toBe('run W1'.length);
    expect(index.offset({ line: 2, character: 40 })).toBe(index.lineStart(2));
    expect(index.offset({ line: 3, character: 40 })).toBe(text.length);
    expect(index.offset({ line: 99, character: 0 })).toBe(text.length);
    expect(index.offset({ line: -1, character: 3 })).toBe(0);
    expect(index.lineStart(99)).toBe(text.length);
  });

  it('go there and back', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('a', '\n', '\r\n', '🔋', 'é', ' ')), (pieces) => {
        const any = pieces.join('');
        const lines = new LineIndex(any);
        // Between `\r` and `\n` is no place for a client.
        for (let offset = 0; offset <= any.length; offset++)
          if (any.slice(offset - 1, offset + 1) !== '\r\n') expect(lines.offset(lines.position(offset))).toBe(offset);
      }),
    );
  });
});
