/**
 * The operating point of one island: a search of states for limited sources and diodes, each of them solved as a linear
 * network with constant-power loads; and where these ask too much, the greatest part of it that would still be fed.
 */
import type { Collapse, Solution } from './circuit.ts';
import { type Found, networkIn, type Shares } from './state-network.ts';
import type { LimitedState, States } from './state-rows.ts';
import type { Flat } from './topology.ts';

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

/** What an island, or a whole circuit, comes to. */
export interface Solved extends Found {
  readonly trouble: Solution['trouble'];
  readonly collapses: readonly Collapse[];
}

/** An answer, and the states of limited sources and diodes that it bears out. */
export interface Settled {
  readonly solution: Solved;
  readonly states: States;
}

const all: Shares = () => 1;
const none: Shares = () => 0;

/** `start`: states that are likely to hold, such as those of nearly the same figures; tried first. */
export function solveIsland(island: Flat, start?: States): Settled {
  const search = new StateSearch(island);
  const likely = start === undefined ? undefined : search.settle(all, start);
  if (likely?.solution.converged === true) return likely;
  const { limited, diodes } = island.topology.counts;
  const usual: States = {
    limited: Array.from({ length: limited }, () => 'holds'),
    conducting: Array.from({ length: diodes }, () => true),
  };
  const first = search.settle(all, usual);
  return first.solution.converged ? first : { solution: starved(island, search, first, usual), states: first.states };
}

/** The answer where the loads ask more than can be fed from the first: which of them and how much, if they do. */
function starved(island: Flat, search: StateSearch, first: Settled, usual: States): Solved {
  const powers = Array.from({ length: island.topology.counts.powers }, (_, i) => i);
  const nothing = { powers, feedable: 0, weak: powers, weakFeedable: 0 };
  const unloaded = search.settle(none, usual);
  if (!unloaded.solution.converged) return { ...unloaded.solution, collapses: [nothing] };
  const edge = edgeOf(search, (share) => () => share, unloaded);
  if (edge.fed !== undefined) return edge.fed;
  const last = edge.beyond ?? first.solution;
  if (edge.reached === 0) return { ...last, collapses: [nothing] };
  const collapse = { powers, feedable: edge.reached, ...weakOf(island, powers, search, edge) };
  return { ...last, collapses: [collapse] };
}

/** How far loads can be fed from a settled start, where nothing of them is. */
interface Edge {
  /** The answer with all of it, if that is fed after all. */
  readonly fed: Solved | undefined;
  /** The greatest share that is fed; the states there, and what comes of a little more. */
  readonly reached: number;
  readonly states: States;
  readonly beyond: Solved | undefined;
}

/**
 * With a diode or source taken for what it is not, loads may seem to ask too much: from no load up every state follows from
 * the one before, so that all may be fed after all. If not, the same walk closes in on how much can.
 */
