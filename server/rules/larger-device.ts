/** A larger rating for a device that is below its load, and all that has to be changed with it: one mend, whoever tells of it. */
import type { ContactFigures, CoreFigures } from '../answers/answers.ts';
import { standardRatings } from '../answers/devices.ts';
import { exceeds } from './exceeds.ts';
import { allInTheWay, type InTheWay } from './in-the-way.ts';
import { largerCable } from './larger-cable.ts';
import { offerRating } from './other-rating.ts';
import { excessOf, overloadedOutputs } from './overloaded-outputs.ts';
import { bearsLoad, largerForLoad } from './rating-for-load.ts';
import type { Fix, RuleContext } from './rule.ts';
import { amps, deviceName, names } from './words.ts';

export interface LargerDevice {
  readonly contact: ContactFigures;
  readonly rating: number;
  /** What would not bear it, the weakest first. */
  readonly hindrances: readonly InTheWay[];
  /** `fit 10 A and 2.5 mm² or larger for W2, which may have 9 A at most`. */
  readonly words: string;
  /** One that changes all of it; none where that cannot be told. */
  readonly fixes: readonly Fix[];
}

/** Undefined where its style has no rating that bears the load. */
export function largerDevice(contact: ContactFigures, context: RuleContext): LargerDevice | undefined {
  const rating = largerForLoad(contact, context.answers);
  if (rating === undefined) return undefined;
  const hindrances = allInTheWay(rating, contact, context.answers);
  const appliance = hindrances.find(({ is }) => is === 'appliance');
  const words =
    appliance === undefined
      ? `fit ${inList([amps(rating), ...alsoLarger(hindrances, rating, context)])}`
      : `ask the maker of ${appliance.name}, who allows a fuse of ${amps(appliance.amps)} at most, which one bears it`;
  return { contact, rating, hindrances, words, fixes: fixesFor(contact, rating, hindrances, context) };
}

/** Of the one device that protects a core, where that is below its load and a larger one would bear it. */
export function largerDeviceOf({ protection }: CoreFigures, context: RuleContext): LargerDevice | undefined {
  const { devices, limitedSources, blank } = protection;
  const [device, another] = devices;
  if (device === undefined || another !== undefined || limitedSources.length > 0 || blank) return undefined;
  const { model, answers } = context;
  const contact = answers.contacts.get(device.part.name)?.find(({ pole }) => pole === device.pole);
  const rating = contact?.device?.amps;
  if (contact === undefined || rating === undefined || contact.onPanelSide) return undefined;
  if (bearsLoad(contact, rating, answers)) return undefined;
  const { lastingAmps } = answers.directions.ofContact(contact.part, contact.pole);
  const excess = exceeds(lastingAmps, rating) ? excessOf(contact, overloadedOutputs(model, answers)) : 0;
  if (excess > 0 && !exceeds(lastingAmps - excess, rating)) return undefined;
  const larger = largerDevice(contact, context);
  return larger?.hindrances.some(({ is }) => is === 'appliance') === true ? undefined : larger;
}

/** What else must be larger, each with what it may have now. */
export function alsoLarger(hindrances: readonly InTheWay[], rating: number, context: RuleContext): readonly string[] {
  const bySize = new Map<string, InTheWay[]>();
  const others: string[] = [];
  for (const one of hindrances) {
    const size = sizeFor(one, rating, context)?.written;
    if (one.is !== 'cable') others.push(`a larger ${one.name}, which is rated ${amps(one.amps)}`);
    else {
      const words = size === undefined ? 'a larger cable' : `${size} or larger`;
      bySize.set(words, [...(bySize.get(words) ?? []), one]);
    }
  }
  const cables = [...bySize].map(
    ([words, all]) => `${words} for ${names(all)}, which may have ${amps(all[0]?.amps ?? 0)} at most`,
  );
  return [...cables, ...others];
}

/** To take less instead: no more than the device holds, or than a smaller one that all behind it may have. */
export function lessLoad({ part, device }: ContactFigures, hindrances: readonly InTheWay[]): string {
  const [weakest] = hindrances;
  if (weakest === undefined) return '';
  const smaller =
    weakest.amps >= (device?.amps ?? 0)
      ? undefined
      : standardRatings(part.kind.word, part.facts.word('style')).findLast((rating) => rating <= weakest.amps);
  return smaller === undefined ? ', or take less load' : `, or take no more than ${amps(smaller)} and fit that`;
}

function sizeFor({ figures }: InTheWay, rating: number, context: RuleContext) {
  return figures === undefined ? undefined : largerCable(figures, { deviceAmps: rating, byWarming: true }, context);
}

function fixesFor(
  contact: ContactFigures,
  rating: number,
  hindrances: readonly InTheWay[],
  context: RuleContext,
): readonly Fix[] {
  const [fit] = offerRating(contact, rating);
  if (fit === undefined || hindrances.length === 0) return fit === undefined ? [] : [fit];
  const edits = [...fit.edits];
  const sizes: string[] = [];
  for (const one of hindrances) {
    const run = one.figures?.core.run;
    const size = sizeFor(one, rating, context)?.written;
    if (run === undefined || size === undefined || run.facts.fact('size')?.fromStock !== undefined) return [];
    // Runs of one statement have one size.
    if (!edits.some(({ place }) => place === run.sizePlace)) edits.push({ place: run.sizePlace, newText: size });
    sizes.push(`${size} for ${run.name}`);
  }
  const { part, pole } = contact;
  const title = `Fit ${inList([`${rating} A for ${deviceName(part, pole)}`, ...sizes])}`;
  return [{ title, safe: false, edits }];
}

function inList(words: readonly string[]): string {
  return words.length <= 1 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
