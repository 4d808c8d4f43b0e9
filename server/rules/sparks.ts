/** Parts that may make a spark in ordinary use, and so have no business where gas collects. */
import type { Part } from '../model/model.ts';

const sparking: ReadonlySet<string> = new Set([
  'isolator',
  'switch',
  'selector',
  'relay',
  'breaker',
  'socket',
  'connector',
  'charger',
  'controller',
  'converter',
  'inverter',
  'alternator',
]);

export function maySpark({ kind }: Pick<Part, 'kind'>): boolean {
  return sparking.has(kind.word);
}
