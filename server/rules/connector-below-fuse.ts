/** A connector, splice, busbar, block or diode rated below what protects its circuit, or below what it carries. */

import type { Answers, ContactFigures, CoreFigures, Protection } from '../answers/answers.ts';
import type { Part, Terminal } from '../model/model.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import type { Reported, Rule, RuleContext } from './rule.ts';
import { isToldAsTooSmall } from './told-as-too-small.ts';
import { amps, names, panelFactor, protectors } from './words.ts';

const through = (joint: string, name: string, load = 'socket LAMP 12 A') =>
  lampSpec(
    {
      fuse: 'fuse F1 20 A, blade, 32 V',
      load,
      feed: 'run W1 4 mm² red, 0.1 m, B1:+ to F1:in',
      out: `run W2 4 mm² red, 1.2 m, F1:out to ${name}`,
      back: 'run W3 4 mm² black, 1.3 m, LAMP:- to B1:-',
    },
    joint,
    `run W4 4 mm² red, 1 m, ${name} to LAMP:+`,
  );

export const rule: Rule = {
  slug: 'connector-below-fuse',
  severity: 'error',
  group: 'protection',
  reads: [
    'connector.rating',
    'busbar.rating',
    'splice.rating',
    'block.rating',
    'diode.rating',
    'fuse.rating',
    'breaker.rating',
    'panel.isc',
  ],
  page: {
    title: 'A connector weaker than the fuse before it',
    why: 'The fuse lets its whole rating through for ever. A plug, clamp or bar made for less gets hot at its contacts, and hot contacts only get worse.',
    limit:
      'Everything that carries the current of a circuit is good for the rating of the device that protects it: Ib ≤ In ≤ Iz (IEC 60364-4-43 clause 433.1, confirmed), of a connector its pin, of a bar no more than the fuses right behind it let through together. On the panel side it is the panels’ short-circuit current times the factor of the set of limits. Where it serves only fixed loads whose sum is within its rating it is a warning.',
    mend: 'Use one of at least the fuse’s rating, or a smaller fuse if the loads allow it.',
    see: ['switch-below-fuse', 'cable-too-small'],
    wrong: [
      through('connector X1 2 pins, 15 A, 60 V # finds: connector-below-fuse "15 A"', 'X1:1'),
      through('busbar X1 10 A # finds: connector-below-fuse "10 A"', 'X1'),
      through('splice X1 10 A # finds: connector-below-fuse "10 A"', 'X1', 'load LAMP 8 A'),
    ],
    right: [
      through('connector X1 2 pins, 20 A, 60 V', 'X1:1'),
      through('busbar X1 50 A', 'X1'),
      lampSpec(
        {
          fuse: 'fuse F1 20 A, blade, 32 V',
          load: 'socket LAMP 7 A',
          feed: 'run W1 4 mm² red, 0.1 m, B1:+ to F1:in',
          out: 'run W2 4 mm² red, 1.2 m, F1:out to X1',
          back: 'run W3 4 mm² black, 1.3 m, LAMP:- to B1:-',
        },
        'busbar X1 15 A',
        'fuse F2 7.5 A, blade, 32 V',
        'load FAN 3 A',
        'fuse F3 7.5 A, blade, 32 V',
        'run W4 4 mm² red, 0.1 m, X1 to F2:in',
        'run W5 4 mm² red, 1 m, F2:out to LAMP:+',
        'run W6 4 mm² red, 0.1 m, X1 to F3:in',
        'run W7 4 mm² red, 1 m, F3:out to FAN:+',
        'run W8 4 mm² black, 1 m, FAN:- to B1:-',
      ),
    ],
  },
  *check(context) {
    const { model, answers } = context;
    const told: { readonly flow: Flow; readonly part: Part }[] = [];
    for (const part of model.parts.values()) {
      const rating = part.kind.family === 'joint' ? part.facts.number('rating') : undefined;
      if (rating === undefined) continue;
      const worst = part.kind.word === 'diode' ? ofDiode(part, answers) : ofJoint(part, rating, answers);
      const reported = worst === undefined ? undefined : judge(part, rating, worst, answers);
      if (worst === undefined || reported === undefined || isOfThinCable(part, worst, context)) continue;
      // The bar of the returns has the fuses of that of the feeds.
      const twin = isReturn(part, answers) ? told.find(({ flow }) => isSameProtection(flow, worst)) : undefined;
      if (twin !== undefined) continue;
      told.push({ flow: worst, part });
      yield reported;
    }
  },
};

