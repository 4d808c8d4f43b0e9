/**
 * One case worked out: from what it says to a circuit, and from its solution to currents and volts. Conductor temperatures,
 * converter inputs and relays depend on the answer; they are settled together with it.
 */
import type { Case, Part, Run, Terminal } from '../model/model.ts';
import type { Edge } from '../model/network.ts';
import type { Solution } from '../physics/circuit.ts';
import { atTemperature, conductorCelsius } from '../physics/conductors.ts';
import type { Capacity } from '../physics/limits/limit-set.ts';
import { solveCircuit } from '../physics/solve.ts';
import { ampsOf, CircuitDraft, type Element, isAssumed } from './circuit-draft.ts';
import { defaultAmbientCelsius, defaultInsulationCelsius } from './conditions.ts';
import { type Connections, connectionsIn, pickUpVolts, type Settling } from './contacts-in-case.ts';
import type { Installation } from './installation.ts';
import { addDraws, type Purpose, reachesSupply } from './loads.ts';
import { type Draw, efficiencyOf, type Port, type Source } from './ports.ts';
import { addSources } from './sources.ts';

/** What the solver needs of a run. */
export interface RunElectrics {
  /** Of one core, in ohm; undefined while its size or length is not known. */
  readonly ohmsAt20: number | undefined;
  readonly insulationCelsius: number;
  readonly ambientCelsius: number;
  capacity(stated: Case): Capacity | undefined;
}

export interface OperatingPoint {
  readonly stated: Case;
  readonly converged: boolean;
  /** Why there is no answer, in plain words. */
  readonly trouble: string | undefined;
  readonly connections: Connections;
  /** By edge index: from → to; whether it rests on equal sharing; conductor temperature and resistance at it. */
  readonly amps: Float64Array;
  readonly assumed: readonly boolean[];
  readonly celsius: Float64Array;
  readonly ohms: Float64Array;
  /** Into a draw's plus, and out of a source's. */
  readonly drawAmps: ReadonlyMap<Draw, number>;
  readonly sourceAmps: ReadonlyMap<Source, number>;
  readonly energised: ReadonlySet<Part>;
  voltsAt(terminal: Terminal): number;
  /** Plus less minus. */
  across(port: Pick<Port, 'plus' | 'minus'>): number;
  /** Greatest error of Kirchhoff's current law, per ampere of the greatest current. */
  readonly residual: number;
}

/** Default drop of a diode, and its resistance beyond that (common practice, no source). */
const diodeVolts = 0.7;
const diodeOhms = 0.001;

const mostSettlings = 8;
const mostRounds = 60;
/** Kelvin and watt within which temperatures and converter inputs count as settled. */
const settled = 1e-9;

export function operatingPoint(
  installation: Installation,
  electrics: ReadonlyMap<Run, RunElectrics>,
  stated: Case,
  purpose: Purpose,
): OperatingPoint {
  let settling: Settling = { energised: new Set(), unfed: new Set() };
  // Relays and inputs mostly settle on a first look, before anything has warmed up.
  let rounds = 0;
  for (let step = 0; ; step++) {
    const point = settledPoint(installation, electrics, stated, settling, purpose, rounds);
    const next = nextSettling(installation, point, stated);
    const rests = sameSet(next.energised, settling.energised) && sameSet(next.unfed, settling.unfed);
    if (rests && (rounds === mostRounds || !point.converged)) return point;
    if (rests) rounds = mostRounds;
    else if (step >= mostSettlings) return restless(point, settling, next);
    settling = next;
  }
}

/** Relays and converters after a solution: what it would switch. */
function nextSettling({ draws, network }: Installation, point: OperatingPoint, stated: Case): Settling {
  const energised = new Set<Part>();
  const coils = new Map(draws.filter(({ is }) => is === 'coil').map((draw) => [draw.part, draw]));
  for (const edge of network.edges) {
    if (edge.is !== 'contact' || !edge.contact.operated.startsWith('coil')) continue;
    const said = stated.on.get(edge.part.name);
    const coil = coils.get(edge.part);
    const needed = pickUpVolts(edge.part);
    const pulls =
      coil !== undefined && needed !== undefined && point.converged && Math.abs(point.across(coil)) >= needed;
    if (said ?? pulls) energised.add(edge.part);
  }
  const fed = new Map<Part, boolean>();
  for (const draw of draws)
    if (draw.is === 'input')
      fed.set(draw.part, (fed.get(draw.part) ?? false) || !point.converged || point.across(draw) > 1e-9);
  return { energised, unfed: new Set([...fed].filter(([, has]) => !has).map(([part]) => part)) };
}

