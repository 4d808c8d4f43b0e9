/** Batteries, panels and alternators. */
import type { Pen } from '../pen.ts';
import type { SymbolMaker } from '../plan.ts';
import { boxed } from './boxed.ts';
import type { Lead } from './frame.ts';

/** Two cells between the leads, long plate positive, short and heavy negative; levels of the two ends are given. */
function cells(pen: Pen, x: number, plus: number, minus: number): void {
  const down = minus >= plus ? 1 : -1;
  const middle = (plus + minus) / 2;
  const level = (dy: number) => middle + down * dy;
  for (const [dy, long] of [
    [-8, true],
    [-4, false],
    [4, true],
    [8, false],
  ] as const)
    pen.line(
      [
        [x - (long ? 11 : 6), level(dy)],
        [x + (long ? 11 : 6), level(dy)],
      ],
      long ? 'ink' : 'heavy',
    );
  pen.line(
    [
      [x, level(-4)],
      [x, level(4)],
    ],
    'dashed',
  );
  pen.line([
    [x, plus],
    [x, level(-8)],
  ]);
  pen.line([
    [x, level(8)],
    [x, minus],
  ]);
}

/** From the sign to the terminal's name. */
function toLead(pen: Pen, x: number, y: number, { wing, y: level, name }: Lead, width: number): void {
  const reach = width / 2 - (name.length > 2 ? 4 : 0);
  pen.line([
    [x, y],
    [x, level],
    [wing === 'left' ? x - reach : x + reach, level],
  ]);
}

const battery: SymbolMaker = (input) =>
  boxed(input, {
    usual: () => 'right',
    sign: { width: 44, height: 48 },
    draw(pen, x, y, leads) {
      const [plus, minus] = [leads.find(({ name }) => name === '+'), leads.find(({ name }) => name === '-')];
      const upper = plus !== undefined && minus !== undefined && plus.y > minus.y ? 1 : -1;
      cells(pen, x, y + upper * 16, y - upper * 16);
      if (plus !== undefined) toLead(pen, x, y + upper * 16, plus, 44);
      if (minus !== undefined) toLead(pen, x, y - upper * 16, minus, 44);
    },
  });

/** A plane with the sun falling on it. */
const panel: SymbolMaker = (input) =>
  boxed(input, {
    usual: () => 'right',
    sign: { width: 46, height: 40 },
    draw(pen, x, y) {
      pen.outline([
        [x - 20, y + 14],
        [x - 12, y - 4],
        [x + 16, y - 4],
        [x + 8, y + 14],
      ]);
      pen.line(
        [
          [x - 16, y + 5],
          [x + 12, y + 5],
        ],
        'fine',
      );
      pen.line(
        [
          [x + 2, y - 4],
          [x - 6, y + 14],
        ],
        'fine',
      );
      for (const dx of [-8, 4]) {
        pen.line([
          [x + dx - 6, y - 18],
          [x + dx, y - 8],
        ]);
        pen.line([
          [x + dx - 4, y - 10],
          [x + dx, y - 8],
          [x + dx + 0.5, y - 12.5],
        ]);
      }
    },
  });

/** IEC 60617: a machine is a circle with its letter. */
const alternator: SymbolMaker = (input) =>
  boxed(input, {
    usual: () => 'right',
    sign: { width: 36, height: 36 },
    draw(pen, x, y) {
      pen.circle(x, y, 15);
      pen.text('symbol', 'G', x, y);
      pen.line(
        [
          [x - 5, y + 5],
          [x + 5, y + 5],
        ],
        'fine',
      );
      pen.line(
        [
          [x - 5, y + 8],
          [x + 5, y + 8],
        ],
        'dashed',
      );
    },
  });

export const sourceSymbols: Readonly<Record<string, SymbolMaker>> = { battery, panel, alternator };
