/** One node drawn as a bar as long as its cores need: busbar, block, splice, chassis. */
import { barStep, snapUp } from '../measures.ts';
import { Pen } from '../pen.ts';
import type { CoreEnd, FinishedTerminal, PlannedPort, SymbolInput, SymbolMaker } from '../plan.ts';
import { drawHeader, headerHeight, headerWidth } from './frame.ts';

interface BarLook {
  /** Room below the last core. */
  readonly foot: number;
  readonly draw: (pen: Pen, x: number, levels: readonly number[]) => void;
}

/** Above the first core and below the last. */
const margin = 8;

function bar({ foot, draw }: BarLook): SymbolMaker {
  return (input) => {
    const { part } = input;
    const head = headerHeight(part) + 8;
    const ports = part.terminals.flatMap(({ name }) =>
      (input.ends.get(name) ?? []).map(
        ({ key, wants }: CoreEnd): PlannedPort => ({ key, terminal: name, wing: wants, y: undefined }),
      ),
    );
    const right = ports.filter(({ wing }) => wing === 'right').length;
    const most = Math.max(right, ports.length - right, 1);
    const body = part.terminals.length > 1 ? 44 : 24;
    const width = snapUp(Math.max(headerWidth(part) + 4, body));
    return {
      width,
      height: snapUp(head + (most - 1) * barStep + 2 * margin + foot),
      isBar: true,
      head,
      foot,
      bodyLeft: (width - body) / 2,
      bodyWidth: body,
      ports,
      finish(at) {
        const pen = new Pen();
        drawHeader(pen, part, width);
        const levels = ports.map(({ key }) => at.get(key) ?? head + margin);
        if (levels.length === 0) levels.push(head + margin);
        draw(pen, width / 2, levels);
        numbered(pen, ports, at, width / 2);
        return { shapes: pen.shapes, texts: pen.texts, terminals: barTerminals(input, ports, at, width, levels) };
      },
    };
  };
}

/** A stud's number over the core on it. */
function numbered(pen: Pen, ports: readonly PlannedPort[], at: ReadonlyMap<string, number>, x: number): void {
  for (const { key, terminal, wing } of ports) {
    const y = at.get(key);
    if (terminal === '' || y === undefined) continue;
    if (wing === 'left') pen.text('terminal', terminal, x - 7, y - 3, 'end');
    else pen.text('terminal', terminal, x + 7, y - 3, 'start');
  }
}

function barTerminals(
  { part }: SymbolInput,
  ports: readonly PlannedPort[],
  at: ReadonlyMap<string, number>,
  width: number,
  levels: readonly number[],
): FinishedTerminal[] {
  return part.terminals.map(({ name }): FinishedTerminal => {
    const own = ports.flatMap(({ key, terminal }) => (terminal === name ? (at.get(key) ?? []) : []));
    const span = own.length > 0 ? own : levels;
    const [top, bottom] = [Math.min(...span), Math.max(...span)];
    return { name, side: 'left', x: width / 2, level: top, top, bottom };
  });
}

const busbar: BarLook = {
  foot: 0,
  draw(pen, x, levels) {
    const [top, bottom] = [Math.min(...levels) - 6, Math.max(...levels) + 6];
    pen.rect(x - 4, top, 8, bottom - top, 'ink', 'paper');
    for (const y of levels) pen.dot(x, y);
  },
};

const splice: BarLook = {
  foot: 0,
  draw(pen, x, levels) {
    const [top, bottom] = [Math.min(...levels), Math.max(...levels)];
    if (top !== bottom)
      pen.line(
        [
          [x, top],
          [x, bottom],
        ],
        'heavy',
      );
    for (const y of levels) pen.circle(x, y, 3, 'ink', 'ink');
  },
};

/** A row of clamps. */
const block: BarLook = {
  foot: 0,
  draw(pen, x, levels) {
    const [top, bottom] = [Math.min(...levels) - 6, Math.max(...levels) + 6];
    pen.rect(x - 6, top, 12, bottom - top, 'ink', 'paper');
    for (const y of levels) pen.circle(x, y, 3, 'fine', 'paper');
  },
};

/** IEC 60617: strokes aslant under a line are the body of what it is built on. */
const chassis: BarLook = {
  foot: 14,
  draw(pen, x, levels) {
    const bottom = Math.max(...levels) + 8;
    pen.line([
      [x, Math.min(...levels)],
      [x, bottom],
    ]);
    for (const y of levels) pen.dot(x, y);
    pen.line([
      [x - 11, bottom],
      [x + 11, bottom],
    ]);
    for (const dx of [-7, 1, 9])
      pen.line([
        [x + dx, bottom],
        [x + dx - 5, bottom + 8],
      ]);
  },
};

export const barSymbols: Readonly<Record<string, SymbolMaker>> = {
  busbar: bar(busbar),
  block: bar(block),
  splice: bar(splice),
  chassis: bar(chassis),
};

/** One node, drawn as a bar. */
export const isBar = (symbol: string): boolean => Object.hasOwn(barSymbols, symbol);
