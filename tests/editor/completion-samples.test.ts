/** What holds of completion at every place of every sample. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { CompletionItem, TextEdit } from 'vscode-languageserver';
import { expectedAt } from '../../grammar/expected.ts';
import { parseDocument } from '../../grammar/parse.ts';
import type { Analysis } from '../../server/analysis.ts';
import { completion } from '../../server/editor/completion.ts';
import { allKinds } from '../../server/kinds/all.ts';
import { isStockOnly, vocabulary } from '../../server/kinds/vocabulary.ts';
import { analyseText } from '../analysed.ts';
import { complete, take } from './completing.ts';

const folder = new URL('../../samples/', import.meta.url);
const files = Object.fromEntries(
  readdirSync(folder)
    .filter((name) => name.endsWith('.amps'))
    .map((name) => [name, readFileSync(new URL(name, folder), 'utf8')]),
);
const options = { snippets: true, markdown: true };
const samples = Object.keys(files).map((name) => [name, analyseText(files[name] ?? '', files)] as const);

/** The statement at a place once an item is taken there, by itself, and the end of what was put in. */
function taken(analysis: Analysis, start: number, end: number, item: CompletionItem) {
  const edit = item.textEdit as TextEdit;
  const from = analysis.lines.offset(edit.range.start);
  const text = take({ text: String(analysis.text) }, item).slice(start, undefined);
  const growth = text.length - (analysis.text.length - start);
  const commas = item.additionalTextEdits?.length ?? 0;
  const written = growth - commas + analysis.lines.offset(edit.range.end) - from;
  return { text: text.slice(0, end - start + growth), after: from - start + commas + written };
}

const amiss: ReadonlySet<string> = new Set([
  'unknown-clause',
  'misplaced-clause',
  'missing-separator',
  'missing-unit',
  'wrong-unit',
  'unit-spelling',
  'clause-twice',
  'hash-gauge',
  'bad-name',
]);

function problems(text: string): string[] {
  return parseDocument(text, vocabulary).statements.flatMap(({ shaped }) =>
    shaped.problems.map(({ slug }) => slug).filter((slug) => amiss.has(slug)),
  );
}

/** Whether a line that is not finished behind an item can be gone on with. */
function goesOn(text: string, after: number): boolean {
  const on = text.charAt(after - 1) === ':' ? text.slice(0, after) : `${text.slice(0, after)} `;
  return expectedAt(parseDocument(on, vocabulary), on.length).expected.length > 0;
}

describe.each(samples)('%s', (_name, analysis) => {
  it('is completed at every place without a throw, each label once, in order, over the pointer', () => {
    let offered = 0;
    for (let offset = 0; offset <= analysis.text.length; offset++) {
      const items = completion(analysis, offset, options);
      offered += items.length;
      const labels = items.map(({ label }) => label);
      if (new Set(labels).size !== labels.length) expect.fail(`a label twice at ${offset}`);
      const { line, character } = analysis.lines.position(offset);
      let before = '';
      for (const { sortText = '', textEdit, label } of items) {
        const { start, end } = (textEdit as TextEdit).range;
        const over =
          start.line === line && end.line === line && start.character <= character && end.character >= character;
        if (!over || sortText <= before) expect.fail(`${label} at ${offset} is out of place or order`);
        before = sortText;
      }
    }
    expect(offered).toBeGreaterThan(analysis.text.length);
  });

  it('takes every offer at the end of every clause: it reads, or the line goes on', () => {
    let tried = 0;
    const wrong: string[] = [];
    for (const { shaped, offset: start, node } of analysis.tree.statements) {
      if (problems(node.text).length > 0) continue;
      for (const { span } of shaped.clauses) {
        // Where a clause follows without a comma, another in its place need not be one that it may follow.
        if (!/^\s*(?:,|\n|$)/u.test(node.text.slice(span.end))) continue;
        for (const item of completion(analysis, start + span.end, options)) {
          const { text, after } = taken(analysis, start, start + node.text.length, item);
          tried += 1;
          if (problems(text).length > 0 && !goesOn(text, after)) wrong.push(text.slice(0, after));
        }
      }
    }
    expect(wrong).toEqual([]);
    expect(tried).toBeGreaterThan(shapedClauses(analysis));
  });
});

