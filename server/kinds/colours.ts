/** Core colours: the trade's word, the letter code of IEC 60757, and a colour for the screen (our own choice of shade). */
import type { ColourSpec } from '../../grammar/vocabulary.ts';

const colour = (word: string, code: string, css: string): ColourSpec => ({ word, code, css });

export const colourList: readonly ColourSpec[] = [
  colour('black', 'BK', '#1c1c1c'),
  colour('brown', 'BN', '#7b4a21'),
  colour('red', 'RD', '#c8201e'),
  colour('orange', 'OG', '#e8761b'),
  colour('yellow', 'YE', '#f0cf1d'),
  colour('green', 'GN', '#2c8a3d'),
  colour('blue', 'BU', '#2459b0'),
  colour('violet', 'VT', '#7a3fa0'),
  colour('purple', 'VT', '#7a3fa0'),
  colour('grey', 'GY', '#8a8d91'),
  colour('gray', 'GY', '#8a8d91'),
  colour('white', 'WH', '#f7f7f4'),
  colour('pink', 'PK', '#ec9fb5'),
  colour('gold', 'GD', '#c9a227'),
  colour('turquoise', 'TQ', '#2bb5b0'),
  colour('silver', 'SR', '#c2c6ca'),
  colour('light-blue', 'LB', '#8fc1ec'),
  colour('tan', 'TN', '#cfae82'),
  colour('clear', 'CL', '#eef2f3'),
];

export const colours: ReadonlyMap<string, ColourSpec> = new Map(colourList.map((c) => [c.word, c]));
