/**
 * The form language of clauses (told in `vocabulary.ts`): compiled once, matched with backtracking over a run of atoms, and
 * asked what may come next where the atoms end.
 */
import type { SlotValue } from './shaped.ts';
import type { Atom, Dimension } from './tree.ts';
import type { ClauseSpec, ColourSpec } from './vocabulary.ts';

type Element =
  | { readonly is: 'word'; readonly word: string }
  | { readonly is: 'equals' }
  | { readonly is: 'slot'; readonly slot: string; readonly types: readonly string[]; readonly many: boolean }
  | { readonly is: 'choice'; readonly slot: string; readonly words: readonly string[] }
  | { readonly is: 'group'; readonly alternatives: readonly Element[][]; readonly least: 0 | 1; readonly most: number };

export interface Form {
  readonly clause: ClauseSpec;
  readonly elements: readonly Element[];
}

/** What a form would take at a place: a keyword or a slot's value. */
export type Expected =
  | { readonly is: 'word'; readonly word: string; readonly clause: ClauseSpec; readonly slot?: string }
  | { readonly is: 'slot'; readonly slot: string; readonly types: readonly string[]; readonly clause: ClauseSpec };

const dimensions: ReadonlySet<string> = new Set<Dimension>([
  'current',
  'voltage',
  'power',
  'energy',
  'charge',
  'resistance',
  'area',
  'gauge',
  'length',
  'temperature',
  'ratio',
  'relative-drift',
  'voltage-drift',
  'current-drift',
  'time',
  'torque',
  'mass',
  'let-through',
  'daily-time',
  'angle',
]);

const plainTypes = new Set([
  'conductor',
  'drift',
  'quantity',
  'number',
  'times',
  'range',
  'text',
  'date',
  'clock',
  'word',
  'colour',
  'thread',
  'ip',
  'end',
  'terminal',
]);

export const quantityTypes: ReadonlyMap<string, readonly Dimension[]> = new Map<string, readonly Dimension[]>([
  ...[...dimensions].map((d) => [d, [d as Dimension]] as const),
  ['conductor', ['area', 'gauge']],
  ['drift', ['relative-drift', 'voltage-drift', 'current-drift']],
]);

/** Compiles a form; throws on a mistake in it, which a test over the whole vocabulary would show. */
export function compileForm(clause: ClauseSpec): Form {
  const pieces = clause.form.match(/\{[^}]*\}|[[\]()|*=]|[^\s[\](){}|*=]+/gu) ?? [];
  let at = 0;
  const fail = (why: string): never => {
    throw new SyntaxError(`form of ${clause.id} “${clause.form}”: ${why}`);
  };
  const sequence = (closers: readonly string[]): Element[] => {
    const elements: Element[] = [];
    for (;;) {
      const piece = pieces[at];
      if (piece === undefined || closers.includes(piece)) return elements;
      at += 1;
      elements.push(element(piece));
    }
  };
  const group = (closer: string): Element => {
    const alternatives = [sequence([closer, '|'])];
    while (pieces[at] === '|') {
      at += 1;
      alternatives.push(sequence([closer, '|']));
    }
    if (pieces[at] !== closer) fail(`no ${closer}`);
    at += 1;
    const repeated = pieces[at] === '*';
    if (repeated) at += 1;
    return {
      is: 'group',
      alternatives,
      least: closer === ']' || repeated ? 0 : 1,
      most: repeated ? Number.POSITIVE_INFINITY : 1,
    };
  };
  const element = (piece: string): Element => {
    if (piece === '[') return group(']');
    if (piece === '(') return group(')');
    if (piece === '=') return { is: 'equals' };
    if (piece.startsWith('{')) return slot(piece.slice(1, -1));
    if (/[[\]()|*]/.test(piece)) fail(`stray ${piece}`);
    return { is: 'word', word: piece };
  };
  const slot = (inside: string): Element => {
    const choice = /^([\w-]+)=(.+)$/u.exec(inside);
    if (choice?.[1] !== undefined && choice[2] !== undefined)
      return { is: 'choice', slot: choice[1], words: choice[2].split('|').map((word) => word.trim()) };
    const typed = /^([\w-]+):(.+?)(\+)?$/u.exec(inside);
    if (typed?.[1] === undefined || typed[2] === undefined) return fail(`{${inside}} has no type`);
    const types = typed[2].match(/name<[^>]*>|[^|]+/gu) ?? [];
    for (const type of types) {
      if (!dimensions.has(type) && !plainTypes.has(type) && !/^name<[a-z|]+>$/.test(type)) fail(`no type ${type}`);
    }
    return { is: 'slot', slot: typed[1], types, many: typed[3] === '+' };
  };
  const elements = sequence([]);
  if (at < pieces.length) fail(`stray ${pieces[at]}`);
  if (elements.length === 0) fail('empty');
  return { clause, elements };
}

