import { describe, expect, it } from 'vitest';
import { oneLine } from '../../server/session/guard.ts';
import { decodeSpec, whyMissing } from '../../server/session/protocol.ts';
import { resolveUse, sameSpelling, writeUse } from '../../server/session/uris.ts';

describe('one file has one address', () => {
  it.each([
    ['file:///c%3A/van/a.amps', 'file:///C:/van/a.amps'],
    ['file:///van/my spec.amps', 'file:///van/my%20spec.amps'],
    ['file:///van/stock%2Eamps', 'file:///van/stock.amps'],
    ['file:///van/%C3%BCber.amps', 'file:///van/über.amps'],
  ])('%s is %s', (one, other) => {
    expect(sameSpelling(one)).toBe(sameSpelling(other));
    expect(sameSpelling(sameSpelling(one))).toBe(sameSpelling(one));
  });

  it.each(['file:///van/a.amps', 'untitled:Untitled-1', 'vscode-vfs://host/repo/a.amps', 'no address', ''])(
    '%s stays itself, whatever it is',
    (one) => {
      expect(() => sameSpelling(one)).not.toThrow();
      expect(sameSpelling(sameSpelling(one))).toBe(sameSpelling(one));
    },
  );

  it('other files have others', () => {
    expect(sameSpelling('file:///van/a.amps')).not.toBe(sameSpelling('file:///van/b.amps'));
    expect(sameSpelling('file:///van/A.amps')).not.toBe(sameSpelling('file:///van/a.amps'));
  });
});

describe('the path of a use', () => {
  it.each([
    ['file:///van/a.amps', 'stock.amps', 'file:///van/stock.amps'],
    ['file:///van/a.amps', './stock.amps', 'file:///van/stock.amps'],
    ['file:///van/wiring/a.amps', '../stock.amps', 'file:///van/stock.amps'],
    ['file:///van/a.amps', 'shelf/my stock.amps', 'file:///van/shelf/my%20stock.amps'],
    ['file:///van/a.amps', 'shelf#1.amps', 'file:///van/shelf%231.amps'],
    ['file:///van/a.amps', 'a?b.amps', 'file:///van/a%3Fb.amps'],
    ['file:///van/a.amps', '/shared/stock.amps', 'file:///shared/stock.amps'],
    ['file:///van/a.amps', '../../../stock.amps', 'file:///stock.amps'],
    ['vscode-vfs://host/repo/a.amps', 'stock.amps', 'vscode-vfs://host/repo/stock.amps'],
    ['file:///c%3A/van/a.amps', '../stock.amps', 'file:///c%3A/stock.amps'],
  ])('in %s, %s is %s', (from, path, address) => {
    expect(resolveUse(from, path)).toBe(address);
    // What a use leads to and what the editor opens is one file.
    expect(sameSpelling(resolveUse(from, path))).toBe(resolveUse(from, path));
  });
});

describe('the path that a use would have', () => {
  it.each([
    ['file:///van/a.amps', 'file:///van/stock.amps', 'x', 'stock.amps'],
    ['file:///van/a.amps', 'file:///van/stock.amps', './x', './stock.amps'],
    ['file:///van/wiring/a.amps', 'file:///van/my%20stock.amps', './x', '../my stock.amps'],
    ['file:///van/a.amps', 'file:///van/shelf/one/stock.amps', 'x', 'shelf/one/stock.amps'],
    ['file:///van/wiring/a.amps', 'file:///van/shelf/stock.amps', 'x', '../shelf/stock.amps'],
    ['file:///van/a.amps', 'file:///shared/stock.amps', '/x', '/shared/stock.amps'],
    ['file:///van/van/a.amps', 'file:///van/van', 'x', '../van'],
  ])('in %s, of %s, is written like %s', (from, to, like, path) => {
    expect(writeUse(from, to, like)).toBe(path);
    expect(resolveUse(from, path)).toBe(to);
  });

  it('is none from one disk to another', () => {
    expect(writeUse('file:///van/a.amps', 'memfs:/van/b.amps', 'x')).toBeUndefined();
  });
});

describe('what went wrong', () => {
  it('is one line, of any length and of anything thrown', () => {
    expect(oneLine(new TypeError('no wire\n    at place (file:1:2)'))).toBe('TypeError: no wire');
    expect(oneLine('words')).toBe('words');
    expect(oneLine(undefined)).toBe('undefined');
    expect(oneLine(new Error('x'.repeat(10_000)))).toHaveLength(500);
  });

  it('with a file is told in words, on any file system', () => {
    const told = (error: unknown) => whyMissing(error) as { missing: string };
    expect(told({ code: 'ENOENT' })).toEqual(told({ code: 'FileNotFound' }));
    expect(told({ code: 'EACCES' })).toEqual(told({ code: 'NoPermissions' }));
    expect(told({ code: 'EISDIR' })).toEqual(told({ code: 'FileIsADirectory' }));
    for (const error of [null, undefined, 'x', new Error('EIO'), { code: 7 }])
      expect(told(error)).toEqual({ missing: 'it could not be read' });
  });

  it('with bytes that are no UTF-8 is not guessed at; a byte order mark is text', () => {
    expect(decodeSpec(new TextEncoder().encode('6 mm² Ω 🔌'))).toEqual({ text: '6 mm² Ω 🔌' });
    expect(decodeSpec(Uint8Array.of(0xef, 0xbb, 0xbf, 0x61))).toEqual({ text: 'a' });
    expect(decodeSpec(Uint8Array.of(0xff, 0xfe, 0x61, 0x00))).toHaveProperty('missing');
    expect(decodeSpec(Uint8Array.of(0xc3))).toHaveProperty('missing');
    expect(decodeSpec(new Uint8Array())).toEqual({ text: '' });
  });
});
