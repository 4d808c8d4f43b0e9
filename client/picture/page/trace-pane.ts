/** The way of a load at the side: a flight of stairs for each supply on it, every step a button to its place. */
import { drawStaircase } from '../../../server/reports/picture/staircase.ts';
import type { Trace } from '../../../server/reports/picture/trace.ts';
import { make } from './dom.ts';
import { importSvg } from './safe-svg.ts';

export function tracePane(trace: Trace, width: number, press: (id: string) => void): HTMLElement {
  const { trouble, ways } = trace;
  if (trouble !== undefined) return make('p', { class: 'note' }, trouble);
  const drawn = ways.map((way, index) => {
    const stairs = importSvg(drawStaircase(way, width).xml, document);
    for (const stair of stairs?.querySelectorAll('[data-id]') ?? []) {
      const id = stair.getAttribute('data-id') ?? '';
      stair.setAttribute('role', 'button');
      // Its words are its name, as of every button.
      stair.removeAttribute('aria-label');
      stair.setAttribute('tabindex', '0');
      stair.addEventListener('click', () => press(id));
      stair.addEventListener('keydown', (event) => {
        const { key } = event as KeyboardEvent;
        if (key !== 'Enter' && key !== ' ') return;
        event.preventDefault();
        press(id);
      });
    }
    const idle = way.amps > 0 ? [] : [make('p', { class: 'note' }, `${way.load} draws nothing in this case.`)];
    const fed = index === 0 ? [] : [make('h3', {}, `What feeds ${way.load}`)];
    return make('div', { class: 'way' }, ...fed, ...idle, ...(stairs === undefined ? [] : [stairs]));
  });
  return make('div', {}, ...drawn);
}
