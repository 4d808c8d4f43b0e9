/** Something that may spark, in one box with a battery that gives off gas. */
import type { Model, Part } from '../model/model.ts';
import { lampSpec, throughS1 } from './language.ts';
import type { Rule } from './rule.ts';
import { maySpark } from './sparks.ts';

const { out, on } = throughS1;

const battery = 'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ, vented, in CRATE';
const feed = 'run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in, enters CRATE by grommet 8 mm';
const back = 'run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:-, enters CRATE by grommet 8 mm';
const into = ', enters CRATE by grommet 8 mm';

export const rule: Rule = {
  slug: 'ignition-near-vented-battery',
  severity: 'error',
  group: 'battery',
  reads: ['battery.casing', 'part.in'],
  page: {
    title: 'Something that sparks beside a battery that gives off gas',
    why: 'A vented battery gives off hydrogen while it is charged. In a box it collects under the lid, and the spark of a switch or relay there blows the battery apart, acid and all.',
    limit:
      'Nothing that may spark shares the box of a vented battery (IEC 62485-2 clause 7 on the distance to sparking parts, from memory).',
    mend: 'Move it out of the battery’s box; a fuse in its holder may stay. Or take a sealed battery, and say `sealed`.',
    see: ['vented-battery-indoors', 'switch-in-gas-locker'],
    wrong: [
      lampSpec(
        { battery, feed, back, out: `${out}${into}` },
        'enclosure CRATE plastic, IP20',
        'switch S1 1 pole, 10 A dc, 24 V, in CRATE # finds: ignition-near-vented-battery "in CRATE"',
        `${on}${into}`,
      ),
    ],
    right: [
      lampSpec({ battery, feed, back, out }, 'enclosure CRATE plastic, IP20', 'switch S1 1 pole, 10 A dc, 24 V', on),
      lampSpec(
        { battery: battery.replace('vented', 'sealed'), feed, back, out: `${out}${into}` },
        'enclosure CRATE plastic, IP20',
        'switch S1 1 pole, 10 A dc, 24 V, in CRATE',
        `${on}${into}`,
      ),
    ],
  },
  *check({ model }) {
    const vented = ventedIn(model);
    if (vented.size === 0) return;
    for (const part of model.parts.values()) {
      const battery = part.enclosure === undefined ? undefined : vented.get(part.enclosure);
      if (battery === undefined || !maySpark(part)) continue;
      yield {
        message: `${part.name} may make a spark in ${part.enclosure?.name}, where the gas of ${battery.name}, a vented battery, collects and can explode: move it out of the box.`,
        place: part.facts.place('in'),
        subject: part.name,
        figures: { battery: battery.name },
        related: [
          { message: `${battery.name} gives off gas when it is charged`, place: battery.facts.place('casing') },
        ],
      };
    }
  },
};

/** Boxes with a vented battery in them, each with one. */
export function ventedIn({ parts }: Model): ReadonlyMap<Part, Part> {
  const vented = new Map<Part, Part>();
  for (const part of parts.values())
    if (part.kind.word === 'battery' && part.facts.word('casing') === 'vented' && part.enclosure !== undefined)
      vented.set(part.enclosure, part);
  return vented;
}
