/** Which ways of a board have a fuse in them, by what is said of them. */
import type { Part } from '../model/model.ts';

/** Whether a fuse is said for a way, if only as a blank; of what is no board, always. */
export function isFuseSaid({ kind, facts }: Part, pole: number): boolean {
  if (kind.word !== 'fusebox') return true;
  return facts.each('way').some((row) => {
    const from = row.number('way', 'way') ?? Number.POSITIVE_INFINITY;
    return from <= pole && pole <= (row.number('way', 'last') ?? from);
  });
}
