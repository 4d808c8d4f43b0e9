/**
 * How much memory a process takes at its greatest that makes one network and solves it: what the system gave it, the program
 * itself and garbage and all.
 */
import { execFileSync } from 'node:child_process';
import { solveCircuit } from '../../server/physics/solve.ts';
import { network, type Shape } from './networks.ts';

const word = 'peak-memory';

/** Bytes. */
export function peakMemory(shape: Shape, nodes: number): number {
  const self = process.argv[1] ?? '';
  const told = execFileSync(process.execPath, [self, word, shape, String(nodes)], { encoding: 'utf8' });
  return Number(told);
}

/** In that process: measures, tells, and says that there is nothing else to do. */
export function wasAskedForMemory([, , asked, shape, nodes]: readonly string[]): boolean {
  if (asked !== word) return false;
  const circuit = network(shape as Shape, Number(nodes));
  if (!solveCircuit(circuit).converged) throw new Error('not solved');
  console.log(process.resourceUsage().maxRSS * 1024);
  return true;
}
