/** One case worked out: from what the case says to a circuit, and from its solution to currents, volts and drops. */
import type { Case, Core, Model, Part, Run, Terminal } from '../model/model.ts';
import type { ContactEdge, Edge, Network } from '../model/network.ts';
import type { CurrentDraw, Diode, Emf, LimitedSource, Link, PowerDraw, Resistor, Solution } from '../physics/circuit.ts';
import { atTemperature, conductorCelsius } from '../physics/conductors.ts';
import type { Capacity } from '../physics/limits/limit-set.ts';
import { solveCircuit } from '../physics/solve.ts';
import { defaultInternalOhms, electromotiveForce } from '../tables/battery.ts';
import type { PanelString } from './strings.ts';
import { type Draw, efficiencyOf, lowestInputVolts, type Source } from './supplies.ts';
import type { Topology } from './topology.ts';

/** What the solver needs of a run, once for all cases. */
export interface RunElectrics {
  readonly ohmsAt20: number | undefined;
  readonly insulationCelsius: number;
  readonly ambientCelsius: number;
  capacity(stated: Case): Capacity | undefined;
}

export interface CaseInput {
  readonly model: Model;
  readonly network: Network;
  readonly topology: Topology;
  readonly sources: readonly Source[];
  readonly draws: readonly Draw[];
  readonly strings: readonly PanelString[];
  readonly electrics: ReadonlyMap<Run, RunElectrics>;
  /** Nominal voltage of the supply a draw hangs on. */
  nominalAt(draw: Draw): number;
  /** Draw constant-power parts at their lowest stated voltage, for design currents. */
  readonly atLowest: boolean;
}

export interface OperatingPoint {
  readonly stated: Case;
  readonly solution: Solution;
  /** Signed current of every edge, from → to; `assumed` where it rests on equal sharing. */
  readonly edgeAmps: Float64Array;
  readonly assumed: readonly boolean[];
  readonly closed: readonly boolean[];
  readonly celsius: ReadonlyMap<Core, number>;
  readonly ohms: ReadonlyMap<Core, number>;
  readonly drawAmps: ReadonlyMap<Draw, number>;
  readonly sourceAmps: ReadonlyMap<Source, number>;
  voltsAt(terminal: Terminal): number;
}

/** Resistance of a converter's or alternator's regulated output, so that it is never ideal (common practice, no source). */
const regulatorOhms = 0.001;
const diodeVolts = 0.7;
const diodeOhms = 0.001;
/** Part of a coil's rated voltage at which a relay surely picks up (common practice, no source). */
const pickUp = 0.7;

export function operatingPoint(input: CaseInput, stated: Case): OperatingPoint {
  const { network } = input;
  const energised = new Map<Part, boolean>();
  let point = solveWith(input, stated, energised);
  // Relays follow their coils; a pair that keep each other going settles or is left as it last was.
  for (let round = 0; round < 8; round++) {
    let changed = false;
    for (const part of relaysOf(network)) {
      const next = coilOn(input, point, part, stated);
      if (next !== (energised.get(part) ?? false)) {
        energised.set(part, next);
        changed = true;
      }
    }
    if (!changed) break;
    point = solveWith(input, stated, energised);
  }
  return point;
}

function relaysOf(network: Network): Set<Part> {
  const relays = new Set<Part>();
  for (const edge of network.edges) if (edge.is === 'contact' && edge.contact.operated.startsWith('coil')) relays.add(edge.part);
  return relays;
}

function coilOn(input: CaseInput, point: OperatingPoint, part: Part, stated: Case): boolean {
  const said = stated.on.get(part.name);
  if (said !== undefined) return said;
  const coil = input.draws.find((draw) => draw.part === part && draw.is === 'coil');
  const rated = part.facts.number('coil', 'voltage');
  if (coil === undefined || rated === undefined || !point.solution.converged) return false;
  const volts = Math.abs(point.voltsAt(coil.plus) - point.voltsAt(coil.minus));
  return volts >= (part.facts.number('opens-below') ?? pickUp * rated);
}

function isClosed(edge: ContactEdge, stated: Case, energised: ReadonlyMap<Part, boolean>): boolean {
  switch (edge.contact.operated) {
    case 'coil':
      return energised.get(edge.part) ?? false;
    case 'coil-rest':
      return !(energised.get(edge.part) ?? false);
    case 'hand':
    case 'position':
      return stated.on.get(edge.part.name) ?? true;
    default:
      return true;
  }
}

