/**
 * Running forms over atoms: all ways through a form at once, one atom at a time, so that the time is that of the atoms
 * however a form repeats or a line goes on (no backtracking, no recursion over atoms).
 */
import type { Expected, Form, Step } from './forms.ts';
import { quantityTypes } from './forms.ts';
import type { SlotValue } from './shaped.ts';
import type { Atom } from './tree.ts';
import { trimmed } from './trimmed.ts';
import type { ClauseSpec, ColourSpec } from './vocabulary.ts';

export interface MatchWords {
  readonly colours: ReadonlyMap<string, ColourSpec>;
  readonly reserved: ReadonlySet<string>;
}

export interface Match {
  readonly form: Form;
  readonly clause: ClauseSpec;
  /** Index behind the last atom taken. */
  readonly end: number;
  readonly values: readonly SlotValue[];
  /** Keywords matched; more make a match the likelier one at equal length. */
  readonly literals: number;
}

/** Where a form could not go on: the atom that stood there (or the end), and what it would have taken. */
export interface Failure {
  readonly form: Form;
  readonly clause: ClauseSpec;
  readonly at: number;
  readonly literals: number;
  readonly wanted: readonly Expected[];
}

/** Values taken so far, newest first; ways share what they have in common. */
interface Taken {
  readonly value: SlotValue;
  readonly before: Taken | undefined;
}

/** One way through the form, at a step that takes an atom or at the end. */
interface Way {
  readonly step: number;
  readonly taken: Taken | undefined;
  readonly literals: number;
}

/** The longest match of a form from `from`. */
export function matchOf(form: Form, atoms: readonly Atom[], from: number, words: MatchWords): Match | undefined {
  return form.forks ? matchForks(form, atoms, from, words) : matchStraight(form, atoms, from, words);
}

/** Where a form ends from `from`: what else it would have taken there, of a match too. */
export function failureOf(form: Form, atoms: readonly Atom[], from: number, words: MatchWords): Failure {
  const { clause } = form;
  if (form.forks) {
    const { ways, at } = runForks(form, atoms, from, words);
    const literals = Math.max(...ways.map((way) => way.literals));
    return { form, clause, at, literals, wanted: ways.flatMap(({ step }) => expectedOf(form.steps[step])) };
  }
  const taken = stepsTaken(form, atoms, from, words);
  const literals = form.steps.slice(0, taken).filter(isKeyword).length;
  return { form, clause, at: from + taken, literals, wanted: expectedOf(form.steps[taken]) };
}

/** Of a form with one way through it, as most have. */
function matchStraight(form: Form, atoms: readonly Atom[], from: number, words: MatchWords): Match | undefined {
  const { steps, clause } = form;
  const taken = stepsTaken(form, atoms, from, words);
  if (steps[taken]?.is !== 'end') return undefined;
  const values: SlotValue[] = [];
  let literals = 0;
  for (let i = 0; i < taken; i++) {
    const step = steps[i] as Step;
    const atom = atoms[from + i] as Atom;
    const type = typeTaken(step, atom, words, literals > 0);
    if (isKeyword(step)) literals += 1;
    if (step.is === 'choice' || step.is === 'slot')
      values.push({ slot: step.slot, type: type ?? '', atom, span: atom.span });
  }
  return { form, clause, end: from + taken, values: trimmed(values), literals };
}

/** How many steps of a form with one way through it take an atom each, one after the other. */
function stepsTaken({ steps }: Form, atoms: readonly Atom[], from: number, words: MatchWords): number {
  let literals = 0;
  for (let i = 0; ; i++) {
    const step = steps[i];
    const atom = atoms[from + i];
    if (step === undefined || step.is === 'end' || atom === undefined) return i;
    if (typeTaken(step, atom, words, literals > 0) === undefined) return i;
    if (isKeyword(step)) literals += 1;
  }
}

function isKeyword({ is }: Step): boolean {
  return is === 'word' || is === 'choice';
}

const nothing: readonly Expected[] = [];

/** The type by which a step takes an atom: a slot's, `=` for a choice, `` for a keyword; undefined when it does not. */
function typeTaken(step: Step, atom: Atom, words: MatchWords, behindKeyword: boolean): string | undefined {
  switch (step.is) {
    case 'word':
      return (atom.kind === 'word' ? atom.value === step.word : atom.kind === 'equals' && step.word === '=')
        ? ''
        : undefined;
    case 'choice':
      return atom.kind === 'word' && step.words.has(atom.value) ? '=' : undefined;
    case 'slot':
      return step.types.find((type) => takes(type, atom, words, behindKeyword));
    default:
      return undefined;
  }
}

