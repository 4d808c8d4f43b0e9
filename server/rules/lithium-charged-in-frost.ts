/** A lithium battery that is charged where it freezes, with nothing said that keeps it from that. */

import type { Part } from '../model/model.ts';
import { example } from './language.ts';
import { reach } from './reach.ts';
import type { Reported, Rule, RuleContext } from './rule.ts';
import { temperature } from './words.ts';

function charged(battery: string, coldest: string) {
  return example(
    `system "Shed" 12 V${coldest}`,
    `battery B1 ${battery}`,
    'fuse F1 30 A, cartridge, 125 V, breaks 20 kA',
    'charger U1 12 V, 20 A, from mains, insulated case',
    'run W1 6 mm² red, 0.2 m, B1:+ to F1:in',
    'run W2 6 mm² red, 1 m, F1:out to U1:out+',
    'run W3 6 mm² black, 1 m, U1:out- to B1:-',
  );
}

const lithium = 'lithium-iron-phosphate, 12.8 V, 100 Ah, charge 50 A';

export const rule: Rule = {
  slug: 'lithium-charged-in-frost',
  severity: 'warning',
  group: 'battery',
  reads: ['battery.chemistry', 'battery.frost-cut-off', 'battery.heated', 'system.coldest'],
  page: {
    title: 'A lithium battery that may be charged in frost',
    why: 'Below freezing a lithium cell does not take the charge in: metal plates out inside it, capacity is lost for good, and an inner short may follow weeks later.',
    limit:
      'Lithium cells are not charged below 0 °C (common practice, no source). A battery that refuses by itself says `frost cut-off`, one that warms itself says `heated`. Where the system does not say how cold it gets, nothing is found.',
    mend: 'Take a battery that refuses to be charged in frost or warms itself, and say so; or keep it where it does not freeze, and say `coldest` above 0 °C.',
    see: ['vented-battery-indoors'],
    wrong: [
      {
        spec: charged(`${lithium} # finds: lithium-charged-in-frost "lithium-iron-phosphate"`, ', coldest -0.5 °C')
          .spec,
      },
    ],
    right: [
      charged(`${lithium}, frost cut-off`, ', coldest -10 °C'),
      charged(`${lithium}, heated`, ', coldest -10 °C'),
      charged(lithium, ', coldest 0 °C'),
      charged(lithium, ''),
      charged('agm, 12 V, 100 Ah', ', coldest -10 °C'),
    ],
  },
  forKind: ({ word }) => word === 'battery',
  ofPart(part) {
    const { facts } = part;
    if (facts.word('chemistry')?.startsWith('lithium') !== true) return undefined;
    return facts.says('frost-cut-off') || facts.says('heated') ? undefined : (context) => inFrost(part, context);
  },
};

function inFrost(part: Part, context: RuleContext): Reported[] {
  const { model } = context;
  const coldest = model.system.coldestCelsius;
  if (coldest === undefined || coldest >= 0 || !isCharged(part, context)) return [];
  return [
    {
      message: `${part.name} may be charged at ${temperature(coldest, model)}, and charging below ${temperature(0, model)} spoils lithium cells: take one that refuses charge in frost or warms itself, and say frost cut-off or heated.`,
      place: part.facts.place('chemistry'),
      subject: part.name,
      figures: { coldestCelsius: coldest },
      related:
        model.system.facts === undefined
          ? []
          : [{ message: 'How cold it gets', place: model.system.facts.place('coldest') }],
    },
  ];
}

/** Anything that charges is joined to its plus. */
function isCharged(battery: Part, { answers: { network } }: RuleContext): boolean {
  const plus = battery.terminals.find(({ spec }) => spec.polarity === '+');
  if (plus === undefined) return false;
  for (const { part, spec } of reach(plus, network, () => true)) {
    const { behaviour } = part.kind;
    if (behaviour.is === 'alternator') return true;
    if (behaviour.is === 'inverter' && part.facts.says('charges')) return true;
    if (
      behaviour.is === 'converter' &&
      part.kind.word !== 'converter' &&
      behaviour.outputs.includes(spec.side ?? '') &&
      spec.side !== 'load'
    )
      return true;
  }
  return false;
}
