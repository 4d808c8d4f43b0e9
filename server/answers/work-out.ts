/** Works out a spec: operating points of all cases, then design current, capacity, protection and drop of everything. */

import { lazily } from '../model/lazily.ts';
import type { Case, ConductorSize, Core, Model, Run } from '../model/model.ts';
import type { Network } from '../model/network.ts';
import { atOnce, type Steps } from '../model/steps.ts';
import type { Capacity } from '../physics/limits/limit-set.ts';
import { SolvedBefore } from '../physics/solved-before.ts';
import type { Answers, CaseAnswer, ContactFigures, CoreFigures } from './answers.ts';
import { type UnfusedBank, unfusedBanks } from './bank-leads.ts';
import { banksOf } from './banks.ts';
import { countedBunches } from './bunches.ts';
import { caseAnswer } from './case-answers.ts';
import { chooseRatings } from './chosen-ratings.ts';
import { chooseSizes } from './chosen-sizes.ts';
import { circuitVolts } from './circuit-volts.ts';
import { coreOhmsAt20 } from './conditions.ts';
import { poleLinks, ratedAmps } from './contacts.ts';
import { type DesignCurrent, designCurrents } from './design-currents.ts';
import { deviceRatings } from './devices.ts';
import { directions } from './directions.ts';
import { loadFigures } from './drop-paths.ts';
import { Duty } from './duty.ts';
import type { FaultAnswers } from './fault-answers.ts';
import { faultAnswers } from './faults.ts';
import { groupBy } from './grouping.ts';
import { holdsStarts } from './holding.ts';
import { type Installation, installationOf } from './installation.ts';
import { keptPoint } from './kept-points.ts';
import { limitsOf } from './limits-of.ts';
import { loneDevices } from './lone-devices.ts';
import { FiguresOfContact, FiguresOfCore, sumOf } from './looked-up.ts';
import { miswirings } from './miswirings.ts';
import { type OperatingPoint, operatingPoint } from './operating-points.ts';
import { polaritiesIn } from './polarity.ts';
import { protectedBy } from './protected.ts';
import type { Protects } from './protection.ts';
import { Conductors, type Electrics } from './run-electrics.ts';
import type { Served } from './served.ts';
import { type StringAnswers, stringAnswers } from './strings.ts';
import { supplyWays } from './supply-ways.ts';
import { tailsOf } from './tails.ts';
import { unfusedLengths } from './unfused-lengths.ts';
import { unfusedStretches } from './unfused-stretches.ts';
import type { Way } from './wiring.ts';

export { standardSizes } from './chosen-sizes.ts';

/** Never throws on a model that was built; what cannot be known is left undefined or said in words. */
export function workOut(model: Model, network: Network, before = new SolvedBefore()): Answers {
  return atOnce(workOutInSteps(model, network, before));
}

