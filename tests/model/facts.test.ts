/** What parts say: clauses in SI, stock under them, blanks, and the way back to the words. */
import { describe, expect, it } from 'vitest';
import type { Part, Place } from '../../server/model/model.ts';
import { modelOf } from './built.ts';

function part(text: string, name: string): Part {
  const found = modelOf(text).parts.get(name);
  if (found === undefined) throw new Error(`no part ${name}`);
  return found;
}

const words = (text: string, { span }: Place) => text.slice(span.start, span.end);

describe('facts', () => {
  const text = 'battery B1 agm, 12 V, 80 Ah, internal 5 mΩ, at LOFT\nplace LOFT 50 °C, outdoors\n';
  const { facts } = part(text, 'B1');

  it('are in SI', () => {
    expect(facts.number('voltage')).toBe(12);
    expect(facts.number('capacity')).toBe(80 * 3600);
    expect(facts.number('internal')).toBeCloseTo(0.005, 12);
    expect(facts.word('chemistry')).toBe('agm');
  });

  it('know the words they come from', () => {
    expect(facts.written('capacity')).toBe('80 Ah');
    expect(words(text, facts.place('internal', 'resistance'))).toBe('5 mΩ');
    expect(words(text, facts.place('internal'))).toBe('internal 5 mΩ');
    expect(words(text, facts.place('heated'))).toBe('B1');
  });

  it('tell unsaid from blank', () => {
    const fuse = part('fuse F1 ? A\n', 'F1').facts;
    expect([fuse.says('rating'), fuse.isBlank('rating'), fuse.number('rating')]).toEqual([true, true, undefined]);
    expect([fuse.says('voltage'), fuse.isBlank('voltage')]).toEqual([false, false]);
    expect(part('isolator Q1 ? poles, 20 A dc\n', 'Q1').facts.isBlank('poles')).toBe(true);
  });

  it('of several names in one head stand each at its own', () => {
    const two = 'fuse F1 and F2 3 A\n';
    expect(words(two, part(two, 'F2').facts.place('voltage'))).toBe('F2');
    expect(words(two, part(two, 'F2').facts.place('rating'))).toBe('3 A');
    expect(part(two, 'F2').title).toBeUndefined();
  });

  it('have every use of a repeatable clause, and pairs', () => {
    const box = part('fusebox FB 6 ways, way 1 fuse 5 A, ways 2 to 3 fuse 10 A\n', 'FB').facts;
    expect(box.each('way').map((row) => row.number('way', 'rating'))).toEqual([5, 10]);
    expect(part('isolator Q1 2 poles, 20 A dc, pairs 1-3 2-4\n', 'Q1').facts.pairs('pairs')).toEqual([
      [1, 3],
      [2, 4],
    ]);
  });
});

describe('stock', () => {
  const stock = 'stock big isolator 2 poles, 20 A dc, 60 V, 2 in parallel 30 A, 2 in series 100 V\n';

  it('comes under what the part says itself', () => {
    const { facts } = part(`${stock}isolator Q1 = big, 25 A dc\n`, 'Q1');
    expect([facts.number('rating'), facts.number('voltage'), facts.number('poles')]).toEqual([25, 60, 2]);
    expect(facts.all('rating')).toHaveLength(1);
    expect(facts.facts.filter(({ fromStock }) => fromStock === 'big').map(({ clause }) => clause.spec.id)).toEqual([
      'poles',
      'voltage',
      'parallel',
      'series',
    ]);
  });

  it('is overridden also by a blank', () => {
    const { facts } = part(`${stock}isolator Q1 = big, ? A dc\n`, 'Q1');
    expect([facts.isBlank('rating'), facts.number('rating')]).toEqual([true, undefined]);
  });

  it('adds its repeatable clauses, except what the part says of the same thing', () => {
    const { facts } = part(`${stock}isolator Q1 = big, 2 in parallel 45 A, 3 in parallel 50 A\n`, 'Q1');
    expect(
      facts.each('parallel').map((row) => [row.number('parallel', 'poles'), row.number('parallel', 'current')]),
    ).toEqual([
      [2, 45],
      [3, 50],
    ]);
    expect(facts.each('series')).toHaveLength(1);
    const box =
      'stock box fusebox 6 ways, ways 1 to 4 fuse 5 A, way 5 fuse 10 A\nfusebox FB = box, way 1 fuse 3 A, way 5 fuse 15 A\n';
    expect(part(box, 'FB').contacts.map(({ deviceAmps }) => deviceAmps)).toEqual([3, 5, 5, 5, 15, undefined]);
    const enclosure =
      'stock tub enclosure plastic, knockouts 4 x M20\nenclosure E = tub, knockouts 6 x M20, knockouts 2 x M25\n';
    expect(
      part(enclosure, 'E')
        .facts.all('knockouts')
        .map(({ clause }) => clause.values[0]?.atom.text),
    ).toEqual(['6 x', '2 x']);
  });

  it('is answered for where it is taken', () => {
    const text = `${stock}isolator Q1 = big\n`;
    const { facts } = part(text, 'Q1');
    expect(words(text, facts.place('rating'))).toBe('= big');
    expect(words(text, facts.each('parallel')[0]?.place('parallel', 'current') as Place)).toBe('= big');
    expect(facts.written('rating', 'current')).toBe('20 A');
  });

  it('may take other stock', () => {
    const { facts } = part(`${stock}stock bigger isolator = big, 32 A dc\nisolator Q1 = bigger\n`, 'Q1');
    expect([facts.number('rating'), facts.number('voltage')]).toEqual([32, 60]);
  });

  it('may be declared after it is taken', () => {
    expect(
      part(`isolator Q1 = bigger\nstock bigger isolator = big, 32 A dc\n${stock}`, 'Q1').terminals.map(({ id }) => id),
    ).toEqual(['Q1:1', 'Q1:2', 'Q1:3', 'Q1:4']);
  });
});

describe('where parts stand', () => {
  it('goes from the enclosure to its place, and the own place comes first', () => {
    const model = modelOf(
      'place LOFT 50 °C\nplace CAB 45 °C\nenclosure BOX plastic, at LOFT\nenclosure INNER in BOX\nfuse F1 3 A, in INNER\nfuse F2 3 A, in INNER, at CAB\nfuse F3 3 A\n',
    );
    const standing = (name: string) => [model.parts.get(name)?.enclosure?.name, model.parts.get(name)?.location?.name];
    expect(standing('F1')).toEqual(['INNER', 'LOFT']);
    expect(standing('F2')).toEqual(['INNER', 'CAB']);
    expect(standing('F3')).toEqual([undefined, undefined]);
    expect([...model.parts.keys()]).toEqual(['BOX', 'INNER', 'F1', 'F2', 'F3']);
  });

  it('an engine space is 50 °C at least until it says more', () => {
    const { locations } = modelOf('place ENGINE engine space\nplace HOT engine space, 60 °C\nplace ROOF outdoors\n');
    expect([locations.get('ENGINE')?.celsius, locations.get('HOT')?.celsius, locations.get('ROOF')?.celsius]).toEqual([
      50,
      60,
      undefined,
    ]);
    expect([locations.get('ENGINE')?.engineSpace, locations.get('ROOF')?.outdoors]).toEqual([true, true]);
  });
});
