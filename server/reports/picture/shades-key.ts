/** The key to the shades at the foot of an exported drawing, so that a print tells what its colours and widths mean. */
import { textWidth } from '../letters.ts';
import { element, text, type Xml } from '../xml.ts';
import type { Drawing, PictureFigures } from './scene.ts';
import { type ShadeBy, shadeSteps, shadeTitles } from './shades.ts';

/** What it needs under the drawing. */
export const keyHeight = 56;

const letter = 10;
const sample = 34;
const gap = 14;

/** The same drawing with room for the key. */
export function withRoomForKey(drawing: Drawing): Drawing {
  const steps = Math.max(...Object.values(shadeSteps).map((some) => widthOf(some.map(({ label }) => label))));
  return {
    ...drawing,
    size: { width: Math.max(drawing.size.width, steps), height: drawing.size.height + keyHeight },
  };
}

export function drawKey({ height }: Drawing['size'], by: ShadeBy, { caseName }: PictureFigures): Xml {
  const y = height - keyHeight + 40;
  let x = gap;
  const steps = shadeSteps[by].map(({ label }, step) => {
    const d = `M${x} ${y - 4}L${x + sample} ${y - 4}`;
    const last = step === shadeSteps[by].length - 1;
    const drawn = element(
      'g',
      {},
      ...(last ? [element('path', { class: 'shade-edge', d })] : []),
      element('path', { class: `shade shade-${step}`, d }),
      element('text', { x: x + sample + 5, y, 'font-size': letter }, text(label)),
    );
    x += sample + 5 + textWidth(label, letter) + gap;
    return drawn;
  });
  return element(
    'g',
    { class: 'key' },
    element('text', { x: gap, y: y - 24, 'font-size': letter }, text(`Case ${caseName}. ${shadeTitles[by]}:`)),
    ...steps,
  );
}

function widthOf(labels: readonly string[]): number {
  return gap + labels.reduce((sum, label) => sum + sample + 5 + textWidth(label, letter) + gap, 0);
}
