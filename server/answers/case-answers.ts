/** What a case's operating point is told as: volts, cores, contacts and parts. */

import { lazily } from '../model/lazily.ts';
import type { Part, Run } from '../model/model.ts';
import type { CaseAnswer, ContactInCase, CoreInCase, PartInCase } from './answers.ts';
import { ampsThrough } from './design-currents.ts';
import { dropBetween, feederIn, percentOf } from './drop-paths.ts';
import type { Installation } from './installation.ts';
import type { OperatingPoint } from './operating-points.ts';
import type { Draw } from './ports.ts';
import type { RunElectrics } from './run-electrics.ts';

export function caseAnswer(
  installation: Installation,
  electrics: ReadonlyMap<Run, RunElectrics>,
  point: OperatingPoint,
): CaseAnswer {
  const { stated, converged, trouble, overloads, residual } = point;
  const base = { name: stated.name, converged, trouble, overloads, residual };
  if (!converged) return { volts: new Map(), cores: [], contacts: [], parts: new Map(), ...base };
  // Put together when first asked for: of many cases somebody asks for a part.
  const volts = lazily(() => {
    const told = new Map<string, number>();
    for (const terminal of installation.wiring.terminals) told.set(terminal.id, point.voltsAt(terminal));
    return told;
  });
  const cores = lazily(() => coresIn(installation, electrics, point));
  const contacts = lazily(() => contactsIn(installation, point));
  const parts = lazily(() => partsIn(installation, point));
  return {
    get volts() {
      return volts();
    },
    get cores() {
      return cores();
    },
    get contacts() {
      return contacts();
    },
    get parts() {
      return parts();
    },
    ...base,
  };
}

function coresIn(
  { network }: Installation,
  electrics: ReadonlyMap<Run, RunElectrics>,
  point: OperatingPoint,
): CoreInCase[] {
  const cores: CoreInCase[] = [];
  for (const edge of network.edges) {
    if (edge.is !== 'core') continue;
    const { core, index } = edge;
    const amps = point.amps[index] ?? 0;
    const ohms = point.ohms[index] ?? 0;
    cores.push({
      core,
      amps,
      assumed: point.assumed[index] ?? false,
      dropVolts: amps * ohms,
      watts: amps * amps * ohms,
      celsius: point.celsius[index] ?? 20,
      // The size that the tool would choose is good for the drop, but it is not the run's.
      capacityAmps: core.run.size === undefined ? undefined : electrics.get(core.run)?.capacity(point.stated)?.amps,
    });
  }
  return cores;
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

/** In the order of statements. */
function partsIn(installation: Installation, point: OperatingPoint): Map<string, PartInCase> {
  const told = new Map<Part, PartInCase>();
  for (const way of installation.wiring.ways) {
    const [edge] = way.edges;
    if (edge?.is !== 'contact') continue;
    const { part } = edge;
    const amps = ampsThrough(way, installation, point);
    const before = told.get(part)?.amps;
    const together = part.kind.word === 'fusebox' ? (before ?? 0) + amps : undefined;
    if (before !== undefined && together === undefined && !isMore(amps, before)) continue;
    told.set(part, {
      part,
      amps: together ?? amps,
      ...(part.kind.behaviour.is === 'coil' ? { energised: point.energised.has(part) } : {}),
    });
  }
  for (const source of installation.sources) {
    // A controller is told by its battery side, an inverter by what it draws.
    if (source.is === 'load-output' || source.is === 'mains') continue;
    const volts = point.across(source);
    const amps = point.sourceAmps.get(source) ?? 0;
    const limited = point.limited.has(source) ? { limited: true as const } : {};
    told.set(source.part, { part: source.part, volts, amps, watts: volts * amps, ...limited });
  }
  for (const draw of installation.draws) {
    if (draw.is === 'pv' ? !point.drawAmps.has(draw) : draw.is !== 'load' && draw.is !== 'input') continue;
    const { part } = draw;
    const taken = takenBy(installation, draw, point);
    const known = told.get(part);
    if (draw.is === 'load') told.set(part, { part, ...withMains(installation, draw, point, taken) });
    // Of several inputs the one in use is told.
    else if (known !== undefined && (known.input === undefined || taken.amps > known.input.amps))
      told.set(part, { ...known, input: taken });
  }
  return new Map(
    [...installation.model.parts.values()].flatMap((part) => {
      const one = told.get(part);
      return one === undefined ? [] : [[part.name, one] as const];
    }),
  );
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
  { supplies, strings }: Installation,
  { plus, minus }: Draw,
  { connections: { joined } }: OperatingPoint,
): boolean {
  const ends = [plus, minus];
  return [...supplies, ...strings].some(
    (feed) =>
      ends.every((end) => joined(end, feed.plus) || joined(end, feed.minus)) ||
      // Of batteries in series also between any two of them.
      ('sources' in feed &&
        ends.every((end) => feed.sources.some((one) => joined(end, one.plus) || joined(end, one.minus)))),
  );
}

/** An inverter that charges from the mains gives current where it otherwise takes it. */
function withMains({ sources }: Installation, { part }: Draw, point: OperatingPoint, taken: Taken): Taken {
  const mains = sources.find((source) => source.is === 'mains' && source.part === part);
  const given = mains === undefined ? 0 : (point.sourceAmps.get(mains) ?? 0);
  return given > 0 ? { ...taken, amps: -given, watts: -given * taken.volts } : taken;
}

/** Of contacts that carry as much the first pole is told, whatever the last digit says. */
function isMore(amps: number, before: number): boolean {
  return Math.abs(amps) > Math.abs(before) * (1 + 1e-9) + 1e-12;
}
