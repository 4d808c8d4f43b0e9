/** Any text at all: a clear message, never a stack trace, and in time. */
import { describe, expect, it } from 'vitest';
import { printTree } from '../../grammar/printer.ts';
import { type Analysis, AnalysisCache, analyse } from '../../server/analysis.ts';
import { memorySource, specUri } from '../analysed.ts';
import { checked, outcome, sourceOf, worked } from './checks.ts';
import { random } from './mutations.ts';

/** A long text is read in parts of a second a megabyte; the limit leaves room for a machine that has other work. */
const mostMilliseconds = 10_000;

function inTime(text: string): Analysis {
  const began = worked();
  const analysis = analyse(specUri, sourceOf(text));
  expect(worked() - began).toBeLessThan(mostMilliseconds);
  expect(String(analysis.text)).toBe(text);
  expect(printTree(analysis.tree)).toBe(text);
  for (const { slug, message, place } of analysis.findings) {
    if (/\n|\bat .*\.(?:js|ts):\d|Error:|RangeError|Maximum call stack/.test(message))
      throw new Error(`${slug}: ${message}`);
    if (message.length > 600) throw new Error(`${slug} is told in ${message.length} characters: ${message}`);
    expect(place.span.end).toBeLessThanOrEqual(text.length);
  }
  expect(analysis.findings.map(({ slug }) => slug)).not.toContain('answers-failed');
  expect(analysis.findings.map(({ slug }) => slug)).not.toContain('rule-failed');
  return analysis;
}

const slugsOf = (analysis: Analysis) => [...new Set(analysis.findings.map(({ slug }) => slug))];

function noiseOf(length: number, seed: number, letters: (random: () => number) => string): string {
  const next = random(seed);
  const pieces: string[] = [];
  for (let size = 0; size < length; ) {
    const piece = letters(next);
    pieces.push(piece);
    size += piece.length;
  }
  return pieces.join('');
}

const anyByte = (next: () => number) => String.fromCharCode(Math.floor(next() * 256));
const anyUnit = (next: () => number) => String.fromCharCode(Math.floor(next() * 65536));
const anyWord = (next: () => number) => {
  const words = [
    'run',
    'fuse',
    'W1',
    '5 A',
    ',',
    '\n',
    'to',
    '"',
    ' ',
    '=',
    ':',
    '1.5 mm²',
    '\n    ',
    '#',
    'in',
    'é',
    '(',
  ];
  return `${words[Math.floor(next() * words.length)]} `;
};
const anyLine = (next: () => number) => {
  const n = Math.floor(next() * 1e6);
  const [kind, rest] = [['load L', 'fuse F', 'run W', 'splice J', 'x'][n % 5], [' 5 W', ' 5 A', ' 5', ', "a'][n % 4]];
  return `${kind}${n}${rest}\n`;
};

