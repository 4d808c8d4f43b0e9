/**
 * An element of the drawing with the figures of a case: at a cable its current in place of its size, behind it its shade; at a
 * terminal its volts. The figures have the room of what they replace, and geometry knows nothing of them.
 */
import { amps, dropVolts, percent, volts, watts } from '../figures.ts';
import { text, element as xml } from '../xml.ts';
import { drawElement } from './draw-element.ts';
import type { CoreFigure, DrawnCore, DrawnElement, DrawnPart, DrawnText, Look, PictureFigures } from './scene.ts';
import { type ShadeBy, shadeOf, shadeWidths } from './shades.ts';
import { textWidth } from './text-width.ts';

/** `drawElement`, and with what `look` says of figures. */
export function drawWithFigures(element: DrawnElement, look: Look): string {
  const { figures, shade } = look;
  if (figures === undefined || figures.trouble !== undefined) return drawElement(element, look);
  const drawn = drawElement(figured(element, look), look);
  const under = element.is === 'core' && shade !== undefined ? band(element, figures, shade) : '';
  const over = element.is === 'part' ? terminalVolts(element, figures) : '';
  // Over the ground that sets a core off from those it crosses, and under the core itself.
  const shaded = drawn.replace(/^<g[^>]*>(?:<path class="halo"[^>]*>)?/, (opening) => opening + under);
  return shaded.replace(/<\/g>$/, () => `${over}</g>`);
}

/** What is said of it in this case, for a screen reader and for the side: empty where nothing is known. */
export function figuresSpoken(element: DrawnElement, figures: PictureFigures | undefined): string {
  if (figures === undefined || figures.trouble !== undefined) return '';
  if (element.is === 'core') {
    const figure = figures.cores.get(element.id);
    if (figure === undefined) return '';
    const share = figure.share === undefined ? '' : `, ${percent(100 * figure.share)} of its capacity`;
    return `${amps(Math.abs(figure.amps))}${share}, loses ${dropVolts(Math.abs(figure.dropVolts))}`;
  }
  if (element.is !== 'part') return '';
  const figure = figures.parts.get(element.id);
  const said = [volts(figure?.volts), amps(figure?.amps), watts(figure?.watts)].filter((one) => one !== '');
  if (figure?.energised !== undefined) said.push(figure.energised ? 'coil fed' : 'coil at rest');
  return said.join(', ');
}

function figured(element: DrawnElement, { figures, shade }: Look): DrawnElement {
  const figure = element.is === 'core' ? figures?.cores.get(element.id) : undefined;
  if (element.is !== 'core' || figure === undefined) return element;
  const [name, size] = element.label.lines;
  if (name === undefined) return element;
  const { box } = element.label;
  const at = size?.at ?? { x: name.at.x, y: box.y + box.height - 3 };
  const line: DrawnText = { ...(size ?? name), at, text: atCable(figure, shade, box.width) };
  return { ...element, label: { box, lines: [name, line] } };
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

function band({ id, points }: DrawnCore, { cores }: PictureFigures, by: ShadeBy): string {
  const figure = cores.get(id);
  const share = by === 'drop' ? figure?.dropPercent : figure?.share === undefined ? undefined : 100 * figure.share;
  if (share === undefined) return '';
  const step = shadeOf(Math.abs(share), by);
  const d = points.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${x} ${y}`).join('');
  const teeth = step === shadeWidths.length - 1 ? xml('path', { class: 'shade-edge', d }).xml : '';
  return teeth + xml('path', { class: `shade shade-${step}`, d }).xml;
}

/** Above the wire where it leaves the terminal; on top and below beside it. */
function terminalVolts({ terminals }: DrawnPart, figures: PictureFigures): string {
  return terminals
    .map(({ id, point, side }) => {
      const known = figures.terminals.get(id);
      if (known === undefined) return '';
      const away = 4;
      const { x, y } = point;
      const at = {
        left: { x: x - away, y: y - 3, 'text-anchor': 'end' },
        right: { x: x + away, y: y - 3, 'text-anchor': 'start' },
        top: { x: x + away, y: y - away, 'text-anchor': 'start' },
        bottom: { x: x + away, y: y + away + 6, 'text-anchor': 'start' },
      }[side];
      return xml('text', { class: 'volts', ...at }, text(volts(known))).xml;
    })
    .join('');
}
