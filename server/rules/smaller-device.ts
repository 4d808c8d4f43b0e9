/** A smaller device before what is rated below the one there is. */
import type { Answers, ContactFigures, Protection } from '../answers/answers.ts';
import { smallerForLoad } from './rating-for-load.ts';
import { amps } from './words.ts';

/** The one device that protects a circuit; undefined where several do, or the limit of a source counts too. */
export function loneDevice({ devices, limitedSources }: Protection, answers: Answers): ContactFigures | undefined {
  const [device, another] = devices;
  return device === undefined || another !== undefined || limitedSources.length > 0
    ? undefined
    : answers.contacts.get(device.part.name)?.find(({ pole }) => pole === device.pole);
}

/** `, or a smaller fuse of 10 A`: of at most so many ampere; nothing where its load would open any such. */
export function orSmaller(protection: Protection, mostAmps: number, answers: Answers): string {
  const device = loneDevice(protection, answers);
  if (device === undefined) return protection.devices.length > 1 ? ', or smaller fuses' : ', or a smaller fuse';
  const rating = smallerForLoad(device, mostAmps, answers);
  const word = device.part.kind.word === 'breaker' ? 'breaker' : 'fuse';
  return rating === undefined ? '' : `, or a smaller ${word} of ${amps(rating)}`;
}
