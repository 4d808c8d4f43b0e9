import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('second-system', 'error', {
  title: 'More than one system',
  why: 'Nominal voltage, temperatures and limits hold for the whole installation, so they can be said only once.',
  mend: 'Put all of it in one system statement. A file that others use has none.',
  see: ['use-missing'],
  wrong: [
    lampSpec({}, 'system "Barn" 24 V # finds: second-system "system"'),
    {
      ...lampSpec({}, 'use "barn.amps" # finds: second-system "\\"barn.amps\\""'),
      files: { 'barn.amps': 'system "Barn" 24 V\nstock thin cable 1.5 mm²\n' },
    },
  ],
  right: [{ ...lampSpec({}, 'use "barn.amps"'), files: { 'barn.amps': 'stock thin cable 1.5 mm²\n' } }],
});
