/**
 * The form language of clauses (told in `vocabulary.ts`), compiled once to a program of small steps that `match.ts` runs.
 */
import type { Dimension } from './tree.ts';
import type { ClauseSpec } from './vocabulary.ts';

export type Element =
  | { readonly is: 'word'; readonly word: string }
  | { readonly is: 'equals' }
  | { readonly is: 'slot'; readonly slot: string; readonly types: readonly string[]; readonly many: boolean }
  | { readonly is: 'choice'; readonly slot: string; readonly words: readonly string[] }
  | {
      readonly is: 'group';
      readonly alternatives: readonly (readonly Element[])[];
      readonly least: 0 | 1;
      readonly repeats: boolean;
    };

/** What a form would take at a place: a keyword (`=` counts as one) or a slot's value. */
export type Expected =
  | { readonly is: 'word'; readonly word: string; readonly clause: ClauseSpec; readonly slot?: string }
  | { readonly is: 'slot'; readonly slot: string; readonly types: readonly string[]; readonly clause: ClauseSpec };

/** A step takes one atom and goes on to the next step, or leads to others without taking any. */
export type Step =
  | { readonly is: 'word'; readonly word: string; readonly expected: readonly Expected[] }
  | {
      readonly is: 'choice';
      readonly slot: string;
      readonly words: ReadonlySet<string>;
      readonly expected: readonly Expected[];
    }
  | {
      readonly is: 'slot';
      readonly slot: string;
      readonly types: readonly string[];
      readonly expected: readonly Expected[];
    }
  | { readonly is: 'fork'; readonly to: number[] }
  | { readonly is: 'end' };

export interface Form {
  readonly clause: ClauseSpec;
  readonly elements: readonly Element[];
  /** Begins at step 0. */
  readonly steps: readonly Step[];
  /** Whether there is more than one way through it. */
  readonly forks: boolean;
}

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

/** Types that a quantity fills, with the dimensions it may have. */
export const quantityTypes: ReadonlyMap<string, readonly Dimension[]> = new Map<string, readonly Dimension[]>([
  ...[...dimensions].map((d) => [d, [d as Dimension]] as const),
  ['conductor', ['area', 'gauge']],
  ['drift', ['relative-drift', 'voltage-drift', 'current-drift']],
  ['quantity', [...dimensions] as Dimension[]],
]);

/** Compiles a form; throws on a mistake in it, which a test over the whole vocabulary shows. */
export function compileForm(clause: ClauseSpec): Form {
  const elements = readForm(clause);
  const steps = program(elements, clause);
  return { clause, elements, steps, forks: steps.some(({ is }) => is === 'fork') };
}

function readForm(clause: ClauseSpec): Element[] {
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
    if (alternatives.some((one) => one.length === 0)) fail('an empty choice');
    const repeats = pieces[at] === '*';
    if (repeats) at += 1;
    return { is: 'group', alternatives, least: closer === ']' || repeats ? 0 : 1, repeats };
  };
  const element = (piece: string): Element => {
    if (piece === '[') return group(']');
    if (piece === '(') return group(')');
    if (piece === '=') return { is: 'equals' };
    if (piece.startsWith('{')) return slot(piece.slice(1, -1));
    if (/[\])|*]/.test(piece)) fail(`stray ${piece}`);
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
  return elements;
}

function program(elements: readonly Element[], clause: ClauseSpec): Step[] {
  const steps: Step[] = [];
  const fork = (): number[] => {
    const to: number[] = [];
    steps.push({ is: 'fork', to });
    return to;
  };
  const add = (element: Element) => {
    switch (element.is) {
      case 'word':
        steps.push({ is: 'word', word: element.word, expected: [{ is: 'word', word: element.word, clause }] });
        return;
      case 'equals':
        steps.push({ is: 'word', word: '=', expected: [{ is: 'word', word: '=', clause }] });
        return;
      case 'choice': {
        const { slot, words } = element;
        const expected = words.map((word) => ({ is: 'word', word, clause, slot }) as const);
        steps.push({ is: 'choice', slot, words: new Set(words), expected });
        return;
      }
      case 'slot': {
        const { slot, types } = element;
        const start = steps.length;
        steps.push({ is: 'slot', slot, types, expected: [{ is: 'slot', slot, types, clause }] });
        if (element.many) {
          const again = fork();
          again.push(start, steps.length);
        }
        return;
      }
      case 'group': {
        const choices = fork();
        const start = steps.length - 1;
        const exits: number[][] = [];
        for (const alternative of element.alternatives) {
          choices.push(steps.length);
          alternative.forEach(add);
          exits.push(fork());
        }
        if (element.least === 0) choices.push(steps.length);
        for (const exit of exits) exit.push(...(element.repeats ? [start, steps.length] : [steps.length]));
      }
    }
  };
  elements.forEach(add);
  steps.push({ is: 'end' });
  return steps;
}

/** Every keyword of a clause's form, those of its choices too. */
export function clauseWords(form: Form): string[] {
  return form.steps.flatMap((step) => (step.is === 'word' ? [step.word] : step.is === 'choice' ? [...step.words] : []));
}

/** The steps a form may begin with. */
export function openingSteps({ steps }: Form): Exclude<Step, { is: 'fork' | 'end' }>[] {
  const opening: Exclude<Step, { is: 'fork' | 'end' }>[] = [];
  const seen = new Set<number>();
  const visit = (at: number) => {
    const step = steps[at];
    if (step === undefined || seen.has(at)) return;
    seen.add(at);
    if (step.is === 'fork') step.to.forEach(visit);
    else if (step.is !== 'end') opening.push(step);
  };
  visit(0);
  return opening;
}

/** Keywords a form may begin with, and whether it may begin with a value. */
export function openingWords(form: Form): { words: string[]; slot: boolean } {
  const opening = openingSteps(form);
  return {
    words: opening.flatMap((step) => (step.is === 'word' ? [step.word] : step.is === 'choice' ? [...step.words] : [])),
    slot: opening.some(({ is }) => is === 'slot'),
  };
}

/** Types of the values a form may begin with (`{rating:current}`, `[{cores:times}] {size:conductor}`). */
export function openingTypes(form: Form): readonly string[] {
  return openingSteps(form).flatMap((step) => (step.is === 'slot' ? step.types : []));
}
