/** What is wrong with a drawing, measured from its lines and boxes, and how often its cores cross. */
import { areasOf } from '../../../server/reports/picture/areas.ts';
import { crossings } from '../../../server/reports/picture/passages.ts';
import { holds, overlaps, type Piece, pieceBox, piecesOf } from '../../../server/reports/picture/polyline.ts';
import type { Box, Drawing, DrawnCore, DrawnGroup, DrawnPart } from '../../../server/reports/picture/scene.ts';
import { isCut } from '../../../server/reports/picture/sheet.ts';

interface Sorted {
  readonly parts: readonly DrawnPart[];
  readonly cores: readonly DrawnCore[];
  readonly groups: readonly DrawnGroup[];
}

export function sorted({ elements }: Drawing): Sorted {
  const all = [...elements.values()];
  return {
    parts: all.filter((one): one is DrawnPart => one.is === 'part'),
    cores: all.filter((one): one is DrawnCore => one.is === 'core'),
    groups: all.filter((one): one is DrawnGroup => one.is === 'enclosure' || one.is === 'place'),
  };
}

/** In words, none when the drawing is sound. */
export function faults(drawing: Drawing): string[] {
  const picture = sorted(drawing);
  return [
    ...overlappingParts(picture),
    ...overlappingLabels(drawing, picture),
    ...crossedParts(picture),
    ...looseEnds(picture),
    ...slantedLines(picture),
    ...sharedLines(picture),
    ...strayParts(drawing, picture),
    ...strayCores(drawing, picture),
    ...cutLabels(picture),
    ...longWords(picture),
  ];
}

/** Pairs of lists whose boxes overlap. */
function* hits<A, B>(
  one: readonly A[],
  other: readonly B[],
  boxOf: (item: A) => Box,
  otherBox: (item: B) => Box,
): Generator<readonly [A, B]> {
  for (const a of one) for (const b of other) if ((a as unknown) !== b && overlaps(boxOf(a), otherBox(b))) yield [a, b];
}

/** What parts cover: their symbols and the words above them. */
function covered(parts: readonly DrawnPart[]): Label[] {
  return parts.flatMap((part) => areasOf(part).map((box) => ({ of: part.id, box })));
}

function overlappingParts({ parts }: Sorted): string[] {
  const areas = covered(parts);
  const found = hits(
    areas,
    areas,
    ({ box }) => box,
    ({ box }) => box,
  );
  return [...found].filter(([a, b]) => a.of !== b.of).map(([a, b]) => `${a.of} overlaps ${b.of}`);
}

interface Label {
  readonly of: string;
  readonly box: Box;
}

/** Of cores, with their signs; of enclosures; of the ways through their walls. */
export function labelsOf({ elements }: Drawing): Label[] {
  return [...elements.values()].flatMap((element): Label[] => {
    if (element.is === 'core')
      return [
        { of: `label of ${element.id}`, box: element.label.box },
        ...element.signs.map(({ box }) => ({ of: `sign of ${element.id}`, box })),
      ];
    if (element.is === 'passage')
      return element.text === undefined ? [] : [{ of: `words of ${element.id}`, box: element.text.box }];
    if (element.is === 'part') return [];
    return element.texts.map(({ box }) => ({ of: `words of ${element.id}`, box }));
  });
}

function overlappingLabels(drawing: Drawing, { parts }: Sorted): string[] {
  const labels = labelsOf(drawing);
  const box = ({ box: own }: Label) => own;
  return [
    ...[...hits(labels, covered(parts), box, box)].map(([label, part]) => `${label.of} overlaps ${part.of}`),
    ...[...hits(labels, labels, box, box)].map(([a, b]) => `${a.of} overlaps ${b.of}`),
  ];
}

function crossedParts({ parts, cores }: Sorted): string[] {
  return cores.flatMap((core) => {
    const pieces = piecesOf(core.points);
    return parts.flatMap((part) => {
      const { id, name } = part;
      const areas = areasOf(part);
      const ownFrom = core.from.split(':')[0] === name;
      const ownTo = core.to.split(':')[0] === name;
      const within = pieces.filter((piece, i) => {
        // A core reaches into its own part, on the level, as far as its terminal.
        if (piece.level && ((ownFrom && i === 0) || (ownTo && i === pieces.length - 1))) return false;
        return areas.some((box) => overlaps(pieceBox(piece), box));
      });
      return within.length === 0 ? [] : [`${core.id} crosses ${id}`];
    });
  });
}

function looseEnds({ parts, cores }: Sorted): string[] {
  const terminals = new Map(parts.flatMap((part) => part.terminals.map((one) => [one.terminal, one] as const)));
  return cores.flatMap(({ id, from, to, points }) =>
    [
      [from, points[0]],
      [to, points.at(-1)],
    ].flatMap(([name, point]) => {
      const terminal = terminals.get(name as string);
      if (terminal === undefined || point === undefined || typeof point === 'string')
        return [`${id} has no end at ${name}`];
      const { point: top, end } = terminal;
      const on =
        Math.abs(point.x - top.x) < 0.02 &&
        point.y >= Math.min(top.y, end.y) - 0.02 &&
        point.y <= Math.max(top.y, end.y) + 0.02;
      return on ? [] : [`${id} misses ${name}`];
    }),
  );
}

