/** A short tail: a conductor whose protective device stands at its far end rather than at its beginning. */
import type { Answers, CoreFigures } from '../answers/answers.ts';
import type { Run } from '../model/model.ts';
import { citeWithin } from '../tables/table.ts';
import { exceeds } from './exceeds.ts';
import type { Related } from './rule.ts';
import { deviceName, length } from './words.ts';

export interface DeviceAtEnd {
  /** Why the device does not do there; undefined where it does. */
  readonly trouble: 'too-far' | 'too-much-before' | undefined;
  /** What to do besides, to end a list of mends. */
  mend(run: Run): string;
  /** A sentence on why it does not do. */
  why(run: Run): string;
  /** Where the length that counts is from. */
  related(run: Run): readonly Related[];
}

/** Whether a core relies on the device at its far end, because the one before it is too large, and may do so. */
export function reliesOnEnd(figures: CoreFigures, answers: Answers): boolean {
  const { capacity, protection } = figures;
  if (capacity === undefined || !Number.isFinite(protection.amps)) return false;
  const permitted = answers.limits.permittedDeviceAmps(capacity, answers.systemVolts).amps;
  if (!exceeds(protection.amps, permitted)) return false;
  const atEnd = deviceAtEnd(figures, protection.amps, answers);
  return atEnd !== undefined && atEnd.trouble === undefined;
}

/**
 * The device in series with a core, without a branch, that is small enough for it, where the device before it is not; judged
 * by the set's length for such a tail. What a short circuit does to it is a matter of its own. Undefined where there is none.
 */
export function deviceAtEnd(figures: CoreFigures, deviceAmps: number, answers: Answers): DeviceAtEnd | undefined {
  const { core, capacity } = figures;
  const tail = answers.tailOf(core);
  if (tail === undefined || capacity === undefined) return undefined;
  const permitted = (one: CoreFigures | undefined) =>
    one?.capacity === undefined
      ? Number.POSITIVE_INFINITY
      : answers.limits.permittedDeviceAmps(one.capacity, answers.systemVolts).amps;
  if (exceeds(tail.amps, permitted(figures))) return undefined;
  // What is thick enough for the device before it is no part of the tail.
  const thin = tail.cores.filter((one) => one === core || exceeds(deviceAmps, permitted(answers.cores.get(one))));
  const metres = thin.reduce((sum, { run }) => sum + (run.lengthMetres ?? 0), 0);
  const limit = answers.limits.tail(thin.every(({ run }) => run.facts.says('sheathed')));
  const device = deviceName(tail.part, tail.pole);
  if (exceeds(metres, limit.metres))
    return {
      trouble: 'too-far',
      mend: (run) =>
        `, or bring ${device}, which is small enough for it, within ${length(limit.metres, run)} along the cable of where it begins`,
      why: () => '',
      related: (run) => [
        {
          message: `${device} may be ${length(limit.metres, run)} from where it begins at most (${citeWithin(limit.source)})`,
          place: tail.part.namePlace,
        },
      ],
    };
  if (limit.timesCapacity !== undefined && exceeds(deviceAmps, limit.timesCapacity * capacity.amps))
    return {
      trouble: 'too-much-before',
      mend: () => '',
      why: () =>
        ` ${device} at its end is small enough for it, but the device before it may be no more than ${limit.timesCapacity ?? 1} times what it carries (${citeWithin(limit.source)}).`,
      related: () => [],
    };
  return { trouble: undefined, mend: () => '', why: () => '', related: () => [] };
}