export interface MatchWords {
  readonly colours: ReadonlyMap<string, ColourSpec>;
  readonly reserved: ReadonlySet<string>;
}

export interface Match {
  readonly clause: ClauseSpec;
  /** Index behind the last atom taken. */
  readonly end: number;
  readonly values: readonly SlotValue[];
  /** Keywords matched; more make a match the likelier one at equal length. */
  readonly literals: number;
}

/** How far a form got before it failed: what it wanted and the atom that stood there. */
export interface Failure {
  readonly clause: ClauseSpec;
  readonly at: number;
  readonly literals: number;
  readonly wanted: readonly Expected[];
}

interface Walk {
  readonly atoms: readonly Atom[];
  readonly words: MatchWords;
  readonly form: Form;
  furthest: number;
  furthestLiterals: number;
  wanted: Expected[];
}

type Next = (at: number, values: readonly SlotValue[], literals: number) => void;

/** Every way the form matches from `from`, longest first. */
export function matchForm(form: Form, atoms: readonly Atom[], from: number, words: MatchWords): { matches: Match[]; failure: Failure } {
  const walk: Walk = { atoms, words, form, furthest: from, furthestLiterals: 0, wanted: [] };
  const matches: Match[] = [];
  step(walk, form.elements, 0, from, [], 0, (end, values, literals) => {
    matches.push({ clause: form.clause, end, values, literals });
  });
  matches.sort((a, b) => b.end - a.end || b.literals - a.literals);
  return {
    matches,
    failure: { clause: form.clause, at: walk.furthest, literals: walk.furthestLiterals, wanted: walk.wanted },
  };
}

function miss(walk: Walk, at: number, literals: number, wanted: Expected): void {
  if (at < walk.furthest) return;
  if (at > walk.furthest || literals > walk.furthestLiterals) walk.wanted = [];
  walk.furthest = at;
  walk.furthestLiterals = Math.max(literals, at > walk.furthest ? 0 : walk.furthestLiterals);
  walk.wanted.push(wanted);
}

function step(
  walk: Walk,
  elements: readonly Element[],
  index: number,
  at: number,
  values: readonly SlotValue[],
  literals: number,
  next: Next,
): void {
  const element = elements[index];
  if (element === undefined) {
    next(at, values, literals);
    return;
  }
  const rest: Next = (end, taken, count) => step(walk, elements, index + 1, end, taken, count, next);
  const { clause } = walk.form;
  // A line end after a final `to` or `and` stays inside the clause; shaping left it in for that.
  let here = at;
  while (walk.atoms[here]?.kind === 'line') here += 1;
  const atom = walk.atoms[here];
  switch (element.is) {
    case 'word':
      if (atom?.kind === 'word' && atom.value === element.word) rest(here + 1, values, literals + 1);
      else miss(walk, here, literals, { is: 'word', word: element.word, clause });
      return;
    case 'equals':
      if (atom?.kind === 'equals') rest(here + 1, values, literals + 1);
      else miss(walk, here, literals, { is: 'word', word: '=', clause });
      return;
    case 'choice':
      if (atom?.kind === 'word' && element.words.includes(atom.value))
        rest(here + 1, [...values, { slot: element.slot, type: '=', atom, span: atom.span }], literals + 1);
      else
        for (const word of element.words) miss(walk, here, literals, { is: 'word', word, clause, slot: element.slot });
      return;
    case 'slot': {
      const type = atom === undefined ? undefined : element.types.find((t) => takes(t, atom, walk.words));
      if (atom === undefined || type === undefined) {
        miss(walk, here, literals, { is: 'slot', slot: element.slot, types: element.types, clause });
        return;
      }
      const taken = [...values, { slot: element.slot, type, atom, span: atom.span }];
      if (element.many) step(walk, [{ ...element, many: true }], 0, here + 1, taken, literals, rest);
      rest(here + 1, taken, literals);
      return;
    }
    case 'group': {
      if (element.most > 0) {
        for (const alternative of element.alternatives) {
          step(walk, alternative, 0, at, values, literals, (end, taken, count) => {
            if (end === at) return;
            if (element.most === 1) rest(end, taken, count);
            else step(walk, [{ ...element, least: 0 }], 0, end, taken, count, rest);
          });
        }
      }
      if (element.least === 0) rest(at, values, literals);
      return;
    }
  }
}

