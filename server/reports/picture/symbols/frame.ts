/** What all symbols have in common: the words above, leads on both sides, and terminals at their ends. */
import { coreStep, leadStep, lineStep, snapUp } from '../measures.ts';
import { movedShape, movedText, Pen, widthOf } from '../pen.ts';
import { shortened } from '../plain-text.ts';
import type { CoreEnd, FinishedTerminal, PlannedPort, SymbolInput, SymbolPlan, Wing } from '../plan.ts';
import type { PicturePart, TextRole } from '../scene.ts';

const mostLetters: Readonly<Partial<Record<TextRole, number>>> = { name: 28, title: 26, rating: 30 };

interface HeaderLine {
  readonly role: TextRole;
  readonly text: string;
}

function headerLines({ name, title, ratings }: PicturePart): HeaderLine[] {
  const lines: HeaderLine[] = [{ role: 'name', text: name }];
  if (title !== undefined) lines.push({ role: 'title', text: title });
  for (const text of ratings) lines.push({ role: 'rating', text });
  return lines.map(({ role, text }) => ({ role, text: shortened(text, mostLetters[role] ?? 30) }));
}

export function headerWidth(part: PicturePart): number {
  return Math.max(...headerLines(part).map(({ role, text }) => widthOf(role, text)));
}

export function headerHeight(part: PicturePart): number {
  return headerLines(part).reduce((sum, { role }) => sum + lineStep(role), 0) + 5;
}

export function drawHeader(pen: Pen, part: PicturePart, width: number): void {
  let y = 0;
  for (const { role, text } of headerLines(part)) {
    y += lineStep(role);
    pen.text(role, text, width / 2, y - 2);
  }
}

export const signed = (name: string): string => name.replace(/-$/, '−');

export const opposite = (wing: Wing): Wing => (wing === 'left' ? 'right' : 'left');

/** The side a terminal was on, else that most of its cores come from; `usual` when they do not say. */
export function wingOf({ ends, pinned }: SymbolInput, name: string, usual: Wing): Wing {
  return pinned?.wing(name) ?? wantedWing(ends.get(name), usual);
}

export function wantedWing(ends: readonly CoreEnd[] | undefined, usual: Wing): Wing {
  const right = (ends ?? []).filter(({ wants }) => wants === 'right').length;
  const left = (ends ?? []).length - right;
  return right === left ? usual : right > left ? 'right' : 'left';
}

export interface Lead {
  readonly name: string;
  readonly wing: Wing;
  readonly y: number;
  readonly ends: readonly CoreEnd[];
}

const spread = (count: number): number => Math.max(0, count - 1) * coreStep;

/** How much of a column a terminal with so many cores takes. */
export const leadRoom = (count: number, step = leadStep): number => step + spread(count);

/** How high a lead was before, in the frame of the part as it is now. */
export function pinnedLevel({ part, pinned }: SymbolInput, name: string): number | undefined {
  const level = pinned?.level(name);
  return level === undefined ? undefined : headerHeight(part) + level;
}

/** Ports of a lead, its cores side by side about its middle. */
export function portsOf({ name, wing, y, ends }: Lead): PlannedPort[] {
  return ends.map(({ key }, i) => ({ key, terminal: name, wing, y: y - spread(ends.length) / 2 + i * coreStep }));
}

/** With the cores where they came in. */
export function terminalOf(lead: Lead, width: number, at: ReadonlyMap<string, number>): FinishedTerminal {
  const levels = portsOf(lead).map(({ key, y }) => at.get(key) ?? y ?? lead.y);
  const { name, wing, y } = lead;
  const span = levels.length === 0 ? [y] : levels;
  return {
    name,
    side: wing,
    x: wing === 'left' ? 0 : width,
    level: y,
    top: Math.min(...span),
    bottom: Math.max(...span),
  };
}

/** A small ring, or a stud as long as its cores need. */
function drawTerminal(pen: Pen, { side, top, bottom, level }: FinishedTerminal, width: number): void {
  const inside = side === 'left' ? 2.5 : width - 2.5;
  if (top === bottom && top === level) pen.circle(inside, top, 2.5, 'fine', 'paper');
  else {
    const [upper, lower] = [Math.min(top, level) - 4, Math.max(bottom, level) + 4];
    pen.rect(side === 'left' ? 0 : width - 5, upper, 5, lower - upper, 'fine', 'paper');
  }
}

/** Leads of a column from the top down. */
export function stackLeads(
  input: SymbolInput,
  names: readonly string[],
  wing: Wing,
  top: number,
  step = leadStep,
): { readonly leads: Lead[]; readonly bottom: number } {
  let y = top;
  const leads = names.map((name): Lead => {
    const ends = input.ends.get(name) ?? [];
    const room = leadRoom(ends.length, step);
    const level = pinnedLevel(input, name) ?? y + room / 2;
    y = Math.max(y, level + room / 2);
    return { name, wing, y: level, ends };
  });
  return { leads, bottom: y };
}

export interface Body {
  /** As wide as its own words and leads need; the words above may want more. */
  readonly width: number;
  /** Of its lower edge, from the top of the words. */
  readonly bottom: number;
  readonly leads: readonly Lead[];
  /** Draws it from its left edge. */
  readonly draw: (pen: Pen, at: ReadonlyMap<string, number>) => void;
}

/** How wide a body is: as before, if that does, and else as wide as the words above it. */
export function bodyWidth({ part, pinned }: SymbolInput, needed: number): number {
  return snapUp(pinned === undefined ? Math.max(headerWidth(part) + 4, needed) : Math.max(pinned.bodyWidth, needed));
}

export function bodyBottom({ part, pinned }: SymbolInput, needed: number): number {
  return pinned === undefined ? snapUp(needed) : Math.max(headerHeight(part) + pinned.bodyHeight, needed);
}

/** A symbol whose leads are where it says, whatever stands beside it. */
export function fixedPlan({ part }: SymbolInput, { width, bottom, leads, draw }: Body): SymbolPlan {
  const header = headerWidth(part);
  const left = header > width ? Math.ceil((header - width) / 2) : 0;
  return {
    width: width + 2 * left,
    height: bottom,
    isBar: false,
    head: headerHeight(part),
    foot: 0,
    bodyLeft: left,
    bodyWidth: width,
    ports: leads.flatMap(portsOf),
    finish(at) {
      const pen = new Pen();
      draw(pen, at);
      const terminals = leads.map((lead) => terminalOf(lead, width, at));
      for (const terminal of terminals) drawTerminal(pen, terminal, width);
      const shift = { x: left, y: 0 };
      const header = new Pen();
      drawHeader(header, part, width + 2 * left);
      return {
        shapes: pen.shapes.map((shape) => movedShape(shape, shift)),
        texts: [...header.texts, ...pen.texts.map((text) => movedText(text, shift))],
        terminals: terminals.map((terminal) => ({ ...terminal, x: terminal.x + left })),
      };
    },
  };
}
