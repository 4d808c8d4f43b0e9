/**
 * Turns of phrase of people who have not seen the notation: `no sun`, `everything on`, `voltage >= 11 V`. Each is read as what
 * it says, where a clause takes that, and told as how it is written.
 */
import type { CompiledSpec } from './compiled.ts';
import { type Mend, textOf, word, writtenAs } from './mend.ts';
import type { Atom, NumberAtom, Problem, QuantityAtom, TimesAtom } from './tree.ts';
import { symbolsOf } from './units.ts';

/** Words and signs as they are written, in small letters, and what is meant. `#` stands for a number that stays. */
const phrases: readonly (readonly [written: string, right: string])[] = [
  ['no sun', 'sun 0 %'],
  ['sun off', 'sun 0 %'],
  ['sun none', 'sun 0 %'],
  ['without sun', 'sun 0 %'],
  ['dark', 'sun 0 %'],
  ['full sun', 'sun 100 %'],
  ['sun full', 'sun 100 %'],
  ['sun on', 'sun 100 %'],
  ['half sun', 'sun 50 %'],
  ...['on', 'off'].flatMap((state): (readonly [string, string])[] => [
    [`all ${state}`, `all loads ${state}`],
    [`loads ${state}`, `all loads ${state}`],
    [`all lamps ${state}`, `all loads ${state}`],
    [`all lights ${state}`, `all loads ${state}`],
    [`all consumers ${state}`, `all loads ${state}`],
  ]),
  ['spst', '1 pole'],
  ['dpst', '2 poles'],
  ['negative busbar', 'negative bar'],
  ['negative bus', 'negative bar'],
  ['negative-bar', 'negative bar'],
  ['negative-busbar', 'negative bar'],
  ['ground bar', 'negative bar'],
  ['ground busbar', 'negative bar'],
  ['minus bar', 'negative bar'],
  ['mains', 'from mains'],
  ['shore power', 'from mains'],
  ['twin', '2 x'],
  ['# : fuse', 'way # fuse'],
  ['# = fuse', 'way # fuse'],
  ['# : ', 'way # fuse'],
  ['# = ', 'way # fuse'],
  ['way # -', 'way # fuse'],
  ['way # =', 'way # fuse'],
  ['fuse # :', 'way # fuse'],
  ['fuse #', 'way # fuse'],
  ['# * ', '# x'],
  ['@', 'at'],
  ['max fuse', 'most series fuse'],
  ['max fuse', 'most fuse'],
  ['maximum fuse', 'most series fuse'],
  ['maximum fuse', 'most fuse'],
];

/** By their first word or sign. */
const known = new Map<string, { readonly written: readonly string[]; readonly right: readonly string[] }[]>();
for (const [written, right] of phrases) {
  const pieces = written.trim().split(' ');
  const [first = ''] = pieces;
  known.set(first, [...(known.get(first) ?? []), { written: pieces, right: right.split(' ') }]);
}

const most = 4;

/** What the first atoms may mean, the longest phrase first. Whether a clause takes it is for the reader to see. */
export function turnsOfPhrase(atoms: readonly Atom[], spec: CompiledSpec): Mend[] {
  const first = atoms[0] as Atom;
  const key = first.kind === 'number' ? '#' : pieces(first);
  const found = (known.get(key) ?? [])
    .filter(({ written }) => written.length <= most && written.every((piece, i) => isPiece(atoms[i], piece)))
    .filter(({ written }) => !isKeptAsItIs(written, spec))
    .sort((a, b) => b.written.length - a.written.length);
  return found.map(({ written, right }) => {
    const some = atoms.slice(0, written.length);
    const number = some.find((atom): atom is NumberAtom => atom.kind === 'number');
    const words = right.map((piece) => (piece === '#' ? (number?.text ?? '') : piece));
    return writtenAs(some, 0, words.join(' '), put(words, some));
  });
}

/** `fuse 1` is a way of a box of fuses alone: nothing else says `way`. */
function isKeptAsItIs([first = '']: readonly string[], { byWord }: CompiledSpec): boolean {
  return first === 'fuse' && !byWord.has('way');
}