function solveWith(input: CaseInput, stated: Case, energised: ReadonlyMap<Part, boolean>): OperatingPoint {
  const { network, topology, electrics } = input;
  const closed = network.edges.map((edge) => edge.is !== 'contact' || isClosed(edge, stated, energised));
  const celsius = new Map<Core, number>();
  for (const edge of network.edges) {
    if (edge.is !== 'core') continue;
    const run = electrics.get(edge.core.run);
    celsius.set(edge.core, stated.conductorsCelsius ?? stated.ambientCelsius ?? run?.ambientCelsius ?? 30);
  }
  const inputWatts = new Map<Part, number>();
  let result: { solution: Solution; edgeAmps: Float64Array; assumed: boolean[]; ohms: Map<Core, number>; drawAmps: Map<Draw, number>; sourceAmps: Map<Source, number> };
  // Temperature and current, and a converter's output and input, are settled together.
  for (let round = 0; ; round++) {
    result = solveOnce(input, stated, closed, celsius, inputWatts);
    if (!result.solution.converged || round >= 25) break;
    let change = 0;
    if (stated.conductorsCelsius === undefined) {
      for (const edge of network.edges) {
        if (edge.is !== 'core') continue;
        const run = electrics.get(edge.core.run);
        if (run === undefined) continue;
        const ambient = stated.ambientCelsius ?? run.ambientCelsius;
        const capacity = run.capacity(stated);
        if (capacity === undefined) continue;
        const next = conductorCelsius(ambient, run.insulationCelsius, Math.abs(result.edgeAmps[edge.index] ?? 0), capacity.amps);
        change = Math.max(change, Math.abs(next - (celsius.get(edge.core) ?? ambient)));
        celsius.set(edge.core, next);
      }
    }
    for (const source of input.sources) {
      const word = source.part.kind.word;
      if (word !== 'charger' && word !== 'converter') continue;
      const volts = (result.solution.volts[topology.of(source.plus)] ?? 0) - (result.solution.volts[topology.of(source.minus)] ?? 0);
      const watts = Math.max(0, (volts * (result.sourceAmps.get(source) ?? 0)) / efficiencyOf(source.part));
      change = Math.max(change, Math.abs(watts - (inputWatts.get(source.part) ?? 0)));
      inputWatts.set(source.part, watts);
    }
    if (change < 1e-10) break;
  }
  const { solution } = result;
  return {
    stated,
    ...result,
    closed,
    celsius,
    voltsAt: (terminal) => solution.volts[topology.of(terminal)] ?? 0,
  };
}

