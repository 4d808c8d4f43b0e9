/** How long reading takes: `npx vitest bench tests/grammar`. */
import { readFileSync } from 'node:fs';
import { bench, describe } from 'vitest';
import { LineIndex } from '../../grammar/lines.ts';
import { ParseCache, parseDocument } from '../../grammar/parse.ts';
import { formatDocument } from '../../grammar/printer.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';

const van = readFileSync('samples/spokewagon.amps', 'utf8');
/** The van again and again under other names, so that hardly a statement is like another. */
const many: string[] = [];
for (let lines = 0; lines < 20_000; lines += van.split('\n').length)
  many.push(van.replace(/\b([A-Z]+)(\d+)\b/g, `$1$2_${many.length}`));
const text = many.join('\n');
const middle = text.indexOf('12.8 V', text.length / 2);

describe('20,000 lines', () => {
  bench('read from nothing', () => {
    parseDocument(text, vocabulary);
  });

  const cache = new ParseCache();
  parseDocument(text, vocabulary, cache);
  let edit = 0;
  bench('read again after one key', () => {
    edit += 1;
    parseDocument(`${text.slice(0, middle)}${edit % 90}${text.slice(middle)}`, vocabulary, cache);
  });

  const tree = parseDocument(text, vocabulary);
  bench('formatted', () => {
    formatDocument(tree);
  });

  bench('lines found', () => {
    new LineIndex(text).position(middle);
  });
});
