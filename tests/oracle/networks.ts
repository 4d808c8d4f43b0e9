/** Seeded random networks of wires, batteries and loads, some near the most that their wiring can feed. */
import type { Circuit, CurrentDraw, Emf, Link, PowerDraw, Resistor } from '../../server/physics/circuit.ts';
import { solveCircuit } from '../../server/physics/solve.ts';
import { circuitOf } from '../physics/circuits.ts';
import { Chance } from './random.ts';
import { type Shape, shapes } from './shapes.ts';

export type Strain = 'no constant power' | 'constant power' | 'near collapse';

export interface Network {
  readonly name: string;
  readonly shape: Shape;
  readonly strain: Strain;
  /** Batteries in series count each. */
  readonly batteries: number;
  readonly circuit: Circuit;
}

/** Two in five near collapse. */
const strains: readonly Strain[] = [
  'near collapse',
  'no constant power',
  'near collapse',
  'constant power',
  'constant power',
];

/** Resistances from 10⁻⁴ Ω, a contact, to 10² Ω, a lamp; each network has both. */
const leastExponent = -4;
const mostExponent = 2;

export function randomNetworks(count: number, seed: number): Network[] {
  return Array.from({ length: count }, (_, i) =>
    randomNetwork(
      i,
      seed + i,
      shapes[i % shapes.length] as Shape,
      strains[Math.floor(i / shapes.length) % strains.length] as Strain,
    ),
  );
}

interface Port {
  readonly plus: number;
  readonly minus: number;
}

function randomNetwork(number: number, seed: number, shape: Shape, strain: Strain): Network {
  const chance = new Chance(seed);
  const stations = chance.part() < 0.1 ? chance.whole(100, 200) : Math.round(4 * 15 ** chance.part());
  const nominal = [12.8, 25.6, 51.2][chance.whole(0, 2)] as number;
  const wiring = wired(stations, shape, chance);
  const { emfs, middles } = batteriesOf(wiring, nominal, chance);
  const nodeCount = wiring.nodeCount + middles;
  const resistors = [...wiring.resistors, ...resistiveLoads(wiring.ports, chance)];
  const unloaded = circuitOf(nodeCount, {
    resistors,
    links: wiring.links,
    emfs,
    references: chance.part() < 0.8 ? [wiring.ports[0]?.minus ?? 0] : [],
  });
  const { currents, powers } = loadsOf(unloaded, wiring.ports, nominal, chance);
  const drawn = { ...unloaded, currents };
  const circuit = strain === 'no constant power' ? drawn : strained({ ...drawn, powers }, shareOf(strain, chance));
  return {
    name: `${number}: ${shape.name}, ${strain}, ${nodeCount} nodes (seed ${seed})`,
    shape,
    strain,
    batteries: emfs.length,
    circuit: renumbered(circuit, chance),
  };
}

function shareOf(strain: Strain, chance: Chance): number {
  return strain === 'near collapse' ? chance.between(0.81, 0.97) : chance.between(0.05, 0.75);
}

interface Wiring {
  readonly nodeCount: number;
  readonly ports: readonly Port[];
  readonly resistors: readonly Resistor[];
  readonly links: readonly Link[];
}

/** Wires of the shape, some of which go through a closed switch, with their return. */
function wired(stations: number, shape: Shape, chance: Chance): Wiring {
  const pairs = shape.pairs(stations, chance);
  const ports = Array.from({ length: stations }, (_, i) => ({
    plus: i,
    minus: shape.wiredReturn ? stations + i : stations,
  }));
  let nodeCount = shape.wiredReturn ? 2 * stations : stations + 1;
  const resistors: Resistor[] = [];
  const links: Link[] = [];
  const all = shape.wiredReturn ? [...pairs, ...pairs.map(([a, b]) => [a + stations, b + stations] as const)] : pairs;
  all.forEach(([a, b], i) => {
    // Wires are mostly thick; the first is the least resistance there is.
    const exponent = i === 0 ? leastExponent : leastExponent + (mostExponent - leastExponent) * chance.part() ** 2.5;
    let from = a;
    if (chance.part() < 0.1) {
      links.push({ a, b: nodeCount });
      from = nodeCount++;
    }
    resistors.push({ a: from, b, ohms: 10 ** exponent });
  });
  return { nodeCount, ports, resistors, links };
}

