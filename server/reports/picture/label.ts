/** The label of a core: its name over the line, its size and length under it. */
import { letters, snapUp } from './measures.ts';
import { drawnText, widthOf } from './pen.ts';
import type { DrawnCore } from './scene.ts';

/** Over and under the line alike, so that the line is in the middle. */
const half = letters.cable + 6;
const beside = 3;

export function labelBox([name, size]: readonly [string, string]): { readonly width: number; readonly height: number } {
  const width = Math.max(widthOf('cable', name), widthOf('cable', size)) + 2 * beside;
  return { width: snapUp(width), height: 2 * half };
}

/** `at` is the upper left corner of its box. */
export function labelAt(
  label: readonly [string, string],
  at: { readonly x: number; readonly y: number },
): DrawnCore['label'] {
  const { width, height } = labelBox(label);
  const middle = at.x + width / 2;
  const wire = at.y + height / 2;
  const [name, size] = label;
  return {
    box: { ...at, width, height },
    lines: [
      drawnText('cable', name, { x: middle, y: wire - 5 }, 'middle'),
      ...(size === '' ? [] : [drawnText('cable', size, { x: middle, y: wire + letters.cable + 3 }, 'middle')]),
    ],
  };
}
