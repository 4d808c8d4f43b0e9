/** The metal case of something on the mains that nothing bonds to the body, or that a thin wire does. */

import { physicalSize } from '../answers/conditions.ts';
import type { Core, Part, Terminal } from '../model/model.ts';
import { areaMm2, type Size } from '../physics/conductors.ts';
import { isAccepted } from './accepted.ts';
import { exceeds } from './exceeds.ts';
import { example } from './language.ts';
import { isSolid, reach } from './reach.ts';
import type { Reported, Rule, RuleContext } from './rule.ts';

function inverter(clauses: string, ...more: string[]) {
  return example(
    'system "Shed" 12 V',
    'battery B1 lead-acid, 12 V, 200 Ah, internal 15 mΩ',
    'fuse F1 50 A, bolt-in, 58 V',
    `inverter INV 350 W${clauses}`,
    'chassis G1',
    'run W1 16 mm² red, 0.2 m, B1:+ to F1:in',
    'run W2 16 mm² red, 0.8 m, F1:out to INV:+',
    'run W3 16 mm² black, 0.8 m, INV:- to B1:-',
    'run W4 16 mm² black, 0.3 m, B1:- to G1',
    ...more,
  );
}

export const rule: Rule = {
  slug: 'case-not-bonded',
  severity: 'error',
  group: 'battery',
  restsOnAllNames: true,
  reads: [
    'inverter.bond',
    'inverter.insulated-case',
    'charger.from-mains',
    'charger.bond',
    'charger.insulated-case',
    'run.size',
  ],
  page: {
    title: 'A metal case on the mains that is not bonded',
    why: 'Inverters and mains chargers have mains voltage inside. A fault to the case makes the case, and all metal it touches, live; only a bond to the vehicle’s body makes the fault trip what protects the mains side.',
    limit:
      'Exposed metal of equipment with mains inside is bonded (IEC 60364-7-721 on caravans, from memory). The least size is the maker’s, said with `bond`; where none is said, none is held against it.',
    mend: 'Run a green/yellow conductor of the stated size from `case` to a bonding point on the body. A case of plastic, or doubly insulated, says `insulated case`.',
    see: ['short-circuit'],
    wrong: [
      inverter(' # finds: case-not-bonded "INV"'),
      inverter(', bond 10 mm²', 'run W5 6 mm² green/yellow, 0.5 m, INV:case to G1 # finds: case-not-bonded "6 mm²"'),
      example(
        'system "Shed" 12 V',
        'battery B1 lead-acid, 12 V, 100 Ah, internal 15 mΩ',
        'fuse F1 30 A, blade, 32 V',
        'charger U1 12 V, 20 A, from mains # finds: case-not-bonded "U1"',
        'run W1 6 mm² red, 0.2 m, B1:+ to F1:in',
        'run W2 6 mm² red, 1 m, F1:out to U1:out+',
        'run W3 6 mm² black, 1 m, U1:out- to B1:-',
      ),
    ],
    right: [
      inverter('', 'run W5 6 mm² green/yellow, 0.5 m, INV:case to G1'),
      inverter(', bond 10 mm²', 'run W5 10 mm² green/yellow, 0.5 m, INV:case to G1'),
      inverter(', bond 8 AWG', 'run W5 10 mm² green/yellow, 0.5 m, INV:case to G1'),
      inverter(', insulated case'),
    ],
  },
  ofPart(part) {
    const terminal = part.terminals.find(({ spec }) => spec.name === 'case');
    if (terminal === undefined || part.facts.says('insulated-case')) return undefined;
    return (context) => badlyBonded(part, terminal, context);
  },
};

function badlyBonded(part: Part, terminal: Terminal, context: RuleContext): Reported[] {
  // What nothing is connected to yet is told of as that.
  const { at } = context.answers.network;
  if (!part.terminals.some(({ id }) => (at.get(id) ?? []).some(({ is }) => is === 'core'))) return [];
  const joined = reach(terminal, context.answers.network, isSolid);
  const bonded = [...joined].some(
    (one) => one.part.kind.word === 'chassis' || (one !== terminal && one.spec.polarity === '-'),
  );
  // A bond to the positive is told as that.
  const isAstray = context.answers.miswirings.astray.some(
    ({ core, far }) => far.has(terminal) && !isAccepted(context.model, 'polarity-reversed', core.run.name),
  );
  if (isAstray) return [];
  const least = statedBond(part);
  const written = part.facts.written('bond', 'size');
  if (!bonded) {
    return [
      {
        message: `The case of ${part.name} is bonded to nothing, and a mains fault inside would make it live: run ${written === undefined ? 'a green/yellow conductor' : `${written} green/yellow`} from ${terminal.id} to a chassis point, or say insulated case if it has none of metal.`,
        place: part.namePlace,
        subject: part.name,
        figures: least === undefined ? {} : { leastMm2: least },
      },
    ];
  }
  const thin = least === undefined ? undefined : thinnest(terminal.id, least, context);
  if (least === undefined || thin === undefined) return [];
  return [
    {
      message: `${thin.core.run.name} bonds the case of ${part.name} with ${thin.core.run.size?.written}, but its maker asks for ${written} at least, so that a fault does not burn the bond through: use ${written}.`,
      place: thin.core.run.sizePlace,
      subject: part.name,
      figures: { areaMm2: thin.area, leastMm2: least },
      related: [{ message: 'What its maker asks for', place: part.facts.place('bond') }],
      fixes:
        written === undefined || thin.core.run.facts.fact('size')?.fromStock !== undefined
          ? []
          : [{ title: `Use ${written}`, safe: false, edits: [{ place: thin.core.run.sizePlace, newText: written }] }],
    },
  ];
}

/** Least cross-section that the part states for its bond, mm². */
function statedBond({ facts }: Part): number | undefined {
  const atom = facts.slot('bond', 'size')?.atom;
  if (atom?.kind !== 'quantity' || atom.value === undefined) return undefined;
  const size: Size =
    atom.dimension === 'gauge' ? { system: 'awg', gauge: atom.value } : { system: 'mm2', areaMm2: atom.value };
  return size.system === 'mm2' && !(size.areaMm2 > 0) ? undefined : areaMm2(size);
}

/** A core on the terminal that is thinner than it may be; a gauge counts as the area it is sold for. */
function thinnest(terminal: string, least: number, { answers }: RuleContext): { core: Core; area: number } | undefined {
  for (const edge of answers.network.at.get(terminal) ?? []) {
    if (edge.is !== 'core' || edge.core.run.size === undefined) continue;
    const area = areaMm2(physicalSize(edge.core.run.size));
    if (exceeds(least, area)) return { core: edge.core, area };
  }
  return undefined;
}
