/** Patches on the page: what did not change stays the same object, what a spec says stays text. */
import { DOMImplementation, DOMParser as XmlParser } from '@xmldom/xmldom';
import { beforeAll, describe, expect, it } from 'vitest';
import { Nodes } from '../../../client/picture/page/nodes.ts';
import { PictureModel } from '../../../client/picture/page/picture-model.ts';
import { importSvg } from '../../../client/picture/page/safe-svg.ts';
import { drawElement } from '../../../server/reports/picture/draw-element.ts';
import { inProcessEngine } from '../../../server/reports/picture/elk-engine.ts';
import { pictureOf } from '../../../server/reports/picture/picture-of.ts';
import { Drafting, type SentGraph, sentGraph } from '../../../server/session/drafting.ts';
import type { WholePicture } from '../../../server/session/picture-protocol.ts';
import { analyseText } from '../../analysed.ts';
import { lamp } from '../../session/specs.ts';

/** As much of a page as the nodes ask for, on a plain XML document. */
const page = new DOMImplementation().createDocument('http://www.w3.org/2000/svg', 'svg') as unknown as Document;

interface Plain {
  childNodes: { length: number; item(at: number): Node | null };
  attributes: { length: number; item(at: number): Attr | null };
  firstChild: Node | null;
  removeChild(node: Node): void;
  appendChild(node: Node): void;
  parentNode: { removeChild(node: unknown): void } | null;
}

beforeAll(() => {
  // What browsers have on every element and the XML document does not.
  const kinds = [page.documentElement, page.createElementNS('http://www.w3.org/2000/svg', 'g')].map(
    Object.getPrototypeOf,
  );
  for (const kind of new Set(kinds)) {
    kind.append = function (this: Plain, ...nodes: Node[]) {
      for (const node of nodes) this.appendChild(node);
    };
    kind.replaceChildren = function (this: Plain, ...nodes: Node[]) {
      while (this.firstChild !== null) this.removeChild(this.firstChild);
      for (const node of nodes) this.appendChild(node);
    };
    kind.remove = function (this: Plain) {
      this.parentNode?.removeChild(this);
    };
  }
  class BrowserParser {
    parseFromString(text: string, type: string): unknown {
      const read = (xml: string) => new XmlParser({ onError: () => {} }).parseFromString(xml, type);
      try {
        return read(text);
      } catch {
        // A browser tells of an error in the document that it gives.
        return read('<parsererror/>');
      }
    }
  }
  globalThis.DOMParser = BrowserParser as unknown as typeof DOMParser;
});

const graphOf = (text: string): SentGraph => sentGraph(pictureOf(analyseText(text)));

async function pictured(texts: readonly string[]) {
  const room = new Drafting(inProcessEngine());
  const model = new PictureModel();
  const layers = new Map(
    ['place', 'enclosure', 'core', 'passage', 'part'].map((layer) => [
      layer,
      page.createElementNS('http://www.w3.org/2000/svg', 'g') as SVGElement,
    ]),
  );
  const nodes = new Nodes(layers);
  const [first = '', ...others] = texts;
  await room.run({ does: 'draw', key: 'a', graph: graphOf(first) });
  const { whole } = await room.run({ does: 'whole', key: 'a' });
  if (whole === undefined) throw new Error('nothing is drawn');
  const facts: WholePicture['facts'] = { title: '', cases: [], loads: [], undrawn: [], cards: [], held: undefined };
  const draw = (ids: Iterable<string>) => {
    for (const id of ids) {
      const element = model.elements.get(id);
      if (element === undefined) throw new Error(`no ${id}`);
      const from = drawElement(element, { colours: 'variables' });
      nodes.put({ id, layer: element.is, from, draw: () => importSvg(from, page) });
    }
  };
  draw(model.begin({ uri: '', number: 1, ...whole, facts }).put);
  let number = 1;
  const next = async (text: string) => {
    const { draft } = await room.run({ does: 'draw', key: 'a', graph: graphOf(text) });
    const changed = model.apply({ uri: '', from: number, to: number + 1, patches: draft?.patches ?? [], facts });
    number += 1;
    if (changed === undefined) throw new Error('out of step');
    for (const id of changed.removed) nodes.remove(id);
    draw(changed.put);
  };
  for (const text of others) await next(text);
  return { model, nodes, layers, next, facts };
}

