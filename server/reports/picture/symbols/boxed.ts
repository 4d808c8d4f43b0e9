/** Apparatus as a box with its terminals named on its walls and a sign of what it does in the middle. */
import { wideStep } from '../measures.ts';
import { type Pen, widthOf } from '../pen.ts';
import type { SymbolInput, SymbolPlan, Wing } from '../plan.ts';
import { bodyBottom, bodyWidth, fixedPlan, headerHeight, type Lead, signed, stackLeads, wingOf } from './frame.ts';

export interface Boxed {
  /** The side a terminal is on when nothing draws it to the other. */
  readonly usual: (terminal: string) => Wing;
  /** Whether cores may draw a terminal to the other side. */
  readonly follows?: (terminal: string) => boolean;
  /** Room of the sign in the middle. */
  readonly sign: { readonly width: number; readonly height: number };
  readonly draw: (pen: Pen, x: number, y: number, leads: readonly Lead[]) => void;
}

export function boxed(input: SymbolInput, { usual, follows = () => true, sign, draw }: Boxed): SymbolPlan {
  const { part, pinned } = input;
  const wings = new Map(
    part.terminals.map(({ name }) => {
      const before = pinned?.wing(name);
      return [name, before ?? (follows(name) ? wingOf(input, name, usual(name)) : usual(name))] as const;
    }),
  );
  const on = (wing: Wing) => part.terminals.map(({ name }) => name).filter((name) => wings.get(name) === wing);
  const top = headerHeight(part);
  const left = stackLeads(input, on('left'), 'left', top, wideStep);
  const right = stackLeads(input, on('right'), 'right', top, wideStep);
  const bottom = bodyBottom(input, Math.max(left.bottom, right.bottom, top + sign.height + 8));
  const [labelLeft = 0, labelRight = 0] = [left, right].map(({ leads }) => {
    const widest = Math.max(0, ...leads.map(({ name }) => widthOf('terminal', signed(name))));
    return widest === 0 ? 6 : widest + 12;
  });
  const width = bodyWidth(input, labelLeft + sign.width + labelRight);
  const leads =
    pinned === undefined ? [...centred(left, bottom), ...centred(right, bottom)] : [...left.leads, ...right.leads];
  // In the room that the names of the terminals leave.
  const x = (labelLeft + width - labelRight) / 2;
  return fixedPlan(input, {
    width,
    bottom,
    leads,
    draw(pen) {
      pen.rect(0, top, width, bottom - top, 'ink', 'paper');
      draw(pen, x, (top + bottom) / 2, leads);
      for (const { name, wing, y } of leads) {
        if (wing === 'left') pen.text('terminal', signed(name), 8, y + 3, 'start');
        else pen.text('terminal', signed(name), width - 8, y + 3, 'end');
      }
    },
  });
}

/** Fewer leads than the other side has stand in the middle. */
function centred(
  { leads, bottom }: { readonly leads: readonly Lead[]; readonly bottom: number },
  whole: number,
): Lead[] {
  const shift = Math.floor((whole - bottom) / 2);
  return leads.map((lead) => ({ ...lead, y: lead.y + shift }));
}
