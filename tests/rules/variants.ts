/**
 * The same wiring said in another way: other names, other units, statements in another order, clauses taken from stock, parts
 * in a file of their own. A rule must judge it alike.
 */
import { vocabulary } from '../../server/kinds/vocabulary.ts';
import type { Model } from '../../server/model/model.ts';
import type { Files } from './applied.ts';

export type Random = () => number;

/** Even numbers in [0, 1) from a text and a seed, the same at every run. */
export function randomFrom(text: string): Random {
  let state = Number(process.env.RANDOM_SEED ?? 20261125);
  for (const letter of text) state = Math.imul(state ^ (letter.codePointAt(0) ?? 0), 0x9e3779b1) >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

export interface Variant {
  readonly files: Files;
  /** New names back to the old ones. */
  readonly back: ReadonlyMap<string, string>;
  /** What was done, for telling which variant failed. */
  readonly how: readonly string[];
}

/** What a way of saying may be applied to: the language's own rules are about the very words, so only some are. */
export type Way = 'names' | 'units' | 'order' | 'stock' | 'files' | 'notes';

export function variantOf(files: Files, model: Model, ways: readonly Way[], random: Random): Variant {
  const how: string[] = [];
  let made: Files = files;
  let back: ReadonlyMap<string, string> = new Map();
  const chosen = ways.filter(() => random() < 0.5);
  const few = chosen.length === 0 ? ways.slice(0, 1) : chosen;
  const edit = (way: Way, change: (text: string) => string) => {
    const text = made['spec.amps'] ?? '';
    const after = change(text);
    if (after === text) return;
    how.push(way);
    made = { ...made, 'spec.amps': after };
  };
  if (few.includes('stock')) edit('stock', (text) => withStock(text, random));
  if (few.includes('units')) edit('units', (text) => otherUnits(text, random));
  if (few.includes('order')) edit('order', (text) => shuffled(statementsOf(text), random).join('\n').concat('\n'));
  if (few.includes('files') && Object.keys(files).length === 1) {
    made = inTwoFiles(made['spec.amps'] ?? '', random);
    if (Object.keys(made).length > 1) how.push('files');
  }
  if (few.includes('names')) {
    const renaming = newNames(model, random);
    made = Object.fromEntries(Object.entries(made).map(([name, text]) => [name, renamed(text, renaming)]));
    back = new Map([...renaming].map(([old, name]) => [name, old]));
    how.push('names');
  }
  if (few.includes('notes')) edit('notes', (text) => withNotes(text, random));
  return { files: made, back, how };
}

/** Statements with their continued lines and the notes above them. */
export function statementsOf(text: string): string[] {
  const statements: string[] = [];
  let notes: string[] = [];
  for (const line of text.split('\n')) {
    if (line.trim() === '') continue;
    const last = statements.at(-1);
    if (line.startsWith('#')) notes.push(line);
    else if (/^\s/.test(line) && last !== undefined && notes.length === 0)
      statements[statements.length - 1] = `${last}\n${line}`;
    else {
      statements.push([...notes, line].join('\n'));
      notes = [];
    }
  }
  return notes.length > 0 ? [...statements, notes.join('\n')] : statements;
}

function shuffled<T>(list: readonly T[], random: Random): T[] {
  const result = [...list];
  for (let i = result.length - 1; i > 0; i -= 1) {
    const j = Math.floor(random() * (i + 1));
    [result[i], result[j]] = [result[j] as T, result[i] as T];
  }
  return result;
}

function newNames(model: Model, random: Random): Map<string, string> {
  const olds = [
    ...model.parts.keys(),
    ...model.runs.keys(),
    ...model.locations.keys(),
    ...model.stocks.keys(),
    ...model.cases.filter(({ implied }) => !implied).map(({ name }) => name),
  ];
  const taken = new Set<string>();
  const names = new Map<string, string>();
  const letters = 'ABCDEFGHKLMNPRSTUVXYZÄÖ';
  for (const old of new Set(olds)) {
    if (vocabulary.reserved.has(old)) continue;
    let name: string;
    do {
      name = Array.from({ length: 3 }, () => letters[Math.floor(random() * letters.length)]).join('');
      name += `${random() < 0.5 ? '-' : ''}${Math.floor(random() * 90) + 10}`;
    } while (taken.has(name));
    taken.add(name);
    names.set(old, name);
  }
  return names;
}

const word = /"[^"\n]*"|(?:^|\s)#\s.*|(?<![\p{L}\p{N}_-])\p{L}[\p{L}\p{N}_-]*(?![\p{L}\p{N}_-])/gmu;

