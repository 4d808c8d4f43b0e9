/** What draws: lamps, motors, heaters, sockets, inverters, and anything else as a plain consumer. */
import type { Pen } from '../pen.ts';
import type { SymbolMaker } from '../plan.ts';
import type { PicturePart } from '../scene.ts';
import { boxed } from './boxed.ts';
import { direct, slantedBox, waves } from './currents.ts';

type Sign = (pen: Pen, x: number, y: number) => void;

/** IEC 60617: a circle with a cross. */
const lamp: Sign = (pen, x, y) => {
  pen.circle(x, y, 11);
  for (const way of [-1, 1])
    pen.line([
      [x - 7.8, y - way * 7.8],
      [x + 7.8, y + way * 7.8],
    ]);
};

const motor: Sign = (pen, x, y) => {
  pen.circle(x, y, 12);
  pen.text('name', 'M', x, y + 4);
};

const heater: Sign = (pen, x, y) => {
  pen.rect(x - 14, y - 6, 28, 12);
  for (const dx of [-7, 0, 7])
    pen.line([
      [x + dx, y - 6],
      [x + dx, y + 6],
    ]);
};

const consumer: Sign = (pen, x, y) => pen.rect(x - 14, y - 6, 28, 12);

/** The spec does not say what a load is, but its name often does; the sign is for the eye alone. */
const known: readonly (readonly [RegExp, Sign])[] = [
  [/lamp|light|lantern|bulb|beacon|torch/iu, lamp],
  [/pump|fan|motor|blower|compressor|winch|starter|ventilat|washer|drill|lathe|mower|press|wiper/iu, motor],
  [/heat|kettle|boiler|blanket|oven|stove/iu, heater],
];

function signOf({ name, title }: PicturePart): Sign {
  const words = `${name} ${title ?? ''}`;
  return known.find(([pattern]) => pattern.test(words))?.[1] ?? consumer;
}

const load: SymbolMaker = (input) => {
  const sign = signOf(input.part);
  return boxed(input, {
    usual: () => 'left',
    sign: { width: 36, height: 30 },
    draw: (pen, x, y) => sign(pen, x, y),
  });
};

/** IEC 60617: a bow that holds the plug. */
const socket: SymbolMaker = (input) =>
  boxed(input, {
    usual: () => 'left',
    sign: { width: 32, height: 28 },
    draw(pen, x, y) {
      pen.bow([x + 8, y], 11, 90, 270);
      pen.line([
        [x - 12, y],
        [x - 3, y],
      ]);
      pen.line([
        [x - 3, y - 11],
        [x - 3, y + 11],
      ]);
    },
  });

/** IEC 60617: what goes in and what comes out, on either side of a slant. */
const inverter: SymbolMaker = (input) =>
  boxed(input, {
    usual: () => 'left',
    sign: { width: 44, height: 40 },
    draw(pen, x, y) {
      slantedBox(pen, x, y);
      direct(pen, x - 8, y - 8);
      waves(pen, x + 8, y + 8);
    },
  });

export const loadSymbols: Readonly<Record<string, SymbolMaker>> = { load, socket, inverter };
