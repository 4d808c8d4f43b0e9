/** What mends a cable that is too small: a larger one, and with it a larger device where its own is below the load; or a smaller device. */
import type { Answers, ContactFigures, CoreFigures } from '../answers/answers.ts';
import type { Run } from '../model/model.ts';
import { areaMm2 } from '../physics/conductors.ts';
import { isAtLeast, leastAreaMm2 } from '../tables/least-sizes.ts';
import type { Verdict } from './cable-verdict.ts';
import { rowOf } from './in-a-row.ts';
import { largerCable } from './larger-cable.ts';
import { alsoLarger, type LargerDevice, largerDeviceOf } from './larger-device.ts';
import { offerRating } from './other-rating.ts';
import { smallerForLoad } from './rating-for-load.ts';
import { returnsWithFeed } from './returns-with-feed.ts';
import type { Fix, RuleContext } from './rule.ts';
import { amps, deviceName, names } from './words.ts';

export interface CableMends {
  /** What to do, in words. */
  readonly mend: string;
  readonly fixes: readonly Fix[];
}

export function cableMends(verdict: Verdict, context: RuleContext): CableMends {
  const { figures, permitted, by, atEnd } = verdict;
  const { run } = figures.core;
  const byLoad = by === 'device' || by === 'design' ? largerDeviceOf(figures, context) : undefined;
  const row = rowOf(verdict, context);
  const size = sizeForRow([verdict, ...row], byLoad?.rating ?? 0, context);
  const backs = returnsWithFeed(verdict, context);
  const sized = {
    row: row.map((one): Sized => ({ run: one.figures.core.run, size })),
    backs: backs.map((one): Sized => ({ run: one.figures.core.run, size: sizeForRow([one], 0, context) })),
  };
  const allMay = Math.min(permitted, ...[...row, ...backs].map((one) => one.permitted));
  // A larger one is wanted anyhow where it is thinner than any may be.
  const smaller =
    by === 'device' && !isBelowLeast(run, context.answers.limits.id)
      ? smallerDevice(figures, allMay, context.answers)
      : undefined;
  const fixes: Fix[] =
    byLoad !== undefined && byLoad.fixes.length > 0
      ? [...byLoad.fixes]
      : largerSizes([{ run, size }, ...sized.row, ...sized.backs]);
  if (smaller !== undefined && smaller.contact.part.kind.word === 'fuse')
    fixes.push(
      ...offerRating(smaller.contact, smaller.rating).map((fix) => ({
        ...fix,
        title: `Fit a ${smaller.rating} A fuse for ${smaller.contact.part.name}`,
      })),
    );
  if (size === undefined) return { mend: 'use a larger cable or a cooler way', fixes };
  const also = byLoad === undefined ? forOthers(size, sized) : withDevice(byLoad, run.name, context);
  const or = by !== 'device' || byLoad !== undefined ? '' : orSmaller(figures, permitted, smaller, context.answers);
  return { mend: `use ${size} or larger${also}${or}${atEnd?.mend(run) ?? ''}`, fixes };
}

interface Sized {
  readonly run: Run;
  readonly size: string | undefined;
}

/** The smallest size that mends all of a row, with the device that it has, or a larger one: nobody changes size in line. */
function sizeForRow(row: readonly Verdict[], deviceAmps: number, context: RuleContext): string | undefined {
  const sizes = row.map(({ figures, needed, by }) =>
    largerCable(
      figures,
      {
        deviceAmps: Math.max(by === 'device' ? needed : 0, deviceAmps),
        amps: by === 'panels' || by === 'nothing' ? needed : 0,
        byWarming: by === 'design',
      },
      context,
    ),
  );
  if (sizes.some((size) => size === undefined)) return undefined;
  return sizes.flatMap((size) => size ?? []).reduce((most, size) => (areaMm2(size) > areaMm2(most) ? size : most))
    .written;
}

/** One fix for a feed and its returns, as far as their sizes are written with them. */
function largerSizes(all: readonly Sized[]): Fix[] {
  const edited = all.flatMap(({ run, size }) =>
    size === undefined || run.facts.fact('size')?.fromStock !== undefined ? [] : [{ run, size }],
  );
  const [first] = edited;
  if (first === undefined) return [];
  const own = edited.length === 1 ? `Use ${first.size}` : `Use ${eachSize(edited).join(' and ')}`;
  return [{ title: own, safe: false, edits: edited.map(({ run, size }) => ({ place: run.sizePlace, newText: size })) }];
}