/** Names outside quotes and comments; numbers with their units are no names, since those stand behind a digit. */
function renamed(text: string, to: ReadonlyMap<string, string>): string {
  return text.replace(word, (found, at: number) => {
    // `500 V` is a voltage, whatever is called V.
    const unit = /(?:^|[\s(])[\d.]+ ?$/.test(text.slice(Math.max(0, at - 12), at));
    return unit && vocabularyUnits.has(found) ? found : (to.get(found) ?? found);
  });
}

const vocabularyUnits = new Set(['A', 'V', 'W', 'm', 'h', 's', 'Ah', 'kA', 'mA', 'mm', 'cm', 'kW', 'Nm']);

const restated: readonly (readonly [RegExp, (value: number, random: Random) => string])[] = [
  [
    /(?<=[\s,(])(\d+(?:\.\d+)?) ?m(?=[\s,]|$)/gm,
    (metres, random) => (random() < 0.5 ? `${round(metres / 0.3048)} ft` : `${round(metres * 100)} cm`),
  ],
  [/(?<=[\s,(])(\d+(?:\.\d+)?) ?ft(?=[\s,]|$)/gm, (feet) => `${round(feet * 12)} inch`],
  [
    /(?<=[\s,(])(\d+(?:\.\d+)?) ?A(?=[\s,]|$)/gm,
    (amps, random) => (random() < 0.5 ? `${round(amps * 1000)} mA` : `${round(amps / 1000)} kA`),
  ],
  [/(?<=[\s,(])(\d+(?:\.\d+)?) ?kA(?=[\s,]|$)/gm, (kiloamps) => `${round(kiloamps * 1000)} A`],
  [/(?<=[\s,(])(\d+(?:\.\d+)?) ?V(?=[\s,]|$)/gm, (volts) => `${round(volts * 1000)} mV`],
  [/(?<=[\s,(])(\d+(?:\.\d+)?) ?W(?=[\s,]|$)/gm, (watts) => `${round(watts / 1000)} kW`],
  [/(?<=[\s,(])(-?\d+(?:\.\d+)?) ?°C(?=[\s,]|$)/gm, (celsius) => `${round((celsius * 9) / 5 + 32)} °F`],
  [/(?<=[\s,(])(\d+(?:\.\d+)?) ?mΩ(?=[\s,]|$)/gm, (milli) => `${round(milli / 1000)} Ω`],
];

function round(value: number): string {
  return String(Number(value.toPrecision(12)));
}

function otherUnits(text: string, random: Random): string {
  const some = restated.filter(() => random() < 0.5);
  return text
    .split('\n')
    .map((line) => {
      const comment = line.search(/(?:^|\s)#/);
      const [own, rest] = comment === -1 ? [line, ''] : [line.slice(0, comment), line.slice(comment)];
      // What stands in quotes is nobody's quantity.
      const pieces = own.split(/("[^"]*")/);
      return `${pieces
        .map((piece, i) =>
          i % 2 === 1
            ? piece
            : some.reduce(
                (before, [pattern, write]) =>
                  // One statement of a place or a size keeps the units that others are compared by.
                  before.replace(pattern, (found, value: string) =>
                    random() < 0.7 ? write(Number(value), random) : found,
                  ),
                piece,
              ),
        )
        .join('')}${rest}`;
    })
    .join('\n');
}

/** Clauses that belong to one part and no other, and so stay with it. */
const staysWith = /^(?:in|at|enters|terminal) /;
const stayWithRun = /^(?:along|bunched|enters|sheathed|in conduit)\b/;
const cableClause =
  /^(?:class \d|solid|stranded|tinned|plain|copper|aluminium|-?[\d.]+ ?°[CF]|[\d.]+ ?V|od .*|outdoors)$/;

/** Parts and runs of one line take what they say from a stock of their own. */
function withStock(text: string, random: Random): string {
  const stocks: string[] = [];
  const lines = text.split('\n').map((line, number) => {
    if (random() < 0.4 || line.includes('=') || line.includes('?') || line.includes('#')) return line;
    const name = `stock-${number}`;
    const run = /^run (\S+) +((?:\d+ x )?[\d./]+ ?(?:mm²|AWG)) ((?:\p{L}|\/|-)+), (.*)$/u.exec(line);
    if (run !== null) {
      const [, own, size, colour, rest = ''] = run;
      const clauses = rest.split(', ');
      const taken = clauses.filter((clause) => cableClause.test(clause) && !stayWithRun.test(clause));
      stocks.push(`stock ${name} ${['cable', [size, ...taken].join(', ')].join(' ')}`);
      return `run ${own} = ${name} ${colour}, ${clauses.filter((clause) => !taken.includes(clause)).join(', ')}`;
    }
    const part = /^(\S+) +(\S+(?: and \S+)*) +(?=[^"\s])(.*)$/.exec(line);
    const [, kind = '', names, rest = ''] = part ?? [];
    if (part === null || vocabulary.statements.get(kind)?.category !== 'kind') return line;
    if (/^and\b/.test(rest)) return line;
    const clauses = rest.split(', ').map((clause) => clause.trim());
    const taken = clauses.filter((clause) => !staysWith.test(clause));
    if (taken.length === 0 || clauses.some((clause) => clause === '')) return line;
    stocks.push(`stock ${name} ${kind} ${taken.join(', ')}`);
    return `${kind} ${names} ${[`= ${name}`, ...clauses.filter((clause) => !taken.includes(clause))].join(', ')}`;
  });
  // Continued lines would belong to the last stock: they stay under their own statement, above.
  return stocks.length === 0 ? text : [...stocks, ...lines].join('\n');
}

/** What only the spec itself may say; all else can come from a used file. */
const ownStatements = /^(?:#.*\n)*(?:system|use|case|expect|reading|allow)\b/;

function inTwoFiles(text: string, random: Random): Record<string, string> {
  const statements = statementsOf(text);
  const some = new Set(
    statements.filter((one) => !ownStatements.test(one) && !/^(?:#.*\n)*(?:run|link)\b/.test(one) && random() < 0.6),
  );
  if (some.size === 0) return { 'spec.amps': text };
  // Runs and links name terminals, which may stand in either file; parts are moved.
  const [own, moved] = [statements.filter((one) => !some.has(one)), statements.filter((one) => some.has(one))];
  return { 'spec.amps': `${['use "parts.amps"', ...own].join('\n')}\n`, 'parts.amps': `${moved.join('\n')}\n` };
}

function withNotes(text: string, random: Random): string {
  return statementsOf(text)
    .map((one) => (random() < 0.5 ? one : `\n# Looked at again.\n${one}`))
    .join('\n')
    .concat('\n');
}
