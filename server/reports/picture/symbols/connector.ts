/** A plug and its socket: a row a pin, cores on both sides of it. */
import { snapUp } from '../measures.ts';
import { widthOf } from '../pen.ts';
import type { FinishedTerminal, PlannedPort, SymbolMaker, Wing } from '../plan.ts';
import { fixedPlan, headerHeight, headerWidth, type Lead, leadRoom, portsOf } from './frame.ts';

export const connector: SymbolMaker = (input) => {
  const { part, ends } = input;
  const top = headerHeight(part);
  let y = top;
  const pins = part.terminals.map(({ name }) => {
    const on = (wing: Wing) => (ends.get(name) ?? []).filter(({ wants }) => wants === wing);
    const [left, right] = [on('left'), on('right')];
    const room = leadRoom(Math.max(left.length, right.length));
    y += room;
    return { name, y: y - room / 2, left, right };
  });
  const label = Math.max(8, ...pins.map(({ name }) => widthOf('terminal', name)));
  const width = snapUp(Math.max(headerWidth(part) + 4, 44 + 2 * label));
  const middle = width / 2;
  const leads = pins.flatMap(({ name, y: level, left, right }): Lead[] => [
    { name, wing: 'left', y: level, ends: left },
    { name, wing: 'right', y: level, ends: right },
  ]);
  const plan = fixedPlan(input, width, y + 2, [], (pen) => {
    pen.rect(middle - 11, top, 22, y - top, 'fine', 'paper');
    for (const pin of pins) {
      // IEC 60617: the pin as a short bar, the socket as a bow round it.
      pen.rect(middle - 4, pin.y - 2, 9, 4, 'ink', 'ink');
      pen.bow([middle - 4, pin.y], 5, 90, 270);
      pen.text('terminal', pin.name, middle + 14, pin.y - 3, 'start');
      for (const side of [pin.left, pin.right]) {
        const rows = side.length > 1 ? portsOf({ name: pin.name, wing: 'left', y: pin.y, ends: side }) : [];
        const levels = rows.map((row) => row.y ?? pin.y);
        if (levels.length > 1)
          pen.line([
            [middle, Math.min(...levels)],
            [middle, Math.max(...levels)],
          ]);
      }
    }
  });
  const ports: PlannedPort[] = leads.flatMap(portsOf);
  const terminals = pins.map(({ name, y: level, left, right }): FinishedTerminal => {
    const half = leadRoom(Math.max(left.length, right.length)) / 2 - leadRoom(1) / 2;
    return { name, side: 'left', x: middle, top: level - half, bottom: level + half };
  });
  return { ...plan, ports, finish: (at, height) => ({ ...plan.finish(at, height), terminals }) };
};