function slantedLines({ cores }: Sorted): string[] {
  return cores.flatMap(({ id, points }) =>
    piecesOf(points).some(({ a, b }) => a.x !== b.x && a.y !== b.y) || points.length < 2
      ? [`${id} is not of level and upright pieces`]
      : [],
  );
}

/** Two cores on one line would be taken for one. */
function sharedLines({ cores }: Sorted): string[] {
  const found: string[] = [];
  const all = cores.flatMap((core) => piecesOf(core.points).map((piece) => ({ core, piece })));
  all.forEach(({ core, piece }, i) => {
    for (const other of all.slice(i + 1)) {
      if (other.core === core || other.piece.level !== piece.level) continue;
      if (along(piece, other.piece) > 1) found.push(`${core.id} lies on ${other.core.id}`);
    }
  });
  return found;
}

/** How far two parallel pieces run on one line, or closer than their own width. */
function along(one: Piece, other: Piece): number {
  const span = ({ a, b, level }: Piece) => (level ? [a.x, b.x] : [a.y, b.y]).sort((x, y) => x - y);
  const across = ({ a, level }: Piece) => (level ? a.y : a.x);
  if (Math.abs(across(one) - across(other)) > 4) return 0;
  const [a = 0, b = 0] = span(one);
  const [c = 0, d = 0] = span(other);
  return Math.min(b, d) - Math.max(a, c);
}

/** Outside of the walls it belongs in, or inside of others. */
function strayParts({ graph }: Drawing, { parts, groups }: Sorted): string[] {
  const parents = new Map(graph.groups.map(({ id, parent }) => [id, parent]));
  return parts.flatMap((part) => {
    const around = new Set<string>();
    for (let id = part.group; id !== undefined; id = parents.get(id)) around.add(id);
    return groups.flatMap(({ id, box }) => {
      const inside =
        part.box.x >= box.x &&
        part.box.y >= box.y &&
        part.box.x + part.box.width <= box.x + box.width &&
        part.box.y + part.box.height <= box.y + box.height;
      if (around.has(id)) return inside ? [] : [`${part.id} stands out of ${id}`];
      return overlaps(part.box, box) ? [`${part.id} stands in ${id}`] : [];
    });
  });
}

/** Through the wall of a box it has no end in, or more often than it must. */
function strayCores({ graph }: Drawing, { parts, cores, groups }: Sorted): string[] {
  const parents = new Map(graph.groups.map(({ id, parent }) => [id, parent]));
  const boxes = new Map(parts.flatMap(({ group, terminals }) => terminals.map(({ terminal }) => [terminal, group])));
  const isIn = (terminal: string, box: string) => {
    for (let id = boxes.get(terminal); id !== undefined; id = parents.get(id)) if (id === box) return true;
    return false;
  };
  return cores.flatMap(({ id, from, to, points }) =>
    groups.flatMap((group) => {
      const must = isIn(from, group.id) === isIn(to, group.id) ? 0 : 1;
      const does = crossings(points, group.box).length;
      return group.is === 'place' || does === must ? [] : [`${id} goes ${does} times through ${group.id}`];
    }),
  );
}

/** With a wall through their words. */
function cutLabels({ cores, groups }: Sorted): string[] {
  return cores.flatMap(({ id, label }) =>
    groups.filter((group) => isCut(label.box, group)).map((group) => `the wall of ${group.id} cuts the label of ${id}`),
  );
}

/** Words of a box that go on beyond its walls. */
function longWords({ groups }: Sorted): string[] {
  return groups.flatMap(({ id, texts, box }) =>
    texts.filter((text) => !holds(box, text.box)).map(({ text }) => `“${text}” leaves ${id}`),
  );
}

/** How often cores cross. */
export function crossingsOf(drawing: Drawing): number {
  const { cores } = sorted(drawing);
  const all = cores.flatMap((core) => piecesOf(core.points).map((piece) => ({ core, piece })));
  const levels = all.filter(({ piece }) => piece.level);
  const uprights = all.filter(({ piece }) => !piece.level);
  let count = 0;
  for (const one of levels)
    for (const other of uprights) {
      if (one.core === other.core) continue;
      const { a, b } = one.piece;
      const { a: c, b: d } = other.piece;
      const x = c.x > Math.min(a.x, b.x) && c.x < Math.max(a.x, b.x);
      const y = a.y > Math.min(c.y, d.y) && a.y < Math.max(c.y, d.y);
      if (x && y) count += 1;
    }
  return count;
}
