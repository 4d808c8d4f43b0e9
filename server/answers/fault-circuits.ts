/**
 * The network as a short circuit finds it. Greatest: batteries full, copper cold, every source there. Least: copper as hot as
 * its insulation allows, one source alone and that one empty. Loads are left out: a fault takes their voltage away.
 */

import { lazily, lazilyEach } from '../model/lazily.ts';
import type { Run, Terminal } from '../model/model.ts';
import type { ContactEdge, Edge } from '../model/network.ts';
import { atTemperature } from '../physics/conductors.ts';
import { FaultNetwork, type FaultSources, type Watched } from '../physics/faults.ts';
import type { Flat } from '../physics/topology.ts';
import { electromotiveForce } from '../tables/battery.ts';
import { batteryOhms } from './charging.ts';
import { CircuitDraft } from './circuit-draft.ts';
import { insulationOf } from './conditions.ts';
import { closedPositions } from './contacts-in-case.ts';
import { faultContactsOf } from './fault-contacts.ts';
import type { Installation } from './installation.ts';
import type { Source } from './ports.ts';

/** Copper of a greatest current is at 20 °C (IEC 60909-0, from memory), or colder where the system says so. */
export const coldCelsius = 20;

/** Of the copper of a greatest current. */
export function coldestCelsius({ model: { system } }: Installation): number {
  return Math.min(coldCelsius, system.coldestCelsius ?? coldCelsius);
}

/** Behind everything that regulates itself, so that it is never ideal, in ohm (common practice, no source). */
const regulatorOhms = 0.001;
/** What charges reaches this part of the nominal voltage: 14.4 V of 12 V (common practice, no source). */
const chargingShare = 1.2;
/** Stands in for a device without stated resistance where the current through it is asked for, in ohm: far below any real one. */
const deviceOhms = 1e-7;
/** Default drop of a diode, and its resistance beyond that (common practice, no source). */
const diodeVolts = 0.7;
const diodeOhms = 0.001;

export interface FaultView {
  /** Current between two terminals that are joined without resistance, in ampere. */
  between(a: Terminal, b: Terminal): number;
  /** Current through a protective device while two terminals are joined, whichever way it flows. */
  through(device: ContactEdge, a: Terminal, b: Terminal): number;
}

export type Extreme = 'greatest' | 'least';

/** Which contacts of relays are closed: those of a fed coil, or those at rest. */
type Pulled = 'coil' | 'coil-rest';

/** Conductors as a fault finds them, in the circuit's nodes; and what stands in for each device. */
interface Laid {
  readonly conductors: Flat;
  readonly watched: ReadonlyMap<Edge, Watched>;
}

/** The conductors of a spec as short circuits find them: drawn once for all the sources that are looked at. */
export class FaultCircuits {
  private readonly laid = new Map<string, Laid>();

  constructor(
    private readonly installation: Installation,
    private readonly ohmsAt20: (run: Run) => number | undefined,
  ) {}

  /** All sources given, in every state of the relays: the greater or the lesser of what they make of a fault. */
  view(extreme: Extreme, sources: readonly Source[]): FaultView {
    const node = (terminal: Terminal) => this.installation.wiring.circuitNode(terminal);
    const given = lazily(() => sourcesOf(this.installation, sources, extreme));
    const exact = lazilyEach(
      (pulled: Pulled) => new FaultNetwork(given(), this.conductors(extreme, pulled, 0).conductors),
    );
    const detailed = lazilyEach((pulled: Pulled) => {
      const { conductors, watched } = this.conductors(extreme, pulled, deviceOhms);
      return { faults: new FaultNetwork(given(), conductors), watched };
    });
    const pick = extreme === 'greatest' ? Math.max : Math.min;
    /** A relay that changes over is never in both positions at once. */
    const inStates = (ampsIn: (pulled: Pulled) => number): number => {
      const amps = ampsIn('coil');
      if (amps > 0 && !faultContactsOf(this.installation.layout).changesOver()) return amps;
      const resting = ampsIn('coil-rest');
      return amps > 0 && resting > 0 ? pick(amps, resting) : Math.max(amps, resting);
    };
    return {
      between: (a, b) => inStates((pulled) => Math.abs(exact(pulled).at(node(a), node(b)).amps)),
      through: (device, a, b) =>
        inStates((pulled) => {
          const { faults, watched } = detailed(pulled);
          const way = watched.get(device);
          return way === undefined ? 0 : Math.abs(faults.through(way, node(a), node(b)));
        }),
    };
  }

