/**
 * SVG text into elements of a document, piece by piece: only shapes and letters come through, with only the attributes that draw
 * them. So nothing in a spec can bring a script, a link or a style in, whatever it is called.
 */

const svg = 'http://www.w3.org/2000/svg';

const elements: ReadonlySet<string> = new Set([
  ...['svg', 'g', 'path', 'rect', 'circle', 'ellipse', 'line', 'polyline', 'polygon', 'text', 'tspan', 'title', 'desc'],
]);

const attributes: ReadonlySet<string> = new Set([
  ...[
    'class',
    'role',
    'd',
    'x',
    'y',
    'x1',
    'y1',
    'x2',
    'y2',
    'cx',
    'cy',
    'r',
    'rx',
    'ry',
    'dx',
    'dy',
    'width',
    'height',
  ],
  ...['points', 'transform', 'viewBox', 'preserveAspectRatio', 'fill', 'fill-opacity', 'fill-rule', 'stroke'],
  ...['stroke-width', 'stroke-dasharray', 'stroke-dashoffset', 'stroke-linecap', 'stroke-linejoin', 'stroke-opacity'],
  ...['opacity', 'text-anchor', 'dominant-baseline', 'font-size', 'font-weight', 'font-style', 'font-family'],
  ...['letter-spacing', 'textLength', 'lengthAdjust', 'paint-order', 'vector-effect', 'pathLength'],
]);

/** Names of our own, and words for a screen reader. */
const named = /^(?:data|aria)-[a-z][a-z-]*$/;

/** What could point elsewhere, even in an attribute that may stand. */
const elsewhere = /url\s*\(|[a-z]+script:/i;

/** The first element of a text; undefined where that is no SVG. */
export function importSvg(text: string, into: Document): SVGElement | undefined {
  const whole = /^\s*<svg[\s>]/.test(text) ? text : `<svg xmlns="${svg}">${text}</svg>`;
  const parsed = new DOMParser().parseFromString(whole, 'image/svg+xml');
  if (parsed.getElementsByTagName('parsererror').length > 0) return undefined;
  const { documentElement } = parsed;
  const root = whole === text ? documentElement : [...documentElement.childNodes].find(isElement);
  return root === undefined ? undefined : copied(root, into);
}

function isElement(node: Node): node is Element {
  return node.nodeType === node.ELEMENT_NODE;
}

function copied(from: Element, into: Document): SVGElement | undefined {
  if (from.namespaceURI !== svg || !elements.has(from.localName)) return undefined;
  const made = into.createElementNS(svg, from.localName) as SVGElement;
  for (const { name, value } of from.attributes)
    if ((attributes.has(name) || named.test(name)) && !elsewhere.test(value)) made.setAttribute(name, value);
  for (const child of from.childNodes) {
    if (child.nodeType === child.TEXT_NODE) made.append(into.createTextNode(child.nodeValue ?? ''));
    else if (isElement(child)) {
      const one = copied(child, into);
      if (one !== undefined) made.append(one);
    }
  }
  return made;
}

/** Gives a node what another has, so that it stays the same object, with its focus. */
export function becomeLike(node: SVGElement, like: SVGElement): void {
  for (const { name } of [...node.attributes]) if (!like.hasAttribute(name)) node.removeAttribute(name);
  for (const { name, value } of like.attributes) if (node.getAttribute(name) !== value) node.setAttribute(name, value);
  node.replaceChildren(...like.childNodes);
}
