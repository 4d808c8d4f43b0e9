/** The figures of every hover are those of `ampscribe answers --format json`, rounded and nothing else. */
import { readdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Analysis, analyse } from '../../server/analysis.ts';
import type { AnswersJson, CaseJson } from '../../server/answers/answers-json.ts';
import { diskSource, uriOf } from '../../server/cli/files.ts';
import { runCommand } from '../cli/surroundings.ts';
import { read, type Table, tablesIn } from './hovering.ts';

type Digits = (value: number) => number;

/** Two decimals below ten, one below a hundred, none above. */
const threeFigures: Digits = (value) => (Math.abs(value) < 9.995 ? 2 : Math.abs(value) < 99.95 ? 1 : 0);
const fixed =
  (digits: number): Digits =>
  () =>
    digits;

interface Comparison {
  readonly unit: string;
  readonly digits: Digits;
}

const amps: Comparison = { unit: 'A', digits: threeFigures };
const watts: Comparison = { unit: 'W', digits: threeFigures };
const volts: Comparison = { unit: 'V', digits: fixed(2) };
const lostVolts: Comparison = { unit: 'V', digits: fixed(3) };
const percent: Comparison = { unit: '%', digits: fixed(1) };
const celsius: Comparison = { unit: '°C', digits: fixed(0) };

/** Compares, and counts what it compared. */
class Compared {
  readonly wrong: string[] = [];
  count = 0;

  figure(what: string, shown: string | undefined, told: number | null | undefined, { unit, digits }: Comparison): void {
    this.count += 1;
    if (told === null || told === undefined) {
      if (shown !== '' && shown !== undefined) this.wrong.push(`${what}: ${shown} is shown, nothing is told`);
      return;
    }
    const match = /^(-?\d+(?:\.\d+)?) (\S+)$/.exec(shown ?? '');
    if (match === null || match[2] !== unit) {
      this.wrong.push(`${what}: “${shown}” is no figure in ${unit}`);
      return;
    }
    const d = digits(told);
    // Half a last digit, and what halves in binary are off by.
    if (Math.abs(Number(match[1]) - told) > 0.5 * 10 ** -d + 1e-9) this.wrong.push(`${what}: ${shown}, told ${told}`);
    if ((match[1]?.split('.')[1]?.length ?? 0) > d) this.wrong.push(`${what}: ${shown} has more than ${d} decimals`);
  }

  same(what: string, shown: unknown, told: unknown): void {
    this.count += 1;
    if (shown !== told) this.wrong.push(`${what}: ${String(shown)} is shown, ${String(told)} told`);
  }
}

/** Row of a table as a record by its heads. */
const rowsOf = ({ head, rows }: Table) =>
  rows.map((row): Record<string, string> => Object.fromEntries(head.map((name, column) => [name, row[column] ?? ''])));

function tableWith(tables: readonly Table[], ...heads: string[]): Table | undefined {
  return tables.find(({ head }) => head[0] === heads[0] && heads.slice(1).every((name) => head.includes(name)));
}

const partColumns = [
  ['voltage', 'volts', volts],
  ['current', 'amps', amps],
  ['power', 'watts', watts],
  ['drop', 'dropVolts', lostVolts],
  ['drop %', 'dropPercent', percent],
] as const;

function nameAt(analysis: Analysis, place: { readonly span: { readonly start: number } }): string {
  return read(analysis, place.span.start, true)?.value ?? '';
}

/** Parts: one row a case, all of what the JSON has of it and no more. */
function compareParts(analysis: Analysis, json: AnswersJson, compared: Compared): void {
  for (const part of analysis.model.parts.values()) {
    if (part.namePlace.uri !== analysis.uri) continue;
    const told = json.cases.filter(({ parts }) => parts[part.name] !== undefined);
    const tables = tablesIn(nameAt(analysis, part.namePlace));
    const table = tables.find(({ head }) => head[0] === 'case' && !head.some((name) => name.startsWith('input ')));
    const rows = table === undefined ? [] : rowsOf(table);
    if (part.terminals.length === 0) {
      compared.same(`${part.name} has no figures`, rows.length, 0);
      continue;
    }
    const silent = told.every(({ parts }) => Object.keys(parts[part.name] ?? {}).length === 0);
    if (!silent)
      compared.same(`${part.name}: cases`, rows.map((row) => row.case).join(), told.map((c) => c.name).join());
    const side = table?.head.some((name) => name.startsWith('output ')) === true ? 'output ' : '';
    for (const row of rows) {
      const figures = json.cases.find(({ name }) => name === row.case)?.parts[part.name];
      for (const [head, key, comparison] of partColumns)
        compared.figure(`${part.name} ${head} in ${row.case}`, row[`${side}${head}`], figures?.[key], comparison);
    }
    compareInput(part.name, tables, json, compared);
  }
}

