/** Apparatus as a box with its terminals named on its walls and a sign of what it does in the middle. */
import { snapUp, wideStep } from '../measures.ts';
import { type Pen, widthOf } from '../pen.ts';
import type { SymbolInput, SymbolPlan, Wing } from '../plan.ts';
import { fixedPlan, headerHeight, headerWidth, type Lead, signed, stackLeads, wantedWing } from './frame.ts';

export interface Boxed {
  /** The side a terminal is on when nothing draws it to the other. */
  readonly usual: (terminal: string) => Wing;
  /** Whether cores may draw a terminal to the other side. */
  readonly follows?: (terminal: string) => boolean;
  /** Room of the sign in the middle. */
  readonly sign: { readonly width: number; readonly height: number };
  readonly draw: (pen: Pen, x: number, y: number, leads: readonly Lead[]) => void;
  /** Words by a terminal, besides its name. */
  readonly said?: (terminal: string) => string;
}

export function boxed(input: SymbolInput, { usual, follows = () => true, sign, draw, said }: Boxed): SymbolPlan {
  const { part, ends } = input;
  const wingOf = new Map(
    part.terminals.map(({ name }) => [name, follows(name) ? wantedWing(ends.get(name), usual(name)) : usual(name)]),
  );
  const on = (wing: Wing) => part.terminals.map(({ name }) => name).filter((name) => wingOf.get(name) === wing);
  const top = headerHeight(part);
  const [left, right] = [
    stackLeads(on('left'), 'left', top, ends, wideStep),
    stackLeads(on('right'), 'right', top, ends, wideStep),
  ];
  const bottom = Math.max(left.bottom, right.bottom, top + sign.height + 8);
  const labels = [left, right].map(({ leads }) =>
    Math.max(
      0,
      ...leads.map(({ name }) => widthOf('terminal', [signed(name), said?.(name)].filter(Boolean).join(' '))),
    ),
  );
  const [labelLeft = 0, labelRight = 0] = labels.map((width) => (width === 0 ? 6 : width + 12));
  const width = snapUp(Math.max(headerWidth(part) + 4, labelLeft + sign.width + labelRight));
  const leads = [...centred(left, bottom), ...centred(right, bottom)];
  // In the room that the names of the terminals leave.
  const x = (labelLeft + width - labelRight) / 2;
  return fixedPlan(input, width, bottom, leads, (pen) => {
    pen.rect(0, top, width, bottom - top, 'ink', 'paper');
    draw(pen, x, (top + bottom) / 2, leads);
    for (const { name, wing, y } of leads) {
      const text = [signed(name), said?.(name)].filter(Boolean);
      const words = wing === 'left' ? text.join(' ') : text.reverse().join(' ');
      if (wing === 'left') pen.text('terminal', words, 8, y + 3, 'start');
      else pen.text('terminal', words, width - 8, y + 3, 'end');
    }
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
