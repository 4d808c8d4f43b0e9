/** Figures on the drawing: the current in place of the size, the shade behind the cable, the volts at the terminals. */
import { DOMParser } from '@xmldom/xmldom';
import { describe, expect, it } from 'vitest';
import { atCable } from '../../../server/reports/picture/current-at.ts';
import { drawElement } from '../../../server/reports/picture/draw-element.ts';
import { drawSvg } from '../../../server/reports/picture/draw-svg.ts';
import { inProcessEngine } from '../../../server/reports/picture/elk-engine.ts';
import { figuresOf } from '../../../server/reports/picture/figures.ts';
import { layOut } from '../../../server/reports/picture/lay-out.ts';
import { pictureOf } from '../../../server/reports/picture/picture-of.ts';
import type { DrawnElement, Look } from '../../../server/reports/picture/scene.ts';
import { voltsPlaces } from '../../../server/reports/picture/volts-places.ts';
import { drawWithFigures, figuresSpoken } from '../../../server/reports/picture/with-figures.ts';
import { analyseText } from '../../analysed.ts';
import { lamp } from '../../session/specs.ts';

async function drawnLamp(size?: string) {
  const analysis = analyseText(lamp(size));
  const { elements } = await layOut(pictureOf(analysis), inProcessEngine());
  const figures = figuresOf(analysis, analysis.answers.cases[0]?.name ?? '');
  const [core, part] = [elements.get('core:W2/0'), elements.get('part:LAMP')];
  if (figures === undefined || core === undefined || part === undefined) throw new Error('nothing is drawn');
  return { figures, core, part, elements };
}

const base: Look = { colours: 'light' };

/** Of a drawing that has nothing but the element and what its terminals are joined by. */
function drawnIn(element: DrawnElement, look: Look, elements: Iterable<DrawnElement> = [element]): string {
  return drawWithFigures(element, look, voltsPlaces(elements, [], look));
}

describe('figures on the drawing', () => {
  it('stand at the cable in place of its size, with its shade behind it', async () => {
    const { figures, core } = await drawnLamp();
    const drawn = drawnIn(core, { ...base, figures, shade: 'capacity' });
    expect(drawn).toMatch(/>\d+(?:\.\d+)? A(?:, \d+(?:\.\d+)? %)?</);
    expect(drawn).not.toContain('1.2 m<');
    expect(drawn).toContain('class="shade shade-0"');
    // Under the core itself.
    expect(drawn.indexOf('class="shade')).toBeLessThan(drawn.indexOf('class="edge"'));
  });

  it('say of which case they are, and why it has none', async () => {
    const analysis = analyseText(lamp());
    const drawing = await layOut(pictureOf(analysis), inProcessEngine());
    const { figures } = await drawnLamp();
    expect(drawSvg(drawing, base)).not.toContain('>Case ');
    expect(drawSvg(drawing, { ...base, figures })).toContain(`>Case ${figures.caseName}<`);
    expect(drawSvg(drawing, { ...base, figures: { ...figures, trouble: 'no <answer>' } })).toContain(
      ': no &lt;answer&gt;<',
    );
    expect(drawSvg(drawing, { ...base, figures, shade: 'drop' }).match(/>Case /g)).toHaveLength(1);
  });

  it('tell a cable over its capacity by its edge too', async () => {
    const { figures, core } = await drawnLamp();
    const known = figures.cores.get(core.id);
    if (known === undefined) throw new Error('no figure');
    const over = { ...figures, cores: new Map([[core.id, { ...known, share: 1.3 }]]) };
    const drawn = drawnIn(core, { ...base, figures: over, shade: 'capacity' });
    expect(drawn).toContain('shade-5');
    expect(drawn).toContain('shade-edge');
  });

  it('have no shade where the capacity is not known', async () => {
    const { figures, core } = await drawnLamp('? mm²');
    expect(figures.cores.get(core.id)?.share).toBeUndefined();
    expect(drawnIn(core, { ...base, figures, shade: 'capacity' })).not.toContain('class="shade');
  });

  it('stand at every terminal in volts', async () => {
    const { figures, part, elements } = await drawnLamp();
    const drawn = drawnIn(part, { ...base, figures }, elements.values());
    expect([...drawn.matchAll(/class="volts"[^>]*>(-?[\d.]+) V</g)].map((match) => Number(match[1]))).toHaveLength(2);
    new DOMParser({
      onError: (level, message) => {
        throw new Error(`${level}: ${message}`);
      },
    }).parseFromString(drawn, 'text/xml');
  });

  it('are left out where a case has no answer, and where none is chosen', async () => {
    const { figures, core } = await drawnLamp();
    expect(drawnIn(core, base)).toBe(drawElement(core, base));
    const none = { ...figures, trouble: 'no answer' };
    expect(drawnIn(core, { ...base, figures: none, shade: 'drop' })).toBe(drawElement(core, base));
    expect(figuresSpoken(core, none)).toBe('');
  });

  it('are spoken', async () => {
    const { figures, core, part } = await drawnLamp();
    expect(figuresSpoken(core, figures)).toMatch(/^[\d.]+ A, [\d.]+ % of its capacity, loses [\d.]+ V$/);
    expect(figuresSpoken(part, figures)).toMatch(/^[\d.]+ V, [\d.]+ A, [\d.]+ W$/);
  });

  it('leave out the share where the label has no room for it', async () => {
    const { figures, core } = await drawnLamp();
    const figure = figures.cores.get(core.id);
    if (figure === undefined) throw new Error('no figure');
    expect(atCable(figure, 'capacity', 200)).toMatch(/ A, [\d.]+ %$/);
    expect(atCable(figure, 'drop', 200)).toMatch(/ A, [\d.]+ % lost$/);
    expect(atCable(figure, 'capacity', 30)).toMatch(/^[\d.]+ A$/);
    expect(atCable(figure, undefined, 200)).toMatch(/^[\d.]+ A$/);
  });
});
