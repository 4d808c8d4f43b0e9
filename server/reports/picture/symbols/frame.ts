/** What all symbols have in common: the words above, leads on both sides, and terminals at their ends. */
import { coreStep, leadStep, lineStep, snapUp } from '../measures.ts';
import { Pen, widthOf } from '../pen.ts';
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
  return headerLines(part).reduce((sum, { role }) => sum + lineStep(role), 0) + 3;
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

/** The side most of a terminal's cores come from; `usual` when they do not say. */
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

/** Ports of a lead, its cores side by side about its middle. */
export function portsOf({ name, wing, y, ends }: Lead): PlannedPort[] {
  return ends.map(({ key }, i) => ({ key, terminal: name, wing, y: y - spread(ends.length) / 2 + i * coreStep }));
}

export function terminalOf({ name, wing, y, ends }: Lead, width: number): FinishedTerminal {
  const half = spread(ends.length) / 2;
  return { name, side: wing, x: wing === 'left' ? 0 : width, top: y - half, bottom: y + half };
}

/** A small ring, or a stud as long as its cores need. */
export function drawTerminal(pen: Pen, lead: Lead, width: number): void {
  const { x, top, bottom } = terminalOf(lead, width);
  const inside = lead.wing === 'left' ? 2.5 : -2.5;
  if (top === bottom) pen.circle(x + inside, top, 2.5, 'fine', 'paper');
  else pen.rect(lead.wing === 'left' ? 0 : width - 5, top - 4, 5, bottom - top + 8, 'fine', 'paper');
}

/** Leads of a column from the top down. */
export function stackLeads(
  names: readonly string[],
  wing: Wing,
  top: number,
  ends: SymbolInput['ends'],
  step = leadStep,
): { readonly leads: Lead[]; readonly bottom: number } {
  let y = top;
  const leads = names.map((name): Lead => {
    const cores = ends.get(name) ?? [];
    const room = leadRoom(cores.length, step);
    y += room;
    return { name, wing, y: y - room / 2, ends: cores };
  });
  return { leads, bottom: y };
}

/** A symbol whose leads are where it says, whatever stands beside it. */
export function fixedPlan(
  { part }: SymbolInput,
  width: number,
  height: number,
  leads: readonly Lead[],
  draw: (pen: Pen) => void,
): SymbolPlan {
  return {
    width,
    height: snapUp(height),
    head: 0,
    foot: 0,
    ports: leads.flatMap(portsOf),
    finish() {
      const pen = new Pen();
      drawHeader(pen, part, width);
      draw(pen);
      for (const lead of leads) drawTerminal(pen, lead, width);
      return { shapes: pen.shapes, texts: pen.texts, terminals: leads.map((lead) => terminalOf(lead, width)) };
    },
  };
}