export function* workOutInSteps(model: Model, network: Network, before: SolvedBefore): Steps<Answers> {
  const runs = [...model.runs.values()];
  const limits = limitsOf(model);
  const installation = installationOf(model, network);
  const { wiring, systemVolts } = installation;

  const conductors = new Conductors(model, limits, systemVolts);
  const capacity = (run: Run, size: ConductorSize) => conductors.capacity(run, size);
  const stated = new Map<Run, ConductorSize>();
  for (const run of runs) if (run.size !== undefined) stated.set(run, run.size);
  const actualPoint = (electrics: Electrics, one: Case) =>
    operatingPoint(installation, electrics, one, 'actual', before);

  // Currents hardly depend on sizes; a blank one stands in as 2.5 mm², so that it shares with others like a cable.
  const provisional = new Map(
    runs.flatMap((run) =>
      run.sizeBlank ? [[run, { system: 'mm2', areaMm2: 2.5, written: '' } as const] as const] : [],
    ),
  );
  const roughly = conductors.electrics(provisional);
  const designPoints: OperatingPoint[] = [];
  for (const one of model.cases) {
    yield;
    designPoints.push(keptPoint(installation, roughly, one, 'design', before));
  }
  yield;
  const design = designCurrents(installation, designPoints, limits.pvFactor.factor);
  // Before the currents are known every cable of a bunch counts.
  conductors.count(
    countedBunches(model, limits, greatestAmps(installation, design), (run) =>
      run.size === undefined ? undefined : capacity(run, run.size),
    ),
  );
  const duty = lazily(() => new Duty(installation, roughly, designPoints, before));
  const holds = (way: Way, amps: number) => holdsStarts(way, amps, design[way.index]?.amps ?? 0, duty());
  const ratings = deviceRatings(wiring, design, holds);
  const guard = protectedBy(network.layout, ratings);
  const { protections, served } = guard;
  const protectionOf = (way: Way) => protections.of(way).protection;
  const voltsOf = () => systemVolts;
  const { sizes, chosen } = chooseSizes({
    installation,
    limits,
    design,
    protectionOf,
    capacity,
    voltsOf,
    points: (some) => {
      const grown = conductors.electrics(some);
      return model.cases.map((one) => actualPoint(grown, one));
    },
  });
  const electrics = conductors.electrics(sizes);
  const allSizes = lazily(() => (sizes.size === 0 ? stated : new Map([...sizes, ...stated])));
  const points: OperatingPoint[] = [];
  for (const one of model.cases) {
    yield;
    points.push(keptPoint(installation, electrics, one, 'actual', before));
  }
  const capacities = new Map<Run, Capacity>();
  for (const [run, size] of stated) capacities.set(run, capacity(run, size));
  const stringFigures = lazily(() => stringAnswers(installation));
  const shared: Shared = { installation, protections, served, design, capacities, stringFigures };
  yield;
  const cores = coreFigures(shared);
  yield;
  const contacts = contactFigures(shared, ratings);
  const cases: CaseAnswer[] = [];
  for (const point of points) {
    yield;
    cases.push(caseAnswer(installation, electrics, point));
  }
  yield;
  const loads = loadFigures(installation, points);
  yield;
  let faults: FaultAnswers | undefined;
  const flows = lazily(() => directions(installation, duty(), design, cores, served));
  const banks = lazily(() => banksOf(installation));
  let leads: readonly UnfusedBank[] | undefined;
  const unfused = unfusedLengths(installation);
  const signs = lazily(() => polaritiesIn(network, [...model.parts.values()]));
  return {
    network,
    limits,
    limitsStated: model.system.limits !== undefined,
    cases,
    cores,
    runs: groupBy(cores.values(), ({ core }) => core.run),
    contacts,
    loads,
    unfused,
    loneDevices: loneDevices(installation, unfused),
    unfusedStretches: unfusedStretches(
      installation,
      cores,
      (some) => limits.unfusedLength(some.every(({ run }) => run.facts.says('sheathed'))).metres,
    ),
    inCase: (one) => caseAnswer(installation, electrics, actualPoint(electrics, one)),
    tailOf: tailsOf(installation, (way) => ratings.get(way)),
    waysTo: (load, caseName) => {
      const point = points.find(({ stated: { name } }) => name === caseName);
      return point === undefined ? [] : supplyWays(installation, load, point);
    },
    miswirings: miswirings(installation),
    chosen: [
      ...chooseRatings({
        network,
        wiring,
        limits,
        design,
        protectionOf,
        circuitAmps: (way) => protections.circuitAmps(way),
        holds,
        capacity: (run) => capacities.get(run),
        voltsOf,
      }),
      ...chosen,
    ],
    systemVolts,
    get polarities() {
      return signs();
    },
    get strings() {
      return stringFigures();
    },
    get banks() {
      return banks();
    },
    get unfusedBanks() {
      leads ??= unfusedBanks(installation, allSizes());
      return leads;
    },
    get faults() {
      faults ??= faultAnswers(installation, allSizes(), cores, contacts, guard);
      return faults;
    },
    get directions() {
      return flows();
    },
  };
}

