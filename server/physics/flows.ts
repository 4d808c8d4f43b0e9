/** Currents as they follow from volts, to the last digit, and what they bring into each node. */
import type { Topology } from './topology.ts';

/** Currents of all elements but links at some volts, and what they bring into each node. */
export class Flows {
  readonly amps: Float64Array;
  readonly inflow: Float64Array;
  private readonly ends: Int32Array;

  constructor({ elements, nodeCount, ends }: Topology) {
    this.amps = new Float64Array(elements);
    this.inflow = new Float64Array(nodeCount);
    this.ends = ends;
  }

  clear(): void {
    this.amps.fill(0);
    this.inflow.fill(0);
  }

  /** Through an element, in at its first end. */
  through(element: number, amps: number): void {
    this.amps[element] = amps;
    this.bring(2 * element, 2 * element + 1, amps);
  }

  /** Out of a source's plus, its first end. */
  outOf(element: number, amps: number): void {
    this.amps[element] = amps;
    this.bring(2 * element + 1, 2 * element, amps);
  }

  private bring(from: number, to: number, amps: number): void {
    const { ends, inflow } = this;
    const a = ends[from] as number;
    const b = ends[to] as number;
    inflow[a] = (inflow[a] as number) - amps;
    inflow[b] = (inflow[b] as number) + amps;
  }
}

/** `volts` less those across an element, at volts of its rows that are `high` and `low` together. */
export function short(volts: number, element: number, ends: Int32Array, high: Float64Array, low: Float64Array): number {
  const i = ends[2 * element] as number;
  const j = ends[2 * element + 1] as number;
  const va = high[i] as number;
  const vb = high[j] as number;
  const difference = va - vb;
  const part = difference - va;
  // What rounding took from the difference (O. Møller, D. Knuth: TwoSum).
  const lost = va - (difference - part) - (vb + part);
  return volts - difference - (lost + ((low[i] as number) - (low[j] as number)));
}

/** Of figures without their sign. */
export function greatest(values: Float64Array): number {
  let most = 0;
  for (let i = 0; i < values.length; i++) most = Math.max(most, Math.abs(values[i] as number));
  return most;
}
