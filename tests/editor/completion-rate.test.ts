/**
 * Samples written word by word from nothing: how often the word that a person writes next is offered before its first letter,
 * and how high it stands in the list. The rates may rise and not fall.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseDocument } from '../../grammar/parse.ts';
import { AnalysisCache, analyse } from '../../server/analysis.ts';
import { completion } from '../../server/editor/completion.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';
import { memorySource, specUri } from '../analysed.ts';

const folder = new URL('../../samples/', import.meta.url);
const files = Object.fromEntries(
  readdirSync(folder)
    .filter((name) => name.endsWith('.amps'))
    .map((name) => [name, readFileSync(new URL(name, folder), 'utf8')]),
);

/** Below which mean of 1/place a sample may not fall; measured 0.01 to 0.02 higher. */
const rates: readonly (readonly [name: string, least: number])[] = [
  ['first-lamp.amps', 0.85],
  ['orchard-cabin.amps', 0.79],
  ['ridge-hut.amps', 0.8],
];

const plain = (text: string) => text.replaceAll(/\s+/gu, ' ').trim();

/** Statements without what nobody can foresee: remarks. */
function statementsOf(text: string): string[] {
  return parseDocument(text, vocabulary).statements.map(({ node }) =>
    node.text.replaceAll(/[ \t]*#[^\n]*/gu, '').trimEnd(),
  );
}

/** Words of a statement that can be foreseen: no new names, no titles, no figures that nothing tells of. */
function wordsOf(statement: string): number[] {
  const [read] = parseDocument(`${statement}\n`, vocabulary).statements;
  const names = new Set(
    [...(read?.node.names ?? []), ...(read?.node.title ? [read.node.title] : [])].map((one) => one.span.start),
  );
  return [...statement.matchAll(/"[^"]*"|[^\s,="]+|=/gu)]
    .filter(({ 0: word, index }) => !names.has(index) && !/^["\d?-]/u.test(word))
    .map(({ index }) => index);
}

/** The place of the offer that the rest of a statement begins with, from 1; undefined where none is offered. */
function placeOf(offers: readonly string[], rest: string): number | undefined {
  const wanted = plain(rest);
  const found = offers.findIndex((offer) => {
    const behind = wanted.charAt(offer.length);
    return wanted.startsWith(offer) && (/\W$/u.test(offer) || !/[\p{L}\p{N}²]/u.test(behind));
  });
  return found < 0 ? undefined : found + 1;
}

describe('written word by word', () => {
  it.each(rates)('%s', (name, least) => {
    const cache = new AnalysisCache();
    let before = '';
    const places: (number | undefined)[] = [];
    for (const statement of statementsOf(files[name] ?? '')) {
      for (const at of wordsOf(statement)) {
        const text = before + statement.slice(0, at);
        const analysis = analyse(specUri, memorySource({ ...files, 'spec.amps': text }), cache);
        const offers = completion(analysis, text.length, { snippets: true, markdown: true });
        places.push(
          placeOf(
            offers.map(({ label }) => plain(label)),
            statement.slice(at),
          ),
        );
      }
      before += `${statement}\n`;
    }
    const offered = places.filter((place) => place !== undefined);
    expect(places.length).toBeGreaterThan(20);
    expect(offered.length / places.length).toBeGreaterThan(0.97);
    expect(offered.reduce((sum, place) => sum + 1 / place, 0) / places.length).toBeGreaterThan(least);
  });
});
