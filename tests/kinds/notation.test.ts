/** The reference is true: its examples read, its tables are up to date, and every word it calls a keyword is one. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compile, wordsOf } from '../../grammar/compiled.ts';
import { parseDocument } from '../../grammar/parse.ts';
import { formatDocument } from '../../grammar/printer.ts';
import { units } from '../../grammar/units.ts';
import { allKinds, allStatements } from '../../server/kinds/all.ts';
import { colourList } from '../../server/kinds/colours.ts';
import { commonClausesWithContacts } from '../../server/kinds/common.ts';
import { notationText, readableForm } from '../../server/kinds/notation-page.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';
import { limitSets } from '../../server/physics/limits/sets.ts';
import { allRules } from '../../server/rules/all.ts';
import { analyseText } from '../analysed.ts';

const path = 'grammar/NOTATION.md';
const page = readFileSync(path, 'utf8');
const handWritten = page.replace(/<!-- from the vocabulary: (.+?) -->.*?<!-- end: \1 -->/gs, '');

interface Fence {
  readonly line: number;
  readonly info: string;
  readonly text: string;
}

const fences: readonly Fence[] = [...page.matchAll(/^```([^\n]*)\n(.*?)^```$/gms)].map((match) => ({
  line: page.slice(0, match.index).split('\n').length,
  info: match[1] ?? '',
  text: match[2] ?? '',
}));
const right = fences.filter(({ info }) => info === 'amps');
const written = right.filter(({ text }) => handWritten.includes(text));
const wrong = fences.filter(({ info }) => info === 'amps wrong');
const whole = right.filter(({ text }) => /^system\b/m.test(text) && /^run\b/m.test(text));

const problems = (text: string) =>
  parseDocument(text, vocabulary).statements.flatMap(({ shaped }) => shaped.problems.map(({ message }) => message));

describe('examples', () => {
  it('are all of a known sort', () => {
    expect(fences.filter(({ info }) => !['amps', 'amps wrong'].includes(info))).toEqual([]);
    expect(right.length).toBeGreaterThan(40);
    expect(wrong.length).toBeGreaterThan(5);
    expect(whole.length).toBeGreaterThanOrEqual(3);
  });

  it.each(right.map(({ line, text }) => [line, text] as const))('line %i reads without a problem', (_, text) => {
    expect(problems(text)).toEqual([]);
  });

  it.each(written.map(({ line, text }) => [line, text] as const))(
    'line %i is written as the formatter writes it',
    (_, text) => {
      expect(formatDocument(parseDocument(text, vocabulary))).toBe(text);
    },
  );

  it.each(wrong.map(({ line, text }) => [line, text] as const))('line %i, called wrong, is', (_, text) => {
    const found = parseDocument(text, vocabulary).statements.flatMap(({ shaped }) => shaped.problems);
    expect(found).toHaveLength(1);
    // The page promises a mend for each.
    expect(found[0]?.fixes?.length ?? 0).toBeGreaterThan(0);
  });

  it.each(whole.map(({ line, text }) => [line, text] as const))('line %i, a whole spec, is sound', (_, text) => {
    const { findings, answers } = analyseText(text);
    // Blanks are told of, and sound.
    const others = findings.filter(({ slug }) => slug !== 'blank-unfilled');
    expect(others.map(({ slug, message }) => `${slug}: ${message}`)).toEqual([]);
    expect(answers.cases.every(({ converged }) => converged)).toBe(true);
  });
});

describe('the parts made from the vocabulary', () => {
  it('are up to date', () => {
    expect(notationText(page)).toBe(page);
  });

  it('leave what is written by hand alone', () => {
    const stale = page.replace(/^\| `cable` .*$/m, '').replaceAll('| must |', '| |');
    expect(notationText(stale)).toBe(page.replace(/^\| `cable` .*$/m, ''));
    expect(() => notationText('nothing to fill')).toThrow('no place for');
  });

  it('tell of every kind, statement and clause', () => {
    for (const { word, category, clauses, meaning } of [...allKinds, ...allStatements]) {
      const heading = `${category === 'kind' ? '####' : '###'} \`${word}\``;
      const start = page.indexOf(`\n${heading}`);
      expect([word, start]).not.toEqual([word, -1]);
      const section = page.slice(start, page.indexOf('\n###', start + heading.length + 1) >>> 0);
      expect(section).toContain(meaning);
      for (const clause of clauses) {
        const form = `| \`${readableForm(clause)}\` | ${clause.meaning} |`;
        const common = commonClausesWithContacts.includes(clause);
        if (common) expect(section).toContain('[clauses of any part]');
        expect(common ? page : section).toContain(form);
      }
    }
  });

  it('tell of every unit and colour', () => {
    for (const { symbol } of units) expect(handWritten === page ? '' : page).toContain(`\`${symbol}\``);
    for (const { word, code } of colourList) expect(page).toContain(`| \`${word}\` | ${code} |`);
    for (const word of vocabulary.reserved) expect(page).toContain(`\`${word}\``);
  });
});

/** Parts with every terminal that a kind may have. */
const rich: Readonly<Record<string, readonly string[]>> = {
  panel: ['panel X 9 W, voc 9 V, isc 1 A, vmp 9 V, imp 1 A'],
  battery: ['battery X agm, 12 V, 9 Ah'],
  alternator: ['alternator X 14 V, 9 A'],
  socket: ['socket X 9 A'],
  load: ['load X 9 W'],
  inverter: ['inverter X 9 W'],
  controller: ['controller X mppt, pv 9 V, output 9 A, load output 9 A'],
  converter: ['converter X 5 V, 9 A'],
  charger: ['charger X 12 V, 9 A, pv 9 V', 'charger X 12 V, 9 A, inputs 2', 'charger X 12 V, 9 A, from mains'],
  fuse: ['fuse X 9 A'],
  breaker: ['breaker X 9 A'],
  fusebox: ['fusebox X 3 ways, negative bar'],
  isolator: ['isolator X 2 poles, 9 A'],
  switch: ['switch X 2 poles, 9 A'],
  selector: ['selector X 9 A'],
  relay: ['relay X coil 12 V, contact 9 A'],
  diode: ['diode X 9 A, 2 outputs'],
  connector: ['connector X 3 pins'],
  shunt: ['shunt X 9 A'],
  busbar: ['busbar X 3 studs'],
  splice: ['splice X 3 studs'],
  block: ['block X 3 studs'],
  chassis: ['chassis X'],
  enclosure: ['enclosure X'],
  entry: ['entry X gland M20'],
  cable: ['stock X cable 9 mm²'],
};

