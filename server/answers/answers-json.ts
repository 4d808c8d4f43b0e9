/** The JSON of `ampscribe answers`, version 1. */
import type { Answers } from './answers.ts';

export interface AnswersJson {
  readonly version: 1;
  readonly cases: readonly {
    readonly name: string;
    readonly converged: boolean;
    readonly trouble?: string;
    readonly terminals: Readonly<Record<string, { readonly volts: number }>>;
    readonly cores: readonly {
      readonly run: string;
      readonly core: string;
      readonly from: string;
      readonly to: string;
      readonly amps: number;
      readonly assumed: boolean;
      readonly dropVolts: number;
      readonly watts: number;
      readonly celsius: number;
      readonly capacityAmps: number | null;
    }[];
    readonly parts: Readonly<Record<string, { volts?: number; amps?: number; watts?: number; dropVolts?: number; dropPercent?: number }>>;
  }[];
}

/** A case that has no answer has no figures either: nothing that looks like a number may be wrong. */
export function answersJson(answers: Answers, caseName?: string): AnswersJson {
  return {
    version: 1,
    cases: answers.cases
      .filter(({ name }) => caseName === undefined || name === caseName)
      .map(({ name, converged, trouble, volts, cores, parts }) => ({
        name,
        converged,
        ...(trouble === undefined ? {} : { trouble }),
        terminals: converged ? Object.fromEntries([...volts].map(([id, value]) => [id, { volts: value }])) : {},
        cores: converged
          ? cores.map(({ core, amps, assumed, dropVolts, watts, celsius, capacityAmps }) => ({
              run: core.run.name,
              core: core.label,
              from: core.from?.id ?? '',
              to: core.to?.id ?? '',
              amps,
              assumed,
              dropVolts,
              watts,
              celsius,
              capacityAmps: capacityAmps ?? null,
            }))
          : [],
        parts: converged ? Object.fromEntries([...parts].map(([part, { part: _, ...figures }]) => [part, figures])) : {},
      })),
  };
}
