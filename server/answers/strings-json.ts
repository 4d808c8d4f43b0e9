/** Panel strings in the JSON of `ampscribe answers`: the same whatever the case. */
import { coldVoc } from '../tables/photovoltaic.ts';
import { cite } from '../tables/table.ts';
import type { StringAnswers } from './strings.ts';

export interface StringsJson {
  readonly strings: readonly {
    /** From its minus to its plus. */
    readonly panels: readonly string[];
    readonly controller: string | null;
    readonly openVolts: number;
    readonly coldVolts: number | null;
    /** `stated` drift, or the publication that stands in. */
    readonly coldFrom: string | null;
    readonly hotCelsius: number;
    readonly hotVmp: number;
    readonly shortCircuitAmps: number;
    readonly reverseAmps: number;
    readonly watts: number;
  }[];
  readonly inputs: readonly {
    readonly controller: string;
    readonly coldVolts: number | null;
    readonly mostVolts: number | null;
    readonly shortCircuitAmps: number;
    readonly mostAmps: number | null;
    readonly watts: number;
    readonly chargeVolts: number | null;
  }[];
}

export function stringsJson({ strings, inputs }: StringAnswers): StringsJson {
  return {
    strings: strings.map((one) => ({
      panels: one.panels.map(({ name }) => name),
      controller: one.controller?.name ?? null,
      openVolts: one.openVolts,
      coldVolts: one.coldVolts ?? null,
      coldFrom: one.coldVolts === undefined ? null : one.byTable.length > 0 ? cite(coldVoc) : 'stated',
      hotCelsius: one.hotCelsius,
      hotVmp: one.hotVmp,
      shortCircuitAmps: one.shortCircuitAmps,
      reverseAmps: one.reverseAmps,
      watts: one.watts,
    })),
    inputs: inputs.map((one) => ({
      controller: one.controller.name,
      coldVolts: one.coldVolts ?? null,
      mostVolts: one.mostVolts ?? null,
      shortCircuitAmps: one.shortCircuitAmps,
      mostAmps: one.mostAmps ?? null,
      watts: one.watts,
      chargeVolts: one.chargeVolts ?? null,
    })),
  };
}
