/**
 * The upper of the answers of constant-power loads by another way than Newton's: what the loads see of the network is volts
 * without load behind a matrix of resistances, and I = P/V is put in over and over from no load. Where no load raises the
 * volts of another, as wherever currents return one way, every round lies below the one before and above every answer, so
 * that it ends at the greatest.
 */
import type { Circuit } from '../../server/physics/circuit.ts';
import { solveCircuit } from '../../server/physics/solve.ts';

/** Volts across each constant-power load; undefined where they fall to nought. */
export function upperVolts(circuit: Circuit): number[] | undefined {
  const { powers } = circuit;
  const across = (currents: Circuit['currents']) => {
    const { volts } = solveCircuit({ ...circuit, currents: [...circuit.currents, ...currents], powers: [] });
    return powers.map(({ plus, minus }) => (volts[plus] ?? 0) - (volts[minus] ?? 0));
  };
  const unloaded = across([]);
  // By the current a load draws in the end, or less: a far greater or smaller one would leave few digits of the difference.
  const columns = powers.map(({ plus, minus, watts }, k) => {
    const amps = watts / (unloaded[k] ?? 0);
    return across([{ plus, minus, amps }]).map((volts, i) => ((unloaded[i] ?? 0) - volts) / amps);
  });
  let volts = unloaded;
  for (let round = 0; round < 100_000; round++) {
    const amps = powers.map(({ watts }, k) => watts / (volts[k] ?? 0));
    const next = unloaded.map((open, i) => open - amps.reduce((sum, a, k) => sum + (columns[k]?.[i] ?? 0) * a, 0));
    if (next.some((v) => !(v > 0))) return undefined;
    const settled = next.every((v, i) => Math.abs(v - (volts[i] ?? 0)) <= 1e-13 * v);
    volts = next;
    if (settled) return volts;
  }
  return undefined;
}
