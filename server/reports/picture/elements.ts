/** Elements of the drawing from what is to be drawn and where it stands. */
import { listed } from '../figures.ts';
import { labelAt } from './label.ts';
import { lineStep } from './measures.ts';
import { drawnText, movedShape, movedText } from './pen.ts';
import type { SymbolPlan } from './plan.ts';
import { tidied } from './polyline.ts';
import type {
  Box,
  DrawnCore,
  DrawnGroup,
  DrawnPart,
  DrawnTerminal,
  PictureCore,
  PictureGroup,
  PicturePart,
  Point,
} from './scene.ts';

export function drawnPart(
  part: PicturePart,
  plan: SymbolPlan,
  box: Box,
  /** How high each core comes in, from the part's upper edge. */
  at: ReadonlyMap<string, number>,
): DrawnPart {
  const { name, title, kindWord, family, symbol, group } = part;
  const { shapes, texts, terminals } = plan.finish(at);
  const known = new Map(part.terminals.map((terminal) => [terminal.name, terminal]));
  return {
    is: 'part',
    id: `part:${name}`,
    name,
    title,
    kindWord,
    family,
    symbol,
    box,
    body: {
      x: box.x + plan.bodyLeft,
      y: box.y + plan.head,
      width: plan.bodyWidth,
      height: box.height - plan.head,
    },
    terminals: terminals.flatMap((one): DrawnTerminal[] => {
      const terminal = known.get(one.name);
      if (terminal === undefined) return [];
      return [
        {
          id: `terminal:${terminal.id}`,
          terminal: terminal.id,
          name: terminal.name,
          polarity: terminal.polarity,
          meaning: terminal.meaning,
          side: one.side,
          level: box.y + one.level,
          point: { x: box.x + one.x, y: box.y + one.top },
          end: { x: box.x + one.x, y: box.y + one.bottom },
        },
      ];
    }),
    shapes: shapes.map((shape) => movedShape(shape, box)),
    texts: texts.map((text) => movedText(text, box)),
    group,
    spoken: [`${kindWord} ${name}`, title, ...part.ratings, spokenBars(part)]
      .filter((text) => text !== undefined)
      .join(', '),
  };
}

/** Words in the upper left corner of its walls. */
export function drawnGroup({ id, is, name, title, note, parent }: PictureGroup, box: Box): DrawnGroup {
  const x = box.x + 10;
  const y = box.y + lineStep('group') + 2;
  const small = [title, note].filter((text) => text !== undefined && text !== '').join(' · ');
  return {
    is,
    id,
    name,
    title,
    box,
    texts: [
      drawnText('group', name, { x, y }, 'start'),
      ...(small === '' ? [] : [drawnText('title', small, { x, y: y + lineStep('title') + 1 }, 'start')]),
    ],
    parent,
    spoken: [`${is} ${name}`, title, note].filter((text) => text !== undefined && text !== '').join(', '),
  };
}

/** What walls must be wide at least, for the words in their corner. */
export function leastWidth(group: PictureGroup): number {
  const { texts } = drawnGroup(group, { x: 0, y: 0, width: 0, height: 0 });
  return Math.max(...texts.map(({ box }) => box.x + box.width)) + 10;
}

/** `along` from the end written first; on a bar the core goes on to the bar itself. */
export function drawnCore(
  core: PictureCore,
  along: readonly Point[],
  label: Point,
  parts: ReadonlyMap<string, DrawnPart>,
): DrawnCore {
  const { id, run, index, from, to, colourWord, colours, polarity, weight } = core;
  const points = tidied([...reach(from, along[0], parts), ...along, ...reach(to, along.at(-1), parts)]);
  const words = labelAt(core.label, label);
  const sign = polarity === undefined ? '' : polarity === '+' ? ', positive' : ', negative';
  return {
    is: 'core',
    id,
    run,
    cable: `cable:${run}`,
    index,
    points,
    from,
    to,
    colourWord,
    colours,
    polarity,
    weight,
    label: words,
    signs: [],
    spoken: `cable ${core.label.filter((text) => text !== '').join(', ')}, ${from} to ${to}${sign}`,
  };
}

function reach(terminal: string, outer: Point | undefined, parts: ReadonlyMap<string, DrawnPart>): Point[] {
  const part = parts.get(terminal.split(':')[0] ?? '');
  const drawn = part?.terminals.find((one) => one.terminal === terminal);
  return drawn === undefined || outer === undefined || drawn.point.x === outer.x
    ? []
    : [{ x: drawn.point.x, y: outer.y }];
}

function spokenBars({ links }: PicturePart): string | undefined {
  if (links.length === 0) return undefined;
  return `solid ${links.length === 1 ? 'bar' : 'bars'} ${listed(links.map((ends) => ends.join('–')))}`;
}
