import { DOMParser } from '@xmldom/xmldom';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { element, plain, text } from '../../server/reports/xml.ts';

function parsed(xml: string) {
  return new DOMParser({
    onError: (level, message) => {
      throw new Error(`${level}: ${message}`);
    },
  }).parseFromString(xml, 'text/xml');
}

describe('XML', () => {
  it('keeps what is not meant as XML as text', () => {
    const hostile = `<img src=x onerror='alert("1")'> & ]]> \u0000\u000b\ud800\uffff`;
    const { xml } = element('g', { id: hostile, none: undefined }, element('text', { x: 1 / 3 }, text(hostile)));
    const root = parsed(xml).documentElement;
    const read = `<img src=x onerror='alert("1")'> & ]]> □□□□`;
    expect(root?.getAttribute('id')).toBe(read);
    expect(root?.textContent).toBe(read);
    expect(root?.getElementsByTagName('img')).toHaveLength(0);
    expect(xml).toContain('<text x="0.33">');
    expect(xml).not.toContain('none');
  });

  it('is well formed whatever the words are', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (words) => {
        const read = parsed(element('t', { a: words }, text(words)).xml).documentElement;
        expect(read?.childNodes.length).toBeLessThanOrEqual(1);
        expect(read?.tagName).toBe('t');
      }),
      { numRuns: 300 },
    );
  });

  it('writes lengths short, and never what is no number', () => {
    expect([1, 0.1 + 0.2, -0.0001, 12.345, Number.NaN, Number.POSITIVE_INFINITY].map(plain)).toEqual([
      ...['1', '0.3', '0', '12.35', '0', '0'],
    ]);
  });
});