function sameSet<T>(a: ReadonlySet<T>, b: ReadonlySet<T>): boolean {
  return a.size === b.size && [...a].every((item) => b.has(item));
}

function restless(point: OperatingPoint, before: Settling, after: Settling): OperatingPoint {
  const changing = [...before.energised, ...after.energised].filter(
    (part) => before.energised.has(part) !== after.energised.has(part),
  );
  const name = changing[0]?.name;
  return {
    ...point,
    converged: false,
    trouble:
      name === undefined
        ? 'no stable state was found'
        : `${name} never comes to rest: its contact takes away what its coil needs`,
  };
}

/** A solution with temperatures and converter inputs settled in at most so many rounds, relays and fed inputs as given. */
function settledPoint(
  installation: Installation,
  electrics: ReadonlyMap<Run, RunElectrics>,
  stated: Case,
  settling: Settling,
  purpose: Purpose,
  most: number,
): OperatingPoint {
  const { network } = installation;
  const connections = connectionsIn(installation, stated, settling);
  const celsius = Float64Array.from(network.edges, (edge) => startingCelsius(edge, electrics, stated));
  const inputWatts = new Map<Part, number>();
  for (let round = 0; ; round++) {
    const point = solveOnce(installation, electrics, stated, connections, settling, celsius, inputWatts, purpose);
    if (!point.converged) return point;
    const warmed = warm(installation, electrics, stated, point, celsius);
    const taken = takeIn(installation, point, inputWatts);
    if (Math.max(warmed, taken) <= settled || round >= most) return point;
  }
}

function ambientIn(stated: Case, run: RunElectrics | undefined): number {
  return stated.ambientCelsius ?? run?.ambientCelsius ?? defaultAmbientCelsius;
}

function startingCelsius(edge: Edge, electrics: ReadonlyMap<Run, RunElectrics>, stated: Case): number {
  const run = edge.is === 'core' ? electrics.get(edge.core.run) : undefined;
  return stated.conductorsCelsius ?? ambientIn(stated, run);
}

/** Conductor temperatures by their currents; the greatest change in kelvin. */
function warm(
  { network }: Installation,
  electrics: ReadonlyMap<Run, RunElectrics>,
  stated: Case,
  { amps }: OperatingPoint,
  celsius: Float64Array,
): number {
  if (stated.conductorsCelsius !== undefined) return 0;
  let change = 0;
  for (const edge of network.edges) {
    const run = edge.is === 'core' ? electrics.get(edge.core.run) : undefined;
    const capacity = run?.capacity(stated);
    if (capacity === undefined) continue;
    const most = run?.insulationCelsius ?? defaultInsulationCelsius;
    const next = conductorCelsius(ambientIn(stated, run), most, Math.abs(amps[edge.index] ?? 0), capacity.amps);
    change = Math.max(change, Math.abs(next - (celsius[edge.index] ?? 0)));
    celsius[edge.index] = next;
  }
  return change;
}

/** What chargers and converters take in for what they give out; the greatest change in watt. */
function takeIn({ sources }: Installation, point: OperatingPoint & Intake, inputWatts: Map<Part, number>): number {
  let change = 0;
  for (const source of sources) {
    const { part, is } = source;
    if (is !== 'output' || part.kind.word === 'controller') continue;
    const given = point.across(source) * (point.sourceAmps.get(source) ?? 0) - (point.panelWatts.get(part) ?? 0);
    const watts = Math.max(0, given / efficiencyOf(part));
    change = Math.max(change, Math.abs(watts - (inputWatts.get(part) ?? 0)));
    inputWatts.set(part, watts);
  }
  return change;
}

interface Intake {
  readonly panelWatts: ReadonlyMap<Part, number>;
}

