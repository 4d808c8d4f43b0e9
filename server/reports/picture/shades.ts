/**
 * How cables are shaded: by how near they are to their capacity, or by what they lose. Six steps of even lightness from pale to
 * strong, so that they are told apart by those who see no red, no green or no blue, and in grey; each step is also wider than
 * the one before, the last one is dashed at its edge, and the figure stands at the cable.
 */
import type { Look } from './scene.ts';
import { paletteOf } from './style.ts';

export type ShadeBy = NonNullable<Look['shade']>;

export interface ShadeStep {
  /** From this figure on, in percent. */
  readonly from: number;
  readonly label: string;
}

export const shadeSteps: Readonly<Record<ShadeBy, readonly ShadeStep[]>> = {
  capacity: [
    { from: 0, label: 'below 20 %' },
    { from: 20, label: '20 to 40 %' },
    { from: 40, label: '40 to 60 %' },
    { from: 60, label: '60 to 80 %' },
    { from: 80, label: '80 to 100 %' },
    { from: 100, label: 'over its capacity' },
  ],
  drop: [
    { from: 0, label: 'below 0.25 %' },
    { from: 0.25, label: '0.25 to 0.5 %' },
    { from: 0.5, label: '0.5 to 1 %' },
    { from: 1, label: '1 to 2 %' },
    { from: 2, label: '2 to 3 %' },
    { from: 3, label: '3 % and more' },
  ],
};

export const shadeTitles: Readonly<Record<ShadeBy, string>> = {
  capacity: 'Current as a share of what the cable can carry',
  drop: 'Voltage lost in the core as a share of the nominal voltage',
};

/** Which step a figure is in; a full cable is not over its capacity. */
export function shadeOf(percent: number, by: ShadeBy): number {
  // The last digit of a solver never lifts a cable over its limit.
  const figure = percent * (1 - 1e-9);
  return Math.max(
    0,
    shadeSteps[by].findLastIndex(({ from }) => figure >= from),
  );
}

type Colours = Look['colours'];

/** On a light ground from pale to dark, on a dark one from dim to bright: what stands out is what matters. */
export const shadeColours: Readonly<Record<Exclude<Colours, 'variables'>, readonly string[]>> = {
  light: ['#dde8f2', '#b9cfe6', '#a3add9', '#a682bd', '#a8517f', '#8f1d33'],
  print: ['#dde8f2', '#b9cfe6', '#a3add9', '#a682bd', '#a8517f', '#8f1d33'],
  dark: ['#2b3a4d', '#3d5580', '#6667a8', '#a476b4', '#e08d9f', '#ffc18a'],
  contrast: ['#26384f', '#3d5c94', '#6d74c4', '#b184cc', '#f09cb0', '#ffd0a0'],
};

export const shadeWidths: readonly number[] = [7, 8.5, 10, 11.5, 13, 15];

export function shadeStyle({ colours }: Pick<Look, 'colours'>): string {
  const colour = (step: number) =>
    colours === 'variables'
      ? `var(--diagram-shade-${step}, ${shadeColours.light[step]})`
      : (shadeColours[colours][step] ?? '');
  return [
    '.diagram .shade{fill:none;stroke-linejoin:round}',
    ...shadeWidths.map((width, step) => `.diagram .shade-${step}{stroke:${colour(step)};stroke-width:${width}}`),
    // Beside its colour and width the last step has teeth.
    `.diagram .shade-edge{fill:none;stroke:${colour(shadeWidths.length - 1)};stroke-width:20;stroke-dasharray:2 4}`,
    `.diagram .volts{font-size:8px;paint-order:stroke;stroke:${paletteOf({ colours }).paper};stroke-width:2.5;stroke-linejoin:round}`,
  ].join('\n');
}
