import { languageRule } from './language.ts';

export const rule = languageRule('answers-failed', 'warning', {
  title: 'The electrics could not be worked out',
  why: 'Something in this spec is more than the tool can handle; what needs no currents is still checked.',
  mend: 'Look for the statement whose change brought it on, and please report it with the spec.',
  see: ['case-unanswered', 'rule-failed'],
  wrong: [],
  right: [],
});