interface Flow {
  readonly designAmps: number;
  readonly neededAmps: number | undefined;
  readonly shortCircuitAmps: number | undefined;
  readonly protection: Protection;
  readonly loads: readonly Part[];
  /** Of fixed loads only; undefined where anything may be plugged in. */
  readonly fixedAmps: number | undefined;
}

/** Whether a cable on it is too small for the same devices: what that lacks is told with the cable. */
function isOfThinCable(part: Part, { protection }: Flow, context: RuleContext): boolean {
  return part.terminals
    .flatMap((terminal) => conductors(terminal, context.answers))
    .some((core) => core.protection.amps === protection.amps && isToldAsTooSmall(core.core.run, context));
}

function isReturn(part: Part, answers: Answers): boolean {
  return part.terminals.flatMap((terminal) => conductors(terminal, answers)).every((core) => core.isReturn);
}

function isSameProtection({ protection: one }: Flow, { protection: other }: Flow): boolean {
  return one.amps === other.amps && protectors(one) === protectors(other);
}

/**
 * What one conductor brings is what a clamp or stud carries; what several bring together divides over a bar, so the greatest
 * of them counts. No more comes by one than the others take away, so that fuses behind a bar count too; where each by itself
 * is within the rating, that makes it no worse.
 */
function ofJoint(part: Part, rating: number, answers: Answers): Flow | undefined {
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

function conductors({ id }: Terminal, { network, cores }: Answers): CoreFigures[] {
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

function ofDiode(part: Part, { contacts }: Answers): Flow | undefined {
  const flows = (contacts.get(part.name) ?? []).map(
    (one: ContactFigures): Flow => ({
      ...one,
      loads: one.feeds,
      fixedAmps: one.feedsFixed ? one.feedsAmps : undefined,
    }),
  );
  return flows.sort((a, b) => measure(b) - measure(a))[0];
}

/** What it must bear; a device whose rating is open, or none at all, is told of elsewhere. */
function measure({
  neededAmps,
  designAmps,
  protection,
}: Pick<Flow, 'neededAmps' | 'designAmps'> & { readonly protection: Pick<Protection, 'amps' | 'blank'> }): number {
  if (neededAmps !== undefined) return neededAmps;
  const device = protection.blank || !Number.isFinite(protection.amps) ? 0 : protection.amps;
  return Math.max(device, designAmps);
}

function judge(part: Part, rating: number, flow: Flow, answers: Answers): Reported | undefined {
  const { designAmps, neededAmps, shortCircuitAmps, protection, loads, fixedAmps } = flow;
  const needed = measure(flow);
  if (!exceeds(needed, rating)) return undefined;
  const carries = exceeds(designAmps, rating);
  const what =
    neededAmps !== undefined
      ? `its panels can give ${amps(shortCircuitAmps ?? 0)}, which asks for ${amps(neededAmps)} (× ${panelFactor(answers)})`
      : carries
        ? `carries ${amps(designAmps)}`
        : `its circuit is protected at ${amps(protection.amps)} (${protectors(protection)})`;
  const fixed = neededAmps === undefined && !carries && fixedAmps !== undefined && !exceeds(fixedAmps, rating);
  const calm = fixed
    ? ` It serves only ${loads.length <= 3 ? names(loads) : `${loads.length} fixed loads`}, ${amps(fixedAmps ?? 0)} in all, so it will do until there is a fault.`
    : '';
  const smaller = neededAmps === undefined && !carries ? ', or a smaller fuse' : '';
  return {
    severity: fixed ? 'warning' : 'error',
    message: `${part.name} is rated ${amps(rating)}${part.kind.word === 'connector' ? ' a pin' : ''}, but ${what}: use one rated ${amps(needed)} or more${smaller}.${calm}`,
    place: part.facts.place('rating'),
    subject: part.name,
    figures: {
      ratedAmps: rating,
      neededAmps: needed,
      designAmps,
      ...(Number.isFinite(protection.amps) ? { deviceAmps: protection.amps } : {}),
    },
    related: protection.devices.map((device) => ({
      message: `${device.part.name} protects it at ${amps(device.amps)}`,
      place: device.part.facts.place('rating'),
    })),
  };
}
