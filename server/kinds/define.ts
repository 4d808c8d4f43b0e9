/** Short ways to write a kind's table; they add nothing of their own. */
import type { ClauseSpec } from '../../grammar/vocabulary.ts';
import type { ContactSpec, PartFacts, Polarity, TerminalSpec } from './kind.ts';

/** One clause: id, form, meaning, example, what reads it. */
export function clause(
  id: string,
  form: string,
  meaning: string,
  example: string,
  readBy: readonly string[],
  more: Partial<Pick<ClauseSpec, 'required' | 'oneOf' | 'repeatable' | 'joins' | 'standardValues'>> = {},
): ClauseSpec {
  return { id, form, meaning, example, readBy, ...more };
}

export function terminal(
  name: string,
  meaning: string,
  more: Partial<Pick<TerminalSpec, 'polarity' | 'optional' | 'side'>> = {},
): TerminalSpec {
  return { name, meaning, ...more };
}

/** The two terminals of a thing with a positive and a negative. */
export function plusMinus(what: string, side?: string, prefix = ''): TerminalSpec[] {
  return (['+', '-'] as const).map((polarity: Polarity) =>
    terminal(`${prefix}${polarity}`, `${polarity === '+' ? 'positive' : 'negative'} of ${what}`, {
      polarity,
      ...(side === undefined ? {} : { side }),
    }),
  );
}

/** Of what has its terminals in two rows. */
export const faceClause = clause(
  'face',
  'face {top:number+} over {bottom:number+}',
  'How its terminals stand as one looks at it.',
  'face 1 3 5 7 over 2 4 6 8',
  ['hover:part', 'card'],
);

export const noContacts = (): readonly ContactSpec[] => [];

/** Pole pairs of a switching device: `pairs` as said, else 1-2, 3-4, … (odd in, even out: EN 50005). */
export function polePairs(facts: PartFacts): readonly (readonly [number, number])[] {
  const stated = facts.pairs('pairs');
  if (stated.length > 0) return stated;
  const poles = Math.min(facts.number('poles') ?? 1, 24);
  return Array.from({ length: poles }, (_, index) => [2 * index + 1, 2 * index + 2] as const);
}

/** Terminals of pole pairs in order of their numbers; a pole without cores is a spare. */
export function pairTerminals(facts: PartFacts): readonly TerminalSpec[] {
  return polePairs(facts)
    .flatMap(([from, to], index) => [
      terminal(String(from), `incoming terminal of pole ${index + 1}, pairs with ${to}`, {
        optional: index > 0,
        side: `pole ${index + 1}`,
      }),
      terminal(String(to), `outgoing terminal of pole ${index + 1}, pairs with ${from}`, {
        optional: index > 0,
        side: `pole ${index + 1}`,
      }),
    ])
    .sort((a, b) => Number(a.name) - Number(b.name));
}
