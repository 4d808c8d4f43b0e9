/** What lies in a conductor, a row a pole: fuses, breakers, isolators, switches, shunts, diodes, selectors. */
import { leadStep, wideStep } from '../measures.ts';
import { type Pen, widthOf, type Xy } from '../pen.ts';
import type { SymbolInput, SymbolMaker, SymbolPlan, Wing } from '../plan.ts';
import type { PictureContact } from '../scene.ts';
import { drawBars, roomForBars } from './bars-between.ts';
import {
  bodyBottom,
  bodyWidth,
  fixedPlan,
  headerHeight,
  type Lead,
  leadRoom,
  opposite,
  pinnedLevel,
  wantedWing,
} from './frame.ts';

/** Half of what a pole's sign takes, from its middle. */
const half = 16;

/** Draws a pole from its incoming side at −16 to its outgoing side at 16, on the level 0. */
type PoleSign = (pen: Pen, at: (x: number, y: number) => Xy, contact: PictureContact) => void;

interface Row {
  readonly contact: PictureContact;
  /** Where its incoming terminal is. */
  readonly wing: Wing;
  readonly y: number;
}

/** Every contact a row with a terminal at either end. */
function inRows(sign: PoleSign, linked: boolean): SymbolMaker {
  return (input) => {
    const { part, ends } = input;
    const count = (name: string) => (ends.get(name) ?? []).length;
    const step = part.contacts.length > 1 ? wideStep : leadStep;
    let y = headerHeight(part);
    const rows = part.contacts.map((contact): Row => {
      const room = Math.max(...[contact.from, contact.to].map((name) => leadRoom(count(name), step)));
      const level = pinnedLevel(input, contact.from) ?? pinnedLevel(input, contact.to) ?? y + room / 2;
      y = Math.max(y, level + room / 2);
      return { contact, wing: incomingWing(input, contact), y: level };
    });
    const seen = new Set<string>();
    const leads = rows.flatMap(({ contact: { from, to }, wing, y: level }) =>
      (
        [
          [from, wing],
          [to, opposite(wing)],
        ] as const
      ).flatMap(([name, side]): Lead[] => {
        if (seen.has(name)) return [];
        seen.add(name);
        return [{ name, wing: side, y: level, ends: ends.get(name) ?? [] }];
      }),
    );
    return withLeads(input, rows, leads, bodyBottom(input, y), sign, linked);
  };
}

/** Incoming terminals are left unless what they lead to stands there. */
function incomingWing({ ends, pinned }: SymbolInput, { from, to }: PictureContact): Wing {
  const [before, after] = [pinned?.wing(from), pinned?.wing(to)];
  if (before !== undefined) return before;
  if (after !== undefined) return opposite(after);
  const [one, other] = [ends.get(from), ends.get(to)];
  if ((one ?? []).length === 0) return opposite(wantedWing(other, 'right'));
  const wing = wantedWing(one, 'left');
  if ((other ?? []).length === 0 || wing !== wantedWing(other, opposite(wing))) return wing;
  return 'left';
}

function withLeads(
  input: SymbolInput,
  rows: readonly Row[],
  leads: readonly Lead[],
  bottom: number,
  sign: PoleSign,
  linked: boolean,
): SymbolPlan {
  const { part } = input;
  const numbers = Math.max(0, ...part.terminals.map(({ name }) => widthOf('terminal', name)));
  const levels = new Map(leads.map((one) => [one.name, one]));
  const lead = Math.max(12, numbers + 5) + roomForBars(part.links, levels);
  const width = bodyWidth(input, 2 * (half + lead));
  const middle = width / 2;
  const draw = (pen: Pen) => {
    for (const { contact, wing, y } of rows) {
      const way = wing === 'left' ? 1 : -1;
      sign(pen, (x, dy) => [middle + way * x, y + dy], contact);
      for (const [name, end] of [
        [contact.from, -1],
        [contact.to, 1],
      ] as const) {
        const from = levels.get(name);
        if (from === undefined) continue;
        const bend = middle + way * end * (half + 4);
        pen.line([
          [from.wing === 'left' ? 5 : width - 5, from.y],
          [bend, from.y],
          [bend, y],
          [middle + way * end * half, y],
        ]);
      }
    }
    const [first, last] = [rows[0], rows.at(-1)];
    // One hand moves all poles.
    if (linked && first !== undefined && last !== undefined && first !== last)
      pen.line(
        [
          [middle, first.y - 5],
          [middle, last.y - 5],
        ],
        'dashed',
      );
    drawBars(pen, part.links, levels, { width, inset: 6 + numbers });
    for (const { name, wing, y } of leads) {
      const [x, anchor] = wing === 'left' ? ([6, 'start'] as const) : ([width - 6, 'end'] as const);
      pen.text('terminal', name, x, y - 4, anchor);
    }
  };
  return fixedPlan(input, { width, bottom, leads, draw });
}

