/** What would not bear a larger rating of a device: a cable, switch or joint behind it, or an appliance by its maker's word. */
import type { Answers, ContactFigures, Protection } from '../answers/answers.ts';
import { amps } from './words.ts';

export interface InTheWay {
  readonly name: string;
  readonly is: 'cable' | 'switch' | 'joint' | 'appliance';
  /** The largest rating that it may have before it. */
  readonly amps: number;
}

/** The weakest of what the device alone protects; undefined where all of it may have a device of this rating. */
export function inTheWay(
  rating: number,
  { part, pole, feeds }: ContactFigures,
  { cores, contacts, network, limits, systemVolts }: Answers,
): InTheWay | undefined {
  const isAlone = ({ devices: [device, other], limitedSources }: Protection) =>
    device?.part === part && device.pole === pole && other === undefined && limitedSources.length === 0;
  let weakest: InTheWay | undefined;
  const stands = (name: string, is: InTheWay['is'], most: number | undefined) => {
    if (most !== undefined && most < rating && most < (weakest?.amps ?? Number.POSITIVE_INFINITY))
      weakest = { name, is, amps: most };
  };
  for (const { core, capacity, protection } of cores.values()) {
    if (!isAlone(protection)) continue;
    if (capacity !== undefined) stands(core.run.name, 'cable', limits.permittedDeviceAmps(capacity, systemVolts).amps);
    for (const end of [core.from?.part, core.to?.part])
      if (end?.kind.family === 'joint') stands(end.name, 'joint', end.facts.number('rating'));
  }
  for (const list of contacts.values())
    for (const { part: own, device, ratedAmps, protection } of list)
      if (device === undefined && isAlone(protection)) stands(own.name, 'switch', ratedAmps);
  for (const load of feeds) {
    const plus = load.terminals.find(({ spec }) => spec.polarity === '+');
    const fed = (network.at.get(plus?.id ?? '') ?? []).some((edge) => {
      const figures = edge.is === 'core' ? cores.get(edge.core) : undefined;
      return figures !== undefined && isAlone(figures.protection);
    });
    if (fed) stands(load.name, 'appliance', load.facts.number('most-fuse'));
  }
  return weakest;
}

/** `fit 10 A`, and what must be changed with it. */
export function fitting(rating: number, hindrance: InTheWay | undefined): string {
  if (hindrance === undefined) return `fit ${amps(rating)}`;
  const { name, is, amps: most } = hindrance;
  switch (is) {
    case 'cable':
      return `fit ${amps(rating)} and a larger cable for ${name}, which may have ${amps(most)} at most`;
    case 'appliance':
      return `ask the maker of ${name}, who allows a fuse of ${amps(most)} at most, which one bears it`;
    default:
      return `fit ${amps(rating)} and a larger ${name}, which is rated ${amps(most)}`;
  }
}
