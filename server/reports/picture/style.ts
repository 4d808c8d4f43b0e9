/**
 * Colours and strokes of the diagram, as a style sheet. In a page the colours are custom properties, so that the page's theme
 * rules; in a file they are written out, since a file has no theme and many readers of SVG know no properties.
 */
import { letters } from './measures.ts';
import type { Look, TextRole } from './scene.ts';

export interface Palette {
  readonly paper: string;
  readonly ink: string;
  /** Thin lines, notes. */
  readonly quiet: string;
  /** Inside of parts. */
  readonly part: string;
  /** Walls of enclosures and what is inside them. */
  readonly wall: string;
  readonly room: string;
  readonly place: string;
  readonly error: string;
  readonly warning: string;
  readonly advice: string;
  readonly font: string;
}

const font = "'DejaVu Sans', Verdana, 'Segoe UI', sans-serif";

const light: Palette = {
  paper: '#fdfcf7',
  ink: '#2a2f36',
  quiet: '#5c636b',
  part: '#ffffff',
  wall: '#7d7461',
  room: '#f4f0e3',
  place: '#b9b4a4',
  error: '#b3261e',
  warning: '#8a5a00',
  advice: '#1d5a96',
  font,
};

const dark: Palette = {
  paper: '#1d2125',
  ink: '#dde2e6',
  quiet: '#a4acb3',
  part: '#282d32',
  wall: '#a89d83',
  room: '#24282b',
  place: '#6b675c',
  error: '#ff8a80',
  warning: '#f2c14e',
  advice: '#8ab8e8',
  font,
};

const contrast: Palette = {
  paper: '#000000',
  ink: '#ffffff',
  quiet: '#ffffff',
  part: '#000000',
  wall: '#ffff00',
  room: '#000000',
  place: '#00ffff',
  error: '#ff9a9a',
  warning: '#ffff00',
  advice: '#9ad0ff',
  font,
};

const print: Palette = {
  ...light,
  paper: '#ffffff',
  ink: '#000000',
  quiet: '#333333',
  wall: '#555555',
  room: '#ffffff',
  place: '#999999',
};

export const palettes: Readonly<Record<Exclude<Look['colours'], 'variables'>, Palette>> = {
  light,
  dark,
  contrast,
  print,
};

/** `--diagram-ink` and so on, each with the light colour behind it. */
const variables = Object.fromEntries(
  Object.entries(light).map(([name, value]) => [name, `var(--diagram-${name}, ${value})`]),
) as unknown as Palette;

export function paletteOf({ colours }: Pick<Look, 'colours'>): Palette {
  return colours === 'variables' ? variables : palettes[colours];
}

export function styleSheet(look: Pick<Look, 'colours'>): string {
  const { paper, ink, quiet, part, wall, room, place, error, warning, advice, font: family } = paletteOf(look);
  const roles = (Object.keys(letters) as TextRole[]).map((role) => `.diagram .${role}{font-size:${letters[role]}px}`);
  return [
    `.diagram{font-family:${family}}`,
    `.diagram .sheet{fill:${paper}}`,
    `.diagram text{fill:${ink}}`,
    ...roles,
    '.diagram .name,.diagram .group{font-weight:bold}',
    `.diagram .title,.diagram .gland{fill:${quiet}}`,
    `.diagram .ink{stroke:${ink};stroke-width:1.4;stroke-linejoin:round;stroke-linecap:round}`,
    `.diagram .fine{stroke:${ink};stroke-width:.8;stroke-linejoin:round}`,
    `.diagram .heavy{stroke:${ink};stroke-width:3}`,
    `.diagram .dashed{stroke:${ink};stroke-width:.9;stroke-dasharray:3 2}`,
    '.diagram .open{fill:none}',
    `.diagram .on-paper{fill:${part}}`,
    `.diagram .in-ink{fill:${ink}}`,
    `.diagram .halo{fill:none;stroke:${paper};stroke-width:7}`,
    `.diagram .edge{fill:none;stroke:${ink};stroke-linejoin:round}`,
    '.diagram .insulation,.diagram .stripe,.diagram .middle{fill:none;stroke-linejoin:round}',
    '.diagram .stripe{stroke-dasharray:7 7}',
    ...[1, 2, 3].flatMap((weight) => {
      const width = 1.4 + weight * 0.7;
      return [
        `.diagram .w${weight} .edge{stroke-width:${(width + 1.4).toFixed(1)}}`,
        `.diagram .w${weight} .insulation,.diagram .w${weight} .stripe{stroke-width:${width.toFixed(1)}}`,
        `.diagram .w${weight} .middle{stroke-width:${(width / 3).toFixed(1)}}`,
      ];
    }),
    `.diagram .unsaid{stroke:${part}}`,
    '.diagram .sign{font-weight:bold}',
    `.diagram .enclosure .wall{fill:${room};stroke:${wall};stroke-width:2.2}`,
    `.diagram .place .wall{fill:none;stroke:${place};stroke-width:1.4;stroke-dasharray:10 5}`,
    `.diagram .passage rect{fill:${part};stroke:${wall};stroke-width:1.6}`,
    `.diagram .error{fill:${error}}`,
    `.diagram .warning{fill:${warning}}`,
    `.diagram .advice{fill:${advice}}`,
    `.diagram .mark text{fill:${part};font-size:9px;font-weight:bold}`,
    `.diagram .mark .ring{fill:none;stroke:${part};stroke-width:1.5}`,
  ].join('\n');
}
