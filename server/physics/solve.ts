/**
 * The operating point of a circuit: nodal analysis with a sparse factorisation, Newton's method on constant-power loads from
 * the unloaded state down (which finds the upper-voltage solution), and a search of states for limited sources and diodes.
 */
import type { Circuit, Solution } from './circuit.ts';
import { linkCurrents } from './link-currents.ts';
import { refactor, type Structure, SymmetricEntries, solveFactored, structureOf, upperValues } from './sparse.ts';
import { UnionFind } from './union-find.ts';

const mostNewtonSteps = 60;
/** States tried while all that must switch do so at once, and then for each element while they switch one by one. */
const mostStates = 40;
const mostSingleStates = 20;
/** What can be fed is found to this part of itself, as long as it is not next to nothing of what is asked. */
const finestPart = 1 / 1024;
const leastShare = 1e-4;
/** Less than this flowing backwards is rounding, in ampere. */
const leastAmps = 1e-9;

type LimitedState = 'holds' | 'limits' | 'off';

/** What limited sources do and which diodes conduct. */
interface States {
  readonly limited: readonly LimitedState[];
  readonly conducting: readonly boolean[];
}

export function solveCircuit(circuit: Circuit): Solution {
  const all: States = { limited: circuit.limited.map(() => 'holds'), conducting: circuit.diodes.map(() => true) };
  const first = settle(circuit, 1, all);
  if (first.solution.converged) return first.solution;
  // With a diode or source taken for what it is not, loads may seem to ask too much: from no load up every state follows from
  // the one before. The same walk tells how much could still be fed.
  let { states, solution: last } = settle(circuit, 0, all);
  if (!last.converged) return last;
  const switches = all.limited.length + all.conducting.length > 0;
  let reached = 0;
  for (let step = switches ? 1 : 1 / 2; step >= finestPart * Math.max(reached, leastShare); ) {
    const share = Math.min(1, reached + step);
    const next = settle(circuit, share, states);
    if (next.solution.converged) {
      if (share === 1) return next.solution;
      states = next.states;
      reached = share;
    } else {
      last = next.solution;
      step /= 2;
    }
  }
  return { ...last, feedable: reached };
}

