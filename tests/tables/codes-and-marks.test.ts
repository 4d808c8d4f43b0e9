/** IP codes, utilisation categories and terminal marks: what the words here say against the published tables. */
import { describe, expect, it, test } from 'vitest';
import { ipMeaning, ipSource } from '../../server/tables/ip-codes.ts';
import { dcCategories } from '../../server/tables/utilisation-categories.ts';
import { analyseText } from '../analysed.ts';
import { readTable } from '../reference/read.ts';

describe('IEC 60529', () => {
  const digits = (element: string) => readTable('ip-codes.csv').filter((row) => row.element === element);
  /** By digit, a word of the publication that must stand in the meaning here too. */
  const solids = ['not protected', 'back of a hand', 'finger', 'tool', 'wire', 'dust', 'dust-tight'];
  const water = [
    'not protected',
    'drip',
    '15',
    'spray',
    'splash',
    'jets',
    'powerful',
    'a short time',
    'lasting',
    'high pressure',
  ];

  it('has seven first and ten second digits; all but the second 9 confirmed', () => {
    expect([digits('first digit').length, digits('second digit').length]).toEqual([7, 10]);
    const memory = [...digits('first digit'), ...digits('second digit')].filter(
      ({ status }) => status === 'from memory',
    );
    expect(memory.map(({ code }) => code)).toEqual(['9']);
    expect(ipSource.status).toBe('confirmed');
  });

  test.each(digits('first digit'))('first $code: $meaning', ({ code = '', meaning = '' }) => {
    const [told = ''] = (ipMeaning(`IP${code}5`) ?? '').split(';');
    expect(told).toContain(solids[Number(code)]);
    // The word for what is kept out is the publication's own.
    const [, publishedWord] = /; (?:back of )?(\w+)$/u.exec(meaning) ?? [];
    if (publishedWord !== undefined && !told.includes('dust')) expect(told).toContain(publishedWord);
  });

  test.each(digits('second digit'))('second $code: $meaning', ({ code = '' }) => {
    const [, told = ''] = (ipMeaning(`IP6${code}`) ?? '').split('; ');
    expect(told).toContain(water[Number(code)]);
  });

  it('means nothing beyond', () => {
    for (const code of ['IP75', 'IP6X', 'IP', 'X']) expect(ipMeaning(code)).toBeUndefined();
  });
});

describe('IEC 60947-3', () => {
  const rows = readTable('utilisation-categories.csv').filter(({ category }) => category?.startsWith('DC-'));
  const words: Readonly<Record<string, RegExp>> = {
    'DC-20': /without load/u,
    'DC-21': /resistive loads with moderate overloads/u,
    'DC-22': /mixed resistive and inductive loads with moderate overloads/u,
    'DC-23': /highly inductive loads/u,
    'DC-PV0': /without load/u,
    'DC-PV1': /string of panels without reverse and overcurrents/u,
    'DC-PV2': /strings of panels with reverse and overcurrents/u,
  };

  it('has seven for direct current, two of each but the panels’', () => {
    expect(rows.length).toBe(7);
    expect(dcCategories.size).toBe(4 * 2 + 3);
  });

  test.each(rows)('$category: $meaning', ({ category = '' }) => {
    const [stem = '', second] = category.split('/');
    const names = second === undefined ? [stem] : [stem, `${stem.slice(0, -1)}${second}`];
    const key = second === undefined ? stem : stem.slice(0, -1);
    for (const name of names) expect(dcCategories.get(name)).toMatch(words[key] ?? /^$/u);
    // B is for infrequent operation.
    if (second !== undefined) expect(dcCategories.get(names[1] ?? '')).toContain('now and then');
  });
});

describe('EN 50005', () => {
  it('marks main contacts in pairs, odd coming in (pairs confirmed, odd as incoming from memory)', () => {
    const rules = readTable('terminal-marking.csv').filter(({ item }) => item === 'main contacts');
    const pairs = rules.flatMap(({ rule = '' }) => [...rule.matchAll(/\b(\d)-(\d)\b/gu)].map(([pair]) => pair));
    expect(pairs).toEqual(['1-2', '3-4', '5-6', '7-8']);
    const { model } = analyseText('isolator Q1 4 poles, 25 A dc\n');
    const part = model.parts.get('Q1');
    expect(part?.contacts.map(({ from, to }) => `${from}-${to}`)).toEqual(pairs);
    for (const { spec } of part?.terminals ?? [])
      expect(spec.meaning).toContain(Number(spec.name) % 2 === 1 ? 'incoming' : 'outgoing');
  });
});