const shapedClauses = ({ tree }: Analysis) =>
  tree.statements.reduce((sum, { shaped }) => sum + shaped.clauses.length, 0);

describe('new clauses', () => {
  it('read behind every line of the first lamp and the cabin, a comma before them where one is needed', () => {
    let tried = 0;
    const wrong: string[] = [];
    for (const name of ['first-lamp.amps', 'orchard-cabin.amps', 'stock.amps']) {
      const text = files[name] ?? '';
      const ends = [...text.matchAll(/[^\s#](?=\n)/gu)].map(({ index }) => index + 1);
      for (const end of ends) {
        if (/^\s*#/u.test(text.slice(text.lastIndexOf('\n', end - 1) + 1))) continue;
        const analysis = analyseText(`${text.slice(0, end)} ${text.slice(end)}`, files);
        const statement = analysis.tree.statements.findLast(({ offset }) => offset <= end);
        if (statement === undefined) continue;
        const { offset: start, node } = statement;
        const stop = Math.max(start + node.text.length, end + 1);
        for (const item of completion(analysis, end + 1, options)) {
          const { text: line, after } = taken(analysis, start, stop, item);
          tried += 1;
          if (problems(line).length > 0 && !goesOn(line, after)) wrong.push(line.slice(0, after));
        }
      }
    }
    expect(wrong).toEqual([]);
    expect(tried).toBeGreaterThan(1000);
  });
});

describe('first words', () => {
  it('with their names and blanks read as statements', () => {
    const empty = complete('|', options);
    // What stands in stock only is no first word.
    expect(empty.items.length).toBe(vocabulary.statements.size - allKinds.filter(isStockOnly).length);
    for (const item of empty.items) expect([item.label, problems(take(empty, item))]).toEqual([item.label, []]);
  });
});

describe('speed', () => {
  it('answers within 5 ms in the largest sample', () => {
    const [, analysis] = samples.find(([name]) => name === 'spokewagon.amps') ?? [];
    expect(analysis).toBeDefined();
    if (analysis === undefined) return;
    const times: number[] = [];
    for (let offset = 0; offset < analysis.text.length; offset += 13) {
      const begun = performance.now();
      completion(analysis, offset, options);
      times.push(performance.now() - begun);
    }
    // The median: single places wait for whatever else the machine does.
    expect(times.sort((a, b) => a - b)[times.length >> 1]).toBeLessThan(5);
  });
});

describe('text that is no spec', () => {
  it('is completed anywhere without a throw', () => {
    const pieces = [
      'run',
      ' W1',
      ' 6 mm²',
      ',',
      '\n',
      '\n    ',
      ' F1:',
      ' to',
      ' and',
      '"',
      ' #',
      '=',
      '?',
      ' 2',
      ' x',
      '\u0000',
      '😀',
      ':',
      ' by',
    ];
    let seed = 7;
    const next = () => {
      seed = (seed * 48271) % 2147483647;
      return seed;
    };
    for (let round = 0; round < 40; round++) {
      const text = Array.from({ length: 60 }, () => pieces[next() % pieces.length]).join('');
      const analysis = analyseText(text);
      for (let offset = 0; offset <= text.length; offset++)
        expect(Array.isArray(completion(analysis, offset, options))).toBe(true);
    }
  });

  it('is answered in good time also where a line never ends', () => {
    const long = analyseText(`fuse F1 ${'wibble '.repeat(40_000)}`);
    const begun = performance.now();
    completion(long, long.text.length, options);
    expect(performance.now() - begun).toBeLessThan(1000);
  });
});
