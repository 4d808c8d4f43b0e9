/**
 * The fuse that a conductor wants at one of its ends: of the smallest usual body style and rating that its load does not blow,
 * that all behind it may have, and that breaks what its sources drive at their voltage.
 */
import type { Answers, CoreFigures } from '../answers/answers.ts';
import type { CircuitVolts } from '../answers/circuit-volts.ts';
import { heldBy } from '../answers/holding.ts';
import type { Core, Terminal } from '../model/model.ts';
import type { ContactEdge, Edge } from '../model/network.ts';
import { usualBreakingCapacity } from '../tables/breaking-capacity.ts';
import { fuseGates } from '../tables/fuse-gates.ts';
import { bladeAmps, isolatorVolts, largeFuseAmps, stringFuseAmps } from '../tables/sizes.ts';
import { deviceAtEnd } from './device-at-end.ts';
import { exceeds } from './exceeds.ts';
import { bornShare } from './fuse-hot.ts';
import { isRatedToCarry } from './rated-to-carry.ts';
import { reach } from './reach.ts';

export interface NewFuse {
  readonly amps: number;
  readonly style: string;
  readonly volts: number;
  readonly breaksAmps: number;
}

export interface FuseWanted {
  readonly core: Core;
  /** The end that what drives a fault is at, and the other. */
  readonly near: Terminal;
  readonly far: Terminal;
  /** The smallest that serves, or, where nothing tells what flows, the largest that all behind it may have. */
  readonly prefers: 'smallest' | 'largest';
  /** At least, and at most, in ampere, besides what the wiring asks for; what is wished counts where all behind it bears that. */
  readonly least?: number;
  readonly most?: number;
  readonly wished?: number;
  /** In a string of panels. */
  readonly ofString?: boolean;
}

interface Style {
  readonly style: string;
  readonly amps: readonly number[];
  readonly volts: readonly number[];
  /** Where it is not usual for the style. */
  readonly breaks?: readonly number[];
}

/** Plainest first; voltages, and what small cartridges break, as usual in the trade (common practice, no source). */
const styles: readonly Style[] = [
  { style: 'blade', amps: bladeAmps, volts: [32] },
  { style: 'bolt-in', amps: largeFuseAmps, volts: [58] },
  { style: 'cartridge', amps: bladeAmps.filter((amps) => amps <= 30), volts: [125], breaks: [10_000, 20_000] },
  { style: 'class-t', amps: largeFuseAmps, volts: [125] },
];
const ofStrings: readonly Style[] = [{ style: 'gpv', amps: stringFuseAmps, volts: isolatorVolts }];

/** Undefined where none serves, or where what it must bear or protect is not known; `celsius` is how warm it gets there. */
export function newFuse(wanted: FuseWanted, celsius: number | undefined, answers: Answers): NewFuse | undefined {
  const figures = answers.cores.get(wanted.core);
  const bounds = figures === undefined ? undefined : boundsOf(wanted, figures, answers);
  if (figures === undefined || bounds === undefined) return undefined;
  const volts = voltsOf(figures.volts);
  const faultAmps = answers.faults.ofTerminal(wanted.near)?.greatestAmps;
  if (volts === undefined || faultAmps === undefined) return undefined;
  const flow = answers.directions.ofCore(wanted.core);
  const needed = Math.max(figures.designAmps, flow.lastingAmps);
  const bears = (amps: number, style: string) => {
    if (wanted.ofString !== true && exceeds(needed, amps)) return false;
    const curve = fuseGates(style);
    const held = (current: (typeof flow.runs)[number]) =>
      heldBy(curve === undefined ? undefined : { gates: curve.gates, from: curve.source }, amps, current).holding;
    // As of one that is there: what starts is no matter to a device of which no curve is known.
    return [...flow.runs, ...flow.timedStarts, ...flow.cranks].every(
      (one) => held(one) === 'holds' || (held(one) === 'not known' && one.is !== 'runs'),
    );
  };
  const { least, over, most, tails } = bounds;
  const isGood = (amps: number) =>
    tails.every(({ figures: tail, permitted }) => {
      const atEnd = exceeds(amps, permitted) ? deviceAtEnd(tail, amps, answers) : undefined;
      return !exceeds(amps, permitted) || (atEnd !== undefined && atEnd.trouble === undefined);
    });
  const all = wanted.ofString === true ? ofStrings : styles;
  const ratings = [...new Set(all.flatMap(({ amps }) => amps))]
    .filter((amps) => exceeds(amps, over) && !exceeds(least, amps) && !exceeds(amps, most) && isGood(amps))
    .sort((a, b) => (wanted.prefers === 'smallest' ? a - b : b - a));
  const found = (from: readonly number[]) => {
    for (const amps of from)
      for (const one of all) {
        const rated = one.volts.find((figure) => !exceeds(volts, figure));
        const usual = usualBreakingCapacity(one.style, amps)?.amps;
        const breaks = (one.breaks ?? [usual ?? 0]).find((figure) => !exceeds(faultAmps, figure));
        if (!one.amps.includes(amps) || rated === undefined || breaks === undefined) continue;
        if (bears(amps, one.style)) return { amps, style: one.style, volts: rated, breaksAmps: breaks };
      }
    return undefined;
  };
  // Where it is warm it bears less than its rating: a larger one is better, and no need.
  const wished = Math.max(wanted.wished ?? 0, needed / bornShare(celsius ?? 0));
  return found(ratings.filter((amps) => !exceeds(wished, amps))) ?? found(ratings);
}

