/** What stands between two voltages: controllers, chargers, converters. */
import type { Pen } from '../pen.ts';
import type { SymbolMaker, Wing } from '../plan.ts';
import { boxed } from './boxed.ts';
import { direct, slantedBox, waves } from './currents.ts';

const isInput = (terminal: string): boolean => /^(?:pv|in)/.test(terminal);
const usual = (terminal: string): Wing => (isInput(terminal) ? 'left' : 'right');
/** Plus leads hold their side, so that it is plain which side is which; a minus goes where its conductor is. */
const follows = (terminal: string): boolean => !isInput(terminal) || terminal.endsWith('-');

type Sign = (pen: Pen, x: number, y: number) => void;

/** IEC 60617: a square parted by a slant, what goes in above and what comes out below. */
const changes =
  (from: Sign, to: Sign): SymbolMaker =>
  (input) =>
    boxed(input, {
      usual,
      follows,
      sign: { width: 44, height: 40 },
      draw(pen, x, y) {
        slantedBox(pen, x, y);
        from(pen, x - 8, y - 8);
        to(pen, x + 8, y + 8);
      },
    });

/** A ray that falls on a plane. */
const sun: Sign = (pen, x, y) => {
  pen.line([
    [x - 5, y - 5],
    [x + 2, y + 2],
  ]);
  pen.line([
    [x - 2, y + 2],
    [x + 2, y + 2],
    [x + 2, y - 2],
  ]);
};

const dc = changes(direct, direct);

const charger: SymbolMaker = (input) =>
  input.part.terminals.some(({ name }) => isInput(name)) ? dc(input) : changes(waves, direct)(input);

export const conversionSymbols: Readonly<Record<string, SymbolMaker>> = {
  controller: changes(sun, direct),
  charger,
  converter: dc,
};
