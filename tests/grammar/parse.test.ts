import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ParseCache, parseDocument, type ShapedTree } from '../../grammar/parse.ts';
import { vocabulary as real } from '../../server/kinds/vocabulary.ts';
import { mutated, pieces } from './invariants.ts';
import { vocabulary } from './vocabulary.ts';

const spec = `# The shed
system "Shed" 12 V

# Main fuse
fuse F1 80 A, blade

run W1 6 mm² red, 4.2 m, A:1 to B:1
    enters BOX by gland M20
run W2 6 mm² red, 4.2 m, A:2 to B:2
load L 5 W
`;

describe('a cache', () => {
  it('gives the same objects for statements that did not change', () => {
    const cache = new ParseCache();
    const before = parseDocument(spec, vocabulary, cache);
    const lastOffset = before.statements.at(-1)?.offset ?? 0;
    const after = parseDocument(spec.replace('blade', 'bolt-in'), vocabulary, cache);
    expect(cache.parsed).toBe(before.statements.length + 1);
    before.statements.forEach((statement, i) => {
      const now = after.statements[i];
      if (statement.node.keyword?.value === 'fuse') expect(now?.node).not.toBe(statement.node);
      else {
        expect(now?.node).toBe(statement.node);
        expect(now?.shaped).toBe(statement.shaped);
      }
    });
    expect(after.statements.at(-1)?.offset).toBe(lastOffset + 2);
    // What lies behind the change is moved along, not copied.
    expect(after.statements.at(-1)).toBe(before.statements.at(-1));
  });

  it('gives the same tree for the same text, and the same placed statements before an edit', () => {
    const cache = new ParseCache();
    const before = parseDocument(spec, vocabulary, cache);
    expect(parseDocument(spec, vocabulary, cache)).toBe(before);
    const after = parseDocument(`${spec}load M 3 W\n`, vocabulary, cache);
    expect(after.statements[0]).toBe(before.statements[0]);
  });

  it('knows statements that moved or came back', () => {
    const cache = new ParseCache();
    const before = parseDocument(spec, vocabulary, cache);
    const lines = spec.split('\n');
    parseDocument(lines.slice(0, 3).join('\n'), vocabulary, cache);
    const again = parseDocument(`load L 5 W\n${spec}`, vocabulary, cache);
    expect(cache.parsed).toBe(before.statements.length);
    expect(again.statements[0]?.shaped).toBe(again.statements.at(-1)?.shaped);
  });

  it('gives a statement that was edited away back when it is undone, wherever it stands then', () => {
    const cache = new ParseCache();
    const before = parseDocument(spec, vocabulary, cache);
    const edited = parseDocument(spec.replace('80 A', '60 A'), vocabulary, cache);
    expect(edited.statements[1]).not.toBe(before.statements[1]);
    const undone = parseDocument(`\n${spec}`, vocabulary, cache);
    expect(undone.statements).toHaveLength(before.statements.length);
    for (const [i, statement] of undone.statements.entries()) expect(statement).toBe(before.statements[i]);
    // Twice at once is two: what is there already does not come back.
    const twice = parseDocument(`${spec}fuse F1 60 A, blade\nfuse F1 60 A, blade\n`, vocabulary, cache);
    expect(twice.statements.at(-2)).toBe(edited.statements[1]);
    expect(twice.statements.at(-1)).not.toBe(edited.statements[1]);
    expect(contents(twice)).toEqual(contents(parseDocument(twice.text, vocabulary)));
  });

  it('reads anew with another vocabulary', () => {
    const cache = new ParseCache();
    const text = 'battery B1 lead-acid, 12 V, 80 Ah';
    expect(parseDocument(text, vocabulary, cache).statements[0]?.shaped.spec).toBeUndefined();
    expect(parseDocument(text, real, cache).statements[0]?.shaped.spec?.word).toBe('battery');
  });

  it('does not keep for ever what was edited away', () => {
    const cache = new ParseCache();
    for (let i = 0; i < 1200; i++) parseDocument(`load L ${i} W\n`, vocabulary, cache);
    parseDocument('load L 0 W\n', vocabulary, cache);
    expect(cache.parsed).toBeGreaterThan(1200);
  });
});

/** Everything in a tree but the identity of its objects. */
function contents(tree: ShapedTree): unknown {
  return tree.items.map((item) =>
    item.kind === 'gap'
      ? item
      : [
          item.offset,
          item.line,
          item.notes,
          item.node.text,
          item.shaped.problems.map(({ slug, span }) => [slug, span]),
        ],
  );
}

describe('reading after edits', () => {
  const edits = fc.array(fc.tuple(fc.nat(4000), fc.nat(25), fc.array(pieces, { maxLength: 4 })), {
    minLength: 1,
    maxLength: 8,
  });

  it.each(['samples/first-lamp.amps', 'samples/orchard-cabin.amps'])('equals reading from scratch: %s', (path) => {
    const text = readFileSync(path, 'utf8');
    fc.assert(
      fc.property(edits, (all) => {
        const cache = new ParseCache();
        let now = text;
        parseDocument(now, real, cache);
        for (const [from, length, put] of all) {
          now = mutated(now, from, length, put.join(''));
          expect(contents(parseDocument(now, real, cache))).toEqual(contents(parseDocument(now, real)));
        }
      }),
      { numRuns: 150 },
    );
  });

  it.each([
    ['an indent', spec.replace('fuse F1', '    fuse F1')],
    ['an unindent', spec.replace('    enters', 'enters')],
    ['a comment put before', spec.replace('run W1', '# run W1')],
    ['a line end taken out', spec.replace('M20\n', 'M20')],
    ['everything taken out', ''],
    ['a note changed', spec.replace('# Main', '# Mane')],
    ['a blank line under a note', spec.replace('fuse\nfuse', 'fuse\n\nfuse')],
    ['the first character', spec.slice(1)],
    ['a mark of byte order', `\uFEFF${spec}`],
    ['the last line end', spec.trimEnd()],
  ])('%s', (_, text) => {
    const cache = new ParseCache();
    parseDocument(spec, vocabulary, cache);
    expect(contents(parseDocument(text, vocabulary, cache))).toEqual(contents(parseDocument(text, vocabulary)));
    expect(contents(parseDocument(spec, vocabulary, cache))).toEqual(contents(parseDocument(spec, vocabulary)));
  });

  it('reads one statement of many', () => {
    const many = Array.from({ length: 3000 }, (_, i) => `load L${i} ${i} W\n    essential\n`);
    const cache = new ParseCache();
    parseDocument(many.join(''), vocabulary, cache);
    const before = cache.parsed;
    many[1500] = 'load L1500 7.5 W\n';
    const tree = parseDocument(many.join(''), vocabulary, cache);
    expect(cache.parsed).toBe(before + 1);
    expect(tree.statements[1501]?.line).toBe(3001);
  });
});
