/** Panel strings in parallel, found from the wiring, and whether each has a protective device of its own. */
import type { Answers, ContactFigures } from '../answers/answers.ts';
import type { Part, Terminal } from '../model/model.ts';
import type { ContactEdge, Edge, Layout, Network } from '../model/network.ts';
import { reach } from './reach.ts';
import type { RuleContext } from './rule.ts';

export interface PanelString {
  /** From its minus to its plus. */
  readonly panels: readonly Part[];
  /** The largest short-circuit current of its panels, in ampere. */
  readonly shortCircuitAmps: number;
  /** The least of the series fuses that their makers allow, in ampere; undefined where none is stated. */
  readonly mostSeriesFuseAmps: number | undefined;
  /** Whether a device stands in this string before it meets the others. */
  readonly fused: boolean;
  /** Those devices. */
  readonly fuses: readonly ContactFigures[];
}

/** A string as it is joined, with the contacts of its own devices. */
interface JoinedString {
  readonly panels: readonly Part[];
  readonly devices: readonly ContactEdge[];
}

/** Groups of strings between the same two conductors, where there are at least two. Contacts count as closed. */
export function parallelStrings({ answers }: RuleContext): PanelString[][] {
  return joinedStrings(answers.network).map((strings) => strings.map((string) => withFigures(string, answers)));
}

function withFigures({ panels, devices }: JoinedString, { contacts }: Answers): PanelString {
  const fuses = devices.flatMap(
    ({ part, contact }) => contacts.get(part.name)?.find(({ pole, device }) => pole === contact.pole && device) ?? [],
  );
  const stated = panels.map(({ facts }) => facts.number('most-series-fuse')).filter((value) => value !== undefined);
  return {
    panels,
    shortCircuitAmps: Math.max(...panels.map(({ facts }) => Math.max(0, facts.number('isc') ?? 0))),
    mostSeriesFuseAmps: stated.length === 0 ? undefined : Math.min(...stated),
    fused: fuses.length > 0,
    fuses: [...new Set(fuses)],
  };
}

const stringsIn = new WeakMap<Layout, readonly (readonly JoinedString[])[]>();

/** Which these are follows from how the spec is joined. */
function joinedStrings(network: Network): readonly (readonly JoinedString[])[] {
  let strings = stringsIn.get(network.layout);
  if (strings === undefined) {
    strings = findStrings(network);
    stringsIn.set(network.layout, strings);
  }
  return strings;
}

function findStrings(network: Network): JoinedString[][] {
  const panels = network.layout.parts.filter(({ kind }) => kind.behaviour.is === 'panel');
  if (panels.length < 2) return [];
  const end = (part: Part, sign: '+' | '-') => part.terminals.find(({ spec }) => spec.polarity === sign);
  const joints = new Map<Terminal, Set<Terminal>>();
  for (const part of panels)
    for (const sign of ['+', '-'] as const) {
      const terminal = end(part, sign);
      if (terminal === undefined || joints.has(terminal)) continue;
      const joint = reach(terminal, network, () => true);
      for (const one of joint) if (one.part.kind.behaviour.is === 'panel') joints.set(one, joint);
    }
  const jointOf = (part: Part, sign: '+' | '-') => {
    const terminal = end(part, sign);
    return terminal === undefined ? undefined : joints.get(terminal);
  };
  // In series: a joint with the plus of some panels, the minus of as many others, and nothing else that feeds or draws.
  const above = new Map<Part, Part>();
  const follows = new Set<Part>();
  for (const joint of new Set(joints.values())) {
    const active = [...joint].filter(({ part }) => part.kind.behaviour.is !== 'none');
    const lower = active.filter((terminal) => terminal.spec.polarity === '+');
    const upper = active.filter((terminal) => terminal.spec.polarity === '-');
    if (active.some(({ part }) => part.kind.behaviour.is !== 'panel') || lower.length !== upper.length) continue;
    lower.forEach(({ part }, i) => {
      const next = upper[i]?.part;
      if (next === undefined || next === part) return;
      above.set(part, next);
      follows.add(next);
    });
  }
  const groups = new Map<Set<Terminal>, Map<Set<Terminal>, JoinedString[]>>();
  for (const first of panels.filter((panel) => !follows.has(panel))) {
    const chain: Part[] = [];
    for (let at: Part | undefined = first; at !== undefined && !chain.includes(at); at = above.get(at)) chain.push(at);
    const [minus, plus] = [jointOf(first, '-'), jointOf(chain.at(-1) as Part, '+')];
    if (minus === undefined || plus === undefined || minus === plus) continue;
    // Parted from everything but its own panels when the devices are gone, at any of its joints.
    const devices = chain.flatMap((part) =>
      (['+', '-'] as const).flatMap((sign) => {
        const terminal = end(part, sign);
        if (terminal === undefined) return [];
        const near = reach(terminal, network, (edge) => !isDevice(edge));
        const parted = [...near].every(
          (one) => one === terminal || ['none', 'coil'].includes(one.part.kind.behaviour.is),
        );
        return parted ? [...near].flatMap(({ id }) => (network.at.get(id) ?? []).filter(isDevice)) : [];
      }),
    );
    const byPlus = groups.get(minus) ?? new Map<Set<Terminal>, JoinedString[]>();
    groups.set(minus, byPlus);
    byPlus.set(plus, [...(byPlus.get(plus) ?? []), { panels: chain, devices }]);
  }
  return [...groups.values()].flatMap((byPlus) => [...byPlus.values()]).filter((strings) => strings.length > 1);
}

function isDevice(edge: Edge): edge is ContactEdge {
  return edge.is === 'contact' && edge.contact.protects;
}
