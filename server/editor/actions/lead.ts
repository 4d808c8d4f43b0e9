/** A single conductor like a core of a cable, for a short lead to it. */
import { cableClauses } from '../../kinds/cable-clauses.ts';
import type { Core } from '../../model/model.ts';
import { wordsOf } from './sheet.ts';

/** What is said of the cable as a whole, and not of a conductor: its diameter; the size is said with the number of cores. */
const ofWhole: ReadonlySet<string> = new Set(['size', 'od']);

/** Its size with its colour, then all else that is said of the conductor, in the words of the run or its stock. */
export function leadTexts({ run: { facts, size }, colour }: Core): string[] {
  const more = cableClauses.flatMap(({ id }) => {
    const fact = ofWhole.has(id) ? undefined : facts.fact(id);
    return fact === undefined ? [] : [wordsOf(fact.origin.statement, fact.clause)];
  });
  return [[size?.written, colour].filter((one) => one !== undefined).join(' '), ...more];
}
