/**
 * Small words that stand where there is room for them: plus and minus at the ends of cores, and what a core goes through a wall
 * by. What finds no room is left out; polarity shows in the line as well, and a view tells the rest when asked.
 */
import { drawnText } from './pen.ts';
import { pieceBox, piecesOf } from './polyline.ts';
import { Room } from './room.ts';
import type { DrawnCore, DrawnElement, DrawnPassage, DrawnText, Point } from './scene.ts';

/** Everything with its words; of the elements that are not `fresh` they stay. */
export function withNotes(
  elements: readonly DrawnElement[],
  fresh: (id: string) => boolean = () => true,
): DrawnElement[] {
  const room = new Room();
  for (const element of elements) take(room, element, fresh(element.id));
  const worded: { readonly passage: DrawnPassage; readonly text: string }[] = [];
  return elements.map((element) => {
    if (!fresh(element.id)) return element;
    if (element.is === 'core') return { ...element, signs: signsOf(element, room) };
    if (element.is !== 'passage' || element.label === '') return element;
    const { label, point } = element;
    // One word serves several cores side by side.
    const near = worded.some(
      ({ passage, text }) =>
        text === label &&
        passage.enclosure === element.enclosure &&
        Math.abs(passage.point.x - point.x) < 20 &&
        Math.abs(passage.point.y - point.y) < 60,
    );
    const text = near ? undefined : wordOf(element, room);
    if (text !== undefined) worded.push({ passage: element, text: label });
    return { ...element, text };
  });
}

function take(room: Room, element: DrawnElement, isFresh: boolean): void {
  const { id } = element;
  if (element.is === 'part') room.add(id, element.box);
  else if (element.is === 'core') {
    room.add(`label of ${id}`, element.label.box);
    for (const piece of piecesOf(element.points)) room.add(id, pieceBox(piece, 4));
    if (!isFresh) for (const { box } of element.signs) room.add(`sign of ${id}`, box);
  } else if (element.is === 'passage') {
    const { x, y } = element.point;
    room.add(id, { x: x - 6, y: y - 6, width: 12, height: 12 });
    if (!isFresh && element.text !== undefined) room.add(`word of ${id}`, element.text.box);
  } else for (const { box } of element.texts) room.add(`word of ${id}`, box);
}

function firstFree(candidates: Iterable<DrawnText>, room: Room, owner: string): DrawnText | undefined {
  for (const text of candidates)
    if (room.isFree(text.box)) {
      room.add(owner, text.box);
      return text;
    }
  return undefined;
}

function signsOf({ id, points, polarity }: DrawnCore, room: Room): DrawnText[] {
  if (polarity === undefined) return [];
  const word = polarity === '+' ? '+' : '−';
  const pieces = piecesOf(points);
  const [first, last] = [pieces[0], pieces.at(-1)];
  if (first === undefined || last === undefined) return [];
  const ends = [
    { piece: first, from: first.a, to: first.b },
    { piece: last, from: last.b, to: last.a },
  ];
  return ends.flatMap(({ piece, from, to }) => {
    if (!piece.level) return [];
    const way = Math.sign(to.x - from.x);
    const candidates: DrawnText[] = [];
    for (let along = 8; along < Math.min(piece.length - 6, 90); along += 4)
      candidates.push(drawnText('sign', word, { x: from.x + way * along, y: from.y - 5 }, 'middle'));
    const sign = firstFree(candidates, room, `sign of ${id}`);
    return sign === undefined ? [] : [sign];
  });
}

function wordOf({ id, label, point }: DrawnPassage, room: Room): DrawnText | undefined {
  const corner = (dx: number, dy: number, anchor: DrawnText['anchor']): DrawnText => {
    const at: Point = { x: point.x + dx, y: point.y + dy };
    return drawnText('gland', label, at, anchor);
  };
  return firstFree(
    [
      corner(8, -5, 'start'),
      corner(8, 11, 'start'),
      corner(-8, -5, 'end'),
      corner(-8, 11, 'end'),
      corner(0, -8, 'middle'),
    ],
    room,
    `word of ${id}`,
  );
}
