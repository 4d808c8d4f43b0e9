/**
 * An element of the drawing with the figures of a case: at a cable its current in place of its size, behind it its shade; at a
 * terminal its volts, and every contact as it stands then. Geometry knows nothing of them: a current has the room of the size,
 * and volts stand where `volts-places.ts` finds room.
 */
import { amps, dropVolts, percent, volts, watts } from '../figures.ts';
import { text, element as xml } from '../xml.ts';
import { withCurrent } from './current-at.ts';
import { drawElement } from './draw-element.ts';
import type { DrawnCore, DrawnElement, DrawnPart, Look, PictureFigures, Shape } from './scene.ts';
import { type ShadeBy, shadeOf, shadeWidths } from './shades.ts';
import type { VoltsPlaces, VoltsText } from './volts-places.ts';

/** `drawElement`, and with what `look` says of figures; `places` are those of the whole drawing in that look. */
export function drawWithFigures(element: DrawnElement, look: Look, places: VoltsPlaces): string {
  const { figures, shade } = look;
  if (figures === undefined || figures.trouble !== undefined) return drawElement(element, look);
  const drawn = drawElement(figured(element, look, places), look);
  const under = element.is === 'core' && shade !== undefined ? band(element, figures, shade) : '';
  const over = (places.volts.get(element.id) ?? []).map(voltsText).join('');
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
  else said.push(...contactsSpoken(element, figures));
  return said.join(', ');
}

/** How contacts that can be moved stand: in a word where all stand alike. */
function contactsSpoken({ name, shapes }: DrawnPart, { contacts }: PictureFigures): string[] {
  const moved = shapes.flatMap((shape) =>
    shape.is === 'line' && shape.stands?.atRest === true && !shape.stands.closed ? shape.stands.pole : [],
  );
  const known = moved.flatMap((pole) => {
    const closed = contacts.get(`${name}/${pole}`)?.closed;
    return closed === undefined ? [] : { pole, word: closed ? 'closed' : 'open' };
  });
  const [first, ...others] = known;
  if (first === undefined) return [];
  if (others.every(({ word }) => word === first.word)) return [first.word];
  return known.map(({ pole, word }) => `pole ${pole} ${word}`);
}

function figured(element: DrawnElement, look: Look, places: VoltsPlaces): DrawnElement {
  if (element.is === 'part') return { ...element, shapes: asTheyStand(element, look.figures) };
  if (element.is !== 'core') return element;
  return { ...withCurrent(element, look), signs: places.signs.get(element.id) ?? element.signs };
}

/** Of a contact's blades the one that stands as the contact does in the case. */
function asTheyStand({ name, shapes }: DrawnPart, figures: PictureFigures | undefined): Shape[] {
  return shapes.flatMap((shape): Shape[] => {
    if (shape.is !== 'line' || shape.stands === undefined) return [shape];
    const { stands, ...line } = shape;
    const contact = figures?.contacts.get(`${name}/${stands.pole}`);
    return (contact === undefined ? stands.atRest : contact.closed === stands.closed) ? [line] : [];
  });
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

function voltsText({ text: words, at, anchor }: VoltsText): string {
  return xml('text', { class: 'volts', x: at.x, y: at.y, 'text-anchor': anchor }, text(words)).xml;
}