  private conductors(extreme: Extreme, pulled: Pulled, ohmsOfDevices: number): Laid {
    const key = `${extreme} ${pulled} ${ohmsOfDevices}`;
    let laid = this.laid.get(key);
    if (laid === undefined) {
      laid = conductorsOf(this.installation, this.ohmsAt20, extreme, pulled, ohmsOfDevices);
      this.laid.set(key, laid);
    }
    return laid;
  }
}

function conductorsOf(
  installation: Installation,
  ohmsAt20: (run: Run) => number | undefined,
  extreme: Extreme,
  pulled: Pulled,
  ohmsOfDevices: number,
): Laid {
  const { network, wiring } = installation;
  const draft = new CircuitDraft(wiring.terminals.length, wiring.circuitNode);
  const cold = coldestCelsius(installation);
  const watched = new Map<Edge, Watched>();
  for (const edge of network.edges) {
    const { from, to } = edge;
    const a = wiring.circuitNode(from);
    const b = wiring.circuitNode(to);
    if (a === b || (edge.is === 'contact' && !isClosed(edge, pulled))) continue;
    if (edge.is === 'contact' && edge.contact.operated === 'diode') {
      draft.diode(from, to, edge.part.facts.number('loses') ?? diodeVolts, diodeOhms);
      continue;
    }
    let ohms = edge.is === 'bar' || edge.is === 'core' ? 0 : edge.ohms;
    if (edge.is === 'core') {
      const { run } = edge.core;
      ohms = atTemperature(ohmsAt20(run) ?? 0, extreme === 'greatest' ? cold : insulationOf(run));
    }
    if (edge.is === 'contact' && edge.contact.protects && ohmsOfDevices > 0) {
      ohms = Math.max(ohms, ohmsOfDevices);
      watched.set(edge, { a, b, ohms });
    }
    draft.conductorBetween(a, b, ohms);
  }
  for (const { is, from, to } of wiring.inner)
    if (is !== 'common' && from.spec.polarity === '-') draft.conductor(from, to, 0);
  return { conductors: draft.flat(installation.sources.map(({ minus }) => minus)), watched };
}

function sourcesOf(installation: Installation, sources: readonly Source[], extreme: Extreme): FaultSources {
  const { wiring } = installation;
  const draft = new CircuitDraft(wiring.terminals.length, wiring.circuitNode);
  for (const source of sources) addSource(draft, installation, source, extreme);
  return draft.sources();
}

/** Everything that can be closed is; of a changing relay the side that is asked for. */
function isClosed({ part, contact }: ContactEdge, pulled: Pulled): boolean {
  if (contact.operated === 'coil' || contact.operated === 'coil-rest') return contact.operated === pulled;
  return contact.operated !== 'position' || closedPositions(part).includes(contact.from);
}

function addSource(draft: CircuitDraft, installation: Installation, source: Source, extreme: Extreme): void {
  const { is, part, limitAmps = 0 } = source;
  if (is === 'battery') {
    draft.emf(source, batteryVolts(installation, source, extreme), batteryOhms(part));
    return;
  }
  const volts = voltsOf(installation, source);
  if (limitAmps > 0 && volts > 0) draft.regulated(source, volts, regulatorOhms, limitAmps);
}

/** Full or empty by the table of its chemistry; a case that says more or less counts too. */
export function batteryVolts({ model }: Installation, { part }: Source, extreme: Extreme): number {
  const nominal = part.facts.number('voltage') ?? 12;
  const chemistry = part.facts.word('chemistry') ?? 'lead-acid';
  const said = model.cases.flatMap(({ voltsOf }) => voltsOf.get(part.name) ?? []);
  return extreme === 'greatest'
    ? Math.max(electromotiveForce(chemistry, nominal, 1), ...said)
    : Math.min(electromotiveForce(chemistry, nominal, 0), ...said);
}

/** Voltage up to which a source that limits its current holds it. */
function voltsOf({ supplies, nominalOf }: Installation, source: Source): number {
  const { is, part, nominalVolts } = source;
  if (is === 'panel') return part.facts.number('voc') ?? 0;
  if (is === 'alternator') return part.facts.number('voltage') ?? 0;
  if (part.kind.word === 'converter') return nominalVolts ?? 0;
  const nominal = nominalVolts ?? nominalOf(supplies.find((supply) => supply.sources.includes(source)));
  return chargingShare * nominal;
}
