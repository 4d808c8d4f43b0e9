/** A battery that gives off gas, standing open in the room. */
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';

const vented = 'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ, vented';
const through = ', enters CRATE by grommet 8 mm';

export const rule: Rule = {
  slug: 'vented-battery-indoors',
  severity: 'warning',
  group: 'battery',
  reads: ['battery.casing', 'part.at', 'part.in', 'place.exposure', 'place.engine-space'],
  page: {
    title: 'A vented battery in the living space',
    why: 'While it is charged it gives off hydrogen and acid mist: the one explodes at a spark, the other eats metal and lungs.',
    limit:
      'A vented battery in a room stands in a box of its own that is vented to the open (EN 1648-1 and IEC 62485-2, from memory). What is not said to be vented is not judged.',
    mend: 'Put it into a box that is vented to the outside and say `in BOX`, or take a sealed battery and say `sealed`.',
    see: ['ignition-near-vented-battery', 'lithium-charged-in-frost'],
    wrong: [lampSpec({ battery: `${vented}, at HALL # finds: vented-battery-indoors "vented"` }, 'place HALL indoors')],
    right: [
      lampSpec({ battery: `${vented.replace('vented', 'sealed')}, at HALL` }, 'place HALL indoors'),
      lampSpec({ battery: `${vented}, at BONNET` }, 'place BONNET engine space'),
      lampSpec(
        {
          battery: `${vented}, in CRATE`,
          feed: `run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in${through}`,
          back: `run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:-${through}`,
        },
        'place HALL indoors',
        'enclosure CRATE plastic, IP20, at HALL',
      ),
    ],
  },
  forKind: ({ word }) => word === 'battery',
  ofPart(part) {
    if (part.facts.word('casing') !== 'vented' || part.enclosure !== undefined) return undefined;
    const { location } = part;
    if (location === undefined || location.engineSpace || location.facts.word('exposure') !== 'indoors')
      return undefined;
    return {
      message: `${part.name} is vented and stands open at ${location.name}, indoors, where its gas can collect and explode: put it into a box that is vented to the outside, or take a sealed one.`,
      place: part.facts.place('casing'),
      subject: part.name,
      figures: { place: location.name },
      related: [{ message: `${location.name} is indoors`, place: location.facts.place('exposure') }],
    };
  },
};
