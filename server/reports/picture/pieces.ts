/** A picture falls into pieces that no core and no box holds together; each is laid out by itself, and they are set beside each other. */
import { UnionFind } from '../../physics/union-find.ts';
import { ownersOf } from './engine-graph.ts';
import type { Box, PictureGraph } from './scene.ts';

export type Piece = Pick<PictureGraph, 'parts' | 'cores' | 'groups'>;

/** The largest first, then in the order they are written. */
export function piecesOfGraph(graph: PictureGraph): Piece[] {
  const { parts, cores, groups } = graph;
  const index = new Map(
    [...parts.map(({ name }) => `part:${name}`), ...groups.map(({ id }) => id)].map((id, i) => [id, i]),
  );
  const joined = new UnionFind(index.size);
  const join = (one: string | undefined, other: string | undefined) => {
    const [a, b] = [index.get(one ?? ''), index.get(other ?? '')];
    if (a !== undefined && b !== undefined) joined.join(a, b);
  };
  const owners = ownersOf(graph);
  const partAt = (terminal: string) => `part:${owners.get(terminal)?.name ?? ''}`;
  for (const { from, to } of cores) join(partAt(from), partAt(to));
  for (const { name, group } of parts) join(`part:${name}`, group);
  for (const { id, parent } of groups) join(id, parent);
  const rootOf = (id: string) => joined.find(index.get(id) ?? 0);
  const found = new Map<
    number,
    { parts: (typeof parts)[number][]; cores: (typeof cores)[number][]; groups: (typeof groups)[number][] }
  >();
  const pieceOf = (id: string) => {
    const root = rootOf(id);
    const piece = found.get(root) ?? { parts: [], cores: [], groups: [] };
    found.set(root, piece);
    return piece;
  };
  for (const part of parts) pieceOf(`part:${part.name}`).parts.push(part);
  for (const core of cores) pieceOf(partAt(core.from)).cores.push(core);
  for (const group of groups) pieceOf(group.id).groups.push(group);
  const first = ({ parts: own }: Piece) => Math.min(...own.map(({ ordinal }) => ordinal));
  const all = [...found.values()].sort((a, b) => first(a) - first(b));
  const largest = all.reduce<Piece | undefined>(
    (best, piece) => (best === undefined || piece.parts.length > best.parts.length ? piece : best),
    undefined,
  );
  return largest === undefined ? [] : [largest, ...all.filter((piece) => piece !== largest)];
}

type Size = Pick<Box, 'width' | 'height'>;

/** Upper left corners: the first on top, the others in rows below, no wider than it or than a sheet is for its height. */
export function beside(
  sizes: readonly Size[],
  margin: number,
  gap: number,
): { readonly at: Box[]; readonly size: Size } {
  const area = sizes.reduce((sum, { width, height }) => sum + (width + gap) * (height + gap), 0);
  const widest = Math.max(...sizes.map(({ width }) => width), Math.sqrt(area * 1.4), 0);
  let [x, y, row, right] = [margin, margin, 0, 0];
  const at = sizes.map(({ width, height }): Box => {
    if (x > margin && x + width > margin + widest) {
      x = margin;
      y += row + gap;
      row = 0;
    }
    const box = { x, y, width, height };
    x += width + gap;
    row = Math.max(row, height);
    right = Math.max(right, box.x + width);
    return box;
  });
  return { at, size: { width: Math.ceil(right + margin), height: Math.ceil(y + row + margin) } };
}
