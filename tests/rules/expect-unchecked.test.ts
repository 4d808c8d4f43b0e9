/** What is expected is judged, or it is said that it is not. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { expectableOf } from '../../server/answers/expectable.ts';
import { judgedIn } from '../../server/rules/expected-figures.ts';
import { lampSpec } from '../../server/rules/language.ts';
import { analyseText } from '../analysed.ts';

const properties = ['voltage', 'current', 'drop', 'temperature', 'charge'];

const told = (...lines: string[]) =>
  analyseText(lampSpec({}, ...lines).spec).findings.map(({ slug, message }) => `${slug}: ${message}`);

describe('what can be expected', () => {
  it.each(['spokewagon', 'towpath-kiosk', 'whetstone'])('is what has a figure in the cases of %s', (name) => {
    const files = Object.fromEntries(
      readdirSync('samples')
        .filter((file) => file.endsWith('.amps'))
        .map((file) => [file, readFileSync(`samples/${file}`, 'utf8')]),
    );
    const { model, answers } = analyseText(files[`${name}.amps`] ?? '', files);
    const seen = new Set<string>();
    for (const subject of [...model.parts.keys(), ...model.runs.keys(), ...model.terminals.keys()]) {
      const has = (what: string) =>
        answers.cases.some((answer, index) => {
          const one = model.cases[index];
          if (one === undefined) throw new Error('a case without what it says');
          const expected = { subject, what, bound: 'most', unit: '', cases: [one.name] };
          return judgedIn(expected, { one, answer }, { model, answers }) !== undefined;
        });
      const isBattery = model.parts.get(subject)?.kind.word === 'battery';
      // A charge there is where a case says it; a current where a cable ends.
      const isLoose = (answers.network.at.get(subject) ?? []).every(({ is }) => is !== 'core');
      const some = properties.filter((what) => has(what) || (what === 'charge' && isBattery));
      const can = expectableOf(subject, model).filter(
        (what) => !(what === 'current' && isLoose && model.terminals.has(subject)),
      );
      expect([subject, ...some]).toEqual([subject, ...can]);
      seen.add(some.join());
    }
    expect(seen.size).toBeGreaterThan(4);
  });

  it('of a bar is what goes through it', () => {
    const found = analyseText(
      `${
        lampSpec({
          out: 'run W2 1.5 mm² red, 1.2 m, F1:out to BAR\nrun W9 1.5 mm² red, 1 m, BAR to LAMP:+',
        }).spec
      }busbar BAR 100 A\nexpect BAR current at most 0.5 A\n`,
    ).findings.filter(({ slug }) => slug.startsWith('expect'));
    expect(found.map(({ message }) => message)).toEqual([
      expect.stringMatching(/^The current of BAR is 1 A in case .*, but at most 0\.5 A is expected/),
    ]);
  });
});

describe('what cannot', () => {
  it.each([
    ['F1 voltage at least 50 V', 'expect it at a terminal, such as F1:out; of F1 itself you can expect the current.'],
    ['W2 voltage at least 50 V', 'such as LAMP:+; of W2 itself you can expect the current, drop or temperature.'],
    ['W2 charge at least 50 %', 'expect it of a battery, in cases that say its charge'],
    [
      'LAMP temperature at most 0 °C',
      'expect it of a cable; of LAMP itself you can expect the voltage, current or drop.',
    ],
    ['LAMP:+ charge at least 50 %', 'of LAMP:+ itself you can expect the voltage or current.'],
    ['B1 charge at least 99 %', 'No case says the charge of B1'],
    ['LAMP voltage at least ? V', 'How much is expected is left open, so this is not checked: write a figure.'],
    ['LAMP voltage at least ?', 'How much is expected is left open, so this is not checked: write a figure.'],
  ])('is told: %s', (line, says) => {
    const [found, ...more] = told(`expect ${line}`);
    expect(more).toEqual([]);
    expect(found).toMatch(/^expect-unchecked: /);
    expect(found).toContain(says);
  });

  it('is told of the cases that do not say a charge', () => {
    const cases = ['case dusk LAMP on', 'case dawn charge 40 %, LAMP on'];
    expect(told(...cases, 'expect B1 charge at least 30 %')).toEqual([]);
    expect(told(...cases, 'expect B1 charge at least 30 % in dawn')).toEqual([]);
    expect(told(...cases, 'expect B1 charge at least 30 % in dusk and dawn')).toEqual([
      expect.stringMatching(/^expect-unchecked: dusk does not say the charge of B1/),
    ]);
  });

  it('is offered where it can be, and told no more then', () => {
    const { spec } = lampSpec({}, 'expect F1 voltage at least 11 V');
    const [found] = analyseText(spec).findings;
    expect(found?.fixes.map(({ title }) => title)).toEqual(['Expect it at F1:out', 'Expect it at F1:in']);
    const [edit] = found?.fixes[0]?.edits ?? [];
    if (edit === undefined) throw new Error('no mend');
    const { start, end } = edit.place.span;
    expect(analyseText(spec.slice(0, start) + edit.newText + spec.slice(end)).findings).toEqual([]);
  });

  it('is left to what tells why nothing is known', () => {
    const { spec } = lampSpec({}, 'expect LAMP voltage at least 11 V');
    const loose = spec.replace(/^run W1 .*\n/mu, '');
    expect(analyseText(loose).findings.filter(({ slug }) => slug.startsWith('expect'))).toEqual([]);
  });
});

describe('a bound in another unit', () => {
  it.each([
    ['expect LAMP voltage at least 11 A', '11 A', 'a voltage belongs: write it like'],
    ['expect LAMP voltage at least 50 °C', '50 °C', 'a voltage belongs'],
    ['expect LAMP current at most 50 %', '50 %', 'a current belongs: write it in A.'],
    ['expect LAMP drop at most 3 W', '3 W', '3 W is a power, where a percentage or a voltage belongs'],
    ['reading 2026-04-18 LAMP:+ to LAMP:- 3 kW', '3 kW', 'a voltage, a current, a resistance or a temperature belongs'],
  ])('is told at the bound alone: %s', (line, words, says) => {
    const { spec } = lampSpec({}, line);
    const [found, ...more] = analyseText(spec).findings;
    expect(more).toEqual([]);
    expect(found?.slug).toBe('wrong-unit');
    expect(found?.message).toContain(says);
    expect(spec.slice(found?.place.span.start, found?.place.span.end)).toBe(words);
  });

  it('or with a unit that is not known yet is one finding, with the one unit that fits', () => {
    expect(told('expect LAMP voltage at most 11 ?')).toEqual([
      'missing-unit: 11 has no unit: write 11 V, as in “FRIDGE voltage at least 11.6 V in dusk”.',
    ]);
  });
});