function voltsOf({ nominal, charging, panels }: CircuitVolts): number | undefined {
  const all = [nominal?.volts, charging?.volts, panels?.coldVolts ?? panels?.openVolts].filter(
    (one) => one !== undefined,
  );
  return all.length === 0 ? undefined : Math.max(...all);
}

interface Bounds {
  readonly least: number;
  /** Above this, so that what it stands before opens first. */
  readonly over: number;
  readonly most: number;
  readonly tails: Readonly<Tails>;
}

/** What leads to a device nearby, with the largest device that it may have if not for that one. */
type Tails = { readonly figures: CoreFigures; readonly permitted: number }[];

/** Undefined where there is a way around the fuse, or where the size of something that it has to protect is not known. */
function boundsOf({ core, near, far, least = 0, most, ofString }: FuseWanted, own: CoreFigures, answers: Answers) {
  const { network, cores, contacts, limits, systemVolts } = answers;
  const passes = (edge: Edge) => !(edge.is === 'core' && edge.core === core) && !isDevice(edge);
  const behind = reach(far, network, passes);
  if (behind.has(near)) return undefined;
  const edges = new Set([...behind].flatMap(({ id }) => network.at.get(id) ?? []));
  const bounds: number[] = [most ?? Number.POSITIVE_INFINITY];
  const devices = new Set<ContactEdge>();
  const tails: Tails = [];
  for (const edge of edges) {
    if (edge.is === 'core') {
      const figures = edge.core === core ? own : cores.get(edge.core);
      if (ofString === true || figures === undefined) continue;
      if (figures.capacity === undefined) return undefined;
      const permitted = limits.permittedDeviceAmps(figures.capacity, systemVolts).amps;
      if (isBesides(figures, core, answers)) tails.push({ figures, permitted });
      else bounds.push(permitted);
    } else if (edge.is !== 'contact') continue;
    else if (edge.contact.protects) devices.add(edge);
    else if (ofString !== true) {
      const contact = contacts.get(edge.part.name)?.find(({ pole }) => pole === edge.contact.pole);
      const rated = contact?.ratedAmps;
      if (contact !== undefined && rated !== undefined && exceeds(contact.circuitAmps, rated)) bounds.push(rated);
    }
  }
  const parts = new Set([...behind].map(({ part }) => part));
  for (const part of parts) {
    const { facts } = part;
    const rating = isRatedToCarry(part) ? facts.number('rating') : facts.number('most-fuse');
    if (rating !== undefined && ofString !== true) bounds.push(rating);
  }
  const bare = [...parts].some(({ kind }) => kind.behaviour.is !== 'none' && kind.behaviour.is !== 'coil');
  const amps = [...devices].flatMap(
    ({ part, contact }) => contacts.get(part.name)?.find(({ pole }) => pole === contact.pole)?.device?.amps ?? [],
  );
  const selective = ofString !== true && (devices.size > 1 || (devices.size === 1 && bare));
  return { least, over: selective ? Math.max(0, ...amps) : 0, most: Math.min(...bounds), tails } satisfies Bounds;
}

/** It branches off behind the fuse towards a device of its own, which may be what protects it. */
function isBesides({ core, beforeFirstDevice }: CoreFigures, wanted: Core, { tailOf }: Answers): boolean {
  const tail = beforeFirstDevice && core !== wanted ? tailOf(core) : undefined;
  return tail !== undefined && !tail.cores.includes(wanted);
}

function isDevice(edge: Edge): edge is ContactEdge {
  return edge.is === 'contact' && edge.contact.protects;
}
