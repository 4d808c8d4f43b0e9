/** What a miswiring takes away until it is mended: the answers of cases, of which nothing is checked then. */
import type { CaseAnswer } from '../answers/answers.ts';
import type { Part } from '../model/model.ts';
import { names } from './words.ts';

/** A sentence to follow another, of the cases in which one of the parts cannot be fed; nothing where there is none. */
export function untilMended(cases: readonly CaseAnswer[], isOn: (part: Part) => boolean): string {
  const unanswered = cases.filter(({ unfed }) => unfed.some(isOn)).map(({ name }) => ({ name }));
  if (unanswered.length === 0) return '';
  const [word, has] = unanswered.length > 1 ? ['cases', 'have'] : ['case', 'has'];
  return ` Until then ${word} ${names(unanswered)} ${has} no answer, so nothing is checked there.`;
}
