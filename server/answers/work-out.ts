/** Works out a spec: operating points of all cases, then design current, capacity, protection and drop of everything. */
import type { Case, ConductorSize, Core, Model, Run } from '../model/model.ts';
import type { ContactEdge, Network } from '../model/network.ts';
import type { Capacity } from '../physics/limits/limit-set.ts';
import { limitSet } from '../physics/limits/sets.ts';
import { areasMm2, fuseAmps, gauges } from '../tables/sizes.ts';
import type { Answers, CaseAnswer, ChosenValue, ContactFigures, CoreFigures, PartInCase, Protection } from './answers.ts';
import { ambientOf, capacityOf, coreOhmsAt20, insulationOf } from './conditions.ts';
import { poleLinks, ratedAmps } from './contacts.ts';
import { dropOf, feederOf, loadFigures } from './loads.ts';
import { type CaseInput, type OperatingPoint, operatingPoint, type RunElectrics } from './operating-point.ts';
import { type DeviceRating, Protections } from './protection.ts';
import { panelParts, shortCircuitThrough, stringsOf } from './strings.ts';
import { type Draw, drawsOf, type Source, sourcesOf } from './supplies.ts';
import { topologyOf } from './topology.ts';
import { firstDevices } from './unfused-lengths.ts';

export function workOut(model: Model, network: Network): Answers {
  const runs = [...model.runs.values()];
  const awg = runs.filter(({ size }) => size?.system === 'awg').length;
  const limits = limitSet(model.system.limits, awg * 2 > runs.filter(({ size }) => size !== undefined).length);
  const topology = topologyOf(model, network);
  const sources = sourcesOf(model);
  const draws = drawsOf(model);
  const strings = stringsOf(model, topology);
  const panelSide = panelParts(model, topology, strings);
  const nominalOf = (source: Source | undefined): number => source?.nominalVolts ?? batteryBeside(source) ?? model.system.nominalVolts ?? 12;
  const batteryBeside = (source: Source | undefined): number | undefined => {
    if (source === undefined) return undefined;
    const part = topology.part[topology.of(source.plus)];
    return sources.find((other) => other.part.kind.word === 'battery' && topology.part[topology.of(other.plus)] === part)?.nominalVolts;
  };
  const nominalAt = (draw: Draw) => nominalOf(feederOf(draw, sources, topology));
  const systemVolts = model.system.nominalVolts ?? sources.find(({ part }) => part.kind.word === 'battery')?.nominalVolts ?? 12;

  const points = (sizes: ReadonlyMap<Run, ConductorSize>, atLowest: boolean): OperatingPoint[] => {
    const electrics = electricsOf(model, runs, sizes, (run, size, stated) => capacityOf(run, size, model, limits, systemVolts, stated));
    const input: CaseInput = { model, network, topology, sources, draws, strings, electrics, nominalAt, atLowest };
    return model.cases.map((stated) => operatingPoint(input, stated));
  };

  const sizes = new Map<Run, ConductorSize>();
  for (const run of runs) if (run.size !== undefined) sizes.set(run, run.size);
  const designPoints = points(sizes, true);
  const edgeDesign = network.edges.map((edge) => {
    const part = topology.part[topology.of(edge.from)] ?? -1;
    if (panelSide.has(part)) {
      const shortCircuitAmps = shortCircuitThrough(edge, network, topology, strings);
      return { amps: shortCircuitAmps, from: 'panels', shortCircuitAmps, neededAmps: shortCircuitAmps * limits.pvFactor.factor };
    }
    let [amps, from] = [0, ''];
    for (const point of designPoints) {
      const here = Math.abs(point.edgeAmps[edge.index] ?? 0);
      if (point.solution.converged && here > amps) [amps, from] = [here, point.stated.name];
    }
    return { amps, from, shortCircuitAmps: undefined, neededAmps: undefined };
  });

  // Blank ratings first: the smallest standard fuse that carries the design current stands in for them.
  const chosen: ChosenValue[] = [];
  const ratings = new Map<ContactEdge, DeviceRating>();
  for (const edge of network.edges) {
    if (edge.is !== 'contact' || !edge.contact.protects) continue;
    const { deviceAmps } = edge.contact;
    if (deviceAmps !== undefined) {
      ratings.set(edge, { amps: deviceAmps, blank: false });
      continue;
    }
    const needed = edgeDesign[edge.index]?.amps ?? 0;
    const choice = fuseAmps(edge.part.facts.word('style')).find((amps) => amps >= needed && needed > 0);
    ratings.set(edge, { amps: choice, blank: true });
    if (choice !== undefined && edge.part.facts.isBlank('rating'))
      chosen.push({ subject: edge.part.name, clause: 'rating', text: `${choice} A`, why: `the smallest standard rating above its design current of ${needed.toFixed(1)} A` });
  }
  const protections = new Protections(network, topology, sources, draws, (edge) => ratings.get(edge) ?? { amps: undefined, blank: true });
  const first = firstDevices(network, topology, sources, draws);
  const protectionOf = new Map(network.edges.filter((edge) => edge.is === 'core' || edge.is === 'contact').map((edge) => [edge, protections.ofEdge(edge)] as const));
  for (const edge of network.edges) {
    if (edge.is !== 'core') continue;
    const devices = first.before.get(edge.core);
    if (devices === undefined) continue;
    // The length from a battery to its first device counts as protected by that device.
    const own = devices.map(({ part, pole, edge: e }) => ({ part, pole, ...(ratings.get(e as ContactEdge) ?? { amps: undefined, blank: true }) }));
    protectionOf.set(edge, {
      amps: own.reduce((sum, { amps }) => sum + (amps ?? 0), 0),
      devices: own.map(({ part, pole, amps }) => ({ part, pole, amps: amps ?? 0 })),
      limitedSources: [],
      unprotectedFrom: [],
      blank: own.some(({ blank }) => blank),
    });
  }

  // Then blank sizes: the smallest standard size that its device protects and its current does not overload.
  for (const run of runs) {
    if (!run.sizeBlank) continue;
    const needed = Math.max(
      0,
      ...network.edges.flatMap((edge) => {
        if (edge.is !== 'core' || edge.core.run !== run) return [];
        const design = edgeDesign[edge.index];
        const protection = protectionOf.get(edge);
        const device = protection !== undefined && Number.isFinite(protection.amps) ? protection.amps : 0;
        return [design?.neededAmps ?? Math.max(design?.amps ?? 0, device)];
      }),
    );
    const unit = run.facts.slot('size', 'size')?.atom;
    const wantsAwg = unit?.kind === 'quantity' ? unit.dimension === 'gauge' : limits.id.startsWith('cfr');
    const size = standardSizes(wantsAwg).find((candidate) => needed > 0 && capacityOf(run, candidate, model, limits, systemVolts).amps >= needed);
    if (size === undefined) continue;
    sizes.set(run, size);
    const capacity = capacityOf(run, size, model, limits, systemVolts);
    chosen.push({ subject: run.name, clause: 'size', text: size.written, why: `the smallest standard size that carries ${needed.toFixed(1)} A where it lies (it is good for ${capacity.amps.toFixed(1)} A)` });
  }

  const finalPoints = points(sizes, false);
  const capacities = new Map<Run, Capacity>();
  for (const [run, size] of sizes) capacities.set(run, capacityOf(run, size, model, limits, systemVolts));

  const cores = new Map<Core, CoreFigures>();
  const byRun = new Map<Run, CoreFigures[]>();
  for (const edge of network.edges) {
    if (edge.is !== 'core') continue;
    const { core } = edge;
    const design = edgeDesign[edge.index];
    const loads = protections.loadsThrough(edge);
    const size = sizes.get(core.run);
    const part = topology.part[topology.of(edge.from)] ?? -1;
    const figures: CoreFigures = {
      core,
      designAmps: design?.amps ?? 0,
      designFrom: design?.from ?? '',
      shortCircuitAmps: design?.shortCircuitAmps,
      neededAmps: design?.neededAmps,
      capacity: capacities.get(core.run),
      ohms: size === undefined ? undefined : coreOhmsAt20(core.run, size),
      protection: protectionOf.get(edge) as Protection,
      beforeFirstDevice: first.before.has(core),
      crankingOnly: loads.length > 0 && loads.every(({ cranking }) => cranking),
      isReturn: protections.isReturn(edge),
      onPanelSide: panelSide.has(part),
      loads: [...new Set(loads.map((draw) => draw.part))],
    };
    cores.set(core, figures);
    byRun.set(core.run, [...(byRun.get(core.run) ?? []), figures]);
  }

  const contacts = new Map<string, ContactFigures[]>();
  for (const edge of network.edges) {
    if (edge.is !== 'contact') continue;
    const links = poleLinks(edge.part, model).get(edge.contact.pole);
    const protection = protectionOf.get(edge) as Protection;
    const group = links?.parallel ?? [edge.contact.pole];
    const siblings = network.edges.filter((other): other is ContactEdge => other.is === 'contact' && other.part === edge.part && group.includes(other.contact.pole));
    // Poles in parallel carry the circuit's current together; each is judged with the group's rating.
    const designAmps = siblings.reduce((sum, other) => sum + (panelSide.has(topology.part[topology.of(other.from)] ?? -1) ? 0 : (edgeDesign[other.index]?.amps ?? 0)), 0);
    const shortCircuitAmps = edgeDesign[edge.index]?.shortCircuitAmps;
    const figures: ContactFigures = {
      part: edge.part,
      pole: edge.contact.pole,
      designAmps: shortCircuitAmps ?? designAmps,
      shortCircuitAmps,
      neededAmps: edgeDesign[edge.index]?.neededAmps,
      protection,
      circuitAmps: Math.min(protection.amps, protections.isReturn(edge) ? Number.POSITIVE_INFINITY : protections.downstreamAmps(edge)),
      ratedAmps: ratedAmps(edge.part, edge.contact.ratedAmps, group.length),
      parallelPoles: group,
      oneSidedWith: links?.oneSided ?? [],
      feeds: [...new Set(protections.loadsThrough(edge).map((draw) => draw.part))],
      onPanelSide: panelSide.has(topology.part[topology.of(edge.from)] ?? -1),
      device: ratings.get(edge),
    };
    contacts.set(edge.part.name, [...(contacts.get(edge.part.name) ?? []), figures]);
  }

  return {
    network,
    limits,
    limitsStated: model.system.limits !== undefined,
    cases: finalPoints.map((point) => caseAnswer(point, model, network, sources, draws, capacities, (run, stated) => {
      const size = sizes.get(run);
      return size === undefined ? undefined : capacityOf(run, size, model, limits, systemVolts, stated);
    }, (draw) => feederOf(draw, sources, topology), nominalOf)),
    cores,
    runs: byRun,
    contacts,
    loads: loadFigures(draws, sources, finalPoints, network, topology, nominalOf),
    unfused: first.lengths,
    chosen,
    systemVolts,
  };
}

