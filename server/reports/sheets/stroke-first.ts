/**
 * Words whose outline lies under them (`paint-order: stroke`), for writers that know no such order and would paint the outline over
 * the words: the outline by itself, then the words. Of elements whose style stands in attributes.
 */
const words = /<text\b((?:[^<>"']|"[^"]*"|'[^']*')*)>([\s\S]*?)<\/text>/g;
const strokes = /\s(?:paint-order|stroke(?:-[a-z]+)?)="[^"]*"/g;

export function withStrokesFirst(svg: string): string {
  return svg.replace(words, (whole, attributes: string, inner: string) => {
    if (!/\spaint-order="stroke"/.test(attributes)) return whole;
    const outline = attributes.replace(/\s(?:paint-order|fill)="[^"]*"/g, '');
    return `<text${outline} fill="none">${inner}</text><text${attributes.replace(strokes, '')}>${inner}</text>`;
  });
}
