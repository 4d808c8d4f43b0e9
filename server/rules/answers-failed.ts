import { languageRule } from './language.ts';

export const rule = languageRule('answers-failed', 'warning', {
  title: 'The electrics could not be worked out',
  why: 'Something in this spec is more than the tool can handle; what needs no currents is still checked.',
  mend: 'Please report it with the spec.',
  wrong: [],
  right: [],
});
