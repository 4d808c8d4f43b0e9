/**
 * The operating point of one island: a search of states for limited sources and diodes, each of them solved as a linear
 * network with constant-power loads; and where these ask too much, the greatest part of it that would still be fed.
 */
import type { Circuit, Collapse, Solution } from './circuit.ts';
import { type LimitedState, StateNetwork, type States } from './state-network.ts';

/** States tried while all that must switch do so at once, and then for each element while they switch one by one. */
const mostStates = 40;
const mostSingleStates = 20;
/** What can be fed is found to this part of itself, as long as it is not next to nothing of what is asked. */
const finestPart = 2 ** -27;
const leastShare = 1e-12;
/** A load that falls by less than this part of what the worst falls by has no part in a collapse. */
const weakPart = 0.2;
/** Less than this flowing backwards is rounding, in ampere. */
const leastAmps = 1e-9;

/** An answer, and the states of limited sources and diodes that it bears out. */
export interface Settled {
  readonly solution: Solution;
  readonly states: States;
}

/** Part of the constant power of each load, by its index. */
type Shares = (power: number) => number;

/** `start`: states that are likely to hold, such as those of nearly the same figures; tried first. */
export function solveIsland(circuit: Circuit, start?: States): Settled {
  const all: States = { limited: circuit.limited.map(() => 'holds'), conducting: circuit.diodes.map(() => true) };
  const search = new StateSearch(circuit);
  const likely = start === undefined ? undefined : search.settle(() => 1, start);
  if (likely?.solution.converged === true) return likely;
  const first = search.settle(() => 1, all);
  return first.solution.converged ? first : { solution: starved(circuit, search, first, all), states: first.states };
}

/** The answer where the loads ask more than can be fed from the first: which of them and how much, if they do. */
function starved(circuit: Circuit, search: StateSearch, first: Settled, all: States): Solution {
  const powers = circuit.powers.map((_, i) => i);
  const nothing = { powers, feedable: 0, weak: powers, weakFeedable: 0 };
  const unloaded = search.settle(() => 0, all);
  if (!unloaded.solution.converged) return { ...unloaded.solution, collapses: [nothing] };
  const edge = edgeOf(search, (share) => () => share, unloaded);
  if (edge.fed !== undefined) return edge.fed;
  const last = edge.beyond ?? first.solution;
  if (edge.reached === 0) return { ...last, collapses: [nothing] };
  const collapse = { powers, feedable: edge.reached, ...weakOf(circuit, search, edge) };
  return { ...last, collapses: [collapse] };
}

/** How far loads can be fed from a settled start, where nothing of them is. */
interface Edge {
  /** The answer with all of it, if that is fed after all. */
  readonly fed: Solution | undefined;
  /** The greatest share that is fed; the states there, and what comes of a little more. */
  readonly reached: number;
  readonly states: States;
  readonly beyond: Solution | undefined;
}

/**
 * With a diode or source taken for what it is not, loads may seem to ask too much: from no load up every state follows from
 * the one before, so that all may be fed after all. If not, the same walk closes in on how much can.
 */
function edgeOf(search: StateSearch, sharesAt: (share: number) => Shares, start: Settled): Edge {
  let { states } = start;
  let beyond: Solution | undefined;
  const all = (): Edge | undefined => {
    const { solution } = search.settle(sharesAt(1), states);
    beyond = solution;
    return solution.converged ? { fed: solution, reached: 1, states, beyond } : undefined;
  };
  const atOnce = states.limited.length + states.conducting.length > 0 ? all() : undefined;
  if (atOnce !== undefined) return atOnce;
  let reached = 0;
  let tooMuch = 1;
  while (tooMuch > leastShare && tooMuch - reached > finestPart * reached) {
    const share = reached > 0 ? (reached + tooMuch) / 2 : tooMuch / 8;
    const next = search.settle(sharesAt(share), states);
    if (!next.solution.converged) {
      beyond = next.solution;
      tooMuch = share;
      continue;
    }
    reached = share;
    if (keyOf(next.states) === keyOf(states)) continue;
    states = next.states;
    const fed = all();
    if (fed !== undefined) return fed;
    tooMuch = 1;
  }
  return { fed: undefined, reached, states, beyond };
}

