/** Letters that the embedded typeface does not have: they come out as empty boxes, and that must be said. */

/** Words of a drawing, as they are read. */
function wordsOf(svg: string): string {
  return [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)]
    .map(([, words = '']) => words.replaceAll(/&(?:[a-z]+|#\d+);/g, ''))
    .join('');
}

/** Each once, in the order they are met. `letters` is a TrueType file. */
export function missingLetters(drawings: readonly { readonly svg: string }[], letters: Uint8Array): string[] {
  const has = coverageOf(letters);
  const seen = new Set(drawings.flatMap(({ svg }) => [...wordsOf(svg)]));
  return [...seen].filter((letter) => !has(letter.codePointAt(0) ?? 0));
}

/** By its character map: of format 12, which lists ranges of all of Unicode. */
function coverageOf(letters: Uint8Array): (code: number) => boolean {
  const view = new DataView(letters.buffer, letters.byteOffset, letters.byteLength);
  const ranges = rangesOf(view, tableAt(view, 'cmap'));
  return (code) => ranges.some(([first, last]) => first <= code && code <= last);
}

function tableAt(view: DataView, wanted: string): number {
  for (let table = 0; table < view.getUint16(4); table += 1) {
    const at = 12 + 16 * table;
    const name = String.fromCharCode(...[0, 1, 2, 3].map((byte) => view.getUint8(at + byte)));
    if (name === wanted) return view.getUint32(at + 8);
  }
  throw new Error(`The typeface has no table ${wanted}.`);
}

function rangesOf(view: DataView, cmap: number): (readonly [number, number])[] {
  for (let map = 0; map < view.getUint16(cmap + 2); map += 1) {
    const at = cmap + view.getUint32(cmap + 4 + 8 * map + 4);
    if (view.getUint16(at) !== 12) continue;
    return Array.from({ length: view.getUint32(at + 12) }, (_, group) => {
      const start = at + 16 + 12 * group;
      return [view.getUint32(start), view.getUint32(start + 4)] as const;
    });
  }
  throw new Error('The typeface has no map of all letters.');
}
