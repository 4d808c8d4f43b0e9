/** The drawing as SVG text: of plain shapes and selectable letters, with no script and nothing from elsewhere. */
import { shortened } from '../letters.ts';
import { plain } from '../xml.ts';
import { drawMark } from './draw-element.ts';
import { letters } from './measures.ts';
import { escapedText } from './plain-text.ts';
import type { Drawing, DrawnElement, DrawSvg, Look } from './scene.ts';
import { shadeStyle } from './shades.ts';
import { drawKey } from './shades-key.ts';
import { styleSheet } from './style.ts';
import { voltsPlaces } from './volts-places.ts';
import { drawWithFigures } from './with-figures.ts';

export { drawElement, drawMark } from './draw-element.ts';
export { styleSheet } from './style.ts';

/** Ids of the layers, from the lowest; a view puts an element into that of its sort. */
export const layers: readonly DrawnElement['is'][] = ['place', 'enclosure', 'core', 'passage', 'part'];

export const drawSvg: DrawSvg = (drawing, look) => {
  const { width, height } = drawing.size;
  const box = `0 0 ${plain(width)} ${plain(height)}`;
  const places = voltsPlaces(drawing.elements.values(), look.marks === false ? [] : drawing.marks, look);
  const title = drawing.title === '' ? 'Wiring diagram' : `Wiring diagram: ${drawing.title}`;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="diagram" viewBox="${box}" width="${plain(width)}" height="${plain(height)}" role="group" aria-label="${escapedText(title)}">`,
    `<title>${escapedText(title)}</title>`,
    ...(look.withoutStyle === true ? [] : [`<style>${styleOf(look)}</style>`]),
    `<rect class="sheet" width="${plain(width)}" height="${plain(height)}"/>`,
    ...layers.map(
      (layer) =>
        `<g data-layer="${layer}">\n${elementsOf(drawing, layer)
          .map((element) => drawWithFigures(element, look, places))
          .join('\n')}\n</g>`,
    ),
    `<g data-layer="mark">\n${look.marks === false ? '' : drawing.marks.map((mark) => drawMark(mark)).join('\n')}\n</g>`,
    ...caseOf(drawing, look),
    '</svg>\n',
  ].join('\n');
};

/** Which case the figures are of: with the key to the shades, else in the upper margin, and there too why it has none. */
function caseOf({ size }: Drawing, { figures, shade }: Look): string[] {
  if (figures === undefined) return [];
  const { caseName, trouble } = figures;
  if (trouble === undefined && shade !== undefined) return [drawKey(size, shade, figures).xml];
  const words = trouble === undefined ? `Case ${caseName}` : `Case ${caseName}: ${trouble}`;
  return [`<text class="cable" x="14" y="14">${escapedText(shortened(words, size.width - 28, letters.cable))}</text>`];
}

/** Shades and volts are in a drawing with figures only. */
function styleOf(look: Look): string {
  return look.figures === undefined ? styleSheet(look) : `${styleSheet(look)}\n${shadeStyle(look)}`;
}

function elementsOf({ elements }: Drawing, layer: DrawnElement['is']): DrawnElement[] {
  return [...elements.values()].filter(({ is }) => is === layer);
}