/** Two to five batteries on different stations, one in four of two halves in series. */
function batteriesOf({ ports, nodeCount }: Wiring, nominal: number, chance: Chance): { emfs: Emf[]; middles: number } {
  const emfs: Emf[] = [];
  let middles = 0;
  const at = chance.shuffled(ports).slice(0, Math.min(ports.length - 1, chance.whole(2, 5)));
  for (const { plus, minus } of at) {
    const volts = nominal * chance.between(0.97, 1.04);
    const ohms = 10 ** chance.between(-3, -1);
    if (chance.part() < 0.25) {
      const middle = nodeCount + middles++;
      const part = chance.between(0.45, 0.55);
      emfs.push({ plus, minus: middle, volts: volts * part, ohms: ohms * part });
      emfs.push({ plus: middle, minus, volts: volts * (1 - part), ohms: ohms * (1 - part) });
    } else emfs.push({ plus, minus, volts, ohms });
  }
  return { emfs, middles };
}

/**
 * Resistive loads on a third of the stations, but on no more than a dozen: along a far longer divider volts fall away to less
 * than the rounding of either solver. The first is the greatest resistance there is.
 */
function resistiveLoads(ports: readonly Port[], chance: Chance): Resistor[] {
  const loaded = chance.shuffled(ports).slice(0, Math.min(12, Math.ceil(ports.length / 3)));
  return loaded.map(({ plus, minus }, i) => ({
    a: plus,
    b: minus,
    ohms: i === 0 ? 10 ** mostExponent : 10 ** chance.between(1, mostExponent),
  }));
}

/** Loads where there is a voltage to speak of, each in proportion to what its wiring could feed by itself. */
function loadsOf(
  unloaded: Circuit,
  ports: readonly Port[],
  nominal: number,
  chance: Chance,
): { currents: CurrentDraw[]; powers: PowerDraw[] } {
  const { volts } = solveCircuit(unloaded);
  const across = (found: Float64Array, { plus, minus }: Port) => (found[plus] ?? 0) - (found[minus] ?? 0);
  const able = chance.shuffled(ports).filter((port) => across(volts, port) > 0.3 * nominal);
  const behind = (port: Port) => {
    const drawn = solveCircuit({ ...unloaded, currents: [{ ...port, amps: 1 }] });
    return across(volts, port) - across(drawn.volts, port);
  };
  const constant = able.slice(0, Math.min(chance.whole(1, 4), Math.ceil(able.length / 2)));
  const currents = constant.map((port) => {
    const most = (0.2 * across(volts, port)) / behind(port) / constant.length;
    // One in five feeds.
    return { ...port, amps: most * (chance.part() < 0.2 ? -chance.between(0.1, 0.3) : chance.between(0.1, 1)) };
  });
  // From the other end of the list, so that some stations have both sorts of load only where there are few.
  const powers = able.slice(-chance.whole(1, 8)).map((port) => {
    const most = across(volts, port) ** 2 / (4 * behind(port));
    return { ...port, watts: most * chance.between(0.1, 1) };
  });
  return { currents, powers };
}

/** The circuit with its parts in another order and its nodes as they are: the simulator numbers what it solves by its netlist. */
export function reordered(circuit: Circuit, seed: number): Circuit {
  const chance = new Chance(seed);
  return {
    ...circuit,
    resistors: chance.shuffled(circuit.resistors),
    emfs: chance.shuffled(circuit.emfs),
    currents: chance.shuffled(circuit.currents),
    powers: chance.shuffled(circuit.powers),
  };
}

/** All constant power of a circuit times a factor. */
export function timesPower(circuit: Circuit, factor: number): Circuit {
  return { ...circuit, powers: circuit.powers.map((one) => ({ ...one, watts: one.watts * factor })) };
}

/** The circuit with its constant power at a share of the most that can be fed. */
function strained(circuit: Circuit, share: number): Circuit {
  let factor = 1;
  for (let tries = 0; tries < 20; tries++) {
    const { converged, collapses } = solveCircuit(timesPower(circuit, factor));
    const feedable = collapses[0]?.feedable ?? 0;
    if (!converged && feedable > 0) return timesPower(circuit, factor * feedable * share);
    factor *= converged ? 8 : 1 / 8;
  }
  throw new Error('the most that can be fed was not found');
}

/** Nodes and parts in an order that tells nothing of the shape. */
function renumbered(circuit: Circuit, chance: Chance): Circuit {
  const places = chance.shuffled(Array.from({ length: circuit.nodeCount }, (_, i) => i));
  const at = (node: number) => places[node] as number;
  const between = <T extends { a: number; b: number }>(one: T) => ({ ...one, a: at(one.a), b: at(one.b) });
  const across = <T extends Port>(one: T) => ({ ...one, plus: at(one.plus), minus: at(one.minus) });
  return {
    ...circuit,
    resistors: chance.shuffled(circuit.resistors).map(between),
    links: chance.shuffled(circuit.links).map(between),
    emfs: chance.shuffled(circuit.emfs).map(across),
    currents: circuit.currents.map(across),
    powers: circuit.powers.map(across),
    references: circuit.references.map(at),
  };
}
