/** For every core and contact: who can drive it which way, what lasts in it, what flows for a time, and how that warms it. */

import { lazily } from '../model/lazily.ts';
import type { Core, Part } from '../model/model.ts';
import { equivalentAmps, type Pulse, timeConstant, type Warming } from '../physics/short-time.ts';
import type { CoreFigures, DirectedFlow, Directions, Flow, ShortCurrent, StartingVolts } from './answers.ts';
import { insulationOf, physicalSize } from './conditions.ts';
import type { DesignCurrent } from './design-currents.ts';
import type { CaseFlow, Duty } from './duty.ts';
import type { Installation } from './installation.ts';
import { type Drivers, Reaches } from './reaches.ts';
import type { Served } from './served.ts';
import type { Way } from './wiring.ts';

/** What is left of rounding, as part of a current. */
const rounding = 1e-9;

const noFlow: Flow = {
  forward: { sources: [], lastingAmps: 0, inrush: undefined },
  backward: { sources: [], lastingAmps: 0, inrush: undefined },
  lastingAmps: 0,
  runs: [],
  starts: [],
  timedStarts: [],
  cranks: [],
};

export const noDirections: Directions = {
  greatestSurgeAmps: 0,
  ofCore: () => noFlow,
  ofContact: () => noFlow,
  mostOfContact: () => 0,
  heatingAmps: () => 0,
  warmingOf: () => undefined,
  cranking: [],
  startsOf: () => [],
  leastWhileStarting: () => undefined,
};

export function directions(
  installation: Installation,
  duty: Duty,
  design: readonly DesignCurrent[],
  cores: ReadonlyMap<Core, CoreFigures>,
  served: Served,
): Directions {
  const { network, wiring } = installation;
  const reaches = new Reaches(installation);
  const wayOf = (core: Core) => wiring.wayOf[installation.edgeOf(core)?.index ?? -1];
  const ofContacts = lazily(() => {
    const ways = new Map<string, Way>();
    for (const edge of network.edges) {
      const way = wiring.wayOf[edge.index];
      if (edge.is === 'contact' && way !== undefined) ways.set(contactKey(edge.part, edge.contact.pole), way);
    }
    return ways;
  });
  const flows = new Map<Way, Flow>();
  const flowOf = (way: Way | undefined): Flow => {
    if (way === undefined) return noFlow;
    let flow = flows.get(way);
    if (flow === undefined) {
      flow = new FlowOfWay(way, duty, design[way.index], reaches);
      flows.set(way, flow);
    }
    return flow;
  };
  const voltsLeft = ({ draw, amps, point }: Duty['crankingPoints'][number]): StartingVolts[] => {
    const supply = installation.usualFeeder(draw);
    // A load that starts is drawn as another than it is while it runs.
    const isFed = [...point.drawAmps].some(
      ([{ part, is }, taken]) => part === draw.part && is === draw.is && taken > 0,
    );
    if (!point.converged || supply === undefined || !isFed) return [];
    // A current that no source gives would stand below 0 V: nothing is left then.
    const [volts, sourceVolts] = [Math.max(0, point.across(draw)), Math.max(0, point.across(supply))];
    return [{ load: draw.part, source: supply.part, amps, volts, sourceVolts, caseName: point.stated.name }];
  };
  const cranking = lazily(() => duty.crankingPoints.flatMap(voltsLeft));
  return {
    greatestSurgeAmps: duty.greatestSurgeAmps,
    ofCore: (core) => flowOf(wayOf(core)),
    ofContact: (part, pole) => flowOf(ofContacts().get(contactKey(part, pole))),
    mostOfContact(part, pole, enough) {
      const way = ofContacts().get(contactKey(part, pole));
      if (way === undefined) return 0;
      const { amps = 0, shortCircuitAmps } = design[way.index] ?? {};
      if (shortCircuitAmps !== undefined) return shortCircuitAmps;
      const draws = served.solelyBy(way);
      const taken = draws === undefined ? Number.POSITIVE_INFINITY : duty.mostOf(draws);
      // Where more flows already, a return is missing and others drive it.
      const isTaken = amps <= taken * (1 + rounding);
      if (isTaken && taken <= enough) return taken;
      const starting = duty.mostWhileStarting(way, amps);
      return isTaken ? Math.min(starting, taken) : starting;
    },
    heatingAmps(core, other) {
      const way = wayOf(core);
      const figures = cores.get(core);
      if (way === undefined || figures === undefined) return 0;
      const warming = other ?? warmingOf(figures);
      if (figures.onPanelSide || figures.crankingOnly || warming === undefined) return figures.designAmps;
      return heating(way, duty, timeConstant(warming));
    },
    warmingOf(core) {
      const figures = cores.get(core);
      return figures === undefined ? undefined : warmingOf(figures);
    },
    get cranking() {
      return cranking();
    },
    startsOf: (load) => duty.startingPoints(load).flatMap(voltsLeft),
    leastWhileStarting: (load) => duty.leastWhileStarting(load),
  };
}

