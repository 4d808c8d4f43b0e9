/**
 * One case worked out: from what it says to a circuit, and from its solution to currents and volts. Conductor temperatures,
 * converter inputs and relays depend on the answer; they are settled together with it.
 */
import { keptWith } from '../model/lazily.ts';
import type { Case, Part, Terminal } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import type { SolvedBefore } from '../physics/solved-before.ts';
import type { Overload } from './answers.ts';
import { arrangementOf } from './arrangement.ts';
import { CaseCircuit } from './case-circuit.ts';
import { coldOf } from './case-conductors.ts';
import { CaseDrawings } from './case-drawing.ts';
import { type Connections, isSameSettling, pickUpVolts, type Settling } from './contacts-in-case.ts';
import type { Installation } from './installation.ts';
import type { Purpose } from './loads.ts';
import type { Draw, Port, Source } from './ports.ts';
import type { Electrics } from './run-electrics.ts';

export interface OperatingPoint {
  readonly stated: Case;
  readonly converged: boolean;
  /** Why there is no answer, in plain words. */
  readonly trouble: string | undefined;
  /** What asks more than can be fed, island by island. */
  readonly overloads: readonly Overload[];
  /** What draws power and nothing can feed, where that is why there is no answer. */
  readonly unfed: readonly Part[];
  readonly connections: Connections;
  /** Relays and inputs as they came to rest. */
  readonly settling: Settling;
  /** By edge index: from → to. */
  readonly amps: Float64Array;
  /** By edge index, whether that rests on equal sharing; empty where none does. */
  readonly assumed: readonly boolean[];
  /** By edge index: conductor temperature and resistance at it. */
  readonly celsius: Float64Array;
  readonly ohms: Float64Array;
  /** Into a draw's plus, and out of a source's. */
  readonly drawAmps: ReadonlyMap<Draw, number>;
  readonly sourceAmps: ReadonlyMap<Source, number>;
  /** Sources that hold a voltage and are asked for more than they can give. */
  readonly limited: ReadonlySet<Source>;
  readonly energised: ReadonlySet<Part>;
  voltsAt(terminal: Terminal): number;
  /** Plus less minus. */
  across(port: Pick<Port, 'plus' | 'minus'>): number;
  /** Greatest error of Kirchhoff's current law, per ampere of the greatest current. */
  readonly residual: number;
}

const nobody: ReadonlySet<Part> = new Set();
const asLeft: Settling = { energised: nobody, dropped: nobody, unfed: nobody };

const mostSettlings = 8;
const mostRounds = 60;

export function operatingPoint(
  installation: Installation,
  electrics: Electrics,
  stated: Case,
  purpose: Purpose,
  before: SolvedBefore,
  /** Where its relays and inputs stand before: released, all fed, unless it comes of another. */
  from: Settling = asLeft,
  /** Of this case for this purpose, if it has been drawn before. */
  drawings: CaseDrawings = new CaseDrawings(),
): OperatingPoint {
  const cold = coldOf(installation.network.edges, electrics, stated);
  const circuitIn = (state: Settling) => {
    const drawing = drawings.of(installation, cold.ohms, stated, state, purpose);
    return new CaseCircuit(installation, drawing, cold, stated, state, purpose, before);
  };
  let settling = from;
  let circuit = circuitIn(settling);
  // Relays and inputs mostly settle on a first look, before anything has warmed up.
  let warm = false;
  for (let step = 0; ; step++) {
    const next = nextSettling(installation, circuit, stated, settling);
    const rests = isSameSettling(next, settling);
    if (rests && (warm || !circuit.converged)) return circuit.point();
    if (rests) warm = true;
    else {
      if (step >= mostSettlings) return restless(circuit.point(), settling, next);
      settling = next;
      circuit = circuitIn(settling);
    }
    if (warm) circuit.settle(mostRounds);
  }
}

/** Relays and converters after a solution: what it would switch. */
function nextSettling({ draws, layout }: Installation, circuit: CaseCircuit, stated: Case, before: Settling): Settling {
  const energised: Part[] = [];
  const dropped: Part[] = [];
  for (const { part, coil } of relaysOf(layout)) {
    const said = stated.on.get(part.name);
    const needed = pickUpVolts(part, before.dropped.has(part));
    const pulls =
      coil !== undefined && needed !== undefined && circuit.converged && Math.abs(circuit.across(coil)) >= needed;
    if (said ?? pulls) energised.push(part);
    else if (before.energised.has(part)) dropped.push(part);
  }
  const fed = new Map<Part, boolean>();
  for (const draw of draws)
    if (draw.is === 'input')
      fed.set(draw.part, (fed.get(draw.part) ?? false) || !circuit.converged || circuit.feeds(draw));
  const unfed: Part[] = [];
  for (const [part, has] of fed) if (!has) unfed.push(part);
  return {
    energised: setOf(energised),
    dropped: dropped.length === 0 ? before.dropped : new Set([...before.dropped, ...dropped]),
    unfed: setOf(unfed),
  };
}

function setOf(parts: readonly Part[]): ReadonlySet<Part> {
  return parts.length === 0 ? nobody : new Set(parts);
}

/** A part with contacts that a coil moves, and its coil. */
interface Relay {
  readonly part: Part;
  readonly coil: Draw | undefined;
}

const relaysOf = keptWith((layout: Layout): readonly Relay[] => {
  const { draws } = arrangementOf(layout);
  const parts = new Set<Part>();
  for (const joint of layout.joints)
    if (joint.is === 'contact' && joint.contact.operated.startsWith('coil')) parts.add(joint.part);
  return [...parts].map((part) => ({ part, coil: draws.find((draw) => draw.is === 'coil' && draw.part === part) }));
});

function restless(point: OperatingPoint, before: Settling, after: Settling): OperatingPoint {
  const changing = [...before.energised, ...after.energised].filter(
    (part) => before.energised.has(part) !== after.energised.has(part),
  );
  const name = changing[0]?.name;
  return {
    ...point,
    converged: false,
    overloads: [],
    unfed: [],
    trouble:
      name === undefined
        ? 'no stable state was found'
        : `${name} never comes to rest: its contact takes away what its coil needs`,
  };
}
