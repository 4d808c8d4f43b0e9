/** The size of a conductor, as a clause says it. */
import type { SlotValue } from '../../grammar/shaped.ts';
import { gaugeText } from '../../grammar/units.ts';
import type { ConductorSize } from './model.ts';

/** Undefined for a blank and for what is no size. */
export function conductorSize({ atom }: SlotValue): ConductorSize | undefined {
  if (atom.kind !== 'quantity' || atom.value === undefined) return undefined;
  if (atom.dimension === 'gauge') return { system: 'awg', gauge: atom.value, written: `${gaugeText(atom.value)} AWG` };
  if (!(atom.value > 0)) return undefined;
  // The number itself where it stands in mm²: a round trip through m² would cost its last digit.
  return { system: 'mm2', areaMm2: atom.value, written: `${atom.value} mm²` };
}
