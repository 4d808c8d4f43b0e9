/** `npm run bench`: what the engine costs. Medians; a busy machine shows in the spread. */
import { readFileSync } from 'node:fs';
import { AnalysisCache, analyse } from '../../server/analysis.ts';
import { solveCircuit } from '../../server/physics/solve.ts';
import { besideSimulator } from './beside-simulator.ts';
import { measure, told } from './measure.ts';
import { network, type Shape } from './networks.ts';

function solver(): void {
  console.log('Operating point of networks with constant-power loads');
  const wanted: Readonly<Record<string, number>> = { 'tree 1000': 1.5, 'tree 10000': 15 };
  for (const shape of ['tree', 'ladder', 'mesh'] as Shape[])
    for (const nodes of [1000, 10_000, 100_000]) {
      if (shape === 'mesh' && nodes > 10_000) continue;
      const circuit = network(shape, nodes);
      const solution = solveCircuit(circuit);
      if (!solution.converged) throw new Error(`${shape} ${nodes} was not solved`);
      const name = `${shape} ${nodes}`;
      const time = told(
        `  ${name} nodes`,
        measure(() => solveCircuit(circuit)),
        wanted[name],
      );
      console.log(`${time}  residual ${solution.residual.toExponential(1)} A per ampere`);
    }
}

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

solver();
besideSimulator();
wholeVan();
