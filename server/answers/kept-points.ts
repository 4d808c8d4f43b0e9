/**
 * Operating points of cases from edit to edit: the same as before while the case is the same object, parts are joined as they
 * were, and every figure that goes into its circuit is what it was. Then nothing of it is drawn or settled again.
 */
import type { Case } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import type { SolvedBefore } from '../physics/solved-before.ts';
import { type Cold, coldOf } from './case-conductors.ts';
import { CaseDrawings } from './case-drawing.ts';
import type { Installation } from './installation.ts';
import type { Purpose } from './loads.ts';
import { type OperatingPoint, operatingPoint } from './operating-points.ts';
import type { Electrics } from './run-electrics.ts';

/** All that a point follows from, besides its case and what it is for. */
interface Circumstances {
  readonly layout: Layout;
  readonly systemVolts: number;
  readonly generalCelsius: number | undefined;
  /** By edge: which battery is the nearest follows from them. */
  readonly near: Float64Array;
  readonly cold: Cold;
}

interface Kept {
  readonly of: Circumstances;
  readonly point: OperatingPoint;
  readonly drawings: CaseDrawings;
}

const kept = new WeakMap<Case, Partial<Record<Purpose, Kept>>>();

export function keptPoint(
  installation: Installation,
  electrics: Electrics,
  stated: Case,
  purpose: Purpose,
  before: SolvedBefore,
): OperatingPoint {
  const { layout, network, model, systemVolts, near } = installation;
  const generalCelsius = model.system.ambientCelsius;
  const cold = coldOf(network.edges, electrics, stated);
  const of: Circumstances = { layout, systemVolts, generalCelsius, near, cold };
  const known = kept.get(stated) ?? {};
  kept.set(stated, known);
  const last = known[purpose];
  if (last !== undefined && isSame(last.of, of)) return last.point;
  const drawings = last?.drawings ?? new CaseDrawings();
  const point = operatingPoint(installation, electrics, stated, purpose, before, undefined, drawings);
  known[purpose] = { of, point, drawings };
  return point;
}

function isSame(one: Circumstances, other: Circumstances): boolean {
  return (
    one.layout === other.layout &&
    one.systemVolts === other.systemVolts &&
    one.generalCelsius === other.generalCelsius &&
    alike(one.near, other.near) &&
    (one.cold === other.cold || sameCold(one.cold, other.cold))
  );
}

function sameCold(one: Cold, other: Cold): boolean {
  return (
    alike(one.warms, other.warms) &&
    alike(one.ohms, other.ohms) &&
    alike(one.celsius, other.celsius) &&
    alike(one.ohmsAt20, other.ohmsAt20) &&
    alike(one.ambientCelsius, other.ambientCelsius) &&
    alike(one.mostCelsius, other.mostCelsius) &&
    alike(one.capacityAmps, other.capacityAmps)
  );
}

function alike(one: ArrayLike<number>, other: ArrayLike<number>): boolean {
  if (one === other) return true;
  if (one.length !== other.length) return false;
  for (let i = 0; i < one.length; i++) if (one[i] !== other[i]) return false;
  return true;
}
