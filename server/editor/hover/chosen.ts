/** What the tool would write where the spec leaves a blank. */
import type { Analysis } from '../../analysis.ts';
import type { ChosenValue } from '../../answers/answers.ts';
import { type Block, bold, line } from '../markup.ts';

export function chosenValues(analysis: Analysis, subject: string, clause?: string): readonly ChosenValue[] {
  return analysis.answers.chosen.filter(
    (one) => one.subject === subject && (clause === undefined || one.clause === clause),
  );
}

export function chosenFor(analysis: Analysis, subject: string, clause?: string): Block[] {
  return chosenValues(analysis, subject, clause).map(({ text, why }) =>
    line('Left open: it would be ', bold(text), `, ${why}.`),
  );
}