describe('nodes of the picture', () => {
  it('stay the same objects, changed or not, while their element is there', async () => {
    const { nodes, next } = await pictured([lamp()]);
    const before = new Map(nodes);
    expect(before.size).toBeGreaterThan(5);
    await next(lamp('6 mm²'));
    const after = new Map(nodes);
    expect([...after.keys()].sort()).toEqual([...before.keys()].sort());
    for (const [id, node] of after) expect(node).toBe(before.get(id));
    expect(String(after.get('core:W2/0')?.textContent)).toContain('6 mm²');
  });

  it('come and go with their elements, each in its layer once', async () => {
    const more = `${lamp()}load FAN  12 W\nrun W4  4 mm² red, 1 m, F1:out to FAN:+\nrun W5  4 mm² black, 1 m, FAN:- to B1:-\n`;
    const { nodes, layers, model, next } = await pictured([lamp(), more]);
    expect(nodes.get('part:FAN')).toBeDefined();
    await next(lamp());
    expect(nodes.get('part:FAN')).toBeUndefined();
    const count = [...layers.values()].reduce((sum, layer) => sum + layer.childNodes.length, 0);
    expect(count).toBe(model.elements.size);
  });

  it('are not drawn again from the same', () => {
    const nodes = new Nodes(new Map());
    let times = 0;
    const draw = () => {
      times += 1;
      return page.createElementNS('http://www.w3.org/2000/svg', 'g') as SVGElement;
    };
    expect(nodes.put({ id: 'a', layer: 'part', from: 'x', draw })).toBeDefined();
    expect(nodes.put({ id: 'a', layer: 'part', from: 'x', draw })).toBeUndefined();
    expect(times).toBe(1);
  });
});

describe('a change', () => {
  it('that is from another picture asks for the whole', async () => {
    const { model, facts } = await pictured([lamp()]);
    expect(model.apply({ uri: '', from: 7, to: 8, patches: [], facts })).toBeUndefined();
  });
});

describe('SVG on its way into the page', () => {
  it('keeps shapes, letters and names, and drops whatever could run or fetch', () => {
    const node = importSvg(
      `<g class="part" data-id="part:A" aria-label="A" onclick="alert(1)" style="fill:red" href="http://x.example/">
        <script>alert(1)</script><image href="http://x.example/a.png"/><a href="http://x.example/"><text>link</text></a>
        <foreignObject><div xmlns="http://www.w3.org/1999/xhtml">x</div></foreignObject>
        <rect x="1" fill="url(http://x.example/)"/><text>&lt;img src=x onerror=alert(1)&gt;</text><title>A</title></g>`,
      page,
    );
    const kept = [...Array.from({ length: node?.childNodes.length ?? 0 }, (_, i) => node?.childNodes.item(i))];
    expect(kept.flatMap((one) => (one?.nodeType === 1 ? [one.nodeName] : []))).toEqual(['rect', 'text', 'title']);
    expect(['class', 'data-id', 'aria-label'].map((name) => node?.hasAttribute(name))).toEqual([true, true, true]);
    expect(['onclick', 'style', 'href'].map((name) => node?.hasAttribute(name))).toEqual([false, false, false]);
    expect(node?.getElementsByTagName('rect').item(0)?.hasAttribute('fill')).toBe(false);
    expect(node?.getElementsByTagName('text').item(0)?.textContent).toBe('<img src=x onerror=alert(1)>');
    expect(importSvg('<g', page)).toBeUndefined();
  });
});
