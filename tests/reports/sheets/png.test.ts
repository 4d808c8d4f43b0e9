import { readFileSync } from 'node:fs';
import { inflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { toolFiles } from '../../../server/cli/drawing-tools.ts';
import { pngOf } from '../../../server/reports/sheets/png.ts';
import { readTool } from '../../cli/surroundings.ts';
import { sheetsOfFile } from './sheets.ts';

const letters = {
  regular: readFileSync('node_modules/dejavu-fonts-ttf/ttf/DejaVuSans.ttf'),
  bold: readFileSync('node_modules/dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf'),
};
const wasm = () => readTool(toolFiles.wasm);

/** Dots of a PNG as red, green, blue and opacity; what the library writes is 8 bits with no interlacing. */
function dots(png: Uint8Array) {
  const bytes = Buffer.from(png);
  const [width, height] = [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
  const data: Buffer[] = [];
  for (let at = 8; at < bytes.length; ) {
    const length = bytes.readUInt32BE(at);
    if (bytes.toString('latin1', at + 4, at + 8) === 'IDAT') data.push(bytes.subarray(at + 8, at + 8 + length));
    at += 12 + length;
  }
  const rows = inflateSync(Buffer.concat(data));
  const line = width * 4;
  const plain = Buffer.alloc(line * height);
  for (let y = 0; y < height; y += 1) {
    const filter = rows[y * (line + 1)];
    for (let x = 0; x < line; x += 1) {
      const raw = rows[y * (line + 1) + 1 + x] ?? 0;
      const left = x < 4 ? 0 : (plain[y * line + x - 4] ?? 0);
      const up = y === 0 ? 0 : (plain[(y - 1) * line + x] ?? 0);
      const corner = x < 4 || y === 0 ? 0 : (plain[(y - 1) * line + x - 4] ?? 0);
      const guess = left + up - corner;
      const [a, b, c] = [Math.abs(guess - left), Math.abs(guess - up), Math.abs(guess - corner)];
      const paeth = a <= b && a <= c ? left : b <= c ? up : corner;
      const added = [0, left, up, (left + up) >> 1, paeth][filter ?? 0] ?? 0;
      plain[y * line + x] = (raw + added) & 255;
    }
  }
  return { width, height, at: (x: number, y: number) => [...plain.subarray(y * line + x * 4, y * line + x * 4 + 3)] };
}

describe('PNG', () => {
  it('is the drawing, two dots to a unit, with its letters and colours', async () => {
    const svg =
      '<svg xmlns="http://www.w3.org/2000/svg" width="60" height="40" viewBox="0 0 60 40"><rect width="20" height="40" fill="#c8201e"/>' +
      '<text x="24" y="30" font-family="\'DejaVu Sans\', Verdana" font-size="30">W</text></svg>';
    const { width, height, at } = dots(await pngOf({ svg, width: 60, height: 40 }, letters, wasm));
    expect([width, height]).toEqual([120, 80]);
    expect(at(10, 40)).toEqual([200, 32, 30]);
    expect(at(42, 4)).toEqual([255, 255, 255]);
    const dark = Array.from({ length: 60 * 60 }, (_, i) => at(46 + (i % 60), 10 + Math.floor(i / 60))).filter(
      ([red = 255]) => red < 100,
    );
    expect(dark.length).toBeGreaterThan(150);
  });

  it('knows the style of a diagram', async () => {
    const [sheet] = await sheetsOfFile('samples/first-lamp.amps');
    if (sheet === undefined) throw new Error('nothing drawn');
    const { width, height, at } = dots(await pngOf(sheet, letters, wasm));
    expect(width).toBe(Math.round(sheet.width * 2));
    const seen = new Set<string>();
    for (let y = 0; y < height; y += 1) for (let x = 0; x < width; x += 1) seen.add(at(x, y).join());
    // Paper, ink and the red and black of its cores.
    for (const colour of ['255,255,255', '0,0,0', '200,32,30', '28,28,28']) expect(seen).toContain(colour);
  });

  it('is coarser rather than larger than any memory', async () => {
    const svg =
      '<svg xmlns="http://www.w3.org/2000/svg" width="30000" height="8000"><rect width="9" height="9"/></svg>';
    const bytes = Buffer.from(await pngOf({ svg, width: 30_000, height: 8000 }, letters, wasm));
    expect(bytes.readUInt32BE(16) * bytes.readUInt32BE(20)).toBeLessThan(61e6);
  });
});
