/** Positions of a selector: which it has, and what a case says of them. */
import type { ClauseNode } from '../../grammar/shaped.ts';
import type { Builder } from './builder.ts';
import { slotWord } from './facts.ts';
import type { Origin, Part } from './model.ts';
import { fix, placeIn, problem } from './place.ts';

export interface SelectorPosition {
  /** As it is written in a spec. */
  readonly name: 'both' | '1' | '2' | 'off';
  /** The supplies that it joins to the common terminal. */
  readonly joins: readonly string[];
}

const everyPosition: readonly SelectorPosition[] = [
  { name: 'both', joins: ['1', '2'] },
  { name: '1', joins: ['1'] },
  { name: '2', joins: ['2'] },
  { name: 'off', joins: [] },
];

/** The positions it says it has, those in which most is joined first; all of them when it says none. */
export function positionsOf(part: Part): readonly SelectorPosition[] {
  const fact = part.facts.fact('positions');
  if (fact === undefined) return everyPosition;
  const { clause, origin } = fact;
  const words = origin.statement.node.text.slice(clause.span.start, clause.span.end).split(/\s+/u);
  return everyPosition.filter(({ name }) => words.includes(name));
}

/** `S9 at 2` of a case or reading. */
export function isPosition({ spec }: ClauseNode): boolean {
  return /^(?:with-)?position$/u.test(spec.id);
}

/** The selector that `S9 at 2` names, and its position, which it may not have. */
export function positionSaid(
  { names }: Builder,
  clause: ClauseNode,
): { readonly selector: string; readonly position: string } | undefined {
  const { name, position } = wordsOf(clause);
  if (name === undefined || position === undefined || !names.find(name.word, ['selector'])) return undefined;
  return { selector: name.word, position: position.text };
}

/** Records the use of its name, and tells where that is neither a selector's nor another switch's. */
export function usePosition(builder: Builder, origin: Origin, clause: ClauseNode): void {
  const { name, position } = wordsOf(clause);
  if (name === undefined || position === undefined) return;
  const place = placeIn(origin, name.span);
  const kind = builder.names.find(name.word, ['part'])?.origin.statement.shaped.spec?.word;
  const isVoltage = kind === 'battery' && position.atom.kind === 'number';
  builder.names.use(name.word, place, [isVoltage || turnedByHand.has(kind ?? '') ? 'part' : 'selector']);
  if (!isVoltage) return;
  const [there, volts] = [placeIn(origin, position.span), `${position.text} V`];
  builder.problems.push(
    problem('missing-unit', there, `${position.text} has no unit: write ${volts}, as in “B1 at 12.5 V”.`, {
      fixes: [fix(`Write ${volts}`, there, volts, true)],
    }),
  );
}

/** What has no positions but on and off; `unknown-position` tells of them. */
export const turnedByHand: ReadonlySet<string> = new Set(['switch', 'isolator', 'breaker']);

/** The name that `S9 at 2` begins with, and the position. */
export function wordsOf({ values }: ClauseNode) {
  const value = (slot: string) => values.find((one) => one.slot === slot);
  const [selector, position] = [value('selector'), value('position')];
  const word = selector === undefined ? undefined : slotWord(selector);
  return {
    name: selector === undefined || word === undefined ? undefined : { word, span: selector.atom.span },
    position: position === undefined ? undefined : { ...position, text: slotWord(position) ?? position.atom.text },
  };
}