function solveOnce(
  input: CaseInput,
  stated: Case,
  closed: readonly boolean[],
  celsius: ReadonlyMap<Core, number>,
  inputWatts: ReadonlyMap<Part, number>,
) {
  const { model, network, topology, electrics } = input;
  const resistors: Resistor[] = [];
  const links: Link[] = [];
  const diodes: Diode[] = [];
  const of = (terminal: Terminal) => topology.of(terminal);
  const ohms = new Map<Core, number>();
  const where: { readonly edge: Edge; readonly as: 'resistor' | 'link' | 'diode'; readonly at: number }[] = [];
  const conduct = (edge: Edge, value: number) => {
    const [a, b] = [of(edge.from), of(edge.to)];
    if (value > 0) where.push({ edge, as: 'resistor', at: resistors.push({ a, b, ohms: value }) - 1 });
    else where.push({ edge, as: 'link', at: links.push({ a, b }) - 1 });
  };
  for (const edge of network.edges) {
    if (!closed[edge.index]) continue;
    if (edge.is === 'core') {
      const cold = electrics.get(edge.core.run)?.ohmsAt20 ?? 0;
      const value = atTemperature(cold, celsius.get(edge.core) ?? 20);
      ohms.set(edge.core, value);
      conduct(edge, value);
    } else if (edge.is === 'contact' && edge.contact.operated === 'diode') {
      const volts = edge.part.facts.number('loses') ?? diodeVolts;
      where.push({ edge, as: 'diode', at: diodes.push({ a: of(edge.from), b: of(edge.to), volts, ohms: diodeOhms }) - 1 });
    } else conduct(edge, edge.is === 'bar' ? 0 : edge.ohms);
  }
  const reach = closedParts(topology, network, closed);
  const emfs: Emf[] = [];
  const limited: LimitedSource[] = [];
  const currents: CurrentDraw[] = [];
  const powers: PowerDraw[] = [];
  const sourceAt = new Map<Source, { readonly as: 'emf' | 'limited' | 'current'; readonly at: number }>();
  const drawAt = new Map<Draw, { readonly as: 'power' | 'current' | 'resistor'; readonly at: number }>();
  const sun = stated.sun ?? 0;
  for (const source of input.sources) {
    const { part, plus, minus } = source;
    const ends = { plus: of(plus), minus: of(minus) };
    const on = stated.on.get(part.name) ?? stated.allSources ?? false;
    switch (part.kind.word) {
      case 'battery': {
        const volts = batteryVolts(part, stated);
        const internal = part.facts.number('internal') ?? 0;
        const capacity = part.facts.number('capacity');
        const inside =
          internal > 0
            ? internal
            : defaultInternalOhms(part.facts.word('chemistry') ?? 'lead-acid', part.facts.number('voltage') ?? 12, capacity === undefined ? undefined : capacity / 3600);
        sourceAt.set(source, { as: 'emf', at: emfs.push({ ...ends, volts, ohms: inside }) - 1 });
        break;
      }
      case 'alternator':
        if (on && (source.limitAmps ?? 0) > 0)
          sourceAt.set(source, { as: 'limited', at: limited.push({ ...ends, volts: source.nominalVolts ?? 14, ohms: regulatorOhms, mostAmps: source.limitAmps ?? 0 }) - 1 });
        break;
      case 'converter':
        if (stated.on.get(part.name) ?? true)
          sourceAt.set(source, { as: 'limited', at: limited.push({ ...ends, volts: source.nominalVolts ?? 0, ohms: regulatorOhms, mostAmps: source.limitAmps ?? 0 }) - 1 });
        break;
      case 'charger':
      case 'inverter':
        if (on) sourceAt.set(source, { as: 'current', at: currents.push({ ...ends, amps: -(source.limitAmps ?? 0) }) - 1 });
        break;
      case 'controller':
        if (source.side === 'bat' && sun > 0 && (stated.on.get(part.name) ?? true)) {
          const watts = panelWatts(input, part, reach);
          const volts = batteryAt(input, stated, source, reach);
          const amps = volts > 0 ? Math.min(source.limitAmps ?? 0, (0.95 * watts * sun) / volts) : 0;
          if (amps > 0) sourceAt.set(source, { as: 'current', at: currents.push({ ...ends, amps: -amps }) - 1 });
        }
        break;
    }
  }
  panelSide(input, reach, sun, emfs, currents, sourceAt);
  for (const part of model.parts.values()) {
    // A conversion part with a common conductor joins its sides there.
    if (part.kind.behaviour.is !== 'converter' || part.facts.word('common') !== 'common') continue;
    const sign = part.facts.word('common', 'pole') === 'positive' ? '+' : '-';
    const poles = part.terminals.filter(({ spec }) => spec.polarity === sign && spec.side !== undefined);
    for (let i = 1; i < poles.length; i++) {
      const [first, other] = [poles[0], poles[i]];
      if (first !== undefined && other !== undefined) links.push({ a: of(first), b: of(other) });
    }
  }
  for (const draw of input.draws) {
    const ends = { plus: of(draw.plus), minus: of(draw.minus) };
    let { as, amount } = draw;
    if (draw.is === 'load') {
      if (!(stated.on.get(draw.part.name) ?? stated.allLoads ?? false)) continue;
    } else if (draw.is === 'input') amount = inputWatts.get(draw.part) ?? 0;
    if (!(amount > 0)) continue;
    if (as === 'power' && input.atLowest) {
      const lowest = lowestInputVolts(draw, input.nominalAt(draw));
      if (!(lowest > 0)) continue;
      as = 'current';
      amount /= lowest;
    }
    if (as === 'power') drawAt.set(draw, { as: 'power', at: powers.push({ ...ends, watts: amount }) - 1 });
    else if (as === 'current') drawAt.set(draw, { as: 'current', at: currents.push({ ...ends, amps: amount }) - 1 });
    else drawAt.set(draw, { as: 'resistor', at: resistors.push({ a: ends.plus, b: ends.minus, ohms: amount }) - 1 });
  }
  const solution = solveCircuit({ nodeCount: topology.terminals.length, resistors, links, emfs, limited, currents, powers, diodes, references: referencesOf(input) });
  const edgeAmps = new Float64Array(network.edges.length);
  const assumed = network.edges.map(() => false);
  for (const { edge, as, at } of where) {
    if (as === 'resistor') edgeAmps[edge.index] = solution.resistorAmps[at] ?? 0;
    else if (as === 'diode') edgeAmps[edge.index] = solution.diodeAmps[at] ?? 0;
    else {
      edgeAmps[edge.index] = solution.linkAmps[at] ?? 0;
      assumed[edge.index] = solution.linkAssumed[at] ?? false;
    }
  }
  const drawAmps = new Map<Draw, number>();
  for (const [draw, { as, at }] of drawAt)
    drawAmps.set(draw, (as === 'power' ? solution.powerAmps[at] : as === 'current' ? solution.currentAmps[at] : solution.resistorAmps[at]) ?? 0);
  const sourceAmps = new Map<Source, number>();
  for (const [source, { as, at }] of sourceAt)
    sourceAmps.set(source, as === 'emf' ? (solution.emfAmps[at] ?? 0) : as === 'limited' ? (solution.limitedAmps[at] ?? 0) : -(solution.currentAmps[at] ?? 0));
  return { solution, edgeAmps, assumed, ohms, drawAmps, sourceAmps };
}