const pieces = (atom: Atom): string =>
  atom.kind === 'word' || atom.kind === 'junk' || atom.kind === 'quantity' ? atom.text.toLowerCase() : '';

function isPiece(atom: Atom | undefined, piece: string): boolean {
  if (atom === undefined) return false;
  if (piece === '#') return atom.kind === 'number';
  if (piece === '=') return atom.kind === 'equals';
  return (atom.kind === 'word' || atom.kind === 'junk') && atom.text.toLowerCase() === piece;
}

/** The words that are meant as atoms, all at the place of those that are written. */
function put(words: readonly string[], some: readonly Atom[]): Atom[] {
  const atoms: Atom[] = [];
  for (let i = 0; i < words.length; i++) {
    const text = words[i] as string;
    const next = words[i + 1];
    const base = word(text, some);
    if (!/^\d+$/.test(text)) atoms.push(base);
    else if (next === '%' || next === 'x') {
      atoms.push(next === 'x' ? times(base, text) : percent(base, text));
      i += 1;
    } else atoms.push({ ...base, kind: 'number', value: Number(text), text });
  }
  return atoms;
}

const times = ({ span, leading }: Atom, text: string): TimesAtom => ({
  kind: 'times',
  span,
  leading,
  text: `${text} x`,
  value: Number(text),
});

const percent = ({ span, leading }: Atom, text: string): QuantityAtom => ({
  kind: 'quantity',
  span,
  leading,
  text: `${text} %`,
  value: Number(text),
  unit: '%',
  si: Number(text) / 100,
  dimension: 'ratio',
  numberSpan: span,
  unitSpan: span,
});

/** Rows that are written in one way are one habit: `1: 5 A` and `2: 10 A`. */
export function waysOnce(problems: readonly Problem[]): Problem[] {
  const isWay = ({ fixes = [] }: Problem) => /^Write way \d+ fuse$/.test(fixes[0]?.title ?? '');
  const ways = problems.filter(isWay);
  const [first] = ways;
  if (first === undefined || ways.length < 2) return [...problems];
  const edits = ways.flatMap(({ fixes = [] }) => fixes.flatMap((fix) => fix.edits));
  const message = first.message.replace(/ here\.$/, ' here, and the others likewise.');
  const told = { ...first, message, fixes: [{ title: 'Write the ways', safe: true, edits }] };
  return problems.flatMap((one) => (one === first ? [told] : isWay(one) ? [] : [one]));
}

/** What is bounded, by the unit of the bound: a percentage may be a charge or a drop. */
const bounded: ReadonlyMap<string, string> = new Map([
  ['voltage', 'voltage'],
  ['current', 'current'],
  ['temperature', 'temperature'],
]);

const least: ReadonlySet<string> = new Set(['>', '>=', '≥', 'min', 'minimum', 'above', 'over']);
const greatest: ReadonlySet<string> = new Set(['<', '<=', '≤', 'max', 'maximum', 'below', 'under']);

/** `>= 11 V`, `min 11 V` and `at least 11 V` where `voltage at least 11 V` is wanted, or the second half of it. */
export function bound(atoms: readonly Atom[], at: number, words: readonly string[]): Mend[] {
  const wantsWhat = words.includes('voltage') && words.includes('drop');
  if (!wantsWhat && !words.includes('at')) return [];
  let end = at;
  while (end < at + 3 && atoms[end] !== undefined && atoms[end]?.kind !== 'quantity') end += 1;
  const limit = atoms[end];
  if (limit?.kind !== 'quantity' || end === at || !symbolsOf(limit.dimension).includes(limit.unit)) return [];
  const some = atoms.slice(at, end);
  const sign = textOf(some).replaceAll(' ', '').toLowerCase();
  const way = least.has(sign) || sign === 'atleast' ? 'least' : greatest.has(sign) || sign === 'atmost' ? 'most' : '';
  const what = wantsWhat ? bounded.get(limit.dimension) : undefined;
  if (way === '' || (wantsWhat && what === undefined)) return [];
  const right = [...(what === undefined ? [] : [what]), 'at', way];
  return [
    writtenAs(
      some,
      at,
      right.join(' '),
      right.map((one) => word(one, some)),
    ),
  ];
}
