/** `npm run bench`: what the engine costs. Medians; a busy machine shows in the spread. */
import { readFileSync } from 'node:fs';
import { AnalysisCache, analyse } from '../../server/analysis.ts';
import { besideSimulator } from './beside-simulator.ts';
import { engine } from './engine.ts';
import { measure, told } from './measure.ts';
import { wasAskedForMemory } from './peak-memory.ts';

function wholeVan(): void {
  console.log('A whole van from text');
  const text = readFileSync('samples/spokewagon.amps', 'utf8');
  const stock = readFileSync('samples/stock.amps', 'utf8');
  const source = (changed: string) => ({
    read: (uri: string) => ({ text: uri.endsWith('stock.amps') ? stock : changed }),
    resolve: (_from: string, path: string) => `memory:///${path}`,
  });
  console.log(
    told(
      '  everything, nothing known before',
      measure(() => analyse('memory:///van.amps', source(text), new AnalysisCache())),
    ),
  );
  const cache = new AnalysisCache();
  let turn = 0;
  const edited = [text, text.replace('0.7 m', '0.8 m')];
  console.log(
    told(
      '  everything again after one length changed',
      measure(() => analyse('memory:///van.amps', source(edited[turn++ % 2] as string), cache)),
      10,
    ),
  );
}

if (!wasAskedForMemory(process.argv)) {
  engine();
  besideSimulator();
  wholeVan();
}