function takes(type: string, atom: Atom, words: MatchWords): boolean {
  const dims = quantityTypes.get(type);
  if (dims !== undefined) return atom.kind === 'blank' || (atom.kind === 'quantity' && dims.includes(atom.dimension));
  switch (type) {
    case 'quantity':
      return atom.kind === 'blank' || atom.kind === 'quantity';
    case 'number':
      return atom.kind === 'blank' || atom.kind === 'number';
    case 'times':
      return atom.kind === 'times';
    case 'range':
      return atom.kind === 'range';
    case 'text':
      return atom.kind === 'text';
    case 'date':
      return atom.kind === 'date';
    case 'clock':
      return atom.kind === 'clock';
    case 'word':
      return atom.kind === 'word';
    case 'colour':
      return atom.kind === 'word' && isColour(atom.value, words.colours);
    case 'thread':
      return atom.kind === 'word' && /^(?:M|Pg|PG)\d+(?:\.\d+)?$/u.test(atom.value);
    case 'ip':
      return atom.kind === 'word' && /^IP[0-9X]{2}[A-Z]*$/u.test(atom.value);
    case 'end':
      return atom.kind === 'terminal' || (atom.kind === 'word' && !words.reserved.has(atom.value));
    case 'terminal':
      return atom.kind === 'terminal';
    default:
      // name<…>
      return atom.kind === 'word' && !words.reserved.has(atom.value);
  }
}

/** A colour word, or two joined by a slash for a two-tone core. */
export function isColour(word: string, colours: ReadonlyMap<string, ColourSpec>): boolean {
  const parts = word.split('/');
  return parts.length <= 2 && parts.every((part) => colours.has(part));
}

/**
 * What may come next behind `atoms` (those since the segment began), for completion on unfinished lines: of every clause
 * whose form fits all of them so far.
 */
export function expectedAfter(forms: readonly Form[], atoms: readonly Atom[], words: MatchWords): Expected[] {
  const expected: Expected[] = [];
  for (const form of forms) {
    const { failure } = matchForm(form, atoms, 0, words);
    if (failure.at >= atoms.length) expected.push(...failure.wanted);
  }
  return expected;
}

/** Every keyword of a clause's form; a test holds them apart from statement and kind words. */
export function clauseWords(form: Form): string[] {
  const words: string[] = [];
  const visit = (elements: readonly Element[]) => {
    for (const element of elements) {
      if (element.is === 'word') words.push(element.word);
      else if (element.is === 'choice') words.push(...element.words);
      else if (element.is === 'group') element.alternatives.forEach(visit);
    }
  };
  visit(form.elements);
  return words;
}

/** Keywords a form may begin with; empty when it begins with a slot. */
export function openingWords(form: Form): { words: string[]; slot: boolean } {
  const words: string[] = [];
  let slot = false;
  const visit = (elements: readonly Element[]): boolean => {
    for (const element of elements) {
      if (element.is === 'word') words.push(element.word);
      else if (element.is === 'equals') words.push('=');
      else if (element.is === 'choice') words.push(...element.words);
      else if (element.is === 'slot') slot = true;
      else {
        let skippable = element.least === 0;
        for (const alternative of element.alternatives) if (visit(alternative)) skippable = true;
        if (skippable) continue;
      }
      return false;
    }
    return true;
  };
  visit(form.elements);
  return { words, slot };
}

/** The first quantity types of the form when it begins with one (`{rating:current}`, `{voltage:voltage} …`). */
export function openingTypes(form: Form): readonly string[] {
  const first = form.elements.find((element) => !(element.is === 'group' && element.least === 0));
  return first?.is === 'slot' ? first.types : [];
}