/** Electromotive force of a battery in a case: said in volts, by its charge, else its stated voltage. */
export function batteryVolts(part: Part, stated: Case): number {
  const nominal = part.facts.number('voltage') ?? 12;
  const said = stated.voltsOf.get(part.name);
  if (said !== undefined) return said;
  const charge = stated.chargeOf.get(part.name) ?? stated.charge;
  return charge === undefined ? nominal : electromotiveForce(part.facts.word('chemistry') ?? 'lead-acid', nominal, charge);
}

/** Connected part of every terminal with the case's contacts as they stand. */
function closedParts(topology: Topology, network: Network, closed: readonly boolean[]): (terminal: Terminal) => number {
  const parent = Int32Array.from(topology.terminals, (_, i) => i);
  const find = (i: number): number => {
    let node = i;
    while (parent[node] !== node) node = parent[node] = parent[parent[node] ?? 0] ?? 0;
    return node;
  };
  for (const edge of network.edges) if (closed[edge.index]) parent[find(topology.of(edge.from))] = find(topology.of(edge.to));
  return (terminal) => find(topology.of(terminal));
}

/** Strings whose two ends reach a controller's panel terminals as the contacts stand. */
function stringsAt(input: CaseInput, part: Part, reach: (terminal: Terminal) => number): PanelString[] {
  const plus = part.terminals.find(({ spec }) => spec.side === 'pv' && spec.polarity === '+');
  const minus = part.terminals.find(({ spec }) => spec.side === 'pv' && spec.polarity === '-');
  if (plus === undefined || minus === undefined) return [];
  return input.strings.filter((string) => reach(string.plus) === reach(plus) && reach(string.minus) === reach(minus));
}

function panelWatts(input: CaseInput, part: Part, reach: (terminal: Terminal) => number): number {
  return stringsAt(input, part, reach).reduce((sum, string) => sum + string.powerWatts, 0);
}

/** Voltage of the battery that an output charges; 0 when it reaches none. */
function batteryAt(input: CaseInput, stated: Case, source: Source, reach: (terminal: Terminal) => number): number {
  const battery = input.sources.find((other) => other.part.kind.word === 'battery' && reach(other.plus) === reach(source.plus));
  return battery === undefined ? 0 : batteryVolts(battery.part, stated);
}

/**
 * Until panels have a curve of their own, a string gives its current at greatest power times the sun, taken up by the
 * controller at the string's voltage there: so the cables of the panel side carry what they carry.
 */
function panelSide(
  input: CaseInput,
  reach: (terminal: Terminal) => number,
  sun: number,
  emfs: Emf[],
  currents: CurrentDraw[],
  sourceAt: Map<Source, { readonly as: 'emf' | 'limited' | 'current'; readonly at: number }>,
): void {
  if (!(sun > 0)) return;
  for (const part of input.model.parts.values()) {
    const strings = stringsAt(input, part, reach);
    const plus = part.terminals.find(({ spec }) => spec.side === 'pv' && spec.polarity === '+');
    const minus = part.terminals.find(({ spec }) => spec.side === 'pv' && spec.polarity === '-');
    if (strings.length === 0 || plus === undefined || minus === undefined) continue;
    const volts = Math.min(...strings.map(({ vmp }) => vmp));
    emfs.push({ plus: input.topology.of(plus), minus: input.topology.of(minus), volts, ohms: regulatorOhms });
    for (const string of strings) {
      for (const panel of string.panels) {
        const source = input.sources.find((candidate) => candidate.part === panel);
        if (source === undefined) continue;
        const at = currents.push({ plus: input.topology.of(source.plus), minus: input.topology.of(source.minus), amps: -string.imp * sun }) - 1;
        sourceAt.set(source, { as: 'current', at });
      }
    }
  }
}

/** Reference nodes: negatives of batteries by name, then of other sources in statement order. */
function referencesOf(input: CaseInput): number[] {
  const batteries = input.sources.filter(({ part }) => part.kind.word === 'battery').sort((a, b) => (a.part.name < b.part.name ? -1 : 1));
  const others = input.sources.filter(({ part }) => part.kind.word !== 'battery');
  return [...batteries, ...others].map(({ minus }) => input.topology.of(minus));
}

