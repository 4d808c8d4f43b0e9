/** What a case's operating point is told as: volts, cores, contacts and parts. */

import { lazily, lazilyEach } from '../model/lazily.ts';
import type { Part, Run } from '../model/model.ts';
import type { CoreEdge } from '../model/network.ts';
import type { CaseAnswer, ContactInCase, CoreInCase, PartInCase } from './answers.ts';
import { ampsThrough } from './design-currents.ts';
import { dropBetween, feederIn, percentOf } from './drop-paths.ts';
import type { Installation } from './installation.ts';
import type { OperatingPoint } from './operating-points.ts';
import type { Draw, Source } from './ports.ts';
import type { RunElectrics } from './run-electrics.ts';

export function caseAnswer(
  installation: Installation,
  electrics: ReadonlyMap<Run, RunElectrics>,
  point: OperatingPoint,
): CaseAnswer {
  const { stated, converged, trouble, overloads, unfed, residual } = point;
  const base = { name: stated.name, converged, trouble, overloads, unfed, residual };
  if (!converged)
    return {
      volts: new Map(),
      voltsAt: () => undefined,
      cores: [],
      contacts: [],
      parts: new Map(),
      coreIn: () => undefined,
      partIn: () => undefined,
      ...base,
    };
  // Put together when first asked for: of many cases somebody asks for a part.
  const volts = lazily(() => {
    const told = new Map<string, number>();
    for (const terminal of installation.wiring.terminals) told.set(terminal.id, point.voltsAt(terminal));
    return told;
  });
  const ofEdge = lazilyEach((edge: CoreEdge) => coreIn(edge, electrics, point));
  const cores = lazily(() => installation.network.edges.flatMap((edge) => (edge.is === 'core' ? [ofEdge(edge)] : [])));
  const contacts = lazily(() => contactsIn(installation, point));
  const ofPart = lazilyEach((part: Part) => partIn(installation, part, point));
  // In the order of statements.
  const parts = lazily(
    () =>
      new Map(
        [...installation.model.parts.values()].flatMap((part) => {
          const told = ofPart(part);
          return told === undefined ? [] : [[part.name, told] as const];
        }),
      ),
  );
  return {
    get volts() {
      return volts();
    },
    voltsAt: (terminal) => point.voltsAt(terminal),
    get cores() {
      return cores();
    },
    get contacts() {
      return contacts();
    },
    get parts() {
      return parts();
    },
    coreIn(core) {
      const edge = installation.edgeOf(core);
      return edge === undefined ? undefined : ofEdge(edge);
    },
    partIn: ofPart,
    ...base,
  };
}

function coreIn(
  { core, index }: CoreEdge,
  electrics: ReadonlyMap<Run, RunElectrics>,
  point: OperatingPoint,
): CoreInCase {
  const amps = point.amps[index] ?? 0;
  const ohms = point.ohms[index] ?? 0;
  return {
    core,
    amps,
    assumed: point.assumed[index] ?? false,
    dropVolts: amps * ohms,
    watts: amps * amps * ohms,
    celsius: point.celsius[index] ?? 20,
    // The size that the tool would choose is good for the drop, but it is not the run's.
    capacityAmps: core.run.size === undefined ? undefined : electrics.get(core.run)?.capacity(point.stated)?.amps,
  };
}

function contactsIn({ network }: Installation, point: OperatingPoint): ContactInCase[] {
  const contacts: ContactInCase[] = [];
  for (const edge of network.edges)
    if (edge.is === 'contact')
      contacts.push({
        part: edge.part,
        pole: edge.contact.pole,
        closed: point.connections.closed[edge.index] ?? false,
        amps: point.amps[edge.index] ?? 0,
        assumed: point.assumed[edge.index] ?? false,
      });
  return contacts;
}

/** What a case says of one part; undefined for what carries, gives and takes nothing. */
function partIn(installation: Installation, part: Part, point: OperatingPoint): PartInCase | undefined {
  const { ways, sources, draws } = installation.at(part);
  let told: PartInCase | undefined;
  for (const way of ways) {
    const amps = ampsThrough(way, installation, point);
    const before = told?.amps;
    const together = part.kind.word === 'fusebox' ? (before ?? 0) + amps : undefined;
    if (before !== undefined && together === undefined && !isMore(amps, before)) continue;
    told = {
      part,
      amps: together ?? amps,
      ...(part.kind.behaviour.is === 'coil' ? { energised: point.energised.has(part) } : {}),
    };
  }
  for (const source of sources) {
    // A controller is told by its battery side, an inverter by what it draws.
    if (source.is === 'load-output' || source.is === 'mains') continue;
    const volts = point.across(source);
    const amps = point.sourceAmps.get(source) ?? 0;
    const limited = point.limited.has(source) ? { limited: true as const } : {};
    told = { part, volts, amps, watts: volts * amps, ...limited };
  }
  for (const draw of draws) {
    if (draw.is === 'coil' && told !== undefined) told = { ...told, coilVolts: point.across(draw) };
    if (draw.is === 'pv' ? !point.drawAmps.has(draw) : draw.is !== 'load' && draw.is !== 'input') continue;
    const taken = takenBy(installation, draw, point);
    if (draw.is === 'load') told = { part, ...withMains(sources, point, taken) };
    // Of several inputs the one in use is told.
    else if (told !== undefined && (told.input === undefined || taken.amps > told.input.amps))
      told = { ...told, input: taken };
  }
  return told;
}

type Taken = NonNullable<PartInCase['input']>;

function takenBy(installation: Installation, draw: Draw, point: OperatingPoint): Taken {
  const amps = point.drawAmps.get(draw) ?? 0;
  // What no source is joined to on both sides has nothing across it, whatever stands at one of its terminals.
  const volts = amps !== 0 || isJoined(installation, draw, point) ? point.across(draw) : 0;
  const supply = amps > 0 ? feederIn(installation, draw, point) : undefined;
  const dropVolts = supply === undefined ? 0 : dropBetween(supply, draw, point);
  return {
    volts,
    amps,
    watts: volts * amps,
    dropVolts,
    dropPercent: percentOf(dropVolts, installation.nominalOf(supply)),
  };
}

function isJoined(
  installation: Installation,
  { plus, minus }: Draw,
  { connections: { joined } }: OperatingPoint,
): boolean {
  const ends = [plus, minus];
  return [...installation.feedsOn(plus)].some(
    (feed) =>
      ends.every((end) => joined(end, feed.plus) || joined(end, feed.minus)) ||
      // Of batteries in series also between any two of them.
      ('sources' in feed &&
        ends.every((end) => feed.sources.some((one) => joined(end, one.plus) || joined(end, one.minus)))),
  );
}

/** An inverter that charges from the mains gives current where it otherwise takes it. */
function withMains(sources: readonly Source[], point: OperatingPoint, taken: Taken): Taken {
  const mains = sources.find(({ is }) => is === 'mains');
  const given = mains === undefined ? 0 : (point.sourceAmps.get(mains) ?? 0);
  return given > 0 ? { ...taken, amps: -given, watts: -given * taken.volts } : taken;
}

/** Of contacts that carry as much the first pole is told, whatever the last digit says. */
function isMore(amps: number, before: number): boolean {
  return Math.abs(amps) > Math.abs(before) * (1 + 1e-9) + 1e-12;
}