function edgeOf(search: StateSearch, sharesAt: (share: number) => Shares, start: Settled): Edge {
  let { states } = start;
  let beyond: Solved | undefined;
  const whole = (): Edge | undefined => {
    const { solution } = search.settle(sharesAt(1), states);
    beyond = solution;
    return solution.converged ? { fed: solution, reached: 1, states, beyond } : undefined;
  };
  const atOnce = states.limited.length + states.conducting.length > 0 ? whole() : undefined;
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
    const fed = whole();
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
  { topology: { ends, first } }: Flat,
  powers: readonly number[],
  search: StateSearch,
  { reached, states }: Edge,
): Pick<Collapse, 'weak' | 'weakFeedable'> {
  const everyone = { weak: powers, weakFeedable: reached };
  const [near, far] = [reached, reached * (1 - 1e-4)].map((share) => search.settle(() => share, states).solution);
  if (near?.converged !== true || far?.converged !== true) return everyone;
  const fall = powers.map((i) => {
    const at = 2 * (first.powers + i);
    const across = ({ volts }: Found) => (volts[ends[at] ?? -1] ?? 0) - (volts[ends[at + 1] ?? -1] ?? 0);
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
  constructor(private readonly island: Flat) {}

  /** Switches limited sources and diodes until each is in the state that the answer bears out. */
  settle(shares: Shares, start: States): Settled {
    let states = start;
    let key = keyOf(start);
    let seen: Set<string> | undefined;
    let singly = false;
    let loosened = false;
    const most = mostStates + mostSingleStates * (start.limited.length + start.conducting.length);
    for (let round = 0; round < most; round++) {
      const found = networkIn(this.island.topology, states, key).solve(this.island.figures, shares);
      if (!found.converged) {
        const loose = loosened ? undefined : loosenedFrom(states);
        if (loose === undefined) return { solution: told(found, 'collapse'), states };
        loosened = true;
        states = loose;
        key = keyOf(loose);
        continue;
      }
      const next = nextStates(this.island, found, states, singly);
      const nextKey = next === states ? key : keyOf(next);
      if (nextKey === key) return { solution: told(found, undefined), states };
      // All at once may go round in a circle; the first alone, time after time, does not (K. G. Murty, 1974, least index).
      seen ??= new Set([key]);
      if (seen.has(nextKey) || round === mostStates) singly = true;
      seen.add(nextKey);
      states = singly ? nextStates(this.island, found, states, true) : next;
      key = keyOf(states);
    }
    const found = networkIn(this.island.topology, states, key).solve(this.island.figures, shares);
    return { solution: told(found, 'unsettled'), states };
  }
}

/** A source that was at its limit through a diode which blocks by now has nowhere to drive that: it may hold its voltage again. */
function loosenedFrom({ limited, conducting }: States): States | undefined {
  if (!limited.includes('limits') || !conducting.includes(false)) return undefined;
  return { limited: limited.map((one) => (one === 'limits' ? 'holds' : one)), conducting };
}

function told({ volts, amps, linkAssumed, residual }: Found, trouble: Solution['trouble']): Solved {
  return { volts, amps, linkAssumed, residual, converged: trouble === undefined, trouble, collapses: [] };
}

function keyOf({ limited, conducting }: States): string {
  return limited.length + conducting.length === 0 ? '' : `${limited.join()}|${conducting.join()}`;
}

/** The states that a solution calls for, the same ones where nothing must change; of those that must only the first if `singly`. */
function nextStates({ topology, figures }: Flat, { volts, amps }: Found, states: States, singly: boolean): States {
  if (states.limited.length + states.conducting.length === 0) return states;
  const { ends, first, at, counts } = topology;
  let changed = false;
  const choose = <T>(now: T, next: T): T => {
    if (now === next || (singly && changed)) return now;
    changed = true;
    return next;
  };
  const across = (k: number) => (volts[ends[2 * k] ?? -1] ?? 0) - (volts[ends[2 * k + 1] ?? -1] ?? 0);
  const figure = (place: number) => figures[place] as number;
  const limited = states.limited.map((now, i): LimitedState => {
    const k = first.limited + i;
    const own = at.limited + i;
    const held = figure(own);
    const ohms = figure(own + counts.limited);
    const mostAmps = figure(own + 2 * counts.limited);
    const given = amps[k] as number;
    let next: LimitedState = now;
    if (now === 'holds' && given > mostAmps * (1 + 1e-9)) next = 'limits';
    else if (now === 'holds' && given < -leastAmps) next = 'off';
    else if (now === 'limits' && across(k) > held - ohms * mostAmps + 1e-9) next = 'holds';
    else if (now === 'off' && across(k) < held - 1e-9) next = 'holds';
    return choose(now, next);
  });
  const conducting = states.conducting.map((now, i) => {
    const k = first.diodes + i;
    return choose(now, now ? (amps[k] as number) >= -leastAmps : across(k) > figure(at.diodes + i) + 1e-9);
  });
  return changed ? { limited, conducting } : states;
}
