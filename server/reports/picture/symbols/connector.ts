/** A plug and its socket: a row a pin, cores on both sides of it. */
import { wideStep } from '../measures.ts';
import { widthOf } from '../pen.ts';
import type { FinishedTerminal, PlannedPort, SymbolMaker, Wing } from '../plan.ts';
import { bodyBottom, bodyWidth, fixedPlan, headerHeight, leadRoom, pinnedLevel, portsOf } from './frame.ts';

export const connector: SymbolMaker = (input) => {
  const { part, ends } = input;
  const top = headerHeight(part);
  let y = top;
  const pins = part.terminals.map(({ name }) => {
    const on = (wing: Wing) => (ends.get(name) ?? []).filter(({ wants }) => wants === wing);
    const [left, right] = [on('left'), on('right')];
    const room = leadRoom(Math.max(left.length, right.length), wideStep);
    const level = pinnedLevel(input, name) ?? y + room / 2;
    y = Math.max(y, level + room / 2);
    return { name, y: level, left, right };
  });
  const bottom = bodyBottom(input, y);
  const label = Math.max(8, ...pins.map(({ name }) => widthOf('terminal', name)));
  const width = bodyWidth(input, 44 + 2 * label);
  const middle = width / 2;
  const ports: PlannedPort[] = pins.flatMap(({ name, y: level, left, right }) => [
    ...portsOf({ name, wing: 'left', y: level, ends: left }),
    ...portsOf({ name, wing: 'right', y: level, ends: right }),
  ]);
  const terminalsAt = (at: ReadonlyMap<string, number>) =>
    pins.map(({ name, y: level }): FinishedTerminal => {
      const levels = [
        level,
        ...ports.flatMap((port) => (port.terminal === name ? (at.get(port.key) ?? port.y ?? []) : [])),
      ];
      return { name, side: 'left', x: middle, level, top: Math.min(...levels), bottom: Math.max(...levels) };
    });
  const plan = fixedPlan(input, {
    width,
    bottom,
    leads: [],
    draw(pen, at) {
      pen.rect(middle - 11, top, 22, bottom - top, 'fine', 'paper');
      for (const { name, level, top: upper, bottom: lower } of terminalsAt(at)) {
        // IEC 60617: the pin as a short bar, the socket as a bow round it.
        pen.rect(middle - 4, level - 2, 9, 4, 'ink', 'ink');
        pen.bow([middle - 4, level], 5, 90, 270);
        pen.text('terminal', name, middle + 14, level - 3, 'start');
        if (upper !== lower)
          pen.line([
            [middle, upper],
            [middle, lower],
          ]);
      }
    },
  });
  return {
    ...plan,
    ports,
    finish: (at) => ({
      ...plan.finish(at),
      terminals: terminalsAt(at).map((terminal) => ({ ...terminal, x: terminal.x + plan.bodyLeft })),
    }),
  };
};
