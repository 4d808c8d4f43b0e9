/**
 * A TrueType file with what a drawing never needs left out, for a smaller package: signs that are no letters, figures or
 * punctuation of any script, names of glyphs, and hints for coarse screens. Glyphs keep their numbers, so that everything that
 * refers to them holds. Run while building.
 */

interface Table {
  readonly name: string;
  readonly bytes: Uint8Array;
}

const unneeded: ReadonlySet<string> = new Set(['FFTM', 'MATH', 'gasp', 'fpgm', 'prep', 'cvt ']);

/** Signs that drawings and figures use, besides those of Latin-1, currencies and arrows. */
const signs = new Set([...'−≈≠≤≥√∞∆▸□']);

export function isKept(code: number): boolean {
  const letter = String.fromCodePoint(code);
  // Letters of mathematics repeat the alphabet a dozen times.
  if (code >= 0x1d400 && code < 0x1d800) return false;
  if (/[\p{L}\p{M}\p{N}\p{P}\p{Z}\p{Cf}]/u.test(letter)) return true;
  return (
    /\p{S}/u.test(letter) &&
    (code < 0x250 || (code >= 0x20a0 && code < 0x2150) || (code >= 0x2190 && code < 0x2200) || signs.has(letter))
  );
}

export function lighter(file: Uint8Array): Uint8Array {
  const tables = tablesOf(file);
  const find = (name: string) => viewOf(tables.find((one) => one.name === name)?.bytes ?? new Uint8Array());
  const glyphs = find('maxp').getUint16(4);
  const wide = find('head').getInt16(50) === 1;
  const codes = charactersOf(find('cmap'));
  const kept = codes.filter(([code]) => isKept(code));
  const used = new Set(kept.map(([, glyph]) => glyph));
  const dropped = new Set(codes.map(([, glyph]) => glyph).filter((glyph) => !used.has(glyph)));
  const loca = find('loca');
  const start = (glyph: number) => (wide ? loca.getUint32(4 * glyph) : 2 * loca.getUint16(2 * glyph));
  const outlines = tables.find(({ name }) => name === 'glyf')?.bytes ?? new Uint8Array();
  const whole = Array.from({ length: glyphs }, (_, glyph) => outlines.subarray(start(glyph), start(glyph + 1)));
  // What others are made of stays, whatever it stands for by itself.
  const staying = whole.flatMap((_, index) => (dropped.has(index) ? [] : [index]));
  // The list is walked while it grows: a piece may be made of others again.
  for (const glyph of staying)
    for (const piece of piecesOf(whole[glyph] ?? new Uint8Array())) if (dropped.delete(piece)) staying.push(piece);
  const light = whole.map((glyph, index) => (dropped.has(index) ? new Uint8Array() : withoutHints(glyph)));
  const { glyf, places } = laidOut(light);
  const replaced: Readonly<Record<string, Uint8Array>> = {
    glyf,
    loca: places,
    cmap: characterMap(kept),
    post: withoutNames(find('post')),
    head: withWidePlaces(find('head')),
  };
  return fileOf(
    tables
      .filter(({ name }) => !unneeded.has(name))
      .map(({ name, bytes }) => ({ name, bytes: replaced[name] ?? bytes })),
  );
}

const viewOf = (bytes: Uint8Array) => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

function tablesOf(file: Uint8Array): Table[] {
  const view = viewOf(file);
  return Array.from({ length: view.getUint16(4) }, (_, index) => {
    const at = 12 + 16 * index;
    const name = String.fromCharCode(...file.subarray(at, at + 4));
    return { name, bytes: file.subarray(view.getUint32(at + 8), view.getUint32(at + 8) + view.getUint32(at + 12)) };
  });
}

/** Code and glyph of every character, from the map of format 12. */
function charactersOf(cmap: DataView): (readonly [code: number, glyph: number])[] {
  for (let map = 0; map < cmap.getUint16(2); map += 1) {
    const at = cmap.getUint32(4 + 8 * map + 4);
    if (cmap.getUint16(at) !== 12) continue;
    return Array.from({ length: cmap.getUint32(at + 12) }, (_, group) => at + 16 + 12 * group).flatMap((group) => {
      const [first, last, glyph] = [cmap.getUint32(group), cmap.getUint32(group + 4), cmap.getUint32(group + 8)];
      return Array.from({ length: last - first + 1 }, (_, n) => [first + n, glyph + n] as const);
    });
  }
  throw new Error('The typeface has no map of all letters.');
}

const flag = { words: 1, scale: 8, more: 0x20, twoScales: 0x40, matrix: 0x80, hints: 0x100 } as const;

/** Where the parts of a composed glyph stand in it: place of the flags of each, then the end. */
function stepsOf(glyph: Uint8Array): { readonly parts: readonly number[]; readonly end: number } {
  const view = viewOf(glyph);
  const parts: number[] = [];
  let at = 10;
  for (;;) {
    const flags = view.getUint16(at);
    parts.push(at);
    at += 4 + (flags & flag.words ? 4 : 2);
    at += flags & flag.scale ? 2 : flags & flag.twoScales ? 4 : flags & flag.matrix ? 8 : 0;
    if (!(flags & flag.more)) return { parts, end: at };
  }
}

