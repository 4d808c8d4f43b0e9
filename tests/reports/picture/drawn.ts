/** Drawings of texts and samples, as the tests want them. */
import { readdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { type Analysis, analyse } from '../../../server/analysis.ts';
import { diskSource, uriOf } from '../../../server/cli/files.ts';
import { inProcessEngine } from '../../../server/reports/picture/elk-engine.ts';
import { layOut } from '../../../server/reports/picture/lay-out.ts';
import { pictureOf } from '../../../server/reports/picture/picture-of.ts';
import type { Drawing, PictureOptions } from '../../../server/reports/picture/scene.ts';
import { analyseText } from '../../analysed.ts';

export const engine = inProcessEngine();

/** Those with something to draw. */
export const samples = readdirSync('samples').filter((name) => name.endsWith('.amps') && name !== 'stock.amps');

export function sample(name: string): Analysis {
  return analyse(uriOf(resolve('samples', name)), diskSource());
}

export function drawn(analysis: Analysis, options?: PictureOptions): Promise<Drawing> {
  return layOut(pictureOf(analysis, options), engine);
}

export function drawnText(text: string, options?: PictureOptions): Promise<Drawing> {
  return drawn(analyseText(text), options);
}
