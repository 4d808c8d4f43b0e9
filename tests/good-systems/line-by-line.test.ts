/** A good system as it is written, statement by statement: what is told on the way is what is not there yet, and no mistake. */
import { describe, expect, it } from 'vitest';
import { parseDocument } from '../../grammar/parse.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';
import { analysedAs, systems, textOf } from './all-systems.ts';

/** What is true until the rest is there. */
const notYet: ReadonlySet<string> = new Set([
  'case-not-bonded',
  // Until the loads are there nothing says that a bar carries less than its fuse.
  'connector-below-fuse',
  'knockout-left-open',
  'no-return',
  'one-conductor-switched',
  'part-never-used',
  'terminal-unconnected',
  'unknown-name',
]);

describe.each(systems)('%s', (name) => {
  const text = textOf(name);

  it('has nothing wrong on the way that is not wrong in the end', () => {
    const inTheEnd = new Set(analysedAs(name, text).findings.map(({ slug, subject }) => `${slug} ${subject}`));
    const { statements } = parseDocument(text, vocabulary);
    expect(statements.length).toBeGreaterThan(5);
    for (const { node, offset } of statements) {
      const { findings } = analysedAs(name, text.slice(0, offset + node.text.length));
      const wrong = findings.filter(({ slug, subject }) => !notYet.has(slug) && !inTheEnd.has(`${slug} ${subject}`));
      expect(
        wrong.map(({ message }) => message),
        node.text.split('\n')[0],
      ).toEqual([]);
    }
  });
});
