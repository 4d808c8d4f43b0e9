import type { Terminal } from '../model/model.ts';

/** The other terminal of its own side of its part; undefined for one without a pole. */
export function otherPole({ part, spec }: Terminal): Terminal | undefined {
  if (spec.polarity === undefined) return undefined;
  return part.terminals.find(
    (other) =>
      other.spec.polarity !== undefined && other.spec.polarity !== spec.polarity && other.spec.side === spec.side,
  );
}
