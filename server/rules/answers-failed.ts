import { languageRule, noLimit } from './language.ts';
import type { Rule } from './rule.ts';

const told = languageRule('answers-failed', 'warning', {
  title: 'The electrics could not be worked out',
  why: 'Something in this spec is more than the tool can handle; what needs no currents is still checked.',
  mend: 'Look for the statement whose change brought it on, and please report it with the spec.',
  see: ['case-unanswered', 'rule-failed'],
  wrong: [],
  right: [],
});

export const rule: Rule = { ...told, page: { ...told.page, limit: noLimit } };
