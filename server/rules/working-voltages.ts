/** The voltages that something works at, as its maker states them. */
import type { Part } from '../model/model.ts';

/**
 * Whether the lowest stands above the highest in one statement: which of the two is wrong nobody can tell, and
 * `impossible-value` says so. Where one is of the part and the other of its stock, each is judged as it stands.
 */
export function isCrossed({ facts }: Part): boolean {
  const [lowest, highest] = [facts.number('lowest'), facts.number('highest')];
  const isOneStatement = facts.fact('lowest')?.fromStock === facts.fact('highest')?.fromStock;
  return isOneStatement && lowest !== undefined && highest !== undefined && lowest > highest;
}
