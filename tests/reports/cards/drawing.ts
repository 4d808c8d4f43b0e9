/** Reading a drawing back. */
import { readFileSync } from 'node:fs';
import { DOMParser, type Element } from '@xmldom/xmldom';
import { type Analysis, analyse } from '../../../server/analysis.ts';
import { diskSource, uriOf } from '../../../server/cli/files.ts';
import { textWidth } from '../../../server/reports/letters.ts';

/** Throws where it is not well formed. */
export function parsed(svg: string): Element {
  const root = new DOMParser({
    onError: (level, message) => {
      throw new Error(`${level}: ${message}`);
    },
  }).parseFromString(svg, 'image/svg+xml').documentElement;
  if (root === null) throw new Error('nothing in it');
  return root;
}

/** All words of a drawing, an element each; what is only there to be seen behind them left out. */
export function wordsOf(root: Element): string[] {
  return [...root.getElementsByTagName('text')]
    .filter((one) => one.getAttribute('aria-hidden') !== 'true')
    .map((one) => one.textContent ?? '');
}

export function analyseFile(path: string): Analysis {
  return analyse(uriOf(path), diskSource(new Map([[uriOf(path), readFileSync(path, 'utf8')]])));
}

export const facesFile = 'tests/reports/cards/faces.amps';

export const sampleFiles = [
  ...[
    'first-lamp',
    'spokewagon',
    'spokewagon-as-found',
    'orchard-cabin',
    'towpath-kiosk',
    'ridge-hut',
    'tuning-van',
    'whetstone',
  ].map((name) => `samples/${name}.amps`),
];

export interface WordBox {
  readonly words: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Where the words of a drawing stand, by their letters' own widths; what is moved by a group counts. */
export function boxesOf(root: Element): WordBox[] {
  return [...root.getElementsByTagName('text')]
    .filter((one) => one.getAttribute('aria-hidden') !== 'true')
    .map((one) => {
      const words = one.textContent ?? '';
      const number = (name: string) => Number(inherited(one, name) ?? 0);
      const size = number('font-size');
      const width = textWidth(words, size, inherited(one, 'font-weight') === 'bold' ? 'bold' : 'regular');
      const anchor = inherited(one, 'text-anchor');
      const left = Number(one.getAttribute('x')) - (anchor === 'middle' ? width / 2 : anchor === 'end' ? width : 0);
      const moved = movedBy(one);
      // Without what hangs below the base line, of which few words here have any.
      return {
        words,
        x: left + moved.x,
        y: Number(one.getAttribute('y')) + moved.y - size * 0.74,
        width,
        height: size * 0.74,
      };
    });
}

function inherited(element: Element, name: string): string | undefined {
  for (let at: Element | null = element; at !== null; at = at.parentNode as Element | null)
    if (at.nodeType === 1 && at.hasAttribute(name)) return at.getAttribute(name) ?? undefined;
  return undefined;
}

function movedBy(element: Element): { readonly x: number; readonly y: number } {
  let [x, y] = [0, 0];
  for (
    let at = element.parentNode as Element | null;
    at !== null && at.nodeType === 1;
    at = at.parentNode as Element | null
  ) {
    const [, across = '0', down = '0'] =
      /translate\(([-\d.]+) ([-\d.]+)\)/.exec(at.getAttribute('transform') ?? '') ?? [];
    x += Number(across);
    y += Number(down);
  }
  return { x, y };
}
