/** The conductor that feeds a part. */
import type { Answers, CoreFigures } from '../answers/answers.ts';
import type { Part } from '../model/model.ts';

/** On its plus; of several the one whose devices let most through. */
export function feedOf(part: Part, { network, cores }: Answers): CoreFigures | undefined {
  const plus = part.terminals.find(({ spec }) => spec.polarity === '+');
  const feeds = (network.at.get(plus?.id ?? '') ?? []).flatMap((edge) =>
    edge.is === 'core' ? (cores.get(edge.core) ?? []) : [],
  );
  return feeds.reduce<CoreFigures | undefined>(
    (most, one) => (most === undefined || one.protection.amps > most.protection.amps ? one : most),
    undefined,
  );
}
