/** What would not bear a larger rating of a device: a cable, switch or joint behind it, or an appliance by its maker's word. */
import type { Answers, ContactFigures, CoreFigures, Protection } from '../answers/answers.ts';
import { deviceAtEnd } from './device-at-end.ts';
import { ofShunt } from './flow-through.ts';
import { isRatedToCarry } from './rated-to-carry.ts';

export interface InTheWay {
  readonly name: string;
  readonly is: 'cable' | 'switch' | 'joint' | 'appliance';
  /** The largest rating that it may have before it. */
  readonly amps: number;
  /** Of a cable, its weakest core. */
  readonly figures?: CoreFigures | undefined;
}

/** The weakest of what the device alone protects; undefined where all of it may have a device of this rating. */
export function inTheWay(rating: number, contact: ContactFigures, answers: Answers): InTheWay | undefined {
  return allInTheWay(rating, contact, answers)[0];
}

/** All of that, the weakest first. */
export function allInTheWay(
  rating: number,
  { part, pole, feeds }: ContactFigures,
  answers: Answers,
): readonly InTheWay[] {
  const { cores, contacts, network, limits, systemVolts } = answers;
  const isAlone = ({ devices: [device, other], limitedSources }: Protection) =>
    device?.part === part && device.pole === pole && other === undefined && limitedSources.length === 0;
  const weakest = new Map<string, InTheWay>();
  const stands = (name: string, is: InTheWay['is'], most: number | undefined, figures?: CoreFigures) => {
    if (most !== undefined && most < rating && most < (weakest.get(name)?.amps ?? Number.POSITIVE_INFINITY))
      weakest.set(name, { name, is, amps: most, figures });
  };
  for (const figures of cores.values()) {
    const { core, capacity, protection } = figures;
    if (!isAlone(protection)) continue;
    const most = capacity === undefined ? rating : limits.permittedDeviceAmps(capacity, systemVolts).amps;
    // A short tail is protected by the device at its far end, whatever is before it.
    const isTail = most < rating && isGoodTail(figures, rating, { part, pole }, answers);
    if (!isTail) stands(core.run.name, 'cable', most, figures);
    // A shunt may have a larger device before it where those behind let less through.
    for (const end of [core.from?.part, core.to?.part])
      if (
        end !== undefined &&
        isRatedToCarry(end) &&
        (end.kind.word !== 'shunt' || isAlone(ofShunt(end, answers)?.protection ?? protection))
      )
        stands(end.name, 'joint', end.facts.number('rating'));
  }
  for (const list of contacts.values())
    for (const { part: own, device, ratedAmps, protection, circuitAmps } of list)
      if (device === undefined && isAlone(protection) && circuitAmps >= protection.amps)
        stands(own.name, 'switch', ratedAmps);
  for (const load of feeds) {
    const plus = load.terminals.find(({ spec }) => spec.polarity === '+');
    const fed = (network.at.get(plus?.id ?? '') ?? []).some((edge) => {
      const figures = edge.is === 'core' ? cores.get(edge.core) : undefined;
      return figures !== undefined && isAlone(figures.protection);
    });
    if (fed) stands(load.name, 'appliance', load.facts.number('most-fuse'));
  }
  return [...weakest.values()].sort((one, other) => one.amps - other.amps);
}

function isGoodTail(
  figures: CoreFigures,
  rating: number,
  device: Pick<ContactFigures, 'part' | 'pole'>,
  answers: Answers,
): boolean {
  const tail = answers.tailOf(figures.core);
  if (tail === undefined || (tail.part === device.part && tail.pole === device.pole)) return false;
  const atEnd = deviceAtEnd(figures, rating, answers);
  return atEnd !== undefined && atEnd.trouble === undefined;
}