const straight = (pen: Pen, at: (x: number, y: number) => Xy, from: number, to: number) =>
  pen.line([at(from, 0), at(to, 0)]);

/** Hinged at the outgoing side; at rest it stands open. */
function blade(pen: Pen, at: (x: number, y: number) => Xy, { pole }: PictureContact): void {
  straight(pen, at, -half, -9);
  straight(pen, at, 9, half);
  pen.blade([at(9, 0), at(-9, -10)], { pole, closed: false, atRest: true });
  pen.blade([at(9, 0), at(-9, 0)], { pole, closed: true, atRest: false });
}

/** Its wire goes through it, but where a case takes the fuse out. */
const fuseSign: PoleSign = (pen, at, { pole }) => {
  const [x, y] = at(0, 0);
  pen.rect(x - 13, y - 5, 26, 10);
  pen.blade([at(-half, 0), at(half, 0)], { pole, closed: true, atRest: true });
  for (const side of [-1, 1]) pen.blade([at(side * half, 0), at(side * 13, 0)], { pole, closed: false, atRest: false });
};

/** IEC 60617: a cross at the fixed contact tells a breaker. */
const breakerSign: PoleSign = (pen, at, contact) => {
  blade(pen, at, contact);
  pen.line([at(-12, -3), at(-6, 3)]);
  pen.line([at(-12, 3), at(-6, -3)]);
};

/** IEC 60617: a bar across the fixed contact tells that it isolates, the ring above the blade that it switches loads. */
const isolatorSign: PoleSign = (pen, at, contact) => {
  blade(pen, at, contact);
  pen.line([at(-9, -4), at(-9, 4)]);
  const [x, y] = at(-6, 0);
  pen.circle(x, y, 2, 'fine', 'paper');
};

const switchSign: PoleSign = (pen, at, contact) => {
  blade(pen, at, contact);
  for (const x of [-9, 9]) pen.dot(...at(x, 0));
};

const shuntSign: PoleSign = (pen, at) => {
  const [x, y] = at(0, 0);
  straight(pen, at, -half, half);
  pen.rect(x - 11, y - 5, 22, 10, 'ink', 'paper');
  for (const side of [-7, 7]) pen.line([at(side, 5), at(side, 9)], 'fine');
};

const diodeSign: PoleSign = (pen, at) => {
  straight(pen, at, -half, half);
  pen.outline([at(-7, -7), at(-7, 7), at(7, 0)]);
  pen.line([at(7, -7), at(7, 7)]);
};

/** One common terminal and two ways to it: at rest to neither. */
const commonSign: PoleSign = (pen, at, { pole }) => {
  straight(pen, at, -half, -8);
  pen.blade([at(12, 0), at(-6, -9)], { pole, closed: false, atRest: true });
  pen.blade([at(12, 0), at(-8, 0)], { pole, closed: true, atRest: false });
  pen.dot(...at(-8, 0));
  straight(pen, at, 12, half);
};

export const poleSymbols: Readonly<Record<string, SymbolMaker>> = {
  fuse: inRows(fuseSign, false),
  breaker: inRows(breakerSign, true),
  isolator: inRows(isolatorSign, true),
  switch: inRows(switchSign, true),
  shunt: inRows(shuntSign, false),
  diode: inRows(diodeSign, false),
  selector: inRows(commonSign, false),
};
