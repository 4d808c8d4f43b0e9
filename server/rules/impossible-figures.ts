/** Figures of single clauses that cannot be, each with its reason; and two of one statement that cannot hold together. */
import type { ClauseNode, ShapedStatement } from '../../grammar/shaped.ts';
import type { Atom, QuantityAtom, Span } from '../../grammar/tree.ts';
import { dcCategories } from '../tables/utilisation-categories.ts';

export interface Impossible {
  readonly atom: Atom;
  readonly span: Span;
  readonly clause: string;
  /** Behind “cannot be”. */
  readonly why: string;
  /** Instead of the usual sentence. */
  readonly message?: string;
  /** What to write instead, where it can be told. */
  readonly right?: string;
}

/** Greatest values in SI units, by statement and clause; a bare clause is of any statement. */
const greatest: ReadonlyMap<string, readonly [most: number, why: string]> = new Map([
  ['case.charge', [1, 'a battery is full at 100 %']],
  ['case.charge-of', [1, 'a battery is full at 100 %']],
  // Sun beside bright clouds adds to some 1300 W/m² for a moment (common practice, no source).
  ['case.sun', [1.3, 'full sun is 100 %, and between bright clouds it is hardly 130 % for a moment']],
  ['hours', [24 * 3600, 'a day has 24 hours']],
  ['efficiency', [1, 'nothing gives more than it takes']],
]);

/** Drifts that fall as a panel warms: by that its cold voltage is told. */
const falling: ReadonlyMap<string, string> = new Map([
  ['voc-drift', 'voltage'],
  ['power-drift', 'power'],
]);

/** Two clauses of which the first is not above the second. */
const ordered: readonly (readonly [least: string, most: string, what: string])[] = [
  ['lowest', 'highest', 'it is above the highest'],
  ['coldest', 'hottest', 'it is above the hottest'],
  ['opens-below', 'closes-above', 'it closes again at less, and so would never rest: it is above'],
];

/** Counts of what a part has. */
const counts: ReadonlySet<string> = new Set(['poles', 'ways', 'studs', 'pins']);

/** First digit 0 to 6, second 0 to 9, X for one that is not told (IEC 60529). */
const ipCode = /^IP[0-6X][0-9X]/;

export function impossibleFigures({ spec, clauses }: ShapedStatement): readonly Impossible[] {
  if (spec === undefined) return [];
  const found: Impossible[] = [];
  for (const clause of clauses) {
    const id = clause.spec.id;
    const most = greatest.get(`${spec.word}.${id}`) ?? greatest.get(id);
    for (const { atom, span } of clause.values) {
      const why =
        most !== undefined && atom.kind === 'quantity' && isAbove(atom, most[0]) ? most[1] : reasonOf(atom, id);
      if (why !== undefined) found.push({ atom, span, clause: id, why });
    }
    found.push(...drifted(clause), ...crossedWithin(clause));
  }
  for (const [least, greater, what] of ordered) found.push(...crossed(clauses, least, greater, what));
  found.push(...surgeBelow(clauses));
  if (spec.word === 'fusebox') found.push(...waysAmiss(clauses));
  return found;
}

// In hundredths of a per cent more, by which sums of decimals may be off.
const isAbove = ({ si }: QuantityAtom, most: number) => si !== undefined && si > most * (1 + 1e-9);

function reasonOf(atom: Atom, id: string): string | undefined {
  if (atom.kind === 'number' && counts.has(id) && !(Number.isInteger(atom.value) && atom.value > 0))
    return 'how many there are is a whole number from 1 on';
  if (atom.kind === 'word' && id === 'ip' && !ipCode.test(atom.value))
    return 'the first digit of an IP code is 0 to 6 (IEC 60529)';
  if (
    atom.kind === 'word' &&
    id === 'category' &&
    !dcCategories.has(atom.value) &&
    /^(?:DC-?)?(?:PV|2)\d/i.test(atom.value)
  )
    return `there is no such utilisation category in IEC 60947-3; there are ${[...dcCategories.keys()].slice(-3).join(', ')} and DC-20A to DC-23B`;
  if (atom.kind === 'range' && id === 'bar' && atom.from === atom.to) return 'a bar joins two terminals';
  if (atom.kind === 'quantity' && id === 'site' && atom.si !== undefined && atom.si > 180)
    return 'the earth is 180° to either side';
  return undefined;
}

function drifted({ spec: { id }, values }: ClauseNode): readonly Impossible[] {
  const what = falling.get(id);
  const [value] = values;
  if (what === undefined || value?.atom.kind !== 'quantity' || !((value.atom.si ?? 0) > 0)) return [];
  const right = `-${value.atom.text.replace(/^\+\s*/u, '')}`;
  const message = `The ${what} of a panel falls as it warms, and rises in the cold: write ${right}.`;
  return [{ ...value, clause: id, why: '', message, right }];
}

