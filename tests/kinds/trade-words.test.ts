/** Words of the trade that no edit distance leads to the notation from, with the whole vocabulary. */
import { describe, expect, it } from 'vitest';
import { parseDocument } from '../../grammar/parse.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';

function problems(text: string) {
  return parseDocument(text, vocabulary).statements.flatMap(({ offset, shaped }) =>
    shaped.problems.map((problem) => ({
      ...problem,
      words: text.slice(offset + problem.span.start, offset + problem.span.end),
    })),
  );
}

function withFix(text: string, index: number): string {
  const edits = problems(text)[0]?.fixes?.[index]?.edits ?? [];
  return [...edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((now, { span, newText }) => now.slice(0, span.start) + newText + now.slice(span.end), text);
}

describe('what the trade says', () => {
  it.each([
    ['battery B1 LiFePO4, 12.8 V, 100 Ah', 'LiFePO4', 'battery B1 lithium-iron-phosphate, 12.8 V, 100 Ah'],
    ['battery B1 lifepo4, 12.8 V, 100 Ah', 'lifepo4', 'battery B1 lithium-iron-phosphate, 12.8 V, 100 Ah'],
    ['battery B1 LFP, 12.8 V, 100 Ah', 'LFP', 'battery B1 lithium-iron-phosphate, 12.8 V, 100 Ah'],
    ['battery B1 lithium, 12.8 V, 100 Ah', 'lithium', 'battery B1 lithium-iron-phosphate, 12.8 V, 100 Ah'],
    ['battery B1 AGM, 12 V, 100 Ah', 'AGM', 'battery B1 agm, 12 V, 100 Ah'],
    ['isolator Q1 double pole, 32 A', 'double pole', 'isolator Q1 2 poles, 32 A'],
    ['isolator Q1 32 A, double-pole', 'double-pole', 'isolator Q1 32 A, 2 poles'],
    ['switch S1 single pole, 10 A', 'single pole', 'switch S1 1 pole, 10 A'],
    ['busbar POS 100 A, 6 way', 'way', 'busbar POS 100 A, 6 studs'],
    ['stock thin cable 2.5 mm', '2.5 mm', 'stock thin cable 2.5 mm²'],
  ])('%s', (text, words, mended) => {
    expect(problems(text).map((one) => one.words)).toEqual([words]);
    expect(withFix(text, 0)).toBe(mended);
    expect(problems(mended)).toEqual([]);
  });

  it('of lithium batteries of two kinds is not chosen unasked', () => {
    const [problem] = problems('battery B1 lithium, 12.8 V, 100 Ah');
    expect(problem?.fixes?.map(({ title, safe }) => [title, safe])).toEqual([
      ['Write lithium-iron-phosphate', false],
      ['Write lithium-ion', false],
    ]);
  });

  it('in volt-ampere is no watt: nothing is offered for it', () => {
    const [problem] = problems('inverter I1 1000VA');
    expect(problem).toMatchObject({ slug: 'unit-spelling', words: '1000VA' });
    expect(problem?.message).toContain('an inverter says its power in W');
    expect(problem?.fixes).toBeUndefined();
  });
});
