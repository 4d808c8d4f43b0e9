/** What hangs together is found from what was found before an edit, and is as if found from nothing. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ParseCache, parseDocument } from '../../grammar/parse.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';
import { Parting, type Partition } from '../../server/sections/partition.ts';
import { Profiles } from '../../server/sections/profile.ts';
import { vansOf } from '../bench/vans.ts';
import { anEditOrUndo, textsOf } from './edits.ts';
import '../random.ts';

const packing = { least: 0, small: 20, most: 40 };
const vans = vansOf(700);

/** Its statements by their texts and places. */
function told(partition: Partition | undefined): unknown {
  return (
    partition && {
      common: partition.common.map(({ node }) => node.text),
      packs: partition.packs.map(({ statements }) => statements.map(({ node, offset }) => `${offset} ${node.text}`)),
      declared: partition.declared().map(({ name, statement }) => `${name} ${statement.offset}`),
    }
  );
}

function parting(): (text: string) => Partition | undefined {
  const [cache, profiles] = [new ParseCache(), new Profiles()];
  const own = new Parting(profiles, packing);
  return (text) => own.of(parseDocument(text, vocabulary, cache).statements);
}

describe('a partition', () => {
  it('is the same after any edits as from nothing', () => {
    fc.assert(
      fc.property(fc.array(anEditOrUndo, { minLength: 1, maxLength: 6 }), (steps) => {
        const part = parting();
        part(vans);
        for (const text of textsOf(vans, steps)) expect(told(part(text))).toEqual(told(parting()(text)));
      }),
      { numRuns: 120 },
    );
  }, 120_000);

  it('has the packs of before, but for that of the statement that was edited', () => {
    const part = parting();
    const before = part(vans)?.packs ?? [];
    const after = part(vans.replace(/(?<=^run .*?, )[\d.]+(?= m,)/m, '1.234'))?.packs ?? [];
    expect(before.length).toBeGreaterThan(1);
    expect(after.filter((pack, i) => pack !== before[i])).toHaveLength(1);
  });
});
