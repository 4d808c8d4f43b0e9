/** Panel strings in parallel, found from the wiring, and whether each has a protective device of its own. */
import type { Answers, ContactFigures } from '../answers/answers.ts';
import { keptWhile } from '../model/lazily.ts';
import type { Part, Terminal } from '../model/model.ts';
import type { Edge } from '../model/network.ts';
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

const kept = keptWhile<Answers, readonly PanelString[][]>();

/** Groups of strings between the same two conductors, where there are at least two. Contacts count as closed. */
export function parallelStrings(context: RuleContext): readonly PanelString[][] {
  return kept(context.answers, [context.model], () => lookedUp(context));
}

function lookedUp({ model, answers }: RuleContext): PanelString[][] {
  const { network } = answers;
  const panels = [...model.parts.values()].filter(({ kind }) => kind.behaviour.is === 'panel');
  if (panels.length < 2) return [];
  const deviceOf = (edge: Edge): ContactFigures[] => {
    if (edge.is !== 'contact') return [];
    const figures = answers.contacts.get(edge.part.name)?.find(({ pole }) => pole === edge.contact.pole);
    return figures?.device === undefined ? [] : [figures];
  };
  const isDevice = (edge: Edge) => deviceOf(edge).length > 0;
  const reach = (start: Terminal, blocked: (edge: Edge) => boolean): Set<Terminal> => {
    const seen = new Set([start]);
    for (const terminal of seen)
      for (const edge of network.at.get(terminal.id) ?? [])
        if (!blocked(edge)) seen.add(edge.from === terminal ? edge.to : edge.from);
    return seen;
  };
  const end = (part: Part, sign: '+' | '-') => part.terminals.find(({ spec }) => spec.polarity === sign);
  const joints = new Map<Terminal, Set<Terminal>>();
  for (const part of panels)
    for (const sign of ['+', '-'] as const) {
      const terminal = end(part, sign);
      if (terminal === undefined || joints.has(terminal)) continue;
      const joint = reach(terminal, () => false);
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
  const groups = new Map<Set<Terminal>, Map<Set<Terminal>, PanelString[]>>();
  for (const first of panels.filter((panel) => !follows.has(panel))) {
    const chain: Part[] = [];
    for (let at: Part | undefined = first; at !== undefined && !chain.includes(at); at = above.get(at)) chain.push(at);
    const [minus, plus] = [jointOf(first, '-'), jointOf(chain.at(-1) as Part, '+')];
    if (minus === undefined || plus === undefined || minus === plus) continue;
    // Parted from everything but its own panels when the devices are gone, at any of its joints.
    const fuses = chain.flatMap((part) =>
      (['+', '-'] as const).flatMap((sign) => {
        const terminal = end(part, sign);
        if (terminal === undefined) return [];
        const near = reach(terminal, isDevice);
        const parted = [...near].every(
          (one) => one === terminal || ['none', 'coil'].includes(one.part.kind.behaviour.is),
        );
        return parted ? [...near].flatMap(({ id }) => (network.at.get(id) ?? []).flatMap(deviceOf)) : [];
      }),
    );
    const stated = chain.map(({ facts }) => facts.number('most-series-fuse')).filter((value) => value !== undefined);
    const byPlus = groups.get(minus) ?? new Map<Set<Terminal>, PanelString[]>();
    groups.set(minus, byPlus);
    byPlus.set(plus, [
      ...(byPlus.get(plus) ?? []),
      {
        panels: chain,
        shortCircuitAmps: Math.max(...chain.map(({ facts }) => Math.max(0, facts.number('isc') ?? 0))),
        mostSeriesFuseAmps: stated.length === 0 ? undefined : Math.min(...stated),
        fused: fuses.length > 0,
        fuses: [...new Set(fuses)],
      },
    ]);
  }
  return [...groups.values()].flatMap((byPlus) => [...byPlus.values()]).filter((strings) => strings.length > 1);
}