/** Switches limited sources and diodes until each is in the state that the answer bears out. */
function settle(circuit: Circuit, share: number, start: States): { solution: Solution; states: States } {
  let states = start;
  const seen = new Set([keyOf(states)]);
  let singly = false;
  const most = mostStates + mostSingleStates * (start.limited.length + start.conducting.length);
  for (let round = 0; round < most; round++) {
    const solution = solveState(circuit, share, states.limited, states.conducting);
    if (!solution.converged) return { solution, states };
    const next = nextStates(circuit, solution, states, singly);
    const key = keyOf(next);
    if (key === keyOf(states)) return { solution, states };
    // All at once may go round in a circle; the first alone, time after time, does not (K. G. Murty, 1974, least index).
    if (seen.has(key) || round === mostStates) singly = true;
    seen.add(key);
    states = singly ? nextStates(circuit, solution, states, true) : next;
  }
  const solution = solveState(circuit, share, states.limited, states.conducting);
  return { solution: { ...solution, converged: false, trouble: 'unsettled' }, states };
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

/** Everything linear of one state, ready for Newton's steps on the powers. */
function solveState(
  circuit: Circuit,
  share: number,
  limited: readonly LimitedState[],
  conducting: readonly boolean[],
): Solution {
  const n = circuit.nodeCount;
  const merged = new UnionFind(n);
  for (const { a, b } of circuit.links) merged.join(a, b);
  // Galvanic parts: what resistances and sources join. A draw across two parts, or in one without a source, gets nothing.
  const galvanic = new UnionFind(n);
  for (const { a, b } of circuit.links) galvanic.join(a, b);
  for (const { a, b } of circuit.resistors) galvanic.join(a, b);
  for (const { plus, minus } of circuit.emfs) galvanic.join(plus, minus);
  circuit.limited.forEach(({ plus, minus }, i) => {
    if (limited[i] !== 'off') galvanic.join(plus, minus);
  });
  circuit.diodes.forEach(({ a, b }, i) => {
    if (conducting[i]) galvanic.join(a, b);
  });
  const fed = new Set<number>();
  for (const { plus } of circuit.emfs) fed.add(galvanic.find(plus));
  // A source at its limit feeds as well: where nothing else holds a voltage and its loads ask for more, that is a collapse.
  circuit.limited.forEach(({ plus }, i) => {
    if (limited[i] !== 'off') fed.add(galvanic.find(plus));
  });
  const active = (plus: number, minus: number) =>
    galvanic.find(plus) === galvanic.find(minus) &&
    fed.has(galvanic.find(plus)) &&
    merged.find(plus) !== merged.find(minus);

  // One grounded node a galvanic part.
  const grounded = new Map<number, number>();
  for (const node of circuit.references) {
    const part = galvanic.find(node);
    if (!grounded.has(part)) grounded.set(part, merged.find(node));
  }
  const index = new Int32Array(n).fill(-1);
  let size = 0;
  for (let node = 0; node < n; node++) {
    if (merged.find(node) !== node) continue;
    const part = galvanic.find(node);
    if (!grounded.has(part)) grounded.set(part, node);
    if (grounded.get(part) !== node) index[node] = size++;
  }
  const at = (node: number) => index[merged.find(node)] ?? -1;

  const base = new SymmetricEntries(size);
  const rhs = new Float64Array(size);
  const conduct = (a: number, b: number, siemens: number) => {
    const [i, j] = [at(a), at(b)];
    if (i === j) return;
    if (i >= 0) base.addDiagonal(i, siemens);
    if (j >= 0) base.addDiagonal(j, siemens);
    if (i >= 0 && j >= 0) base.addPair(i, j, -siemens);
  };
  /** Current pushed from node a to node b through an element. */
  const push = (target: Float64Array, a: number, b: number, amps: number) => {
    const [i, j] = [at(a), at(b)];
    if (i >= 0) target[i] = (target[i] ?? 0) - amps;
    if (j >= 0) target[j] = (target[j] ?? 0) + amps;
  };
  for (const { a, b, ohms } of circuit.resistors) conduct(a, b, 1 / ohms);
  for (const { plus, minus, volts, ohms } of circuit.emfs) {
    conduct(plus, minus, 1 / ohms);
    push(rhs, minus, plus, volts / ohms);
  }
  circuit.limited.forEach((source, i) => {
    if (limited[i] === 'holds') {
      conduct(source.plus, source.minus, 1 / source.ohms);
      push(rhs, source.minus, source.plus, source.volts / source.ohms);
    } else if (limited[i] === 'limits' && active(source.plus, source.minus))
      push(rhs, source.minus, source.plus, source.mostAmps);
  });
  circuit.diodes.forEach(({ a, b, volts, ohms }, i) => {
    if (!conducting[i]) return;
    conduct(a, b, 1 / ohms);
    push(rhs, b, a, volts / ohms);
  });
  const currentActive = circuit.currents.map(({ plus, minus }) => active(plus, minus));
  circuit.currents.forEach(({ plus, minus, amps }, i) => {
    if (currentActive[i]) push(rhs, plus, minus, amps);
  });
  const powers = circuit.powers.filter(({ plus, minus, watts }) => watts * share > 0 && active(plus, minus));
  // Powers couple their two nodes whatever their present conductance: the pattern, and so the structure, stays.
  const draws = powers.map(({ plus, minus, watts }): Draw => {
    const [i, j] = [at(plus), at(minus)];
    const pair = i >= 0 && j >= 0 ? base.addPair(i, j, 0) : -1;
    return { plus: i, minus: j, watts: watts * share, pair };
  });
  const volts = newton(base, rhs, draws, structureOf(base));
  const expand = (x: Float64Array) =>
    Float64Array.from({ length: n }, (_, node) => (at(node) < 0 ? 0 : (x[at(node)] ?? 0)));
  const nodeVolts = expand(volts ?? new Float64Array(size));
  return currentsOf(circuit, share, nodeVolts, limited, conducting, currentActive, active, volts !== undefined);
}

/** A constant power between two nodes (-1 is ground), and the pair of the matrix that joins them (-1 for none). */
interface Draw {
  readonly plus: number;
  readonly minus: number;
  readonly watts: number;
  readonly pair: number;
}

/** Newton's method; undefined when the loads ask more than can be fed. */
function newton(
  base: SymmetricEntries,
  rhs: Float64Array,
  draws: readonly Draw[],
  structure: Structure,
): Float64Array | undefined {
  const upper = upperValues(structure, base);
  const unloaded = refactor(structure, base.diagonal, upper);
  if (unloaded === undefined) return undefined;
  let x = solveFactored(unloaded, rhs);
  if (draws.length === 0) return x;
  const across = (x: Float64Array, { plus, minus }: Draw) =>
    (plus < 0 ? 0 : (x[plus] as number)) - (minus < 0 ? 0 : (x[minus] as number));
  // Without a voltage of the right sense there is nothing to draw power from.
  if (draws.some((draw) => across(x, draw) <= 0)) return undefined;
  const diagonal = new Float64Array(base.size);
  const sloped = new Float64Array(upper.length);
  const right = new Float64Array(base.size);
  let previous = Number.POSITIVE_INFINITY;
  for (let step = 0; step < mostNewtonSteps; step++) {
    diagonal.set(base.diagonal);
    sloped.set(upper);
    right.set(rhs);
    for (const draw of draws) {
      const { plus, minus, watts, pair } = draw;
      const volts = across(x, draw);
      const slope = watts / (volts * volts);
      const amps = (2 * watts) / volts;
      if (plus >= 0) {
        diagonal[plus] = (diagonal[plus] as number) - slope;
        right[plus] = (right[plus] as number) - amps;
      }
      if (minus >= 0) {
        diagonal[minus] = (diagonal[minus] as number) - slope;
        right[minus] = (right[minus] as number) + amps;
      }
      if (pair >= 0) {
        const slot = structure.slots[pair] as number;
        sloped[slot] = (sloped[slot] as number) + slope;
      }
    }
    const factor = refactor(structure, diagonal, sloped);
    if (factor === undefined) return undefined;
    const next = solveFactored(factor, right);
    if (draws.some((draw) => !(across(next, draw) > 0))) return undefined;
    let change = 0;
    let scale = 0;
    for (let i = 0; i < next.length; i++) {
      const volts = next[i] as number;
      change = Math.max(change, Math.abs(volts - (x[i] as number)));
      scale = Math.max(scale, Math.abs(volts));
    }
    x = next;
    if (change <= 1e-13 * scale + 1e-15) return x;
    // Resistances over many decades make much of rounding. Newton's steps are quadratic: small ones that shrink no more are
    // rounding, and no collapse. What they leave of the current law is their square.
    if (change <= 1e-7 * scale && change > previous / 2) return x;
    previous = change;
  }
  return undefined;
}

function currentsOf(
  circuit: Circuit,
  share: number,
  volts: Float64Array,
  limited: readonly LimitedState[],
  conducting: readonly boolean[],
  currentActive: readonly boolean[],
  active: (plus: number, minus: number) => boolean,
  converged: boolean,
): Solution {
  const inflow = new Float64Array(circuit.nodeCount);
  let largest = 0;
  const flow = (from: number, to: number, amps: number) => {
    inflow[from] = (inflow[from] ?? 0) - amps;
    inflow[to] = (inflow[to] ?? 0) + amps;
    largest = Math.max(largest, Math.abs(amps));
    return amps;
  };
  const across = (a: number, b: number) => (volts[a] ?? 0) - (volts[b] ?? 0);
  const none = !converged;
  const resistorAmps = Float64Array.from(circuit.resistors, ({ a, b, ohms }) =>
    none ? 0 : flow(a, b, across(a, b) / ohms),
  );
  const emfAmps = Float64Array.from(circuit.emfs, ({ plus, minus, volts: e, ohms }) =>
    none ? 0 : flow(minus, plus, (e - across(plus, minus)) / ohms),
  );
  const limitedAmps = Float64Array.from(circuit.limited, ({ plus, minus, volts: e, ohms, mostAmps }, i) => {
    if (none || limited[i] === 'off') return 0;
    if (limited[i] === 'holds') return flow(minus, plus, (e - across(plus, minus)) / ohms);
    return active(plus, minus) ? flow(minus, plus, mostAmps) : 0;
  });
  const currentAmps = Float64Array.from(circuit.currents, ({ plus, minus, amps }, i) =>
    none || !currentActive[i] ? 0 : flow(plus, minus, amps),
  );
  const powerAmps = Float64Array.from(circuit.powers, ({ plus, minus, watts }) => {
    if (none || watts * share <= 0 || !active(plus, minus)) return 0;
    return flow(plus, minus, (watts * share) / across(plus, minus));
  });
  const diodeAmps = Float64Array.from(circuit.diodes, ({ a, b, volts: lost, ohms }, i) =>
    none || !conducting[i] ? 0 : flow(a, b, (across(a, b) - lost) / ohms),
  );
  const { amps: linkAmps, assumed: linkAssumed } = linkCurrents(circuit.nodeCount, circuit.links, inflow);
  circuit.links.forEach(({ a, b }, i) => {
    inflow[a] = (inflow[a] ?? 0) - (linkAmps[i] ?? 0);
    inflow[b] = (inflow[b] ?? 0) + (linkAmps[i] ?? 0);
  });
  let residual = 0;
  for (const value of inflow) residual = Math.max(residual, Math.abs(value));
  return {
    converged,
    trouble: converged ? undefined : 'collapse',
    feedable: undefined,
    volts,
    resistorAmps,
    linkAmps,
    linkAssumed,
    emfAmps,
    limitedAmps,
    currentAmps,
    powerAmps,
    diodeAmps,
    // Where next to nothing flows the rounding of volts is all there is.
    residual: residual / Math.max(1, largest),
  };
}
