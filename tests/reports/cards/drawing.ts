/** Reading a drawing back. */
import { readFileSync } from 'node:fs';
import { DOMParser, type Element } from '@xmldom/xmldom';
import { type Analysis, analyse } from '../../../server/analysis.ts';
import { diskSource, uriOf } from '../../../server/cli/files.ts';

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
  ].map((name) => `samples/${name}.amps`),
];
