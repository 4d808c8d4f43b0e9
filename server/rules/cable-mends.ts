/** What mends a cable that is too small: a larger one, and with it a larger device where its own is below the load; or a smaller device. */
import type { Answers, ContactFigures, CoreFigures } from '../answers/answers.ts';
import type { Verdict } from './cable-too-small.ts';
import { largerCable } from './larger-cable.ts';
import { alsoLarger, type LargerDevice, largerDeviceOf } from './larger-device.ts';
import { offerRating } from './other-rating.ts';
import { smallerForLoad } from './rating-for-load.ts';
import type { Fix, RuleContext } from './rule.ts';
import { amps, deviceName } from './words.ts';

export interface CableMends {
  /** What to do, in words. */
  readonly mend: string;
  readonly fixes: readonly Fix[];
}

export function cableMends(verdict: Verdict, context: RuleContext): CableMends {
  const { figures, needed, permitted, by, atEnd } = verdict;
  const { run } = figures.core;
  const byLoad = by === 'device' || by === 'design' ? largerDeviceOf(figures, context) : undefined;
  const device = by === 'device' ? needed : 0;
  const larger = largerCable(
    figures,
    {
      deviceAmps: Math.max(device, byLoad?.rating ?? 0),
      amps: by === 'panels' || by === 'nothing' ? needed : 0,
      byWarming: by === 'design',
    },
    context,
  );
  const smaller = by === 'device' ? smallerDevice(figures, permitted, context.answers) : undefined;
  const fixes: Fix[] = [];
  if (byLoad !== undefined && byLoad.fixes.length > 0) fixes.push(...byLoad.fixes);
  else if (larger !== undefined && run.facts.fact('size')?.fromStock === undefined)
    fixes.push({
      title: `Use ${larger.written}`,
      safe: false,
      edits: [{ place: run.sizePlace, newText: larger.written }],
    });
  if (smaller !== undefined && smaller.contact.part.kind.word === 'fuse')
    fixes.push(
      ...offerRating(smaller.contact, smaller.rating).map((fix) => ({
        ...fix,
        title: `Fit a ${smaller.rating} A fuse for ${smaller.contact.part.name}`,
      })),
    );
  if (larger === undefined) return { mend: 'use a larger cable or a cooler way', fixes };
  const or = by !== 'device' || byLoad !== undefined ? '' : orSmaller(figures, permitted, smaller, context.answers);
  return {
    mend: `use ${larger.written} or larger${byLoad === undefined ? '' : withDevice(byLoad, run.name, context)}${or}${atEnd?.mend(run) ?? ''}`,
    fixes,
  };
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
