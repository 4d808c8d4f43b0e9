/** The JSON of `ampscribe answers`, version 1. */
import type { Answers, CaseAnswer, PartInCase } from './answers.ts';

export interface AnswersJson {
  readonly version: 1;
  readonly cases: readonly CaseJson[];
}

export interface CaseJson {
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
  readonly parts: Readonly<Record<string, PartJson>>;
}

export type PartJson = Partial<Record<'volts' | 'amps' | 'watts' | 'dropVolts' | 'dropPercent', number>>;

/** All cases, or the one of a name. A case that has no answer has no figures either. */
export function answersJson(answers: Answers, caseName?: string): AnswersJson {
  const cases = answers.cases.filter(({ name }) => caseName === undefined || name === caseName);
  return { version: 1, cases: cases.map(caseJson) };
}

function caseJson({ name, converged, trouble, volts, cores, parts }: CaseAnswer): CaseJson {
  return {
    name,
    converged,
    ...(trouble === undefined ? {} : { trouble }),
    terminals: Object.fromEntries([...volts].map(([id, value]) => [id, { volts: figure(value) }])),
    cores: cores.map(({ core, amps, assumed, dropVolts, watts, celsius, capacityAmps }) => ({
      run: core.run.name,
      core: core.label,
      from: core.from?.id ?? '',
      to: core.to?.id ?? '',
      amps: figure(amps),
      assumed,
      dropVolts: figure(dropVolts),
      watts: figure(watts),
      celsius: figure(celsius),
      capacityAmps: capacityAmps === undefined ? null : figure(capacityAmps),
    })),
    parts: Object.fromEntries([...parts].map(([id, part]) => [id, partJson(part)])),
  };
}

function partJson({ volts, amps, watts, dropVolts, dropPercent }: PartInCase): PartJson {
  const said = Object.entries({ volts, amps, watts, dropVolts, dropPercent }).filter(
    ([, value]) => value !== undefined,
  );
  return Object.fromEntries(said.map(([key, value]) => [key, figure(value as number)]));
}

/** A nought has no sign. */
function figure(value: number): number {
  return value === 0 ? 0 : value;
}
