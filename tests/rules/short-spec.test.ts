/**
 * Single mistakes in a spec of one lamp, of what the sample of the breakages does not have or says otherwise: one finding
 * tells of each, and every safe mend leaves what was meant.
 */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';
import { applied } from './applied.ts';
import { inCases } from './short-spec/cases.ts';
import { ofClauses } from './short-spec/clauses.ts';
import { ofEnds } from './short-spec/ends.ts';
import { ofNames } from './short-spec/names.ts';
import { ofParts } from './short-spec/parts.ts';

const lamp = `system "V" 12 V
battery B1  agm, 12 V, 60 Ah, at LOFT
fuse F1     5 A, blade, 32 V, breaks 5 kA
load LAMP   9 W, lowest 10.5 V
run W1  1.5 mm² red, 0.2 m, B1:+ to F1:in
run W2  1.5 mm² red, 3 m, F1:out to LAMP:+
run W3  1.5 mm² black, 3 m, LAMP:- to B1:-
place LOFT  indoors, 30 °C
`;

const told = (text: string) => analyseText(text).findings.map(({ slug, message }) => `${slug}: ${message}`);

it('the spec itself is sound', () => expect(told(lamp)).toEqual([]));

describe.each([...inCases, ...ofNames, ...ofEnds, ...ofClauses, ...ofParts])(
  '$what',
  ({ add = '', find, put, slug, at, message }) => {
    const good = `${lamp}${add}`;
    const wrong = good.replace(find, () => put);

    it('is told of once', () => {
      expect(good).toContain(find);
      const known = new Set(told(good));
      const more = analyseText(wrong).findings.filter((one) => !known.has(`${one.slug}: ${one.message}`));
      expect(more.map((one) => `${one.slug}: ${one.message}`)).toEqual([`${slug}: ${message}`]);
      const { start, end } = more[0]?.place.span ?? { start: 0, end: 0 };
      expect(wrong.slice(start, end)).toBe(at);
      for (const fix of more[0]?.fixes.filter(({ safe }) => safe) ?? [])
        expect(told(applied({ 'spec.amps': wrong }, fix.edits)['spec.amps'] ?? ''), fix.title).toEqual([...known]);
    });
  },
);
