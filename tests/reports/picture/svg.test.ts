/** The diagram as text: valid XML, letters that can be selected, no script, and nothing of a name that is more than text. */
import { DOMParser, type Element } from '@xmldom/xmldom';
import { describe, expect, it } from 'vitest';
import { drawSvg } from '../../../server/reports/picture/draw-svg.ts';
import type { Look } from '../../../server/reports/picture/scene.ts';
import { drawn, drawnText, sample } from './drawn.ts';

const light: Look = { colours: 'light' };

/** Throws at the first thing that is not well-formed. */
function parsed(svg: string) {
  const parser = new DOMParser({
    onError: (level, message) => {
      throw new Error(`${level}: ${message}`);
    },
  });
  return parser.parseFromString(svg, 'image/svg+xml');
}

function elements(svg: string): Element[] {
  return [...parsed(svg).getElementsByTagName('*')];
}

const lamp = (title: string, name = 'LAMP') => `system "Lamp" 12 V
battery B1 agm, 12 V, 100 Ah
fuse F1 ${title} 10 A
load ${name} 12 W
run W1 2.5 mm² red, 1 m, B1:+ to F1:in
run W2 2.5 mm² red, 1 m, F1:out to ${name}:+
run W3 2.5 mm² black, 1 m, ${name}:- to B1:-
`;

describe('the diagram as SVG', () => {
  it('holds groups, plain shapes, letters and its own style alone', async () => {
    const svg = drawSvg(await drawn(sample('spokewagon.amps')), light);
    const tags = new Set(elements(svg).map(({ tagName }) => tagName));
    expect([...tags].sort()).toEqual(['circle', 'g', 'path', 'rect', 'style', 'svg', 'text', 'title']);
    const attributes = elements(svg).flatMap((one) => [...one.attributes].map(({ name }) => name));
    expect(attributes.filter((name) => /^on|href|^style$/.test(name))).toEqual([]);
    expect(svg).not.toMatch(/url\(|@import|javascript:/);
  });

  it('shows every part and core once, by its id and with words for who does not see it', async () => {
    const drawing = await drawn(sample('spokewagon.amps'));
    const named = elements(drawSvg(drawing, light)).filter((one) => one.tagName === 'g' && one.hasAttribute('data-id'));
    const ids = named.map((one) => one.getAttribute('data-id'));
    expect(ids.sort()).toEqual([...drawing.elements.keys(), ...drawing.marks.map(({ id }) => id)].sort());
    for (const one of named) expect(one.getAttribute('aria-label')).not.toBe('');
  });

  it('keeps a hostile title as text', async () => {
    const svg = drawSvg(await drawnText(lamp('"<img onerror=x>&\'"')), light);
    expect(elements(svg).map(({ tagName }) => tagName)).not.toContain('img');
    const texts = elements(svg).flatMap((one) => (one.tagName === 'text' ? [one.textContent] : []));
    expect(texts).toContain("<img onerror=x>&'");
  });

  it('leaves out letters that are none', async () => {
    const svg = drawSvg(await drawnText(lamp('"a\u0001b\u202ec\ud800d"')), light);
    expect(() => parsed(svg)).not.toThrow();
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
    expect(svg).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u202e\ud800]/);
  });

  it('writes colours out for a file, and leaves them to the page in a view', async () => {
    const drawing = await drawnText(lamp(''));
    expect(drawSvg(drawing, { colours: 'dark' })).not.toContain('var(');
    expect(drawSvg(drawing, { colours: 'variables' })).toContain('var(--diagram-ink');
    expect(drawSvg(drawing, { colours: 'variables', withoutStyle: true })).not.toContain('<style');
  });

  it('is drawn of an empty spec too', async () => {
    expect(() => parsed('<svg xmlns="http://www.w3.org/2000/svg"></svg>')).not.toThrow();
    const svg = drawSvg(await drawnText(''), light);
    expect(elements(svg)[0]?.tagName).toBe('svg');
    expect(svg).not.toContain('NaN');
    expect(svg).not.toContain('Infinity');
  });
});
