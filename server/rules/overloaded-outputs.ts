/** Load outputs of controllers that have to give more than their makers state. */
import type { Answers, ContactFigures } from '../answers/answers.ts';
import type { Model, Part, Place } from '../model/model.ts';
import { exceeds } from './exceeds.ts';

export interface OverloadedOutput {
  readonly part: Part;
  readonly rating: number;
  readonly amps: number;
  readonly loads: readonly Part[];
  readonly largest: Part | undefined;
  readonly place: Place;
}

export function overloadedOutputs({ parts, terminals }: Model, { cores, loads, network }: Answers): OverloadedOutput[] {
  return [...parts.values()].flatMap((part): OverloadedOutput[] => {
    const rating = part.kind.word === 'controller' ? part.facts.number('load-output') : undefined;
    const plus = rating === undefined ? undefined : terminals.get(`${part.name}:load+`);
    if (rating === undefined || plus === undefined) return [];
    const out = (network.at.get(plus.id) ?? []).flatMap((edge) =>
      edge.is === 'core' ? (cores.get(edge.core) ?? []) : [],
    );
    const taken = out.reduce((sum, { designAmps }) => sum + designAmps, 0);
    if (!exceeds(taken, rating)) return [];
    const fed = [...new Set(out.flatMap((core) => core.loads))];
    const ampsOf = ({ name }: Part) => loads.get(name)?.designAmps ?? 0;
    const [largest] = [...fed].sort((one, other) => ampsOf(other) - ampsOf(one));
    return [{ part, rating, amps: taken, loads: fed, largest, place: part.facts.place('load-output') }];
  });
}

/** What of the current through a device is there only because outputs behind it have to give too much, in ampere. */
export function excessOf({ feeds }: ContactFigures, outputs: readonly OverloadedOutput[]): number {
  return outputs.filter(({ part }) => feeds.includes(part)).reduce((sum, { amps, rating }) => sum + amps - rating, 0);
}
