/** Anything at all is read: no throw, no hang, and printed back it is the same. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseDocument } from '../../grammar/parse.ts';
import { formatDocument, printTree } from '../../grammar/printer.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';
import { checkTree, mutated, pieces } from './invariants.ts';

const samples = readdirSync('samples')
  .filter((name) => name.endsWith('.amps'))
  .map((name) => readFileSync(`samples/${name}`, 'utf8'));

describe('any text', () => {
  it('of meaningful pieces in any order', () => {
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 60 }), (parts) => checkTree(parts.join(''))),
      { numRuns: 1500 },
    );
  });

  it('of any characters', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (text) => checkTree(text)),
      { numRuns: 500 },
    );
  });

  it.each(samples.map((text, i) => [i, text] as const))('sample %i, mutated', (_, text) => {
    fc.assert(
      fc.property(fc.nat(text.length), fc.nat(30), fc.array(pieces, { maxLength: 3 }), (from, length, put) =>
        checkTree(mutated(text, from, length, put.join(''))),
      ),
      { numRuns: 60 },
    );
  });
});

describe('a long text', () => {
  const much = (piece: string, before = '', after = '') =>
    before + piece.repeat(Math.ceil(250_000 / piece.length)) + after;

  it.each([
    ['of brackets', much('(')],
    ['of spaces', much(' ')],
    ['of one word', much('a')],
    ['of one number', much('1')],
    ['of numbers and brackets', much('1(')],
    ['of commas', much(',')],
    ['of quotes', much('"')],
    ['of lines', much('\n')],
    ['of one-letter lines', much('a\n')],
    ['of comment lines', much('# a\n', 'run W1\n', '    red')],
    ['of unknown clauses', much('a, ', 'fuse F1 ')],
    ['of wrong units', much('5 m, ', 'fuse F1 ')],
    ['of right clauses', much('spare, ', 'run W1 ')],
    ['of a repeated form', much('1 ', 'isolator Q1 face ')],
    ['of an unfinished list', much('A and ', 'case c @ ')],
    ['of names', much('A and ', 'panel ', 'B')],
    ['of reserved names', much('core and ', 'panel ', 'core')],
    ['of core lines', much('    red A:1 to B:1\n', 'run W1 6 mm²\n')],
    ['of indented statements', much('    fuse F1 5 A\n')],
    ['of gauges', much('#10,', 'run W1 ,')],
    ['of misspelt units', much('5 amps ', 'fuse F1 ')],
    ['of digits and commas', much('1,')],
    ['on one first line', much('a ', 'run W1 ', `\n${'    red\n'.repeat(1000)}`)],
    ['of a megabyte of noise', noise(1e6)],
  ])('%s', (_, text) => {
    const start = performance.now();
    const tree = parseDocument(text, vocabulary);
    expect(printTree(tree)).toBe(text);
    expect(formatDocument(tree).length).toBeGreaterThanOrEqual(0);
    // A third of a second where nothing else runs; the machine may be busy. Anything quadratic takes minutes.
    expect(performance.now() - start).toBeLessThan(4000);
  });
});

/** Seeded, so that a failure comes again. */
function noise(length: number): string {
  let state = 12345;
  let text = '';
  while (text.length < length) {
    state = (state * 1103515245 + 12345) % 2147483648;
    text += String.fromCharCode(state % 7 === 0 ? 10 : 32 + ((state >> 8) % 224));
  }
  return text;
}
