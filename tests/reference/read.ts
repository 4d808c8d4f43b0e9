/** Reads the published values beside this file. */
import { readFileSync } from 'node:fs';

export type Row = Readonly<Record<string, string>>;

/** Rows of a table by the names of its columns; lines that begin with # say where it comes from. */
export function readTable(name: string): Row[] {
  const lines = readFileSync(new URL(name, import.meta.url), 'utf8')
    .split(/\r?\n/)
    .filter((line) => line !== '' && !line.startsWith('#'));
  const [head = [], ...rows] = lines.map(cells);
  return rows.map((row) => Object.fromEntries(head.map((column, i) => [column, row[i] ?? ''])));
}

/** A cell as a number; throws where the table has none. */
export function figure(row: Row, column: string): number {
  const value = Number(row[column]);
  if (row[column] === undefined || row[column] === '' || Number.isNaN(value))
    throw new Error(`no number in column ${column} of ${JSON.stringify(row)}`);
  return value;
}

/** Gauge as the tables print it: `4/0`, `0000` or `12`; 0 is 1/0, -1 is 2/0. */
export function gaugeOf(written: string): number {
  if (written.endsWith('/0')) return 1 - Number(written.slice(0, -2));
  return /^0+$/.test(written) ? 1 - written.length : Number(written);
}

export interface WorkedExample {
  readonly id: string;
  // biome-ignore lint/suspicious/noExplicitAny: every example has figures of its own
  readonly inputs: any;
  // biome-ignore lint/suspicious/noExplicitAny: every example has answers of its own
  readonly answer: any;
  readonly source: string;
}

export function workedExample(id: string): WorkedExample {
  const { examples } = JSON.parse(readFileSync(new URL('worked-examples.json', import.meta.url), 'utf8'));
  const found = examples.find((one: WorkedExample) => one.id === id);
  if (found === undefined) throw new Error(`there is no worked example ${id}`);
  return found;
}

function cells(line: string): string[] {
  const found: string[] = [];
  for (const [, quoted, plain] of line.matchAll(/(?:"([^"]*)"|([^,]*))(?:,|$)/g)) found.push(quoted ?? plain ?? '');
  return found;
}