/** Greatest design current of a run's cores, in ampere. */
function greatestAmps({ network, wiring }: Installation, design: readonly DesignCurrent[]): (run: Run) => number {
  const greatest = new Map<Run, number>();
  for (const edge of network.edges) {
    if (edge.is !== 'core') continue;
    const amps = design[wiring.wayOf[edge.index]?.index ?? -1]?.amps ?? 0;
    greatest.set(edge.core.run, Math.max(amps, greatest.get(edge.core.run) ?? 0));
  }
  return (run) => greatest.get(run) ?? 0;
}

interface Shared {
  readonly stringFigures: () => StringAnswers;
  readonly installation: Installation;
  readonly protections: Protects;
  readonly served: Served;
  readonly design: readonly DesignCurrent[];
  readonly capacities: ReadonlyMap<Run, Capacity>;
}

const noDesign: DesignCurrent = { amps: 0, from: '', shortCircuitAmps: undefined, neededAmps: undefined };

function coreFigures(shared: Shared): Map<Core, CoreFigures> {
  const { installation, protections, served, design, capacities, stringFigures } = shared;
  const { network, wiring, draws } = installation;
  const anyCranking = draws.some(({ cranking }) => cranking);
  const figures = new Map<Core, CoreFigures>();
  const from = { served, protections, voltsOf: circuitVolts(installation, stringFigures) };
  for (const edge of network.edges) {
    const way = edge.is === 'core' ? wiring.wayOf[edge.index] : undefined;
    if (edge.is !== 'core' || way === undefined) continue;
    const { core } = edge;
    const { size } = core.run;
    const { amps, from: designFrom, shortCircuitAmps, neededAmps } = design[way.index] ?? noDesign;
    const cranking = anyCranking ? served.by(way) : [];
    const crankingOnly = cranking.length > 0 && cranking.every((draw) => draw.cranking);
    const { protection, beforeFirstDevice } = protections.of(way);
    const known = {
      core,
      designAmps: crankingOnly ? sumOf(installation, cranking) : amps,
      designFrom,
      shortCircuitAmps,
      neededAmps,
      capacity: capacities.get(core.run),
      ohms: coreOhmsAt20(core.run, size),
      protection,
      beforeFirstDevice,
      crankingOnly,
      isReturn: protections.isReturn(way),
    };
    figures.set(core, new FiguresOfCore(known, way, from));
  }
  return figures;
}

function contactFigures(
  { installation, protections, served, design, stringFigures }: Shared,
  ratings: ReturnType<typeof deviceRatings>,
): Map<string, ContactFigures[]> {
  const { model, network, wiring } = installation;
  const figures = new Map<string, ContactFigures[]>();
  const from = { installation, served, voltsOf: circuitVolts(installation, stringFigures) };
  // Only bars link poles.
  const barred = new Set(model.bars.map(({ part }) => part));
  const links = new Map([...barred].map((part) => [part, poleLinks(part, model)]));
  for (const edge of network.edges) {
    const way = edge.is === 'contact' ? wiring.wayOf[edge.index] : undefined;
    if (edge.is !== 'contact' || way === undefined) continue;
    const { part, contact } = edge;
    const linked = links.get(part)?.get(contact.pole);
    const parallelPoles = linked?.parallel ?? [contact.pole];
    const { amps, shortCircuitAmps, neededAmps } = design[way.index] ?? noDesign;
    const { protection, beforeFirstDevice } = protections.of(way);
    const known = {
      part,
      pole: contact.pole,
      designAmps: amps,
      shortCircuitAmps,
      neededAmps,
      protection,
      circuitAmps: protections.circuitAmps(way),
      ratedAmps: ratedAmps(part, contact.ratedAmps, parallelPoles.length),
      parallelPoles,
      oneSidedWith: linked?.oneSided ?? [],
      isReturn: protections.isReturn(way),
      beforeFirstDevice,
      device: ratings.get(way),
    };
    const one = new FiguresOfContact(known, way, from);
    const list = figures.get(part.name);
    if (list === undefined) figures.set(part.name, [one]);
    else list.push(one);
  }
  return figures;
}
