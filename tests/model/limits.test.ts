/** Names of sets of limits, published and in stock: what is found and what is told. */
import { describe, expect, it } from 'vitest';
import { modelOf, problemsIn } from './built.ts';

const spec = (limits: string, ...stock: string[]) => `system "Shed" 12 V, limits ${limits}\n${stock.join('\n')}\n`;
const ours = 'stock ours limit-set based on iec-60364-5-52';

describe('the set that a system names', () => {
  it('is a published one or one in stock', () => {
    for (const [limits, stock] of [
      ['nec-310', []],
      ['ours', [ours]],
    ] as const) {
      expect(problemsIn(spec(limits, ...stock))).toEqual([]);
      expect(modelOf(spec(limits, ...stock)).system.limits).toBe(limits);
    }
  });

  it('is a use of the stock’s name', () => {
    const text = spec('ours', ours);
    const uses = modelOf(text).uses.filter(({ name }) => name === 'ours');
    expect(uses.map(({ target, declaration, place }) => [target, declaration, place.span.start]).sort()).toEqual([
      ['stock', false, text.indexOf('ours')],
      ['stock', true, text.lastIndexOf('ours')],
    ]);
  });

  it.each([
    ['our', [ours], 'unknown-name "our"', 'did you mean ours?'],
    ['iec-60364', [], 'unknown-name "iec-60364"', 'did you mean iec-60364-5-52?'],
    ['lawless', [ours], 'unknown-name "lawless"', 'there are ours, iec-60364-5-52,'],
    ['thin', ['stock thin cable 6 mm²'], 'wrong-stock-kind "thin"', 'limits take stock of a limit-set'],
  ] as const)('“%s” with %j: %s', (limits, stock, told, words) => {
    const text = spec(limits, ...stock);
    expect(problemsIn(text)).toEqual([told]);
    const model = modelOf(text);
    expect(model.problems[0]?.message).toContain(words);
    expect(model.system.limits).toBeUndefined();
  });

  it('may stand in a file that could not be read, or in a statement that could not', () => {
    expect(problemsIn(`use "rules.amps"\n${spec('ours')}`)).toEqual(['use-missing ""rules.amps""']);
    const broken = problemsIn(spec('ours', 'stok ours limit-set based on nec-310'));
    expect(broken.filter((one) => one.startsWith('unknown-name'))).toEqual([]);
  });
});

describe('the set that one’s own is based on', () => {
  it.each([
    ['based on iec-60364-5-53', 'unknown-name "iec-60364-5-53"', 'did you mean iec-60364-5-52?'],
    ['based on strictest', 'unknown-name "strictest"', 'There is no published set of limits'],
    ['based on theirs', 'unknown-name "theirs"', 'take it with “= theirs”'],
    ['factor 0.9', 'missing-required-clause "ours"', 'must say its base'],
  ])('“%s”: %s', (said, told, words) => {
    const text = spec('ours', `stock ours limit-set ${said}`, 'stock theirs limit-set based on nec-310');
    expect(problemsIn(text)).toEqual([told]);
    expect(modelOf(text).problems[0]?.message).toContain(words);
  });

  it('may come with the set that it takes', () => {
    const text = spec('ours', 'stock ours limit-set = theirs, drop 2 %', 'stock theirs limit-set based on nec-310');
    expect(problemsIn(text)).toEqual([]);
  });
});

it('is no part, and stands in stock only', () => {
  const text = 'system 12 V, limits ours\nlimit-set ours based on nec-310\n';
  const [first, ...more] = modelOf(text).problems;
  expect([first?.slug, first?.fixes[0]?.edits[0]?.newText, more]).toEqual([
    'unknown-statement',
    'stock ours limit-set',
    [],
  ]);
});
