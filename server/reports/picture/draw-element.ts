/** One element of the drawing as SVG text, so that a view can put in place what changed and leave the rest. */

import { plain } from '../xml.ts';
import { escapedText } from './plain-text.ts';
import type {
  DrawnCore,
  DrawnElement,
  DrawnGroup,
  DrawnMark,
  DrawnPart,
  DrawnPassage,
  DrawnText,
  Look,
  Point,
  Shape,
} from './scene.ts';

export function drawElement(element: DrawnElement, look: Look): string {
  switch (element.is) {
    case 'part':
      return drawPart(element);
    case 'core':
      return drawCore(element, look);
    case 'passage':
      return drawPassage(element);
    default:
      return drawGroup(element);
  }
}

const drawText = ({ role, text, at, anchor }: DrawnText): string =>
  `<text class="${role}" x="${plain(at.x)}" y="${plain(at.y)}"${anchor === 'start' ? '' : ` text-anchor="${anchor}"`}>${escapedText(text)}</text>`;

const path = (points: readonly Point[], closed = false): string =>
  `${points.map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${plain(x)} ${plain(y)}`).join('')}${closed ? 'Z' : ''}`;

const fills = { none: 'open', paper: 'on-paper', ink: 'in-ink' } as const;

const isAtRest = (shape: Shape): boolean => shape.is !== 'line' || shape.stands?.atRest !== false;

function drawShape(shape: Shape): string {
  const stroke = shape.stroke === 'none' ? '' : `${shape.stroke} `;
  if (shape.is === 'line')
    return `<path class="${stroke}${shape.closed ? 'on-paper' : 'open'}" d="${path(shape.points, shape.closed)}"/>`;
  const look = `class="${stroke}${fills[shape.fill]}"`;
  if (shape.is === 'circle')
    return `<circle ${look} cx="${plain(shape.at.x)}" cy="${plain(shape.at.y)}" r="${plain(shape.radius)}"/>`;
  const { x, y, width, height } = shape.box;
  return `<rect ${look} x="${plain(x)}" y="${plain(y)}" width="${plain(width)}" height="${plain(height)}"/>`;
}

const open = (classes: string, id: string, spoken: string): string =>
  `<g class="${classes}" data-id="${escapedText(id)}" role="img" aria-label="${escapedText(spoken)}">`;

function drawPart({ id, symbol, shapes, texts, spoken, terminals }: DrawnPart): string {
  // Unseen, to be hit by a pointer.
  const ends = terminals.map(
    ({ id: terminal, point, end }) =>
      `<path class="terminal-spot" data-id="${escapedText(terminal)}" fill="none" d="${path([point, end])}"/>`,
  );
  return `${open(`part ${escapedText(symbol)}`, id, spoken)}${shapes.filter(isAtRest).map(drawShape).join('')}${texts.map(drawText).join('')}${ends.join('')}</g>`;
}

function drawGroup({ is, id, box, texts, spoken }: DrawnGroup): string {
  const { x, y, width, height } = box;
  return `${open(is, id, spoken)}<rect class="wall" x="${plain(x)}" y="${plain(y)}" width="${plain(width)}" height="${plain(height)}" rx="${is === 'place' ? 10 : 4}"/>${texts.map(drawText).join('')}</g>`;
}

function drawCore(core: DrawnCore, _look: Look): string {
  const { id, points, colours, polarity, label, signs, spoken, weight } = core;
  const d = path(points);
  const [colour = '', stripe] = colours;
  const sign = polarity === '+' ? ' positive' : polarity === '-' ? ' negative' : '';
  return [
    open(`core w${weight}${sign}`, id, spoken),
    `<path class="halo" d="${d}"/><path class="edge" d="${d}"/>`,
    colour === ''
      ? `<path class="unsaid insulation" d="${d}"/>`
      : `<path class="insulation" stroke="${colour}" d="${d}"/>`,
    stripe === undefined ? '' : `<path class="stripe" stroke="${stripe}" d="${d}"/>`,
    // A negative is a double line, whatever its colour.
    polarity === '-' ? `<path class="middle" stroke="${middleOf(colour)}" d="${d}"/>` : '',
    ...signs.map(drawText),
    ...label.lines.map(drawText),
    '</g>',
  ].join('');
}

/** Light on a dark colour and dark on a light one. */
function middleOf(colour: string): string {
  const part = (at: number) => Number.parseInt(colour.slice(at, at + 2), 16) || 0;
  return 0.3 * part(1) + 0.6 * part(3) + 0.1 * part(5) > 140 ? '#1c1c1c' : '#ffffff';
}

function drawPassage({ id, point, side, how, label, text, enclosure }: DrawnPassage): string {
  const [width, height] = side === 'left' || side === 'right' ? [10, 9] : [9, 10];
  const words = `${how === 'unstated' ? 'passage' : how}${label === '' ? '' : ` ${label}`} of ${enclosure}`;
  return `${open('passage', id, words)}<rect x="${plain(point.x - width / 2)}" y="${plain(point.y - height / 2)}" width="${width}" height="${height}"/>${text === undefined ? '' : drawText(text)}</g>`;
}

/** A disc with a letter, so that severities differ in more than colour. */
export function drawMark({ id, element, at, severity, slug, message }: Omit<DrawnMark, 'source'>): string {
  const letter = { error: '!', warning: '?', advice: 'i' }[severity];
  return `<g class="mark" data-id="${escapedText(id)}" data-about="${escapedText(element)}" data-slug="${escapedText(slug)}" role="img" aria-label="${escapedText(`${severity}: ${message}`)}"><title>${escapedText(message)}</title><circle class="${severity}" cx="${plain(at.x)}" cy="${plain(at.y)}" r="7"/><text text-anchor="middle" x="${plain(at.x)}" y="${plain(at.y + 3.2)}">${letter}</text></g>`;
}
