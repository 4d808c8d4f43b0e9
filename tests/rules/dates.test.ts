/** Days of readings: another order is put right, and what is no day is told. */
import { describe, expect, it } from 'vitest';
import { lampSpec } from '../../server/rules/language.ts';
import { analyseText } from '../analysed.ts';

const read = (date: string) => {
  const { spec } = lampSpec({}, `reading ${date} LAMP:+ 12 V`);
  return { spec, findings: analyseText(spec).findings };
};

describe('the day of a reading', () => {
  it.each([
    ['2026-4-8', '2026-04-08'],
    ['2026/04/08', '2026-04-08'],
    ['8.4.2026', '2026-04-08'],
  ])('%s is put right as %s', (written, right) => {
    const { spec, findings } = read(written);
    expect(findings.map(({ message }) => message)).toEqual([`A reading begins with its date, year first: ${right}.`]);
    const [edit] = findings[0]?.fixes[0]?.edits ?? [];
    if (edit === undefined) throw new Error('no mend');
    const { start, end } = edit.place.span;
    expect(spec.slice(start, end)).toBe(written);
    expect(analyseText(spec.slice(0, start) + edit.newText + spec.slice(end)).findings).toEqual([]);
  });

  it.each(['2026-13-48', '2026-02-30', '2026-02-29', '2026-00-10'])('%s is none', (written) => {
    const [found, ...more] = read(written).findings;
    expect(more).toEqual([]);
    expect(found?.slug).toBe('impossible-value');
    expect(found?.message).toBe(`${written} is no day of the calendar: write the day it was, as year, month and day.`);
  });

  it('of a leap year is one', () => {
    expect(read('2028-02-29').findings).toEqual([]);
  });
});
