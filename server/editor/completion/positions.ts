/** Positions of the selector that a case tells of, behind `S9 at`. */
import type { Analysis } from '../../analysis.ts';
import { positionsOf, type SelectorPosition } from '../../model/selector-positions.ts';

/** `words`: those of the clause up to where one writes. None where no selector is named before the last. */
export function positionsBehind(words: readonly string[], { model }: Analysis): readonly SelectorPosition[] {
  const part = model.parts.get(words.at(-2) ?? '');
  return part?.kind.word === 'selector' ? positionsOf(part) : [];
}