/** Slots of one clause of which the first is not above the second. */
const spans: ReadonlySet<string> = new Set(['operates', 'terminals']);

function crossedWithin({ spec: { id }, values }: ClauseNode): readonly Impossible[] {
  if (id === 'site') return latitudes(values);
  const [least, most] = values.slice(-2);
  if (!spans.has(id) || most?.atom.kind !== 'quantity' || most.atom.dimension === 'gauge') return [];
  // `terminals 2.5 to 50 mm²` says its unit once. A greater gauge is a thinner wire.
  const atom = least?.atom;
  const isAlike = atom?.kind === 'quantity' && atom.dimension === most.atom.dimension;
  if (least === undefined || !(isAlike || atom?.kind === 'number')) return [];
  const [a, b] = atom.kind === 'quantity' ? [atom.si, most.atom.si] : [atom.value, most.atom.value];
  if (a === undefined || b === undefined || a <= b) return [];
  return [{ atom, span: least.span, clause: id, why: `the less is said first, and this is above ${most.atom.text}` }];
}

function latitudes([first]: ClauseNode['values']): readonly Impossible[] {
  if (first?.atom.kind !== 'quantity' || !((first.atom.si ?? 0) > 90)) return [];
  return [{ ...first, clause: 'site', why: 'the poles are at 90°' }];
}

/** The first quantity of the clause. */
function figureOf(clauses: readonly ClauseNode[], id: string) {
  const value = clauses.find(({ spec }) => spec.id === id)?.values.find(({ atom }) => atom.kind === 'quantity');
  return value?.atom.kind === 'quantity' && value.atom.si !== undefined
    ? { atom: value.atom, span: value.span, si: value.atom.si }
    : undefined;
}

function crossed(clauses: readonly ClauseNode[], low: string, high: string, what: string): readonly Impossible[] {
  const [least, most] = [figureOf(clauses, low), figureOf(clauses, high)];
  if (least === undefined || most === undefined || !(least.si > most.si)) return [];
  if (most.atom.dimension === 'voltage' && most.si < 0) return [];
  return [{ atom: least.atom, span: least.span, clause: low, why: `${what}, ${most.atom.text}` }];
}

/** What is taken for a moment is more than what is taken all the while. */
function surgeBelow(clauses: readonly ClauseNode[]): readonly Impossible[] {
  const surge = figureOf(clauses, 'surge');
  const steady = surge === undefined ? undefined : figureOf(clauses, surge.atom.dimension);
  if (surge === undefined || steady === undefined || surge.si < 0 || !(surge.si < steady.si)) return [];
  const why = `a surge is what it takes at most, and it takes ${steady.atom.text} all the while`;
  return [{ atom: surge.atom, span: surge.span, clause: 'surge', why }];
}

interface Way {
  readonly from: number;
  readonly to: number;
  readonly amps: number | undefined;
  readonly text: string;
}

/** Ways that a board has not, that are told backwards, or that have two fuses. */
function waysAmiss(clauses: readonly ClauseNode[]): readonly Impossible[] {
  const count = clauses.find(({ spec }) => spec.id === 'ways')?.values[0]?.atom;
  const found: Impossible[] = [];
  const before: Way[] = [];
  for (const { spec, values } of clauses) {
    if (spec.id !== 'way') continue;
    const numbers = values.filter(({ atom }) => atom.kind === 'number');
    const [first, last] = [numbers[0], numbers.at(-1)];
    const fuse = values.find(({ atom }) => atom.kind === 'quantity')?.atom;
    if (first?.atom.kind !== 'number' || last?.atom.kind !== 'number') continue;
    const way: Way = {
      from: first.atom.value,
      to: last.atom.value,
      amps: fuse?.kind === 'quantity' ? fuse.si : undefined,
      text: fuse?.text ?? '',
    };
    const told = (message: string, right?: string): void => {
      const span = { start: first.span.start, end: last.span.end };
      found.push({
        atom: first.atom,
        span,
        clause: 'way',
        why: '',
        message,
        ...(right === undefined ? {} : { right }),
      });
    };
    const beyond =
      [way.to, way.from].find((one) => count?.kind === 'number' && one > count.value) ??
      [way.from].find((one) => one < 1);
    const twice = before.find(({ from, to, amps }) => from <= way.to && way.from <= to && amps !== way.amps);
    if (beyond !== undefined && count?.kind === 'number')
      told(`This board has ${count.value} ways, and there is no way ${beyond}: write one from 1 to ${count.value}.`);
    else if (way.from > way.to)
      told(`Ways are told upwards: write ${way.to} to ${way.from}.`, `${way.to} to ${way.from}`);
    else if (twice !== undefined)
      told(
        `Way ${Math.max(way.from, twice.from)} has one fuse, and ${twice.text} and ${way.text} are said for it: keep one.`,
      );
    before.push(way);
  }
  return found;
}
