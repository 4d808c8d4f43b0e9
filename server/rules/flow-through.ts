/** What flows through a joint, a diode, a shunt or a socket-outlet, and what protects that. */
import type { Answers, ContactFigures, CoreFigures, Protection } from '../answers/answers.ts';
import type { Part, Terminal } from '../model/model.ts';
import { exceeds } from './exceeds.ts';
import { feedOf } from './feed-of.ts';
import { protectors } from './words.ts';

export interface Flow {
  readonly designAmps: number;
  readonly neededAmps: number | undefined;
  readonly shortCircuitAmps: number | undefined;
  readonly protection: Protection;
  readonly loads: readonly Part[];
  /** Of fixed loads only; undefined where anything may be plugged in. */
  readonly fixedAmps: number | undefined;
}

export function isReturn(part: Part, answers: Answers): boolean {
  return part.terminals.flatMap((terminal) => conductors(terminal, answers)).every((core) => core.isReturn);
}

export function isSameProtection({ protection: one }: Flow, { protection: other }: Flow): boolean {
  return one.amps === other.amps && protectors(one) === protectors(other);
}

/**
 * What one conductor brings is what a clamp or stud carries; what several bring together divides over a bar, so the greatest
 * of them counts. No more comes by one than the others take away, so that fuses behind a bar count too; where each by itself
 * is within the rating, that makes it no worse.
 */
export function ofJoint(part: Part, rating: number, answers: Answers): Flow | undefined {
  const cores = part.terminals.flatMap((terminal) => conductors(terminal, answers));
  const bounds = cores.map((core) => boundOf(core, part, answers));
  const isWithin = (core: CoreFigures, protection: Protection) =>
    Number.isFinite(protection.amps) &&
    !protection.blank &&
    !exceeds(measure({ neededAmps: core.neededAmps, designAmps: carried(core), protection }), rating);
  if (cores.every((core, i) => isWithin(core, bounds[i] ?? core.protection))) return undefined;
  const limitOf = ({ amps, blank }: Protection) => (blank ? Number.POSITIVE_INFINITY : amps);
  const endless = bounds.filter((bound) => limitOf(bound) === Number.POSITIVE_INFINITY).length;
  const finite = bounds.reduce((sum, bound) => sum + (Number.isFinite(limitOf(bound)) ? limitOf(bound) : 0), 0);
  let most:
    | { readonly core: CoreFigures; readonly i: number; readonly isTaken: boolean; readonly amps: number }
    | undefined;
  for (const [i, core] of cores.entries()) {
    const own = bounds[i] ?? core.protection;
    const limit = limitOf(own);
    const isAlone = endless === (Number.isFinite(limit) ? 0 : 1) && cores.length > 1;
    const taken = isAlone ? finite - (Number.isFinite(limit) ? limit : 0) : Number.POSITIVE_INFINITY;
    const isTaken = taken < own.amps;
    const protection = isTaken ? { amps: taken, blank: false } : own;
    const amps = measure({ neededAmps: core.neededAmps, designAmps: carried(core), protection });
    if (most === undefined || amps > most.amps) most = { core, i, isTaken, amps };
  }
  if (most === undefined) return undefined;
  const { core, i, isTaken } = most;
  const protection = isTaken ? togetherOf(bounds.filter((_, j) => j !== i)) : (bounds[i] ?? core.protection);
  return { ...ofCore(core, answers), protection };
}

/** What lets through no more than a current: a device at the other end of a conductor, else what protects it. */
function boundOf({ core: { from, to }, protection }: CoreFigures, joint: Part, { contacts }: Answers): Protection {
  const end = from?.part === joint ? to?.part : from?.part;
  const [contact, other] = (end && contacts.get(end.name)) ?? [];
  const amps = contact?.device?.amps;
  const isLess = amps !== undefined && other === undefined && !contact?.device?.blank && amps < protection.amps;
  return isLess && contact !== undefined
    ? {
        amps,
        devices: [{ part: contact.part, pole: contact.pole, amps }],
        limitedSources: [],
        unprotectedFrom: protection.unprotectedFrom,
        blank: protection.blank,
      }
    : protection;
}