const isComposed = (glyph: Uint8Array) => glyph.length > 0 && viewOf(glyph).getInt16(0) < 0;

function piecesOf(glyph: Uint8Array): number[] {
  return isComposed(glyph) ? stepsOf(glyph).parts.map((at) => viewOf(glyph).getUint16(at + 2)) : [];
}

function withoutHints(glyph: Uint8Array): Uint8Array {
  if (glyph.length === 0) return glyph;
  if (isComposed(glyph)) {
    const { parts, end } = stepsOf(glyph);
    const light = glyph.slice(0, end);
    for (const at of parts) viewOf(light).setUint16(at, viewOf(light).getUint16(at) & ~flag.hints);
    return light;
  }
  const view = viewOf(glyph);
  const at = 10 + 2 * view.getInt16(0);
  const hints = view.getUint16(at);
  const light = joined([glyph.subarray(0, at + 2), glyph.subarray(at + 2 + hints)]);
  viewOf(light).setUint16(at, 0);
  return light;
}

function laidOut(glyphs: readonly Uint8Array[]): { readonly glyf: Uint8Array; readonly places: Uint8Array } {
  const padded = glyphs.map((glyph) => joined([glyph, new Uint8Array((4 - (glyph.length % 4)) % 4)]));
  const places = new Uint8Array(4 * (glyphs.length + 1));
  let at = 0;
  for (const [index, glyph] of padded.entries()) {
    viewOf(places).setUint32(4 * index, at);
    at += glyph.length;
  }
  viewOf(places).setUint32(4 * glyphs.length, at);
  return { glyf: joined(padded), places };
}

function characterMap(characters: readonly (readonly [code: number, glyph: number])[]): Uint8Array {
  const groups: [first: number, last: number, glyph: number][] = [];
  for (const [code, glyph] of characters) {
    const last = groups.at(-1);
    if (last !== undefined && code === last[1] + 1 && glyph - last[2] === code - last[0]) last[1] = code;
    else groups.push([code, code, glyph]);
  }
  const bytes = new Uint8Array(20 + 16 + 12 * groups.length);
  const view = viewOf(bytes);
  // For all of Unicode: once as Unicode has it, once as Windows names it; both the same map.
  view.setUint16(2, 2);
  for (const [index, [platform, encoding]] of [[0, 4] as const, [3, 10] as const].entries()) {
    view.setUint16(4 + 8 * index, platform);
    view.setUint16(6 + 8 * index, encoding);
    view.setUint32(8 + 8 * index, 20);
  }
  view.setUint16(20, 12);
  view.setUint32(24, 16 + 12 * groups.length);
  view.setUint32(32, groups.length);
  for (const [index, group] of groups.entries())
    for (const [n, value] of group.entries()) view.setUint32(36 + 12 * index + 4 * n, value);
  return bytes;
}

/** Format 3 of the table has no names. */
function withoutNames(post: DataView): Uint8Array {
  const bytes = new Uint8Array(post.buffer, post.byteOffset, 32).slice();
  viewOf(bytes).setUint32(0, 0x0003_0000);
  return bytes;
}

function withWidePlaces(head: DataView): Uint8Array {
  const bytes = new Uint8Array(head.buffer, head.byteOffset, head.byteLength).slice();
  viewOf(bytes).setUint32(8, 0);
  viewOf(bytes).setInt16(50, 1);
  return bytes;
}

const sumOf = (bytes: Uint8Array): number => {
  const padded = joined([bytes, new Uint8Array((4 - (bytes.length % 4)) % 4)]);
  let sum = 0;
  for (let at = 0; at < padded.length; at += 4) sum = (sum + viewOf(padded).getUint32(at)) >>> 0;
  return sum;
};

function fileOf(tables: readonly Table[]): Uint8Array {
  const power = 2 ** Math.floor(Math.log2(tables.length));
  const head = new Uint8Array(12 + 16 * tables.length);
  const view = viewOf(head);
  view.setUint32(0, 0x0001_0000);
  for (const [n, value] of [tables.length, power * 16, Math.log2(power), (tables.length - power) * 16].entries())
    view.setUint16(4 + 2 * n, value);
  const bodies: Uint8Array[] = [];
  let at = head.length;
  for (const [index, { name, bytes }] of tables.entries()) {
    const entry = 12 + 16 * index;
    head.set(new TextEncoder().encode(name), entry);
    for (const [n, value] of [sumOf(bytes), at, bytes.length].entries()) view.setUint32(entry + 4 + 4 * n, value);
    const padded = joined([bytes, new Uint8Array((4 - (bytes.length % 4)) % 4)]);
    bodies.push(padded);
    at += padded.length;
  }
  const file = joined([head, ...bodies]);
  const own = tables.findIndex(({ name }) => name === 'head');
  viewOf(file).setUint32(viewOf(file).getUint32(12 + 16 * own + 8) + 8, (0xb1b0_afba - sumOf(file)) >>> 0);
  return file;
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
