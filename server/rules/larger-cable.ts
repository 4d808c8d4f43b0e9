/** The smallest standard size of conductor that bears what is asked of it, where it lies. */
import type { CoreFigures } from '../answers/answers.ts';
import { capacityOf, physicalSize } from '../answers/conditions.ts';
import { standardSizes } from '../answers/work-out.ts';
import type { ConductorSize } from '../model/model.ts';
import type { RuleContext } from './rule.ts';

export interface AskedOfCable {
  /** Rating of the device that protects it. */
  readonly deviceAmps?: number | undefined;
  /** What it must carry besides what flows in it, without end. */
  readonly amps?: number | undefined;
  /** Whether what flows for a time only counts as what warms it as much, or in full. */
  readonly byWarming: boolean;
}

/** Undefined where no standard size does. */
export function largerCable(
  { core, capacity: own, designAmps }: CoreFigures,
  { deviceAmps = 0, amps = 0, byWarming }: AskedOfCable,
  { model, answers: { limits, systemVolts, directions } }: RuleContext,
): ConductorSize | undefined {
  const { run } = core;
  return standardSizes(run.size?.system === 'awg').find((candidate) => {
    const capacity = capacityOf(run, candidate, model, limits, systemVolts, { bunch: own?.bunch });
    const warming = byWarming ? directions.warmingOf(core) : undefined;
    const heats =
      warming === undefined
        ? designAmps
        : directions.heatingAmps(core, { ...warming, size: physicalSize(candidate), capacityAmps: capacity.amps });
    return (
      capacity.reason === undefined &&
      limits.permittedDeviceAmps(capacity, systemVolts).amps >= deviceAmps &&
      capacity.amps >= Math.max(amps, heats)
    );
  });
}