function solveOnce(
  installation: Installation,
  electrics: ReadonlyMap<Run, RunElectrics>,
  stated: Case,
  connections: Connections,
  settling: Settling,
  celsius: Float64Array,
  inputWatts: ReadonlyMap<Part, number>,
  purpose: Purpose,
): OperatingPoint & Intake {
  const { network, wiring } = installation;
  const draft = new CircuitDraft(wiring.terminals.length, wiring.circuitNode);
  const ohms = new Float64Array(network.edges.length);
  const conductors: (Element | undefined)[] = network.edges.map((edge) => {
    // What is solid is one node already.
    if (!connections.closed[edge.index] || wiring.circuitNode(edge.from) === wiring.circuitNode(edge.to))
      return undefined;
    if (edge.is === 'contact' && edge.contact.operated === 'diode')
      return draft.diode(edge.from, edge.to, edge.part.facts.number('loses') ?? diodeVolts, diodeOhms);
    const value = edgeOhms(edge, electrics, celsius[edge.index] ?? 20);
    ohms[edge.index] = value;
    return draft.conductor(edge.from, edge.to, value);
  });
  const passes = new Map<Part, Element>();
  for (const { part, is, from, to } of wiring.inner) {
    if (is === 'common' || stated.on.get(part.name) === false) continue;
    const element = draft.conductor(from, to, 0);
    if (from.spec.polarity === '+') passes.set(part, element);
  }
  const { elements, panelWatts } = addSources(draft, installation, stated, connections, settling);
  const reached = (draw: Draw) => reachesSupply(draw, installation, connections, elements);
  const draws = addDraws(draft, installation, stated, settling, inputWatts, reached, purpose);
  const solution = solveCircuit(draft.finish(referencesOf(installation.sources)));
  const read = (element: Element | undefined) => (element === undefined ? 0 : ampsOf(solution, element));
  const sourceAmps = new Map<Source, number>();
  for (const source of installation.sources) {
    const element = source.is === 'load-output' ? passes.get(source.part) : elements.get(source);
    // What feeds as a constant current is a draw of less than nothing to the circuit.
    if (element !== undefined) sourceAmps.set(source, element.as === 'current' ? -read(element) : read(element));
  }
  const voltsAt = (terminal: Terminal) => solution.volts[wiring.circuitNode(terminal)] ?? 0;
  const across = ({ plus, minus }: Pick<Port, 'plus' | 'minus'>) => voltsAt(plus) - voltsAt(minus);
  const finite = solution.volts.every(Number.isFinite) && solution.linkAmps.every(Number.isFinite);
  return {
    stated,
    converged: solution.converged && finite,
    trouble: solution.converged
      ? finite
        ? undefined
        : 'its figures are beyond anything that can be worked out'
      : troubleOf(solution, draws, inputWatts, reached),
    connections,
    amps: Float64Array.from(conductors, read),
    assumed: conductors.map((element) => element !== undefined && isAssumed(solution, element)),
    celsius: Float64Array.from(celsius),
    ohms,
    drawAmps: new Map([...draws].map(([draw, element]) => [draw, read(element)])),
    sourceAmps,
    energised: settling.energised,
    voltsAt,
    across,
    residual: solution.residual,
    panelWatts,
  };
}

/** A size or length that is not known yet has no resistance. */
function edgeOhms(edge: Edge, electrics: ReadonlyMap<Run, RunElectrics>, celsius: number): number {
  if (edge.is === 'core') return atTemperature(electrics.get(edge.core.run)?.ohmsAt20 ?? 0, celsius);
  return edge.is === 'bar' ? 0 : edge.ohms;
}

/** What is 0 V: the negative of the battery first by name in a connected part, else of its first source. */
function referencesOf(sources: readonly Source[]): Terminal[] {
  const batteries = sources.filter(({ is }) => is === 'battery').sort((a, b) => (a.part.name < b.part.name ? -1 : 1));
  return [...batteries, ...sources.filter(({ is }) => is !== 'battery')].map(({ minus }) => minus);
}

/** Why a circuit has no answer, with the power that it could still feed. */
function troubleOf(
  solution: Solution,
  draws: ReadonlyMap<Draw, Element>,
  inputWatts: ReadonlyMap<Part, number>,
  reached: (draw: Draw) => boolean,
): string {
  if (solution.trouble !== 'collapse') return 'no stable state was found for its sources';
  const powers = [...draws].filter(([, { as }]) => as === 'power').map(([draw]) => draw);
  const fair = powers.filter(reached);
  // What is the wrong way round no source reaches: then that asks.
  const asking = fair.length > 0 ? fair : powers;
  const wattsOf = (draw: Draw) => (draw.is === 'input' ? (inputWatts.get(draw.part) ?? 0) : draw.amount);
  const watts = asking.reduce((sum, draw) => sum + wattsOf(draw), 0);
  const fed = (solution.feedable ?? 0) * watts;
  const [largest] = [...asking].sort((one, other) => wattsOf(other) - wattsOf(one));
  const mostly = largest !== undefined && wattsOf(largest) > watts / 2 ? `, most of it ${largest.part.name},` : '';
  const who = asking.length === 1 ? (largest?.part.name ?? '') : `what is on${mostly}`;
  if (!(fed > 0)) return `nothing can feed ${who}: look whether a plus and a minus are swapped`;
  return `${who} cannot be fed: of ${figure(watts)} W its sources and wiring bring about ${figure(fed)} W at most, so have less on at once, or use larger or shorter cable`;
}

function figure(value: number): string {
  return value >= 100 ? value.toFixed(0) : value.toPrecision(2);
}
