/** Cables and contacts of a case: what they resist, and how warm their currents make them. */
import type { Case, Run } from '../model/model.ts';
import type { Edge } from '../model/network.ts';
import { atTemperature, conductorCelsius } from '../physics/conductors.ts';
import type { Solved } from '../physics/solve-island.ts';
import type { Flat } from '../physics/topology.ts';
import { defaultAmbientCelsius } from './conditions.ts';
import type { ConductorsDrawn } from './conductors-drawn.ts';
import type { Electrics, RunElectrics } from './run-electrics.ts';

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
  /** By edge. */
  private readonly elements: Int32Array;

  /** As cold as they are in `cold`, which goes into the circuit. */
  constructor(
    drawn: ConductorsDrawn,
    private readonly cold: Cold,
    circuit: Flat,
  ) {
    this.elements = drawn.elements;
    // In one piece, which costs less than three.
    const count = this.elements.length;
    const room = new Float64Array(3 * count);
    this.celsius = room.subarray(0, count);
    this.nextCelsius = room.subarray(count, 2 * count);
    this.ohms = room.subarray(2 * count);
    this.celsius.set(cold.celsius);
    this.nextCelsius.set(cold.celsius);
    drawn.resist(cold.ohms, circuit, this.ohms);
  }

  /** Current of every edge from its first end to its second, and whether it rests on equal sharing: nothing where none does. */
  currents({ amps: all, linkAssumed }: Solved, { topology: { first } }: Flat) {
    const { elements } = this;
    const amps = new Float64Array(elements.length);
    const assumed: boolean[] = [];
    const sharing = linkAssumed.includes(true);
    for (let edge = 0; edge < elements.length; edge++) {
      const element = elements[edge] as number;
      if (element >= 0) amps[edge] = all[element] as number;
      if (sharing) assumed.push(element >= first.links && (linkAssumed[element - first.links] ?? false));
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