describe('text of little', () => {
  it.each([
    ['nothing', ''],
    ['one space', ' '],
    ['one line end', '\n'],
    ['one CR', '\r'],
    ['a byte order mark', '\ufeff'],
    ['comments only', '# nothing\n# here\n\n   # yet\n'],
    ['a comment without a line end', '# nothing'],
  ])('%s has no findings', (_, text) => {
    expect(checked(text).findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(checked(text).findings.length).toBeLessThanOrEqual(1);
  });

  it('a byte order mark before a spec changes nothing', () => {
    const spec = 'system "Shed" 12 V\nload LAMP 12 W\n';
    expect(slugsOf(checked(`\ufeff${spec}`))).toEqual(slugsOf(checked(spec)));
  });

  it('NUL characters are told of, not read as anything', () => {
    const { findings } = checked('system "Shed" 12 V\nload\u0000LAMP 12 W\n\u0000\u0000\u0000\n');
    expect(findings.length).toBeGreaterThan(0);
    expect(findings.every(({ slug }) => !slug.endsWith('-failed'))).toBe(true);
  });

  it('half a surrogate pair, an accent alone and text from right to left are read', () => {
    expect(checked('\ud83d load \udc00 5 W\n').findings.length).toBeGreaterThan(0);
    expect(checked('\u0301\n').findings.length).toBeGreaterThan(0);
    expect(checked('load مصباح 5 W, "\u202e"\n').findings).toBeInstanceOf(Array);
  });
});

describe('a long text is read in time:', { timeout: 60_000 }, () => {
  it.each([
    ['a megabyte of bytes', () => noiseOf(1e6, 1, anyByte)],
    ['a megabyte of any code units', () => noiseOf(1e6, 2, anyUnit)],
    ['a megabyte of words in any order', () => noiseOf(1e6, 3, anyWord)],
    ['20 000 half-written lines', () => noiseOf(3e5, 4, anyLine)],
    ['a megabyte of NUL characters', () => '\u0000'.repeat(1e6)],
    ['one line of a megabyte of clauses', () => `load L 5 W${', 5 h/day'.repeat(120_000)}`],

    ['a statement carried on over 20 000 lines', () => `load L 5 W\n${'    essential\n'.repeat(20_000)}`],
  ])('%s', (_, make) => {
    expect(inTime(make()).findings.length).toBeGreaterThan(0);
  });

  it.each([
    ['a name of a megabyte', () => `load ${'L'.repeat(1e6)} 5 W\n`],
    ['a text of a megabyte', () => `load L "${'so long '.repeat(125_000)}" 5 W\n`],
    ['a number of a megabyte', () => `load L 5.${'0'.repeat(1e6)} W\n`],
  ])('%s, which is no mistake', (_, make) => {
    expect(slugsOf(inTime(make()))).toEqual([]);
  });

  it('100 000 lines of comment', () => {
    expect(inTime('# nothing here\n'.repeat(100_000)).findings).toEqual([]);
  });

  it('100 000 empty lines', () => {
    expect(inTime('\n'.repeat(100_000)).findings).toEqual([]);
  });
});

describe('use', () => {
  const chain = (length: number, last: string) =>
    Object.fromEntries(
      Array.from({ length }, (_, i) => [`f${i}.amps`, i === length - 1 ? last : `use "f${i + 1}.amps"\n`]),
    );
  const analysed = (files: Record<string, string>, cache = new AnalysisCache()) => {
    const began = worked();
    const analysis = analyse(specUri, memorySource(files), cache);
    expect(worked() - began).toBeLessThan(mostMilliseconds);
    return analysis;
  };

  it('a chain of 2000 files is followed to its end', () => {
    const spec = 'use "f0.amps"\nload LAMP = deep\n';
    const { findings, model } = analysed({ ...chain(2000, 'stock deep load 12 W\n'), 'spec.amps': spec });
    expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(model.files.length).toBe(2001);
    expect(model.stocks.has('deep')).toBe(true);
  });

  it('a chain of 2000 files that ends in the first is a circle, told once and in plain words', () => {
    const { findings } = analysed({ ...chain(2000, 'use "spec.amps"\n'), 'spec.amps': 'use "f0.amps"\n' });
    expect(findings.map(({ slug }) => slug)).toEqual(['circle-of-use']);
    expect(findings[0]?.message.length).toBeLessThan(600);
  });

  it('a file that uses itself is a circle', () => {
    const { findings } = analysed({ 'spec.amps': 'use "spec.amps"\nload LAMP 12 W\n' });
    expect(findings.map(({ slug }) => slug)).toEqual(['circle-of-use']);
  });

  it('two files that use each other under a third are a circle', () => {
    const files = { 'spec.amps': 'use "a.amps"\n', 'a.amps': 'use "b.amps"\n', 'b.amps': 'use "a.amps"\n' };
    const { findings } = analysed(files);
    expect(findings.length).toBe(1);
    expect(findings[0]?.slug).toMatch(/circle-of-use|used-file-has-problems/);
    expect(findings[0]?.message).toMatch(/circle|each other|[ab]\.amps/);
  });

  it('a file that is not there is told at its use, with its path', () => {
    const { findings } = analysed({ 'spec.amps': 'use "shelf/none.amps"\n' });
    expect(findings.map(({ slug }) => slug)).toEqual(['use-missing']);
    expect(findings[0]?.message).toContain('none.amps');
  });

  it('a file that names two thousand others which are not there is told of each', () => {
    const spec = Array.from({ length: 2000 }, (_, i) => `use "n${i}.amps"\n`).join('');
    const { findings } = analysed({ 'spec.amps': spec });
    expect(findings.length).toBe(2000);
  });

  it('an edit of a used file is seen through the same cache', () => {
    const cache = new AnalysisCache();
    const spec = 'use "a.amps"\nload LAMP = lamp\n';
    for (const watts of ['12 W', '12', '5 W', '']) {
      const files = { 'spec.amps': spec, 'a.amps': `stock lamp load ${watts}\n` };
      expect(outcome(analysed(files, cache))).toEqual(outcome(analysed(files)));
    }
  });
});