export function standardSizes(awg: boolean): ConductorSize[] {
  return awg
    ? gauges.map((gauge) => ({ system: 'awg', gauge, written: `${gauge <= 0 ? `${1 - gauge}/0` : gauge} AWG` }))
    : areasMm2.map((areaMm2) => ({ system: 'mm2', areaMm2, written: `${areaMm2} mm²` }));
}

function electricsOf(
  model: Model,
  runs: readonly Run[],
  sizes: ReadonlyMap<Run, ConductorSize>,
  capacity: (run: Run, size: ConductorSize, stated?: Case) => Capacity,
): Map<Run, RunElectrics> {
  const electrics = new Map<Run, RunElectrics>();
  for (const run of runs) {
    const size = sizes.get(run);
    const plain = size === undefined ? undefined : capacity(run, size);
    electrics.set(run, {
      ohmsAt20: size === undefined ? undefined : coreOhmsAt20(run, size),
      insulationCelsius: insulationOf(run),
      ambientCelsius: ambientOf(run, model).celsius,
      capacity: (stated) => (size === undefined ? undefined : stated.ambientCelsius === undefined ? plain : capacity(run, size, stated)),
    });
  }
  return electrics;
}

function caseAnswer(
  point: OperatingPoint,
  model: Model,
  network: Network,
  sources: readonly Source[],
  draws: readonly Draw[],
  capacities: ReadonlyMap<Run, Capacity>,
  capacityIn: (run: Run, stated: Case) => Capacity | undefined,
  feeder: (draw: Draw) => Source | undefined,
  nominalOf: (source: Source | undefined) => number,
): CaseAnswer {
  const { solution, stated } = point;
  const volts = new Map<string, number>();
  for (const terminal of model.terminals.values()) volts.set(terminal.id, point.voltsAt(terminal));
  const parts = new Map<string, PartInCase>();
  for (const edge of network.edges) {
    if (edge.is !== 'contact') continue;
    const known = parts.get(edge.part.name);
    const amps = point.edgeAmps[edge.index] ?? 0;
    // A part with several contacts is told by the one that carries most.
    if (known?.amps === undefined || Math.abs(amps) > Math.abs(known.amps)) parts.set(edge.part.name, { part: edge.part, amps });
  }
  for (const source of sources) {
    const across = point.voltsAt(source.plus) - point.voltsAt(source.minus);
    const amps = point.sourceAmps.get(source) ?? 0;
    parts.set(source.part.name, { part: source.part, volts: across, amps, watts: across * amps });
  }
  for (const draw of draws) {
    if (draw.is === 'coil') continue;
    if (draw.is === 'input' && parts.has(draw.part.name)) continue;
    const across = point.voltsAt(draw.plus) - point.voltsAt(draw.minus);
    const amps = point.drawAmps.get(draw) ?? 0;
    const source = feeder(draw);
    const dropVolts = source !== undefined && amps > 0 ? dropOf(draw, source, point) : 0;
    const nominal = nominalOf(source);
    parts.set(draw.part.name, { part: draw.part, volts: across, amps, watts: across * amps, dropVolts, dropPercent: nominal > 0 ? (100 * dropVolts) / nominal : 0 });
  }
  return {
    name: stated.name,
    converged: solution.converged,
    trouble: solution.converged
      ? undefined
      : solution.trouble === 'collapse'
        ? `the wiring cannot feed all that is on: about ${Math.floor(100 * (solution.feedable ?? 0))} % of that power is the most it could`
        : 'no stable state was found for its sources',
    volts,
    cores: network.edges.flatMap((edge) => {
      if (edge.is !== 'core') return [];
      const amps = point.edgeAmps[edge.index] ?? 0;
      const ohms = point.ohms.get(edge.core) ?? 0;
      const capacity = stated.ambientCelsius === undefined ? capacities.get(edge.core.run) : capacityIn(edge.core.run, stated);
      return [
        {
          core: edge.core,
          amps,
          assumed: point.assumed[edge.index] ?? false,
          dropVolts: amps * ohms,
          watts: amps * amps * ohms,
          celsius: point.celsius.get(edge.core) ?? 20,
          capacityAmps: capacity?.amps,
        },
      ];
    }),
    parts,
  };
}
