/** A drawing as PNG, with no browser. */
import { initWasm, Resvg } from '@resvg/resvg-wasm';
import type { EmbeddedLetters } from './letters-to-embed.ts';

/** Two dots to a unit, 192 to the inch, are sharp on any screen. */
const usualZoom = 2;
/** Beyond this many dots a picture is drawn coarser rather than fill the memory. */
const mostDots = 60e6;

let started: Promise<void> | undefined;

/** `wasm` is the library’s own module; it is started once. */
export async function pngOf(
  { svg, width, height }: { readonly svg: string; readonly width: number; readonly height: number },
  letters: EmbeddedLetters,
  wasm: () => Promise<Uint8Array>,
): Promise<Uint8Array> {
  started ??= wasm().then((bytes) => initWasm(bytes));
  await started;
  const zoom = Math.min(usualZoom, Math.sqrt(mostDots / Math.max(1, width * height)));
  const drawing = new Resvg(svg, {
    background: '#ffffff',
    fitTo: { mode: 'zoom', value: zoom },
    font: {
      fontBuffers: [letters.regular, letters.bold],
      defaultFontFamily: 'DejaVu Sans',
      sansSerifFamily: 'DejaVu Sans',
    },
  });
  try {
    return drawing.render().asPng();
  } finally {
    drawing.free();
  }
}