/** What several let through together. */
function togetherOf(bounds: readonly Protection[]): Protection {
  const devices = bounds.flatMap((bound) => bound.devices);
  return {
    amps: bounds.reduce((sum, { amps }) => sum + amps, 0),
    devices: [...new Map(devices.map((one) => [`${one.part.name}:${one.pole}`, one])).values()],
    limitedSources: [],
    unprotectedFrom: [],
    blank: false,
  };
}

function carried({ crankingOnly, designAmps }: CoreFigures): number {
  return crankingOnly ? 0 : designAmps;
}

export function conductors({ id }: Terminal, { network, cores }: Answers): CoreFigures[] {
  return (network.at.get(id) ?? []).flatMap((edge) => (edge.is === 'core' ? (cores.get(edge.core) ?? []) : []));
}

function ofCore(core: CoreFigures, { loads }: Answers): Flow {
  const fixed = core.loads.every(({ kind }) => kind.word === 'load');
  return {
    designAmps: carried(core),
    neededAmps: core.neededAmps,
    shortCircuitAmps: core.shortCircuitAmps,
    protection: core.protection,
    loads: core.loads,
    fixedAmps:
      fixed && core.loads.length > 0
        ? core.loads.reduce((sum, { name }) => sum + (loads.get(name)?.designAmps ?? 0), 0)
        : undefined,
  };
}

export function ofDiode(part: Part, { contacts }: Answers): Flow | undefined {
  const flows = (contacts.get(part.name) ?? []).map(
    (one: ContactFigures): Flow => ({
      ...one,
      loads: one.feeds,
      fixedAmps: one.feedsFixed ? one.feedsAmps : undefined,
    }),
  );
  return flows.sort((a, b) => measure(b) - measure(a))[0];
}

export function ofShunt(part: Part, answers: Answers): Flow | undefined {
  const contact = answers.contacts.get(part.name)?.[0];
  return contact === undefined
    ? undefined
    : {
        ...contact,
        protection: withoutSideBySide(contact.protection, answers),
        loads: contact.feeds,
        fixedAmps: contact.feedsFixed ? contact.feedsAmps : undefined,
      };
}

/**
 * Of circuits that each begin at the battery with a fuse of their own the largest counts: what they draw together is seen in the
 * current. Behind a main fuse all count that let less through together than that one.
 */
function withoutSideBySide(protection: Protection, { unfused }: Answers): Protection {
  const { devices, limitedSources, amps } = protection;
  const isFirst = ({ part, pole }: Protection['devices'][number]) =>
    unfused.some((one) => one.device === part && one.pole === pole);
  if (devices.length + limitedSources.length <= 1 || !Number.isFinite(amps) || !devices.some(isFirst))
    return protection;
  const sumOf = (all: Protection['devices']) => all.reduce((sum, one) => sum + one.amps, 0);
  const behind = devices.filter((one) => !isFirst(one));
  const largest = devices
    .filter(isFirst)
    .sort((a, b) => b.amps - a.amps)
    .slice(0, 1);
  const counted = sumOf(behind) > sumOf(largest) ? behind : largest;
  return { ...protection, amps: sumOf(counted), devices: counted, limitedSources: [] };
}

/** Anything may be plugged in, up to what its device lets through. */
export function ofSocket(part: Part, answers: Answers): Flow | undefined {
  const feed = feedOf(part, answers);
  return feed === undefined
    ? undefined
    : {
        ...ofCore(feed, answers),
        designAmps: answers.loads.get(part.name)?.designAmps ?? 0,
        loads: [part],
        fixedAmps: part.facts.says('plugged') ? answers.loads.get(part.name)?.designAmps : undefined,
      };
}

/** What it must bear; a device whose rating is open, or none at all, is told of elsewhere. */
export function measure({
  neededAmps,
  designAmps,
  protection,
}: Pick<Flow, 'neededAmps' | 'designAmps'> & { readonly protection: Pick<Protection, 'amps' | 'blank'> }): number {
  if (neededAmps !== undefined) return neededAmps;
  const device = protection.blank || !Number.isFinite(protection.amps) ? 0 : protection.amps;
  return Math.max(device, designAmps);
}
