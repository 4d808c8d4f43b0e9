/**
 * Which way the drawing reads: sources left, loads right, everything else between its neighbours.
 *
 * Every part gets a number from 0 to 1 as if it were the voltage in a net of equal resistors, with the sources held at 0 and
 * the loads at 1. Then whatever a conductor passes through stands between its two neighbours, and going along the conductors
 * by rising number never comes back to where it began. Returns read the same way as feeds, so that a feed and its return
 * run side by side.
 */
import type { PictureGraph, PicturePart } from './scene.ts';

export interface Directions {
  /** Rises from left to right. */
  of(part: string): number;
}

const rounds = 300;

export function directionsOf({ parts, cores }: PictureGraph): Directions {
  const owner = new Map(parts.flatMap(({ name, terminals }) => terminals.map(({ id }) => [id, name] as const)));
  const neighbours = new Map<string, string[]>(parts.map(({ name }) => [name, []]));
  for (const { from, to } of cores) {
    const [one, other] = [owner.get(from), owner.get(to)];
    if (one === undefined || other === undefined || one === other) continue;
    neighbours.get(one)?.push(other);
    neighbours.get(other)?.push(one);
  }
  const held = new Map(
    parts.flatMap((part) => (endOf(part) === undefined ? [] : [[part.name, endOf(part) as number]])),
  );
  holdOnePerPiece(parts, neighbours, held);
  const at = new Map(parts.map(({ name }) => [name, held.get(name) ?? 0.5]));
  for (let round = 0; round < rounds; round += 1) {
    let greatest = 0;
    for (const { name } of parts) {
      const beside = neighbours.get(name) ?? [];
      if (held.has(name) || beside.length === 0) continue;
      const mean = beside.reduce((sum, other) => sum + (at.get(other) ?? 0), 0) / beside.length;
      greatest = Math.max(greatest, Math.abs(mean - (at.get(name) ?? 0)));
      at.set(name, mean);
    }
    if (greatest < 1e-6) break;
  }
  const depth = depths(neighbours, held);
  // What leads nowhere has its neighbour's number: it stands behind it.
  return { of: (part) => (at.get(part) ?? 0) + 1e-4 * (depth.get(part) ?? 0) };
}

/** Sources are 0, loads 1. What charges from the mains alone is a source here. */
function endOf({ family, terminals }: PicturePart): number | undefined {
  if (family === 'source') return 0;
  if (family === 'load') return 1;
  if (family === 'conversion' && !terminals.some(({ name }) => /^(?:in|pv)/.test(name))) return 0;
  return undefined;
}

/** A piece with no source begins at its first part. */
function holdOnePerPiece(
  parts: readonly PicturePart[],
  neighbours: ReadonlyMap<string, readonly string[]>,
  held: Map<string, number>,
): void {
  const seen = new Set<string>();
  for (const { name } of parts) {
    if (seen.has(name)) continue;
    const piece = [name];
    seen.add(name);
    for (const one of piece)
      for (const other of neighbours.get(one) ?? [])
        if (!seen.has(other)) {
          seen.add(other);
          piece.push(other);
        }
    if (!piece.some((one) => held.get(one) === 0)) {
      const first = piece.find((one) => !held.has(one));
      if (first !== undefined) held.set(first, 0);
    }
  }
}

/** Steps from the nearest source. */
function depths(
  neighbours: ReadonlyMap<string, readonly string[]>,
  held: ReadonlyMap<string, number>,
): Map<string, number> {
  const queue = [...held].filter(([, at]) => at === 0).map(([name]) => name);
  const depth = new Map(queue.map((name) => [name, 0]));
  for (const name of queue)
    for (const other of neighbours.get(name) ?? [])
      if (!depth.has(other)) {
        depth.set(other, (depth.get(name) ?? 0) + 1);
        queue.push(other);
      }
  return depth;
}
