/** What is written part by part is what `JSON.stringify` writes at once, however large it is. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Message } from 'vscode-languageserver';
import { inParts, reusingMemory } from '../../server/session/writing.ts';

const options = { charset: 'utf-8' } as const;
const long = <T>(element: fc.Arbitrary<T>) => fc.array(element, { minLength: 35, maxLength: 130, size: 'max' });
const value = fc.oneof(
  fc.anything({ withBigInt: false, maxDepth: 2 }),
  long(fc.oneof(fc.nat(), fc.string({ unit: 'grapheme' }), fc.constant(undefined))),
  fc.record({ data: long(fc.nat(9)), resultId: fc.string(), none: fc.constant(undefined) }),
  fc.record({ items: long(fc.record({ name: fc.constantFrom('Ω', '💡', '"'), at: fc.nat() })), date: fc.date() }),
);

describe('a message in parts', () => {
  it('says the same as in one', () => {
    fc.assert(
      fc.property(value, (result) => {
        const message = { jsonrpc: '2.0', id: 1, result };
        expect([...inParts(message)].join('')).toBe(JSON.stringify(message));
      }),
    );
  });

  it('is parted where it is long, wherever in an answer that is', () => {
    const data = Array.from({ length: 10_000 }, (_, n) => n);
    for (const result of [data, { data, resultId: '7' }, { edits: [{ data }], items: data }]) {
      const parts = [...inParts({ jsonrpc: '2.0', id: 1, result })];
      expect(parts.length).toBeGreaterThan(100);
      expect(Math.max(...parts.map(({ length }) => length))).toBeLessThan('edits' in result ? 60_000 : 400);
    }
  });

  it('is the same in bytes, one after the other, small and large', async () => {
    const { encode } = reusingMemory();
    for (const size of [1, 5000, 3, 200_000, 40, 700_000]) {
      const message = {
        jsonrpc: '2.0',
        id: size,
        result: Array.from({ length: size }, (_, n) => `Ω💡 ${n}`),
      } as Message;
      expect(Buffer.from(await encode(message, options)).equals(Buffer.from(JSON.stringify(message)))).toBe(true);
    }
  });

  it('is written into the memory of the one before, unless that was far too large', async () => {
    const { encode } = reusingMemory();
    const sized = (size: number) => encode({ jsonrpc: '2.0', id: 1, result: 'x'.repeat(size) } as Message, options);
    const first = await sized(500_000);
    expect((await sized(10)).buffer).toBe(first.buffer);
    await sized(9_000_000);
    expect((await sized(10)).buffer).toBe(first.buffer);
  });
});
