/** Asking what is offered costs next to nothing: edits are worked out when one is chosen. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { codeActions } from '../../../server/editor/code-actions.ts';
import { withoutMarkers } from '../../../server/rules/pages.ts';
import { analyseText } from '../../analysed.ts';
import { optionsFor } from './offering.ts';

/** In milliseconds, anywhere in a spec of 540 lines. */
const most = 3;

it('is answered within three milliseconds anywhere in the largest sample, the least of several tries', () => {
  const files = { 'stock.amps': readFileSync('samples/stock.amps', 'utf8') };
  const text = withoutMarkers(readFileSync('samples/spokewagon-as-found.amps', 'utf8'));
  expect(text.split('\n').length).toBeGreaterThan(540);
  const options = { ...optionsFor(files), resolves: true };
  const analysis = analyseText(text, files);
  const milliseconds = (offset: number) => {
    const began = performance.now();
    codeActions(analysis, { start: offset, end: offset }, options);
    return performance.now() - began;
  };
  for (let offset = 0; offset < text.length; offset += 211) {
    let least = Number.POSITIVE_INFINITY;
    for (let tries = 0; tries < 20 && least > most; tries += 1) least = Math.min(least, milliseconds(offset));
    expect([offset, least <= most]).toEqual([offset, true]);
  }
});
