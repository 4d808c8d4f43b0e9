import { lampSpec, languageRule } from './language.ts';
import type { Rule } from './rule.ts';

const base = languageRule('terminal-unconnected', 'warning', {
  title: 'A terminal that nothing reaches',
  why: 'A part with an empty terminal does nothing, or does not do what it should.',
  mend: 'End a core there, or take the part out.',
  see: ['no-return', 'end-missing', 'unknown-terminal'],
  wrong: [lampSpec({}, 'load BELL 3 W # finds: terminal-unconnected "BELL"')],
  right: [lampSpec()],
});

/** What seems left out may well be what a name that is not known was to be. */
export const rule: Rule = { ...base, restsOnAllNames: true };
