/**
 * Where the voltage of a way goes, as a flight of stairs: one step a core or contact, as wide as the volts it costs, each named.
 * It begins at the source's volts on the left and ends at the load's on the right; after the load it comes back to the source.
 */
import { amps, dropVolts, percent, volts } from '../figures.ts';
import { shortened, textWidth } from '../letters.ts';
import { element, text, type Xml } from '../xml.ts';
import type { TraceStep, TraceWay } from './trace.ts';

export interface Stair {
  readonly step: TraceStep;
  /** From the left, as a share of the whole loss. */
  readonly begins: number;
  readonly ends: number;
}

/** Shares of the loss; where nothing is lost, or a step gains, it stays within 0 to 1. */
export function stairsOf({ steps }: TraceWay): Stair[] {
  const sums = [0];
  for (const { dropVolts: lost } of steps) sums.push((sums.at(-1) ?? 0) + lost);
  const lowest = Math.min(...sums);
  const room = Math.max(...sums) - lowest;
  const share = (sum: number) => (room > 0 ? (sum - lowest) / room : 0);
  return steps.map((step, index) => ({ step, begins: share(sums[index] ?? 0), ends: share(sums[index + 1] ?? 0) }));
}

const size = 11;
const rowHeight = 34;
const edge = 8;
/** A step that costs next to nothing is still seen. */
const leastWide = 2;

/** Its height follows from the steps; `width` in the unit of the letters, which are 11 high. */
export function drawStaircase(way: TraceWay, width: number): Xml {
  const stairs = stairsOf(way);
  const turn = stairs.findIndex(({ step }) => step.side === 'back');
  const rows: Xml[] = [];
  let y = 0;
  const inner = width - 2 * edge;
  const at = (share: number) => edge + share * inner;
  const level = (words: string, told: string, share: number) => {
    y += rowHeight - 8;
    rows.push(
      element(
        'g',
        { class: 'level' },
        line(at(share), y - 20, at(share), y),
        wordsAt(words, edge, y - 8, 'level-name', inner - textWidth(told, size, 'bold') - 6),
        figure(told, width - edge, y - 8),
      ),
    );
  };
  level(`${way.source} gives`, volts(way.sourceVolts), stairs[0]?.begins ?? 0);
  stairs.forEach((stair, index) => {
    if (index === turn) level(`${way.load} gets`, volts(way.loadVolts), stair.begins);
    rows.push(drawStair(stair, y, at, width));
    y += rowHeight;
  });
  if (turn < 0) level(`${way.load} gets`, volts(way.loadVolts), stairs.at(-1)?.ends ?? 0);
  const lost = `${dropVolts(way.lostVolts)}, ${percent(way.lostPercent)}`;
  level(`Lost at ${amps(way.amps)}`, lost, stairs.at(-1)?.ends ?? 0);
  const height = y + 4;
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'staircase',
      viewBox: `0 0 ${Math.round(width)} ${Math.round(height)}`,
      width,
      height,
      role: 'group',
      'aria-label': `Where the voltage goes from ${way.source} to ${way.load} and back`,
    },
    ...rows,
  );
}

function drawStair({ step, begins, ends }: Stair, y: number, at: (share: number) => number, width: number): Xml {
  const told = dropVolts(step.dropVolts);
  const [left, right] = [at(Math.min(begins, ends)), at(Math.max(begins, ends))];
  const tread = y + rowHeight - 10;
  const name = shortened(step.name, width / 2, size, 'bold');
  const nameWidth = textWidth(name, size, 'bold');
  const detailAt = edge + nameWidth + 6;
  const room = width - edge - textWidth(told, size, 'bold') - 6 - detailAt;
  return element(
    'g',
    {
      class: `stair ${step.side}`,
      'data-id': step.element,
      role: 'img',
      'aria-label': `${step.name}${step.detail === '' ? '' : `, ${step.detail}`}: ${told} lost from ${step.from} to ${step.to}`,
    },
    element('rect', { class: 'stair-ground', x: 0, y, width, height: rowHeight }),
    // Words stand over the risers.
    line(at(begins), y, at(begins), tread),
    line(at(ends), tread, at(ends), y + rowHeight),
    wordsAt(name, edge, y + 14, 'stair-name', nameWidth + 1),
    ...(room > textWidth('…', size) && step.detail !== ''
      ? [wordsAt(step.detail, detailAt, y + 14, 'stair-detail', room)]
      : []),
    figure(told, width - edge, y + 14),
    element('rect', {
      class: 'tread',
      x: Math.min(left, width - edge - leastWide),
      y: tread,
      width: Math.max(leastWide, right - left),
      height: 6,
    }),
  );
}

function wordsAt(words: string, x: number, y: number, role: string, room: number): Xml {
  return element('text', { class: role, x, y, 'font-size': size }, text(shortened(words, room, size, 'bold')));
}

function figure(words: string, x: number, y: number): Xml {
  return element('text', { class: 'stair-volts', x, y, 'font-size': size, 'text-anchor': 'end' }, text(words));
}

function line(x1: number, y1: number, x2: number, y2: number): Xml {
  return element('line', { class: 'riser', x1, y1, x2, y2 });
}