/** What a part takes in is no figure of the JSON, but follows from the terminals and cores there. */
function compareInput(name: string, tables: readonly Table[], json: AnswersJson, compared: Compared): void {
  const table = tables.find(({ head }) => head.includes('input voltage'));
  for (const row of table === undefined ? [] : rowsOf(table)) {
    const answer = json.cases.find((one) => one.name === row.case) as CaseJson;
    const side = answer.terminals[`${name}:in+`] === undefined ? 'pv' : 'in';
    const at = (terminal: string) => answer.terminals[`${name}:${terminal}`]?.volts ?? Number.NaN;
    compared.figure(
      `${name} input voltage in ${row.case}`,
      row['input voltage'],
      at(`${side}+`) - at(`${side}-`),
      volts,
    );
    let into = 0;
    for (const core of answer.cores) {
      if (core.to === `${name}:${side}+`) into += core.amps;
      if (core.from === `${name}:${side}+`) into -= core.amps;
    }
    compared.figure(`${name} input current in ${row.case}`, row['input current'], into, amps);
  }
}

/** Runs: one row a core, in the case in which it carries most. */
function compareRuns(analysis: Analysis, json: AnswersJson, compared: Compared): void {
  for (const run of analysis.model.runs.values()) {
    if (run.namePlace.uri !== analysis.uri) continue;
    const table = tableWith(tablesIn(nameAt(analysis, run.namePlace)), 'core', 'from, to');
    const rows = table === undefined ? [] : rowsOf(table);
    compared.same(`${run.name}: cores`, rows.length, run.cores.length);
    for (const row of rows) {
      const cores = json.cases.flatMap(({ name, cores: all }) =>
        all.filter((core) => core.run === run.name && core.core === row.core).map((core) => ({ name, core })),
      );
      const shown = cores.find(({ name }) => name === row['in case'])?.core;
      const what = `${run.name} ${row.core} in ${row['in case']}`;
      if (shown === undefined) {
        compared.same(`${what} is told`, row['most current'] ?? '', '');
        compared.same(`${what}: cases`, cores.length, 0);
        continue;
      }
      compared.same(`${what}: ends`, row['from, to'], `${shown.from} to ${shown.to}`);
      compared.same(
        `${what} carries most`,
        Math.abs(shown.amps),
        Math.max(...cores.map(({ core }) => Math.abs(core.amps))),
      );
      const current = row['most current'] ?? '';
      compared.same(`${what} assumed`, current.endsWith(' (assumed)'), shown.assumed);
      compared.figure(`${what} current`, current.replace(' (assumed)', ''), shown.amps, amps);
      compared.figure(`${what} capacity`, row['then good for'], shown.capacityAmps, amps);
      compared.figure(`${what} drop`, row.drop, shown.dropVolts, lostVolts);
      compared.figure(`${what} loss`, row.loss, shown.watts, watts);
      compared.figure(`${what} temperature`, row.temperature, shown.celsius, celsius);
    }
  }
}

/** Terminals, where they are written as the end of a core: their voltage in every case. */
function compareTerminals(analysis: Analysis, json: AnswersJson, compared: Compared): void {
  const seen = new Set<string>();
  for (const { name, target, place } of analysis.model.uses) {
    if (target !== 'terminal' || place.uri !== analysis.uri || seen.has(name) || !name.includes(':')) continue;
    // The bar of a link names its terminals by their numbers alone, and is told as a bar.
    if (!analysis.text.slice(place.span.start - 1, place.span.end).includes(':')) continue;
    seen.add(name);
    const text = read(analysis, place.span.end - 1, true);
    const table = tableWith(tablesIn(text?.value ?? ''), 'case', 'voltage');
    const rows = table === undefined ? [] : rowsOf(table);
    const told = json.cases.filter(({ converged }) => converged);
    compared.same(`${name}: cases`, rows.map((row) => row.case).join(), told.map((one) => one.name).join());
    for (const row of rows) {
      const answer = json.cases.find((one) => one.name === row.case);
      compared.figure(`${name} in ${row.case}`, row.voltage, answer?.terminals[name]?.volts, volts);
    }
  }
}

