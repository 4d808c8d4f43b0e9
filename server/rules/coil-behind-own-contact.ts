/** A relay whose coil has no supply until its own contact has closed. */
import { sourcesOf } from '../answers/ports.ts';
import { keptWith } from '../model/lazily.ts';
import type { Core, Part, Place, Terminal } from '../model/model.ts';
import type { Edge, Layout, Network } from '../model/network.ts';
import { lampSpec } from './language.ts';
import { reach } from './reach.ts';
import type { Reported, Rule } from './rule.ts';

const contactor = [
  'relay K1 coil 12 V 150 mA, contact 20 A',
  'switch S1 1 pole, 10 A dc, 24 V',
  'run W4 1.5 mm² red, 0.5 m, K1:87 to LAMP:+',
  'run W6 1.5 mm² red, 0.5 m, S1:2 to K1:86',
  'run W7 1.5 mm² black, 0.5 m, K1:85 to B1:-',
];
const out = 'run W2 1.5 mm² red, 1.2 m, F1:out to K1:30';

export const rule: Rule = {
  slug: 'coil-behind-own-contact',
  severity: 'error',
  group: 'network',
  restsOnAllNames: true,
  reads: ['relay.coil', 'run.ends'],
  page: {
    title: 'A coil behind its own contact',
    why: 'The contact closes when the coil has voltage, and the coil has voltage when the contact is closed: so it never pulls in, and nothing behind it is ever fed. Whoever looks for the fault then swaps a sound relay.',
    limit:
      'A coil is fed from what is live before its own contact closes (common practice, no source). All switches and other relays are taken as closed. One that holds itself in beside a button that starts it is right, and so is one with a source of its own behind its contact.',
    mend: 'Feed the coil from before the contact, through its switch.',
    see: ['relay-always-on', 'case-unanswered'],
    wrong: [
      lampSpec(
        { out },
        ...contactor,
        'run W5 1.5 mm² red, 0.5 m, K1:87 to S1:1 # finds: coil-behind-own-contact "K1:87"',
      ),
    ],
    right: [lampSpec({ out }, ...contactor, 'run W5 1.5 mm² red, 0.5 m, K1:30 to S1:1')],
  },
  *check({ answers: { network } }) {
    for (const one of coilsIn(network)) yield told(one, network);
  },
};

interface BlockedCoil {
  readonly part: Part;
  /** End of the coil that nothing feeds, and the terminals of the contact on its side and before it. */
  readonly end: Terminal;
  readonly behind: Terminal;
  readonly before: Terminal;
}

/** Relays that can never pull in, and all that only their contacts feed. */
const blockedIn = keptWith((_: Layout) => ({ known: undefined as readonly BlockedCoil[] | undefined }));

function coilsIn(network: Network): readonly BlockedCoil[] {
  const kept = blockedIn(network.layout);
  kept.known ??= network.layout.parts.flatMap((part) => blockedCoil(part, network) ?? []);
  return kept.known;
}

/** Names of relays that are found here whose contact alone feeds a part. */
export function neverFedThrough({ terminals }: Part, network: Network): string[] {
  return coilsIn(network).flatMap(({ part, behind }) => {
    const dead = reach(behind, network, (edge) => !isMake(edge, part));
    return terminals.some((one) => dead.has(one)) ? [part.name] : [];
  });
}

function isMake(edge: Edge, part: Part): boolean {
  return edge.is === 'contact' && edge.part === part && edge.contact.operated === 'coil';
}

function blockedCoil(part: Part, network: Network): BlockedCoil | undefined {
  const { behaviour } = part.kind;
  if (behaviour.is !== 'coil') return undefined;
  const sources = new Set(sourcesOf(network.layout.parts).flatMap(({ plus, minus }) => [plus, minus]));
  const isFed = (terminals: ReadonlySet<Terminal>) => [...terminals].some((one) => sources.has(one));
  const at = (name: string) => part.terminals.find(({ spec }) => spec.name === name);
  for (const end of [at(behaviour.from), at(behaviour.to)]) {
    if (end === undefined) continue;
    const own = reach(end, network, (edge) => !isMake(edge, part));
    if (isFed(own)) continue;
    for (const { from, to, operated } of part.contacts) {
      const [one, other] = [at(from), at(to)];
      if (operated !== 'coil' || one === undefined || other === undefined || own.has(one) === own.has(other)) continue;
      const [behind, before] = own.has(one) ? [one, other] : [other, one];
      if (isFed(reach(before, network, (edge) => !isMake(edge, part)))) return { part, end, behind, before };
    }
  }
  return undefined;
}

function told({ part, end, behind, before }: BlockedCoil, network: Network): Reported {
  const core = branchOf(end, behind, network, part);
  const where = core === undefined ? 'feed it from' : `move this end of ${core.core.run.name} to`;
  return {
    message: `The coil of ${part.name} has its supply through ${part.name}’s own contact (${behind.id}), so it can never pull in, and nothing behind that contact is fed: ${where} ${before.id}, before the contact.`,
    place: core?.place ?? part.facts.place('coil'),
    subject: part.name,
    figures: { behind: behind.id, before: before.id },
    related: [{ message: `${part.name} waits for itself`, place: part.namePlace }],
    fixes:
      core === undefined
        ? []
        : [
            {
              title: `Move it to ${before.id}`,
              safe: false,
              edits: [{ place: core.place, newText: before.id }],
            },
          ],
  };
}

/** The core that leads to a coil from its contact, or from a bar behind that, and the place of that end of it. */
function branchOf(
  end: Terminal,
  behind: Terminal,
  network: Network,
  part: Part,
): { readonly core: Core; readonly place: Place } | undefined {
  const by = new Map<Terminal, Edge | undefined>([[behind, undefined]]);
  for (const [terminal] of by)
    for (const edge of network.at.get(terminal.id) ?? []) {
      const next = edge.from === terminal ? edge.to : edge.from;
      if (!isMake(edge, part) && !by.has(next)) by.set(next, edge);
    }
  let at = end;
  for (let edge = by.get(at); edge !== undefined; edge = by.get(at)) {
    const nearer = edge.from === at ? edge.to : edge.from;
    if (edge.is === 'core' && (nearer === behind || nearer.part.kind.oneNode)) {
      const place = edge.core.from === nearer ? edge.core.fromPlace : edge.core.toPlace;
      return place === undefined ? undefined : { core: edge.core, place };
    }
    at = nearer;
  }
  return undefined;
}
