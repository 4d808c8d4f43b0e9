/** How much memory one solution takes at its greatest, in a process of its own: what the system gave it, garbage and all. */
import { execFileSync } from 'node:child_process';
import { solveCircuit } from '../../server/physics/solve.ts';
import { network, type Shape } from './networks.ts';

const word = 'peak-memory';

/** Bytes. */
export function peakMemory(shape: Shape, nodes: number): number {
  const self = process.argv[1] ?? '';
  const told = execFileSync(process.execPath, ['--expose-gc', self, word, shape, String(nodes)], { encoding: 'utf8' });
  return Number(told);
}

/** In that process: measures, tells, and says that there is nothing else to do. */
export function wasAskedForMemory([, , asked, shape, nodes]: readonly string[]): boolean {
  if (asked !== word) return false;
  // The program itself warms up first.
  solveCircuit(network(shape as Shape, 3000));
  const circuit = network(shape as Shape, Number(nodes));
  globalThis.gc?.();
  const before = process.memoryUsage().rss;
  if (!solveCircuit(circuit).converged) throw new Error('not solved');
  console.log(process.resourceUsage().maxRSS * 1024 - before);
  return true;
}
