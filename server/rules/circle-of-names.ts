import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('circle-of-names', 'error', {
  title: 'Stock that takes from itself, a box that stands in itself',
  why: 'What comes first cannot be told, so nothing of it is known.',
  mend: 'Let one of them say everything itself, or say where it really stands.',
  see: ['circle-of-use'],
  wrong: [
    lampSpec({}, 'stock thin cable = thick, 1.5 mm²', 'stock thick cable = thin # finds: circle-of-names "thin"'),
    lampSpec({}, 'enclosure LID in BOX', 'enclosure BOX in LID # finds: circle-of-names "in LID"'),
  ],
  right: [
    lampSpec({}, 'stock thin cable 1.5 mm²', 'stock thick cable = thin, 6 mm²'),
    lampSpec({}, 'enclosure LID in BOX', 'enclosure BOX plastic'),
  ],
});