class FlowOfWay implements Flow {
  private readonly flows: () => readonly CaseFlow[];
  private readonly begun: () => readonly ShortCurrent[];
  private readonly timed: () => readonly ShortCurrent[];
  private readonly turned: () => readonly ShortCurrent[];
  private readonly drivers: () => Drivers;

  constructor(
    way: Way,
    duty: Duty,
    private readonly design: DesignCurrent | undefined,
    reaches: Reaches,
  ) {
    const panels = design?.shortCircuitAmps !== undefined;
    this.flows = lazily(() => (panels ? [] : duty.flows(way)));
    this.begun = lazily(() => (panels ? [] : duty.starts(way)));
    this.timed = lazily(() => (panels ? [] : duty.starts(way, true)));
    this.turned = lazily(() => (panels ? [] : duty.cranks(way)));
    this.drivers = lazily(() => reaches.of(way));
  }

  get forward(): DirectedFlow {
    return this.directed(1);
  }

  get backward(): DirectedFlow {
    return this.directed(-1);
  }

  get lastingAmps(): number {
    return this.design?.shortCircuitAmps ?? greatest(this.flows().map(({ lastingAmps }) => Math.abs(lastingAmps)));
  }

  get runs(): readonly ShortCurrent[] {
    return worstEach(this.flows().flatMap(({ runs }) => runs));
  }

  get starts(): readonly ShortCurrent[] {
    return worstEach(this.begun());
  }

  get timedStarts(): readonly ShortCurrent[] {
    return worstEach(this.timed());
  }

  get cranks(): readonly ShortCurrent[] {
    return worstEach(this.turned());
  }

  private directed(sign: 1 | -1): DirectedFlow {
    const sources = sign === 1 ? this.drivers().forward : this.drivers().backward;
    const panelAmps = this.design?.shortCircuitAmps;
    const lastingAmps =
      panelAmps === undefined
        ? greatest(this.flows().map(({ lastingAmps: amps }) => sign * amps))
        : sources.length > 0
          ? panelAmps
          : 0;
    const [inrush] = [...this.starts, ...this.cranks]
      .filter(({ amps }) => sign * amps > 0)
      .sort((one, other) => Math.abs(other.amps) - Math.abs(one.amps));
    return { sources, lastingAmps, inrush };
  }
}

/** The lasting current that warms as much as the worst of all cases, with one load starting where that is worse. */
function heating(way: Way, duty: Duty, tau: number): number {
  const flows = duty.flows(way);
  const warms = ({ lastingAmps, runs }: CaseFlow, more: readonly Pulse[]) =>
    equivalentAmps(Math.abs(lastingAmps), [...runs.map(pulse), ...more], tau);
  const steady = flows.map((flow) => warms(flow, []));
  const starting = duty.starts(way, true).flatMap((start) => {
    const flow = flows.find(({ caseName }) => caseName === start.caseName);
    return flow === undefined || start.seconds === undefined ? [] : [warms(flow, [pulse(start)])];
  });
  return greatest([...steady, ...starting]);
}

function pulse({ amps, seconds = 0, duty }: ShortCurrent): Pulse {
  return {
    amps: Math.abs(amps),
    seconds,
    everySeconds: duty === undefined || !(duty > 0) ? undefined : seconds / duty,
  };
}

function warmingOf({ core: { run }, capacity }: CoreFigures): Warming | undefined {
  if (capacity === undefined || run.size === undefined || capacity.reason !== undefined) return undefined;
  return {
    size: physicalSize(run.size),
    material: run.material,
    ambientCelsius: capacity.ambientCelsius,
    insulationCelsius: insulationOf(run),
    capacityAmps: capacity.amps,
  };
}

/** Of the same loads for the same time the case with most. */
function worstEach(all: readonly ShortCurrent[]): ShortCurrent[] {
  const worst = new Map<string, ShortCurrent>();
  for (const one of all) {
    const key = `${one.seconds} ${one.loads.map(({ name }) => name).join(' ')}`;
    const known = worst.get(key);
    if (known === undefined || Math.abs(one.amps) > Math.abs(known.amps) * (1 + 1e-9)) worst.set(key, one);
  }
  return [...worst.values()];
}

function greatest(amps: readonly number[]): number {
  return amps.reduce((most, one) => Math.max(most, one), 0);
}

function contactKey({ name }: Part, pole: number): string {
  return `${name} ${pole}`;
}
