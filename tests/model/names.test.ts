/** Every use of every name, for definition, references and rename. */
import { describe, expect, it } from 'vitest';
import type { NameUse } from '../../server/model/model.ts';
import { modelOf } from './built.ts';

const text = `use "more.amps"
place LOFT 50 °C
enclosure BOX plastic, at LOFT
entry E1 in BOX, gland M25
stock lamp load 5 W, at LOFT
stock drum cable 6 mm²
load L1 and L2 = lamp, terminal dim
isolator Q1 2 poles, 20 A dc, in BOX
link Q1 1-3, 2-4
busbar NEG 50 A
run W1 = drum, 1 m, along LOFT, Q1:1 to L1:dim
    enters BOX by E1
run W2 = drum, 1 m, NEG to L1:-
case night L1 and L2 on
expect L1 voltage at least 11 V in night
expect W1 current at most 3 A
reading 2026-04-18 Q1:1 to Q1:2 0.2 Ω with Q1 on
allow drop-over-limit on W1 "short"
`;

const { uses } = modelOf(text, { 'more.amps': 'fuse F1 3 A\n' });
const own = uses.filter(({ place }) => place.uri.endsWith('spec.amps'));
const written = ({ place }: NameUse) => text.slice(place.span.start, place.span.end);

/** Lines (from 1) where a name is used, with `!` where it is declared. */
function lines(name: string, target: NameUse['target']): string[] {
  return own
    .filter((use) => use.name === name && use.target === target)
    .map(({ place, declaration }) => ({ at: place.span.start, declaration }))
    .sort((a, b) => a.at - b.at)
    .map(({ at, declaration }) => `${text.slice(0, at).split('\n').length}${declaration ? '!' : ''}`);
}

describe('uses of names', () => {
  it.each<[string, NameUse['target'], string[]]>([
    ['LOFT', 'place', ['2!', '3', '5', '11']],
    ['BOX', 'part', ['3!', '4', '8', '12']],
    ['E1', 'part', ['4!', '12']],
    ['lamp', 'stock', ['5!', '7']],
    ['drum', 'stock', ['6!', '11', '13']],
    ['L1', 'part', ['7!', '11', '13', '14', '15']],
    ['L2', 'part', ['7!', '14']],
    ['Q1', 'part', ['8!', '9', '11', '17', '17', '17']],
    ['NEG', 'part', ['10!', '13']],
    ['W1', 'run', ['11!', '16', '18']],
    ['night', 'case', ['14!', '15']],
    ['Q1:1', 'terminal', ['9', '11', '17']],
    ['Q1:3', 'terminal', ['9']],
    ['L1:dim', 'terminal', ['7!', '11']],
    ['L2:dim', 'terminal', ['7!']],
    ['memory:///more.amps', 'file', ['1']],
  ])('of %s', (name, target, expected) => {
    expect(lines(name, target)).toEqual(expected);
  });

  it('are each recorded once, at exactly the words', () => {
    const keys = own.map(({ place, target, name }) => `${place.span.start} ${target} ${name}`);
    expect(new Set(keys).size).toBe(keys.length);
    for (const use of own) {
      const expected =
        use.target === 'terminal'
          ? use.name.slice(use.name.indexOf(':') + 1)
          : use.target === 'file'
            ? '"more.amps"'
            : use.name;
      expect(written(use)).toBe(expected);
    }
  });

  it('has those in used files, and none of what a used file says of its own cases', () => {
    const all = modelOf('use "more.amps"\n', {
      'more.amps': 'fuse F1 3 A\ncase night F1 off\nexpect F1 current at most 3 A in night\n',
    });
    expect(all.problems).toEqual([]);
    expect(all.uses.filter(({ target }) => target !== 'file').map(({ name, place }) => [name, place.uri])).toEqual([
      ['F1', 'memory:///more.amps'],
    ]);
    expect(all.cases.every(({ implied }) => implied)).toBe(true);
    expect(all.expectations).toEqual([]);
  });
});
