/** Cables and contacts of a case: which carry, what they resist, and how warm their currents make them. */
import type { Case, Run } from '../model/model.ts';
import type { Edge } from '../model/network.ts';
import { atTemperature, conductorCelsius } from '../physics/conductors.ts';
import type { Solved } from '../physics/solve-island.ts';
import type { Flat } from '../physics/topology.ts';
import type { CircuitDraft } from './circuit-draft.ts';
import { defaultAmbientCelsius } from './conditions.ts';
import type { Installation } from './installation.ts';
import type { Electrics, RunElectrics } from './run-electrics.ts';

/** Default drop of a diode, and its resistance beyond that (common practice, no source). */
const diodeVolts = 0.7;
const diodeOhms = 0.001;

/** Edges as they are before anything flows, and those whose temperature follows from their current. */
export interface Cold {
  /** By edge. */
  readonly celsius: Float64Array;
  readonly ohms: Float64Array;
  /** The edges that warm up, and of each what tells how. */
  readonly warms: Int32Array;
  readonly ohmsAt20: Float64Array;
  readonly ambientCelsius: Float64Array;
  readonly mostCelsius: Float64Array;
  readonly capacityAmps: Float64Array;
}

/** By what a case says of temperatures, as long as the same cables count in every bunch. */
const known = new WeakMap<object, Map<Electrics, Map<string, Cold>>>();

export function coldOf(edges: readonly Edge[], electrics: Electrics, stated: Case): Cold {
  const counted = known.get(electrics.counted) ?? new Map<Electrics, Map<string, Cold>>();
  known.set(electrics.counted, counted);
  const own = counted.get(electrics) ?? new Map<string, Cold>();
  counted.set(electrics, own);
  const key = `${stated.ambientCelsius} ${stated.conductorsCelsius}`;
  let cold = own.get(key);
  if (cold === undefined) {
    cold = coldIn(edges, electrics, stated);
    own.set(key, cold);
  }
  return cold;
}

function coldIn(edges: readonly Edge[], electrics: ReadonlyMap<Run, RunElectrics>, stated: Case): Cold {
  const usual = stated.conductorsCelsius ?? stated.ambientCelsius ?? defaultAmbientCelsius;
  const celsius = new Float64Array(edges.length).fill(usual);
  const ohms = new Float64Array(edges.length);
  const warm = { edges: [] as number[], ohmsAt20: [] as number[], ambient: [] as number[] };
  const limits = { most: [] as number[], capacity: [] as number[] };
  for (const edge of edges) {
    const { index } = edge;
    const run = edge.is === 'core' ? electrics.get(edge.core.run) : undefined;
    if (run === undefined) {
      if (edge.is === 'contact' || edge.is === 'body') ohms[index] = edge.ohms;
      continue;
    }
    const ambient = stated.ambientCelsius ?? run.ambientCelsius;
    const at = stated.conductorsCelsius ?? ambient;
    // A size or length that is not known yet has no resistance.
    const { ohmsAt20 = 0, insulationCelsius } = run;
    celsius[index] = at;
    ohms[index] = atTemperature(ohmsAt20, at);
    const capacity = stated.conductorsCelsius === undefined ? run.capacity(stated) : undefined;
    if (capacity === undefined) continue;
    warm.edges.push(index);
    warm.ohmsAt20.push(ohmsAt20);
    warm.ambient.push(ambient);
    limits.most.push(insulationCelsius);
    limits.capacity.push(capacity.amps);
  }
  return {
    celsius,
    ohms,
    warms: Int32Array.from(warm.edges),
    ohmsAt20: Float64Array.from(warm.ohmsAt20),
    ambientCelsius: Float64Array.from(warm.ambient),
    mostCelsius: Float64Array.from(limits.most),
    capacityAmps: Float64Array.from(limits.capacity),
  };
}

export class CaseConductors {
  /** By edge: temperature and, where it carries, resistance as the last solution had them. */
  readonly celsius: Float64Array;
  readonly ohms: Float64Array;
  /** Temperature as the currents of the last solution make it. */
  private readonly nextCelsius: Float64Array;
  private readonly cold: Cold;
  /** By edge its element in the circuit; -1 for none. */
  private readonly elements: Int32Array;

