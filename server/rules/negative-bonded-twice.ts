/** A negative that is bonded to the body at two points. */
import type { Core, Part, Terminal } from '../model/model.ts';
import type { Layout, Network } from '../model/network.ts';
import { example } from './language.ts';
import { reach } from './reach.ts';
import type { Rule, RuleContext } from './rule.ts';
import { names } from './words.ts';

function bonded(...more: string[]) {
  return example(
    'system "Van" 12 V',
    'battery B1 agm, 12 V, 100 Ah, internal 15 mΩ',
    'fuse F1 10 A, blade, 32 V',
    'load LAMP 12 W',
    'busbar NEG',
    'chassis G1 and G2',
    'run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in',
    'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+',
    'run W3 1.5 mm² black, 1.2 m, LAMP:- to NEG',
    'run W4 16 mm² black, 0.3 m, B1:- to NEG',
    'run W5 16 mm² black, 0.4 m, NEG to G1',
    ...more,
  );
}

export const rule: Rule = {
  slug: 'negative-bonded-twice',
  severity: 'warning',
  group: 'battery',
  reads: ['run.ends'],
  page: {
    title: 'A negative bonded to the body at two points',
    why: 'Between two bonds the body carries part of every return current beside the cable: through hinges, seams and bearings, past the shunt, and through the one bond alone when the other comes loose.',
    limit:
      'The negative of a supply is bonded to the body at one point (common practice, no source). What uses the body as its return, and the negatives of an engine, each have their own.',
    mend: 'Keep the bond beside the battery or its negative busbar (with a shunt, behind the shunt), and take the other away.',
    see: ['bypasses-shunt', 'case-not-bonded'],
    wrong: [
      bonded('run W6 16 mm² black, 3 m, NEG to G2 # finds: negative-bonded-twice "W6"'),
      {
        spec: `${bonded('run W6 16 mm² black, 0.3 m, B1:- to SH1:battery', 'shunt SH1 150 A, 50 mV').spec.replace('0.3 m, B1:- to NEG', '0.3 m, SH1:load to NEG')}run W7 16 mm² black, 0.2 m, B1:- to G2 # finds: negative-bonded-twice "W7"\n`,
      },
    ],
    right: [
      {
        spec: bonded('run W6 16 mm² black, 0.3 m, B1:- to SH1:battery', 'shunt SH1 150 A, 50 mV').spec.replace(
          '0.3 m, B1:- to NEG',
          '0.3 m, SH1:load to NEG',
        ),
      },
      bonded(),
      bonded('run W6 16 mm² black, 0.4 m, NEG to G1'),
    ],
  },
  *check(context) {
    for (const { battery, kept, spare, shunt } of doubleBonds(context)) {
      const mend =
        shunt === undefined
          ? `keep ${kept.run.name} and take ${spare.run.name} away`
          : `keep ${kept.run.name}, which lies behind ${shunt.name}, and take ${spare.run.name} away, or the meter does not see what returns by the body`;
      yield {
        message: `The negative of ${battery.name} is bonded to the body twice, by ${names([kept.run, spare.run])}, so the body carries part of the return beside the cables: ${mend}.`,
        place: spare.run.namePlace,
        subject: spare.run.name,
        figures: { battery: battery.name },
        related: [{ message: `${kept.run.name} bonds it too`, place: kept.run.namePlace }],
      };
    }
  },
};

export interface DoubleBond {
  readonly battery: Part;
  readonly kept: Core;
  readonly spare: Core;
  /** The shunt that the spare one goes past. */
  readonly shunt: Part | undefined;
}

/** The negative of a battery with all that is joined to it, as far as the body, where it is bonded at several points. */
interface Bonded {
  readonly battery: Part;
  readonly minus: Terminal;
  readonly net: ReadonlySet<Terminal>;
}

const bondedIn = new WeakMap<Layout, readonly Bonded[]>();

/** Which these are follows from how the spec is joined. */
function bondedBatteries(network: Network): readonly Bonded[] {
  const { layout } = network;
  let bonded = bondedIn.get(layout);
  if (bonded === undefined) {
    bonded = findBonded(layout.parts, network);
    bondedIn.set(layout, bonded);
  }
  return bonded;
}

function findBonded(parts: readonly Part[], network: Network): Bonded[] {
  if (parts.filter(({ kind }) => kind.word === 'chassis').length < 2) return [];
  const seen = new Set<Terminal>();
  return parts.flatMap((battery): Bonded[] => {
    if (battery.kind.word !== 'battery') return [];
    const minus = battery.terminals.find(({ spec }) => spec.polarity === '-');
    if (minus === undefined || seen.has(minus)) return [];
    const net = reach(minus, network, ({ is }) => is !== 'body', isBody);
    for (const terminal of net) if (!isBody(terminal)) seen.add(terminal);
    if ([...net].some(({ part }) => part.kind.word === 'alternator' || part.facts.says('cranking'))) return [];
    const points = new Set([...net].filter(isBody).map(({ part }) => part));
    return points.size < 2 ? [] : [{ battery, minus, net }];
  });
}

function isBody({ part }: Terminal): boolean {
  return part.kind.word === 'chassis';
}

/** Negatives that are bonded at two points, and the bond that is to go. */
export function doubleBonds({ answers: { network } }: RuleContext): DoubleBond[] {
  return bondedBatteries(network).flatMap(({ battery, minus, net }): DoubleBond[] => {
    const bonds = bondsOf(net, network);
    const [first] = bonds;
    const second = bonds.find(({ at }) => at.part !== first?.at.part);
    if (first === undefined || second === undefined) return [];
    const shunt = [...net].find(({ part }) => part.kind.word === 'shunt')?.part;
    const unseen = reach(minus, network, (edge) => edge.is === 'core' || edge.is === 'bar', isBody);
    const isUnseen = ({ core: { from, to } }: Bond) =>
      shunt !== undefined && [from, to].some((end) => end !== undefined && !isBody(end) && unseen.has(end));
    const past =
      isUnseen(first) && !isUnseen(second) ? first : isUnseen(second) && !isUnseen(first) ? second : undefined;
    const spare = past ?? second;
    const kept = spare === first ? second : first;
    return [{ battery, kept: kept.core, spare: spare.core, shunt: past === undefined ? undefined : shunt }];
  });
}

interface Bond {
  readonly core: Core;
  readonly at: Terminal;
}

/** Cores from a net to a bonding point. */
function bondsOf(net: ReadonlySet<Terminal>, network: Network): Bond[] {
  const bonds: Bond[] = [];
  for (const terminal of net) {
    if (terminal.part.kind.word !== 'chassis') continue;
    for (const edge of network.at.get(terminal.id) ?? []) {
      const other = edge.from === terminal ? edge.to : edge.from;
      if (edge.is === 'core' && net.has(other) && other.part.kind.word !== 'chassis')
        bonds.push({ core: edge.core, at: terminal });
    }
  }
  // The shortest is the one to keep.
  const metres = ({ core: { run } }: { core: Core }) => run.lengthMetres ?? Number.POSITIVE_INFINITY;
  return bonds.sort((a, b) => metres(a) - metres(b) || (a.core.run.name < b.core.run.name ? -1 : 1));
}
