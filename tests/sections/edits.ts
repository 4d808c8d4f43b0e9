/** Edits as people make them, and as nobody does: any text with one of its lines changed in one way. */
import fc from 'fast-check';

export interface Edit {
  readonly at: number;
  readonly how: number;
  readonly with: number;
}

export const anEdit: fc.Arbitrary<Edit> = fc.record({ at: fc.nat(), how: fc.nat(), with: fc.nat() });

/** Back to a text that stood there before. */
export interface Undo {
  readonly back: number;
}

export const anEditOrUndo: fc.Arbitrary<Edit | Undo> = fc.oneof(
  { arbitrary: anEdit, weight: 3 },
  { arbitrary: fc.record({ back: fc.nat() }), weight: 1 },
);

/** The texts that come of a text, one after the other. */
export function* textsOf(text: string, steps: readonly (Edit | Undo)[]): Generator<string> {
  const texts = [text];
  for (const step of steps) {
    const next = 'back' in step ? pick(texts, step.back) : edited(texts.at(-1) ?? '', step);
    texts.push(next ?? '');
    yield next ?? '';
  }
}

/** What may be written or pasted on a line of its own. */
const pasted = [
  'fus',
  'load NEW 12 W',
  'run W999 4 mm² red, 1 m, ',
  'allow length-missing "not measured yet"',
  'note to self: buy more of the red one',
  'case night sun 0 %, charge 20 %',
  'expect LAMP-1 voltage at least 11.5 V in evening',
  'chassis G9',
  'stock thin cable ? mm²',
  'place SHED 70 °C, indoors',
  '}',
];

const numbers = /\d+(?:\.\d+)?/g;
const names = /(?<![\p{L}\p{N}_-])[A-Z][A-Z0-9]*(?:-[A-Z0-9]+)*(?![\p{L}_])/gu;

function pick<T>(all: readonly T[], n: number): T | undefined {
  return all[n % Math.max(1, all.length)];
}

/** The line with one match of a pattern put differently. */
function swap(line: string, pattern: RegExp, n: number, by: (found: string) => string): string {
  const found = pick([...line.matchAll(pattern)], n);
  if (found === undefined) return line;
  return line.slice(0, found.index) + by(found[0]) + line.slice(found.index + found[0].length);
}

export function edited(text: string, { at, how, with: n }: Edit): string {
  const lines = text.split('\n');
  const i = at % lines.length;
  const line = lines[i] ?? '';
  const other = pick(lines, n) ?? '';
  const anyName = pick([...text.matchAll(names)], n * 7 + 3)?.[0] ?? 'X';
  const ways: (() => readonly string[])[] = [
    () => [swap(line, numbers, n, (found) => String(Number(found) * 1.5))],
    () => [swap(line, numbers, n, (found) => String(Number(found) / 20))],
    () => [swap(line, names, n, () => anyName)],
    () => [swap(line, names, n, (found) => found.slice(0, -1))],
    () => [swap(line, /[\p{L}-]+/gu, n, (found) => found.slice(1))],
    () => [],
    () => [line, line],
    () => [line.slice(0, n % (line.length + 1))],
    () => [`# ${line}`],
    () => [`    ${line}`],
    () => [line, pick(pasted, n) ?? ''],
    () => [other, line],
    () => [line, '', '# a comment'],
    () => [line.replace(', ', ' ')],
    () => [line.replace('red', 'black')],
  ];
  return [...lines.slice(0, i), ...(pick(ways, how)?.() ?? []), ...lines.slice(i + 1)].join('\n');
}
