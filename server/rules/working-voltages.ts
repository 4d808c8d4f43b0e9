/** The voltages that something works at, as its maker states them. */
import type { Part } from '../model/model.ts';

/** Whether the lowest stands above the highest: which of the two is wrong nobody can tell, and `impossible-value` says so. */
export function isCrossed({ facts }: Part): boolean {
  const [lowest, highest] = [facts.number('lowest'), facts.number('highest')];
  return lowest !== undefined && highest !== undefined && lowest > highest;
}
