/** A core's words in a case: its current in place of its size, and where there is room what it is shaded by. */
import { amps, percent } from '../figures.ts';
import { drawnText } from './pen.ts';
import type { CoreFigure, DrawnCore, Look } from './scene.ts';
import type { ShadeBy } from './shades.ts';
import { textWidth } from './text-width.ts';

/** As it is where the case says nothing of it. */
export function withCurrent(core: DrawnCore, { figures, shade }: Look): DrawnCore {
  const figure = figures?.cores.get(core.id);
  const [name, size] = core.label.lines;
  if (figure === undefined || name === undefined) return core;
  const { box } = core.label;
  const at = size?.at ?? { x: name.at.x, y: box.y + box.height - 3 };
  const line = drawnText((size ?? name).role, atCable(figure, shade, box.width), at, (size ?? name).anchor);
  return { ...core, label: { box, lines: [name, line] } };
}

/** The current, and where there is room what it is shaded by. */
export function atCable(figure: CoreFigure, shade: ShadeBy | undefined, width: number): string {
  const flows = amps(Math.abs(figure.amps));
  const more =
    shade === 'drop'
      ? `${percent(Math.abs(figure.dropPercent))} lost`
      : shade === 'capacity' && figure.share !== undefined
        ? percent(100 * figure.share)
        : '';
  const both = more === '' ? flows : `${flows}, ${more}`;
  return textWidth(both, 9) <= width ? both : flows;
}
