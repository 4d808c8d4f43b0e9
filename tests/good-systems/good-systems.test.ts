/**
 * Systems that an experienced fitter would sign off: nothing in them may be found that a careful fitter would wave away.
 * They are of different make-up on purpose. Advice, where there is any, is marked in the file where it stands.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseDocument } from '../../grammar/parse.ts';
import { formatDocument, printTree } from '../../grammar/printer.ts';
import { analyse } from '../../server/analysis.ts';
import { diskSource, uriOf } from '../../server/cli/files.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';
import { actual, expected } from '../rules/markers.ts';

const folder = 'tests/good-systems';
const names = readdirSync(folder).filter((name) => name.endsWith('.amps'));
const read = (name: string) => readFileSync(`${folder}/${name}`, 'utf8');
const analysed = (name: string) => analyse(uriOf(resolve(folder, name)), diskSource());

describe.each(names)('%s', (name) => {
  const text = read(name);
  const { findings, answers } = analysed(name);

  it('has no error and no warning, and only the advice marked in it', () => {
    const serious = findings
      .filter(({ severity }) => severity !== 'advice')
      .map(({ slug, message }) => [slug, message]);
    expect(serious).toEqual([]);
    expect(actual(text, findings)).toEqual(expected(text));
  });

  it('prints back to its text, and is tidy', () => {
    const tree = parseDocument(text, vocabulary);
    expect(printTree(tree)).toBe(text);
    expect(formatDocument(tree)).toBe(text);
  });

  it('works out every case that it states', () => {
    expect(answers.cases.length).toBeGreaterThan(0);
    for (const { converged, parts, residual } of answers.cases) {
      expect(converged).toBe(true);
      expect(residual).toBeLessThan(1e-9);
      for (const { volts = 0, amps = 0 } of parts.values()) expect(Number.isFinite(volts + amps)).toBe(true);
    }
  });

  it('says of every cable what its insulation stands, so that nothing is judged by what is assumed', () => {
    for (const run of analysed(name).model.runs.values()) expect(run.insulationCelsius).toBeDefined();
  });
});

describe('the good systems', () => {
  it('are twenty-one, and differ in supply, return and limits', () => {
    expect(names.length).toBeGreaterThanOrEqual(21);
    const all = names.map(analysed);
    expect(new Set(all.map(({ answers }) => answers.limits.id)).size).toBe(4);
    expect(new Set(all.map(({ answers }) => answers.systemVolts))).toEqual(new Set([12, 24, 48]));
    const chemistries = all.flatMap(({ model }) =>
      [...model.parts.values()].flatMap(({ facts }) => facts.word('chemistry') ?? []),
    );
    expect(new Set(chemistries)).toEqual(new Set(['agm', 'gel', 'lead-acid', 'lithium-iron-phosphate']));
    const throughBody = all.filter(({ model }) =>
      [...model.runs.values()].some(({ cores }) =>
        cores.some(({ to, from }) => to?.part.kind.word === 'chassis' && from?.part.kind.word === 'load'),
      ),
    );
    expect(throughBody.length).toBeGreaterThanOrEqual(2);
    expect(throughBody.length).toBeLessThan(names.length);
  });

  it('tell each at its head what it is', () => {
    for (const name of names) expect(read(name)).toMatch(/^# \S.{20,}\n/);
  });
});
