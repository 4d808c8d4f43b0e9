/** The key to the shades: every step with its colour, its width and its words. */
import { type ShadeBy, shadeSteps, shadeTitles } from '../../../server/reports/picture/shades.ts';
import { make, makeSvg } from './dom.ts';

export function keyOfShades(by: ShadeBy): HTMLElement {
  const rows = shadeSteps[by].map(({ label }, step) => {
    const d = 'M2 9L34 9';
    const last = step === shadeSteps[by].length - 1;
    const sample = makeSvg(
      'svg',
      { class: 'diagram sample', width: 36, height: 18, 'aria-hidden': 'true' },
      ...(last ? [makeSvg('path', { class: 'shade-edge', d })] : []),
      makeSvg('path', { class: `shade shade-${step}`, d }),
      makeSvg('path', { class: 'sample-wire', d }),
    );
    return make('li', {}, sample, label);
  });
  return make('div', { class: 'key' }, make('p', {}, shadeTitles[by]), make('ul', {}, ...rows));
}
