/**
 * Cables and contacts as they are drawn into the circuit of a case: which carry, and what each is there. Their resistance comes
 * into it later, so that the same drawing serves other cables.
 */
import type { Edge } from '../model/network.ts';
import type { Flat, Topology } from '../physics/topology.ts';
import type { CircuitDraft } from './circuit-draft.ts';
import type { Installation } from './installation.ts';

/** Default drop of a diode, and its resistance beyond that (common practice, no source). */
const diodeVolts = 0.7;
const diodeOhms = 0.001;

/** While it is drawn an edge is a place among the resistors from 0 up, among the links from -1 down, among the diodes from here. */
const diodes = 2 ** 30;
const none = -(2 ** 31);

export class ConductorsDrawn {
  /** By edge its element in the circuit; -1 for none. */
  readonly elements: Int32Array;

  /** Drawn into `draft` before anything else; `closed` and `ohms` by edge. */
  constructor({ network, wiring }: Installation, closed: readonly boolean[], ohms: Float64Array, draft: CircuitDraft) {
    const { edges } = network;
    this.elements = new Int32Array(edges.length).fill(none);
    for (let index = 0; index < edges.length; index++) {
      if (closed[index] !== true) continue;
      const edge = edges[index] as Edge;
      const a = wiring.circuitNode(edge.from);
      const b = wiring.circuitNode(edge.to);
      // What is solid is one node already.
      if (a === b) continue;
      if (edge.is === 'contact' && edge.contact.operated === 'diode') {
        const { at } = draft.diode(edge.from, edge.to, edge.part.facts.number('loses') ?? diodeVolts, diodeOhms);
        this.elements[index] = diodes + at;
      } else this.elements[index] = draft.conductorBetween(a, b, ohms[index] as number);
    }
  }

  /** Now that the circuit is drawn: what each edge is in it. */
  placed({ first }: Topology): void {
    const { elements } = this;
    for (let edge = 0; edge < elements.length; edge++) {
      const at = elements[edge] as number;
      if (at === none) elements[edge] = -1;
      else if (at >= diodes) elements[edge] = first.diodes + at - diodes;
      else elements[edge] = at >= 0 ? first.resistors + at : first.links - 1 - at;
    }
  }

  /** Whether the drawing is the same with these resistances: what has none is a link. */
  fit(ohms: Float64Array, { first, counts }: Topology): boolean {
    const { elements } = this;
    for (let edge = 0; edge < elements.length; edge++) {
      const element = elements[edge] as number;
      if (element >= 0 && element < first.links && !((ohms[edge] as number) > 0)) return false;
      if (element >= first.links && element < first.links + counts.links && (ohms[edge] as number) > 0) return false;
    }
    return true;
  }

  /** Puts resistances into the circuit, and into `carrying` those of what carries. */
  resist(ohms: Float64Array, { topology, figures }: Flat, carrying: Float64Array): void {
    const { elements } = this;
    const { first, at } = topology;
    for (let edge = 0; edge < elements.length; edge++) {
      const element = elements[edge] as number;
      if (element < 0 || element >= first.emfs) continue;
      const own = ohms[edge] as number;
      carrying[edge] = own;
      // A link has no figure.
      if (element < first.links) figures[at.resistors + element] = own;
    }
  }
}