/**
 * The loads that make the collapse. Close to the edge volts move along one direction alone, so that what differs between two
 * points there tells who is on it; a load on good cable beside one on bad hardly is.
 */
function weakOf(
  { powers }: Circuit,
  search: StateSearch,
  { reached, states }: Edge,
): Pick<Collapse, 'weak' | 'weakFeedable'> {
  const everyone = { weak: powers.map((_, i) => i), weakFeedable: reached };
  const [near, far] = [reached, reached * (1 - 1e-4)].map((share) => search.settle(() => share, states).solution);
  if (near?.converged !== true || far?.converged !== true) return everyone;
  const fall = powers.map(({ plus, minus }) => {
    const across = ({ volts }: Solution) => (volts[plus] ?? 0) - (volts[minus] ?? 0);
    return across(far) - across(near);
  });
  const least = weakPart * Math.max(...fall);
  const weak = everyone.weak.filter((i) => (fall[i] ?? 0) >= least);
  if (weak.length === powers.length) return everyone;
  const isWeak = new Set(weak);
  const sharesAt = (share: number) => (i: number) => (isWeak.has(i) ? share : 1);
  const others = search.settle(sharesAt(0), states);
  if (!others.solution.converged) return everyone;
  const edge = edgeOf(search, sharesAt, others);
  return edge.reached > 0 && edge.fed === undefined ? { weak, weakFeedable: edge.reached } : everyone;
}

class StateSearch {
  private readonly networks = new Map<string, StateNetwork>();

  constructor(private readonly circuit: Circuit) {}

  /** Switches limited sources and diodes until each is in the state that the answer bears out. */
  settle(shares: Shares, start: States): Settled {
    let states = start;
    const seen = new Set([keyOf(states)]);
    let singly = false;
    const most = mostStates + mostSingleStates * (start.limited.length + start.conducting.length);
    for (let round = 0; round < most; round++) {
      const solution = this.networkIn(states).solve(shares);
      if (!solution.converged) return { solution, states };
      const next = nextStates(this.circuit, solution, states, singly);
      const key = keyOf(next);
      if (key === keyOf(states)) return { solution, states };
      // All at once may go round in a circle; the first alone, time after time, does not (K. G. Murty, 1974, least index).
      if (seen.has(key) || round === mostStates) singly = true;
      seen.add(key);
      states = singly ? nextStates(this.circuit, solution, states, true) : next;
    }
    const solution = this.networkIn(states).solve(shares);
    return { solution: { ...solution, converged: false, trouble: 'unsettled' }, states };
  }

  private networkIn(states: States): StateNetwork {
    const key = keyOf(states);
    let network = this.networks.get(key);
    if (network === undefined) {
      network = new StateNetwork(this.circuit, states);
      this.networks.set(key, network);
    }
    return network;
  }
}

function keyOf({ limited, conducting }: States): string {
  return `${limited.join()}|${conducting.join()}`;
}

/** The states that a solution calls for; of those that must change only the first if `singly`. */
function nextStates(circuit: Circuit, solution: Solution, states: States, singly: boolean): States {
  let changed = false;
  const choose = <T>(now: T, next: T): T => {
    if (now === next || (singly && changed)) return now;
    changed = true;
    return next;
  };
  const across = (a: number, b: number) => (solution.volts[a] ?? 0) - (solution.volts[b] ?? 0);
  const limited = circuit.limited.map((source, i) => {
    const now = states.limited[i] as LimitedState;
    const amps = solution.limitedAmps[i] ?? 0;
    const volts = across(source.plus, source.minus);
    let next = now;
    if (now === 'holds' && amps > source.mostAmps * (1 + 1e-9)) next = 'limits';
    else if (now === 'holds' && amps < -leastAmps) next = 'off';
    else if (now === 'limits' && volts > source.volts - source.ohms * source.mostAmps + 1e-9) next = 'holds';
    else if (now === 'off' && volts < source.volts - 1e-9) next = 'holds';
    return choose(now, next);
  });
  const conducting = circuit.diodes.map((diode, i) => {
    const now = states.conducting[i] === true;
    return choose(
      now,
      now ? (solution.diodeAmps[i] ?? 0) >= -leastAmps : across(diode.a, diode.b) > diode.volts + 1e-9,
    );
  });
  return { limited, conducting };
}