/** `4 mm² for W2 and W3`, size by size. */
function eachSize(all: readonly { readonly run: Run; readonly size: string }[]): string[] {
  const sizes = [...new Set(all.map(({ size }) => size))];
  return sizes.map((size) => `${size} for ${names(all.filter((one) => one.size === size).map(({ run }) => run))}`);
}

/** That what goes on from it, and what leads back from it, must be larger too. */
function forOthers(size: string, { row, backs }: { readonly row: readonly Sized[]; readonly backs: readonly Sized[] }) {
  const back = (runs: readonly Run[]) => `its ${runs.length > 1 ? 'returns' : 'return'} ${names(runs)}`;
  return forEach(size, row, (runs) => `${names(runs)} in line with it`) + forEach(size, backs, back);
}

function forEach(size: string, all: readonly Sized[], told: (runs: readonly Run[]) => string): string {
  const [same, others] = [all.filter((one) => one.size === size), all.filter((one) => one.size !== size)];
  return [
    ...(same.length === 0 ? [] : [`, for ${told(same.map(({ run }) => run))} too`]),
    ...others.map(
      ({ run, size: own }) => `, ${own === undefined ? 'a larger cable' : `${own} or larger`} for ${told([run])}`,
    ),
  ].join('');
}

/** What must be larger with it, its device among them. */
function withDevice({ contact, rating, hindrances }: LargerDevice, own: string, context: RuleContext): string {
  const others = alsoLarger(
    hindrances.filter(({ name }) => name !== own),
    rating,
    context,
  );
  const device = deviceName(contact.part, contact.pole);
  return `${others.map((one) => `, ${one}`).join('')}, and fit ${amps(rating)} for ${device}, which is too small for its load`;
}

function isBelowLeast({ size, cores, facts, lengthMetres }: Run, limits: string): boolean {
  const least = leastAreaMm2(limits, cores.length > 1 || facts.says('sheathed'), lengthMetres);
  return size !== undefined && least !== undefined && !isAtLeast(areaMm2(size), least);
}

interface SmallerDevice {
  readonly contact: ContactFigures;
  readonly rating: number;
}

function orSmaller(
  figures: CoreFigures,
  permitted: number,
  smaller: SmallerDevice | undefined,
  answers: Answers,
): string {
  const { devices, limitedSources } = figures.protection;
  const bare = answers.unfused.find(({ cores }) => cores.includes(figures.core));
  // Several that branch off further on: what lacks is one for them all.
  if (bare !== undefined && devices.length > 1)
    return `, or put one fuse for them all, of at most ${amps(permitted)}, close to ${bare.battery.name}`;
  if (smaller !== undefined) {
    const { part } = smaller.contact;
    return `, or a smaller ${part.kind.word === 'breaker' ? 'breaker' : 'fuse'} of ${amps(smaller.rating)}`;
  }
  if (!sharesDevice(figures, answers)) return devices.length + limitedSources.length > 1 ? ', or a smaller fuse' : '';
  // A negative has no fuse, nor has what several devices make up.
  const one = !figures.isReturn && devices.length === 1;
  return one ? ', or give it a fuse of its own where it branches off' : '';
}

/** Of the one device that protects this circuit alone, the rating that its cable may have and its load asks for. */
function smallerDevice(figures: CoreFigures, permitted: number, answers: Answers): SmallerDevice | undefined {
  const { devices, limitedSources } = figures.protection;
  const [device, another] = devices;
  if (device === undefined || another !== undefined || limitedSources.length > 0) return undefined;
  const contact = contactOf(device, answers);
  if (contact === undefined || sharesDevice(figures, answers)) return undefined;
  const rating = smallerForLoad(contact, permitted, answers);
  return rating === undefined ? undefined : { contact, rating };
}

function contactOf(
  { part, pole }: CoreFigures['protection']['devices'][number],
  { contacts }: Answers,
): ContactFigures | undefined {
  return contacts.get(part.name)?.find((one) => one.pole === pole);
}

/** Whether the device that protects a core carries other circuits besides: a smaller one there would starve them. */
function sharesDevice(figures: CoreFigures, answers: Answers): boolean {
  const [device] = figures.protection.devices;
  if (device === undefined) return false;
  const own = contactOf(device, answers);
  // Less flows through the device where it comes from a charger besides: then it is not in series either.
  return Math.abs((own?.designAmps ?? 0) - figures.designAmps) > figures.designAmps * 0.01 + 0.1;
}