/** Cases: a row for every part through which something flows. */
function compareCases(analysis: Analysis, json: AnswersJson, compared: Compared): void {
  for (const stated of analysis.model.cases) {
    if (stated.implied) continue;
    const answer = json.cases.find(({ name }) => name === stated.name);
    const table = tableWith(tablesIn(nameAt(analysis, stated.namePlace)), 'part', 'voltage');
    const rows = table === undefined ? [] : rowsOf(table);
    const flowing = Object.entries(answer?.parts ?? {}).filter(
      ([, part]) => part.volts !== undefined && Math.abs(part.amps ?? 0) > 1e-9,
    );
    compared.same(`${stated.name}: parts`, rows.map((row) => row.part).join(), flowing.map(([name]) => name).join());
    for (const row of rows)
      for (const [head, key, comparison] of partColumns)
        if (head !== 'drop')
          compared.figure(
            `${row.part} ${head} in ${stated.name}`,
            row[head],
            answer?.parts[row.part ?? '']?.[key],
            comparison,
          );
  }
}

function compare(analysis: Analysis, json: AnswersJson): Compared {
  const compared = new Compared();
  compareParts(analysis, json, compared);
  compareRuns(analysis, json, compared);
  compareTerminals(analysis, json, compared);
  compareCases(analysis, json, compared);
  return compared;
}

async function toldBy(name: string): Promise<AnswersJson> {
  const { code, out } = await runCommand(['answers', `samples/${name}`, '--format', 'json']);
  expect(code).toBe(0);
  return JSON.parse(out) as AnswersJson;
}

const analysed = (name: string) => analyse(uriOf(resolve('samples', name)), diskSource());
const specs = readdirSync('samples').filter((name) => name.endsWith('.amps') && name !== 'stock.amps');

describe.each(specs)('samples/%s', (name) => {
  it('has the figures of the answers on every part, run, terminal and case', async () => {
    const analysis = analysed(name);
    const { wrong, count } = compare(analysis, await toldBy(name));
    expect(wrong).toEqual([]);
    // All of it was compared: ten things a core, one a part, one a terminal and case; most terminals are the end of a core.
    const { model, answers } = analysis;
    const cores = [...model.runs.values()].flatMap((run) => run.cores).length;
    const written = new Set(
      model.uses
        .filter(
          ({ target, place, name: id }) => target === 'terminal' && place.uri === analysis.uri && id.includes(':'),
        )
        .map(({ name: id }) => id),
    ).size;
    expect(count).toBeGreaterThan(cores * 9 + (written - 4) * answers.cases.length + model.parts.size);
  });
});

describe('the comparison fails', () => {
  type Change = (answer: { -readonly [K in keyof CaseJson]: CaseJson[K] }) => void;
  const first = <T>(record: Readonly<Record<string, T>>, has: (one: T) => boolean): string =>
    Object.keys(record).find((key) => has(record[key] as T)) ?? '';

  it.each<[string, Change]>([
    [
      'a terminal’s voltage',
      (answer) => {
        const id = first(answer.terminals, ({ volts: at }) => at > 1);
        answer.terminals = { ...answer.terminals, [id]: { volts: (answer.terminals[id]?.volts ?? 0) + 0.011 } };
      },
    ],
    ...(['amps', 'capacityAmps', 'dropVolts', 'watts', 'celsius'] as const).map((key): [string, Change] => [
      `a core’s ${key}`,
      (answer) => {
        answer.cores = answer.cores.map((core) =>
          Math.abs(core.amps) < 0.05
            ? core
            : { ...core, [key]: (core[key] ?? 0) * 1.2 + (key === 'celsius' ? 0.6 : 0) },
        );
      },
    ]),
    [
      'whether a core’s share is assumed',
      (answer) => {
        answer.cores = answer.cores.map((core) => ({ ...core, assumed: !core.assumed }));
      },
    ],
    ...(['volts', 'amps', 'watts', 'dropVolts', 'dropPercent'] as const).map((key): [string, Change] => [
      `a part’s ${key}`,
      (answer) => {
        const id = first(answer.parts, (part) => Math.abs(part[key] ?? 0) > 0.1);
        const part = answer.parts[id] ?? {};
        answer.parts = { ...answer.parts, [id]: { ...part, [key]: (part[key] ?? 0) * 1.2 } };
      },
    ]),
    [
      'a part that is not told of',
      (answer) => {
        const { LAMP: _, ...others } = answer.parts;
        answer.parts = others;
      },
    ],
    [
      'the name of a case',
      (answer) => {
        answer.name = `${answer.name}-other`;
      },
    ],
  ])('for %s that is other', async (_, change) => {
    const json = structuredClone(await toldBy('first-lamp.amps'));
    const analysis = analysed('first-lamp.amps');
    expect(compare(analysis, json).wrong).toEqual([]);
    const [answer] = json.cases as [{ -readonly [K in keyof CaseJson]: CaseJson[K] }];
    change(answer);
    expect(compare(analysis, json).wrong.length).toBeGreaterThan(0);
  });
});