const terminalsOf = (word: string): string[] =>
  (rich[word] ?? []).flatMap((text) =>
    [...analyseText(text).model.terminals.values()].map(({ spec }) => spec.name).filter((name) => name !== ''),
  );

describe('words the page calls keywords', () => {
  const { specs } = compile(vocabulary);
  const known = new Set<string>([
    ...vocabulary.statements.keys(),
    ...[...specs.values()].flatMap(({ spec }) => wordsOf(spec)),
    ...vocabulary.reserved,
    ...vocabulary.colours.keys(),
    ...units.flatMap(({ symbol, accepted }) => [symbol, ...accepted]),
    ...limitSets.keys(),
    'x',
    ...allRules.map(({ slug }) => slug),
    ...Object.keys(rich).flatMap(terminalsOf),
    ...analyseText('system 12 V').answers.cases.map(({ name }) => name),
  ]);

  it('are', () => {
    const prose = handWritten.replace(/^```.*?^```$/gms, '');
    const unknown = [...prose.matchAll(/`([^`\n]+)`/g)].flatMap(([, span = '']) =>
      span.split(/[\s,/]+/).filter((word) => /^[a-z][a-z-]*$/.test(word) && !known.has(word)),
    );
    expect(unknown).toEqual([]);
  });

  it('and every statement and kind is explained by hand as well', () => {
    for (const { word } of [...allStatements, ...allKinds])
      expect([word, handWritten.includes(`\`${word}\``) || new RegExp(`^${word} `, 'm').test(handWritten)]).toEqual([
        word,
        true,
      ]);
  });
});

describe('the table of terminals', () => {
  const table = handWritten.slice(handWritten.indexOf('| kind | terminals |'), handWritten.indexOf('## Quantities'));
  const rows = table
    .split('\n')
    .filter((line) => line.startsWith('| `'))
    .map((line) => line.split('|').map((cell) => cell.trim()));

  it.each(allKinds.map(({ word }) => [word]))('%s has the terminals that the table tells', (word) => {
    const row = rows.find(([, kinds = '']) => kinds.includes(`\`${word}\``));
    const told = new Set([...(row?.[2] ?? '').matchAll(/`([^`]+)`/g)].map(([, name = '']) => name));
    const real = new Set(terminalsOf(word));
    // The clause that names more of them.
    told.delete('terminal');
    expect(row).toBeDefined();
    expect([...told].sort()).toEqual([...real].sort());
  });
});