function matchForks(form: Form, atoms: readonly Atom[], from: number, words: MatchWords): Match | undefined {
  const { longest } = runForks(form, atoms, from, words);
  if (longest === undefined) return undefined;
  const { end, way } = longest;
  return { form, clause: form.clause, end, values: valuesOf(way.taken), literals: way.literals };
}

/** All ways at once; those that were left are at the atom `at`. */
function runForks(
  { steps }: Form,
  atoms: readonly Atom[],
  from: number,
  words: MatchWords,
): {
  readonly longest: { readonly end: number; readonly way: Way } | undefined;
  readonly ways: readonly Way[];
  readonly at: number;
} {
  let longest: { readonly end: number; readonly way: Way } | undefined;
  let ways: Way[] = [];
  enter(ways, steps, 0, undefined, 0);
  let at = from;
  for (; ; at++) {
    const way = ways.find(({ step }) => steps[step]?.is === 'end');
    if (way !== undefined && at > from) longest = { end: at, way };
    const atom = atoms[at];
    if (atom === undefined) break;
    const next: Way[] = [];
    for (const one of ways) advance(next, steps, one, atom, words);
    if (next.length === 0) break;
    ways = next;
  }
  return { longest, ways, at };
}

function advance(
  next: Way[],
  steps: readonly Step[],
  { step: at, taken, literals }: Way,
  atom: Atom,
  words: MatchWords,
) {
  const step = steps[at];
  if (step === undefined || step.is === 'fork' || step.is === 'end') return;
  const type = typeTaken(step, atom, words, literals > 0);
  if (type === undefined) return;
  const value = step.is === 'word' ? undefined : { slot: step.slot, type, atom, span: atom.span };
  const more = step.is === 'slot' ? literals : literals + 1;
  enter(next, steps, at + 1, value === undefined ? taken : { value, before: taken }, more);
}

/** Adds a way at a step, or at all steps that a fork leads to; of two at one step the one with more keywords stays. */
function enter(ways: Way[], steps: readonly Step[], at: number, taken: Taken | undefined, literals: number): void {
  const step = steps[at];
  if (step === undefined) return;
  let there = 0;
  while (there < ways.length && ways[there]?.step !== at) there += 1;
  if ((ways[there]?.literals ?? -1) >= literals) return;
  ways[there] = { step: at, taken, literals };
  if (step.is === 'fork') for (const to of step.to) enter(ways, steps, to, taken, literals);
}

function valuesOf(taken: Taken | undefined): SlotValue[] {
  const values: SlotValue[] = [];
  for (let one = taken; one !== undefined; one = one.before) values.push(one.value);
  return trimmed(values.reverse());
}

function expectedOf(step: Step | undefined): readonly Expected[] {
  return step === undefined || step.is === 'fork' || step.is === 'end' ? nothing : step.expected;
}

/** Whether a type takes an atom. A `?` without unit says what it stands for only behind a keyword. */
function takes(type: string, atom: Atom, words: MatchWords, behindKeyword: boolean): boolean {
  const dimensions = quantityTypes.get(type);
  if (dimensions !== undefined)
    return atom.kind === 'quantity' ? dimensions.includes(atom.dimension) : atom.kind === 'blank' && behindKeyword;
  switch (type) {
    case 'number':
      return atom.kind === 'blank' || atom.kind === 'number';
    case 'times':
    case 'range':
    case 'text':
    case 'date':
    case 'clock':
    case 'word':
    case 'terminal':
      return atom.kind === type;
    case 'colour':
      return atom.kind === 'word' && isColour(atom.value, words.colours);
    case 'thread':
      return atom.kind === 'word' && /^(?:M|PG|Pg)\d+(?:\.\d+)?$/u.test(atom.value);
    case 'ip':
      return atom.kind === 'word' && /^IP[0-9X]{2}[A-Z]*$/u.test(atom.value);
    case 'end':
      // No name has a slash: `F1/in` was meant for a terminal.
      return (
        atom.kind === 'terminal' ||
        (atom.kind === 'word' && !words.reserved.has(atom.value) && !atom.value.includes('/'))
      );
    default:
      // name<…>
      return atom.kind === 'word' && !words.reserved.has(atom.value);
  }
}

/** A colour word, or two joined by a slash for a two-tone core. */
export function isColour(word: string, colours: ReadonlyMap<string, ColourSpec>): boolean {
  if (colours.has(word)) return true;
  const parts = word.split('/');
  return parts.length === 2 && parts.every((part) => colours.has(part));
}

/**
 * What may come next behind `atoms` (those since the clause began), for completion on unfinished lines: of every clause
 * whose form fits all of them so far.
 */
export function expectedAfter(forms: readonly Form[], atoms: readonly Atom[], words: MatchWords): Expected[] {
  return forms.flatMap((form) => {
    const failure = failureOf(form, atoms, 0, words);
    return failure.at >= atoms.length ? failure.wanted : [];
  });
}
