import { readFileSync } from 'node:fs';
import { createContext, runInContext } from 'node:vm';
import { describe, expect, it } from 'vitest';

type Paper = typeof import('../../../server/reports/sheets/paper-files.ts');

const dist = (file: string) => new Uint8Array(readFileSync(`dist/${file}`));
const svg =
  '<svg xmlns="http://www.w3.org/2000/svg" width="80" height="40"><rect width="20" height="40" fill="#c8201e"/><text x="24" y="30" font-size="20">W1</text></svg>';
const sheet = { svg, width: 80, height: 40 };

describe('the bundle that makes PNG and PDF', () => {
  it('runs where there is nothing of Node, as in a page or a web worker', async () => {
    // What both of those have, and no more.
    const { console, setTimeout, clearTimeout, queueMicrotask, URL, WebAssembly, performance, atob, btoa } = globalThis;
    const page = createContext({
      ...{ console, setTimeout, clearTimeout, queueMicrotask, URL, WebAssembly, performance, atob, btoa },
      ...{ TextEncoder, TextDecoder, Uint8Array, Date },
    });
    runInContext(`${readFileSync('dist/paper.js', 'utf8')};globalThis.paper=ampscribePaper;`, page);
    const { paper } = page as unknown as { readonly paper: Paper };
    const letters = { regular: dist('DejaVuSans.ttf'), bold: dist('DejaVuSans-Bold.ttf') };
    const pdf = await paper.pdfOf([sheet], letters, { title: 'W1', at: new Date(0) });
    expect(Buffer.from(pdf.subarray(0, 5)).toString()).toBe('%PDF-');
    expect(pdf.length).toBeGreaterThan(2000);
    const png = Buffer.from(await paper.pngOf(sheet, letters, async () => dist('resvg.wasm')));
    expect([png.toString('latin1', 1, 4), png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual(['PNG', 160, 80]);
  });
});
