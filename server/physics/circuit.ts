/** A direct-current circuit for the solver: nodes are integers, everything is SI, nothing knows of text. */

export interface Resistor {
  readonly a: number;
  readonly b: number;
  /** Above 0. */
  readonly ohms: number;
}

/** A way without resistance. */
export interface Link {
  readonly a: number;
  readonly b: number;
}

/** Electromotive force behind a resistance above 0; current counts positive out of plus. */
export interface Emf {
  readonly plus: number;
  readonly minus: number;
  readonly volts: number;
  readonly ohms: number;
}

/** A source that holds its voltage up to a greatest current and then holds that current; it takes none in. */
export interface LimitedSource extends Emf {
  readonly mostAmps: number;
}

/** Draws `amps` in at plus and out at minus; negative amps feed. */
export interface CurrentDraw {
  readonly plus: number;
  readonly minus: number;
  readonly amps: number;
}

/** Draws constant power between plus and minus. */
export interface PowerDraw {
  readonly plus: number;
  readonly minus: number;
  readonly watts: number;
}

/** Conducts from a to b only, losing `volts`, behind `ohms` above 0. */
export interface Diode {
  readonly a: number;
  readonly b: number;
  readonly volts: number;
  readonly ohms: number;
}

export interface Circuit {
  readonly nodeCount: number;
  readonly resistors: readonly Resistor[];
  readonly links: readonly Link[];
  readonly emfs: readonly Emf[];
  readonly limited: readonly LimitedSource[];
  readonly currents: readonly CurrentDraw[];
  readonly powers: readonly PowerDraw[];
  readonly diodes: readonly Diode[];
  /** Nodes that are 0 V where their connected part has one; the first listed wins. */
  readonly references: readonly number[];
}

/** An island whose constant-power loads ask more than its sources and wiring can feed. */
export interface Collapse {
  /** Its constant-power loads, by their index in the circuit; none where its constant currents alone are too much. */
  readonly powers: readonly number[];
  /** The greatest part of their power, all in proportion, that would still be fed; exact to about 1e-8 of itself. */
  readonly feedable: number;
  /** Those whose voltage falls away: at the edge they lose most by a little more power. */
  readonly weak: readonly number[];
  /** The greatest part of the power of these alone that would still be fed while the others have all of theirs. */
  readonly weakFeedable: number;
}

export interface Solution {
  readonly converged: boolean;
  /** `collapse`: the constant-power loads ask more than the wiring can feed; `unsettled`: no stable state was found. */
  readonly trouble: 'collapse' | 'unsettled' | undefined;
  /** One an island that collapsed. Its volts and currents are 0; those of the other islands stand. */
  readonly collapses: readonly Collapse[];
  readonly volts: Float64Array;
  readonly resistorAmps: Float64Array;
  readonly linkAmps: Float64Array;
  /** Links whose current rests on the assumption that all ways of a loop without resistance share alike. */
  readonly linkAssumed: readonly boolean[];
  readonly emfAmps: Float64Array;
  readonly limitedAmps: Float64Array;
  readonly currentAmps: Float64Array;
  readonly powerAmps: Float64Array;
  readonly diodeAmps: Float64Array;
  /** Greatest error of Kirchhoff's current law at a node, over the greatest current there is, or over 1 A. */
  readonly residual: number;
}
