import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('wrong-stock-kind', 'error', {
  title: 'Stock of another kind',
  why: 'A fuse cannot be taken from a stock of cable.',
  mend: 'Take a stock of the same kind.',
  see: ['unknown-name', 'contradictory-limits'],
  wrong: [lampSpec({ load: 'load LAMP = thin, 12 W # finds: wrong-stock-kind "thin"' }, 'stock thin cable 1.5 mm²')],
  right: [lampSpec({ out: 'run W2 = thin red, 1.2 m, F1:out to LAMP:+' }, 'stock thin cable 1.5 mm²')],
});