  /** Drawn into `draft` before anything else; `closed` by edge. */
  constructor(
    { network, wiring }: Installation,
    electrics: Electrics,
    stated: Case,
    closed: readonly boolean[],
    draft: CircuitDraft,
  ) {
    const { edges } = network;
    this.cold = coldOf(edges, electrics, stated);
    // In one piece, which costs less than three.
    const count = edges.length;
    const room = new Float64Array(3 * count);
    this.celsius = room.subarray(0, count);
    this.nextCelsius = room.subarray(count, 2 * count);
    this.ohms = room.subarray(2 * count);
    this.celsius.set(this.cold.celsius);
    this.nextCelsius.set(this.cold.celsius);
    this.elements = new Int32Array(count).fill(none);
    for (let index = 0; index < count; index++) {
      if (closed[index] !== true) continue;
      const edge = edges[index] as Edge;
      const a = wiring.circuitNode(edge.from);
      const b = wiring.circuitNode(edge.to);
      // What is solid is one node already.
      if (a === b) continue;
      if (edge.is === 'contact' && edge.contact.operated === 'diode') {
        const { at } = draft.diode(edge.from, edge.to, edge.part.facts.number('loses') ?? diodeVolts, diodeOhms);
        this.elements[index] = diodes + at;
        continue;
      }
      const ohms = this.cold.ohms[index] as number;
      this.ohms[index] = ohms;
      this.elements[index] = draft.conductorBetween(a, b, ohms);
    }
  }

  /** Now that the circuit is drawn: what each edge is in it. */
  placed({ topology: { first } }: Flat): void {
    const { elements } = this;
    for (let edge = 0; edge < elements.length; edge++) {
      const at = elements[edge] as number;
      if (at === none) elements[edge] = -1;
      else if (at >= diodes) elements[edge] = first.diodes + at - diodes;
      else elements[edge] = at >= 0 ? first.resistors + at : first.links - 1 - at;
    }
  }

  /** Current of every edge from its first end to its second, and whether it rests on equal sharing. */
  currents({ amps: all, linkAssumed }: Solved, { topology: { first } }: Flat) {
    const { elements } = this;
    const amps = new Float64Array(elements.length);
    const assumed: boolean[] = [];
    for (let edge = 0; edge < elements.length; edge++) {
      const element = elements[edge] as number;
      if (element >= 0) amps[edge] = all[element] as number;
      assumed.push(element >= first.links && (linkAssumed[element - first.links] ?? false));
    }
    return { amps, assumed };
  }

  /** Takes over how warm a solution makes them; the greatest change in kelvin. */
  settle({ amps }: Solved): number {
    const { elements, celsius, nextCelsius } = this;
    const { warms, ambientCelsius, mostCelsius, capacityAmps } = this.cold;
    let change = 0;
    for (let i = 0; i < warms.length; i++) {
      const edge = warms[i] as number;
      const element = elements[edge] as number;
      const next = conductorCelsius(
        ambientCelsius[i] as number,
        mostCelsius[i] as number,
        element < 0 ? 0 : Math.abs(amps[element] as number),
        capacityAmps[i] as number,
      );
      change = Math.max(change, Math.abs(next - (celsius[edge] as number)));
      nextCelsius[edge] = next;
    }
    return change;
  }

  /** Resistances as warm as that. */
  change({ topology, figures }: Flat): void {
    const { elements, celsius, nextCelsius, ohms } = this;
    const { warms, ohmsAt20 } = this.cold;
    celsius.set(nextCelsius);
    for (let i = 0; i < warms.length; i++) {
      const edge = warms[i] as number;
      const element = elements[edge] as number;
      // A link has no figure.
      if (element < 0 || element >= topology.first.links) continue;
      const warm = atTemperature(ohmsAt20[i] as number, celsius[edge] as number);
      ohms[edge] = warm;
      figures[topology.at.resistors + element] = warm;
    }
  }
}

/** While it is drawn an edge is a place among the resistors from 0 up, among the links from -1 down, among the diodes from here. */
const diodes = 2 ** 30;
const none = -(2 ** 31);
