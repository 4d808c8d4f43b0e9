/** Whether a conductor bears what it must, and what it is that it must bear. */
import type { CoreFigures } from '../answers/answers.ts';
import type { Run } from '../model/model.ts';
import { crankingVerdict } from './cranking.ts';
import { type DeviceAtEnd, deviceAtEnd } from './device-at-end.ts';
import { exceeds } from './exceeds.ts';
import type { RuleContext } from './rule.ts';

export interface Verdict {
  readonly figures: CoreFigures;
  /** What it must bear, in ampere, and why. */
  readonly needed: number;
  readonly permitted: number;
  readonly by: 'device' | 'design' | 'panels' | 'nothing' | 'cranking';
  /** The device at its far end, and why that does not do. */
  readonly atEnd?: DeviceAtEnd | undefined;
}

function verdict(figures: CoreFigures, context: RuleContext): Verdict | undefined {
  const { answers } = context;
  const { capacity, protection } = figures;
  const cranked = crankingVerdict(figures, answers);
  if (cranked !== undefined || capacity === undefined || figures.crankingOnly) return cranked;
  if (figures.onPanelSide) {
    const needed = figures.neededAmps ?? 0;
    return exceeds(needed, capacity.amps) || capacity.reason !== undefined
      ? { figures, needed, permitted: capacity.amps, by: 'panels' }
      : undefined;
  }
  const permitted = answers.limits.permittedDeviceAmps(capacity, answers.systemVolts).amps;
  const device = Number.isFinite(protection.amps) && !protection.blank ? protection.amps : 0;
  if (exceeds(device, permitted)) {
    const atEnd = deviceAtEnd(figures, device, answers);
    if (atEnd?.trouble !== undefined || atEnd === undefined)
      return { figures, needed: device, permitted, by: 'device', atEnd };
  }
  const { directions } = answers;
  if (exceeds(figures.designAmps + directions.greatestSurgeAmps, capacity.amps)) {
    const needed = directions.heatingAmps(figures.core);
    if (exceeds(needed, capacity.amps)) return { figures, needed, permitted: capacity.amps, by: 'design' };
  }
  // A cable without a capacity is wrong before anything flows in it.
  return capacity.reason === undefined ? undefined : { figures, needed: 0, permitted: 0, by: 'nothing' };
}

/** Whether its device alone already asks for a larger cable: then nothing else is told of the two. */
export function isTooSmallForDevice(run: Run, context: RuleContext): boolean {
  return (context.answers.runs.get(run) ?? []).some((figures) => verdict(figures, context)?.by === 'device');
}

/** What is worst of a run’s cores; undefined where all of them bear what they must. */
export function worstCore(cores: readonly CoreFigures[], context: RuleContext): Verdict | undefined {
  let worst: Verdict | undefined;
  for (const figures of cores) {
    const one = verdict(figures, context);
    if (one !== undefined && (worst === undefined || one.needed > worst.needed)) worst = one;
  }
  return worst;
}

/** For what its device lets through or its loads draw, and not for want of any capacity. */
export function isTooSmall({ by, figures }: Verdict): boolean {
  return (by === 'device' || by === 'design') && figures.capacity?.reason === undefined;
}
