/** A battery that gives off gas, standing open in the room, or in a box that keeps the gas in. */
import type { Part } from '../model/model.ts';
import { ipDigits } from '../tables/ip-codes.ts';
import { lampSpec } from './language.ts';
import type { Reported, Rule } from './rule.ts';

const vented = 'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ, vented';
const through = ', enters CRATE by grommet 8 mm';

const crated = (battery: string, code: string) =>
  lampSpec(
    {
      battery,
      feed: `run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in${through}`,
      back: `run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:-${through}`,
    },
    'place HALL indoors',
    `enclosure CRATE plastic, ${code}, at HALL`,
  );

/** Digits of an IP code from which on a box keeps gas in (common practice, no source). */
const tight = { solids: 6, water: 5 };

export const rule: Rule = {
  slug: 'vented-battery-indoors',
  severity: 'warning',
  group: 'battery',
  reads: ['battery.casing', 'part.at', 'part.in', 'place.exposure', 'place.engine-space', 'enclosure.ip'],
  page: {
    title: 'A vented battery in the living space',
    why: 'While it is charged it gives off hydrogen and acid mist: the one explodes at a spark, the other eats metal and lungs.',
    limit:
      'A vented battery in a room stands in a box of its own that is vented to the open (EN 1648-1 and IEC 62485-2, from memory). What is not said to be vented is not judged. A box that is tight against dust or jets of water, IP6X or IPX5 and above, keeps the gas in, wherever it stands (common practice, no source).',
    mend: 'Put it into a box that is vented to the outside and say `in BOX`, or take a sealed battery and say `sealed`. A tight box that has a vent of its own is accepted with `allow`, and says so.',
    see: ['ignition-near-vented-battery', 'lithium-charged-in-frost'],
    wrong: [
      lampSpec({ battery: `${vented}, at HALL # finds: vented-battery-indoors "vented"` }, 'place HALL indoors'),
      crated(`${vented}, in CRATE # finds: vented-battery-indoors "vented"`, 'IP67'),
    ],
    right: [
      lampSpec({ battery: `${vented.replace('vented', 'sealed')}, at HALL` }, 'place HALL indoors'),
      lampSpec({ battery: `${vented}, at BONNET` }, 'place BONNET engine space'),
      crated(`${vented}, in CRATE`, 'IP44'),
    ],
  },
  forKind: ({ word }) => word === 'battery',
  ofPart(part) {
    if (part.facts.word('casing') !== 'vented') return undefined;
    if (part.enclosure !== undefined) return inTightBox(part, part.enclosure);
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

function inTightBox(battery: Part, box: Part): Reported | undefined {
  const code = box.facts.word('ip');
  const digits = ipDigits(code);
  const isTight = (digits?.solids ?? 0) >= tight.solids || (digits?.water ?? 0) >= tight.water;
  if (code === undefined || !isTight) return undefined;
  return {
    message: `${battery.name} is vented and stands in ${box.name}, which is ${code} and keeps its gas in until a spark sets it off: take a sealed battery, or give the box a vent to the outside and accept this.`,
    place: battery.facts.place('casing'),
    subject: battery.name,
    figures: { box: box.name, code },
    related: [{ message: `${box.name} is ${code}`, place: box.facts.place('ip') }],
  };
}
