/** The JSON of `ampscribe answers`, version 1. */
import type { Part } from '../model/model.ts';
import { cite } from '../tables/table.ts';
import type { Answers, CaseAnswer, DirectedFlow, Flow, PartInCase, ShortCurrent } from './answers.ts';
import type { Clearing, Origin } from './clearing.ts';
import type { CoreFault, DeviceFault } from './fault-answers.ts';
import { type StringsJson, stringsJson } from './strings-json.ts';

export interface AnswersJson {
  readonly version: 1;
  readonly cases: readonly CaseJson[];
  /** Short circuits: the same whatever the case. */
  readonly faults: FaultsJson;
  readonly protection: ProtectionJson;
  /** Which way current can flow, what lasts and what flows for a time. */
  readonly directions: DirectionsJson;
  /** Panels in cold and heat: the same whatever the case. */
  readonly solar: StringsJson;
}

export interface DirectionsJson {
  readonly cores: readonly (FlowJson & {
    readonly run: string;
    readonly core: string;
    /** The lasting current that would warm it as much; null for what serves a starter motor alone. */
    readonly heatingAmps: number | null;
  })[];
  readonly contacts: readonly (FlowJson & { readonly part: string; readonly pole: number })[];
}

export interface FlowJson {
  readonly from: string;
  readonly to: string;
  readonly isReturn: boolean;
  readonly forward: DirectedJson;
  readonly backward: DirectedJson;
  /** Short-time loads while they run, loads when they start, starter motors. */
  readonly shortTime: readonly ShortJson[];
}

export interface DirectedJson {
  readonly sources: readonly string[];
  readonly lastingAmps: number;
  readonly inrushAmps: number | null;
}

export interface ShortJson {
  readonly is: ShortCurrent['is'];
  readonly loads: readonly string[];
  readonly amps: number;
  readonly seconds: number | null;
  readonly duty: number | null;
  readonly case: string;
}

export interface FaultsJson {
  readonly terminals: Readonly<
    Record<string, { readonly greatestAmps: number | null; readonly leastAmps: number | null }>
  >;
  readonly cores: readonly {
    readonly run: string;
    readonly core: string;
    readonly farEnd: string | null;
    readonly leastAmps: number | null;
  }[];
}

export interface ProtectionJson {
  readonly devices: readonly {
    readonly part: string;
    readonly pole: number;
    readonly ratedAmps: number | null;
    readonly greatestAmps: number;
    readonly leastAmps: number | null;
    readonly breaksAmps: number | null;
    /** `stated`, or the publication that stands in. */
    readonly breaksFrom: string | null;
    readonly clears: Clearing;
    readonly greatestSeconds: number | null;
    readonly leastSeconds: number | null;
    readonly curveFrom: string | null;
  }[];
  readonly cores: readonly {
    readonly run: string;
    readonly core: string;
    readonly devices: readonly string[];
    readonly clears: Clearing;
    readonly seconds: number | null;
    readonly letThrough: number | null;
    readonly withstand: number | null;
    readonly withstands: boolean | null;
    readonly sources: readonly string[];
  }[];
}

export interface CaseJson {
  readonly name: string;
  readonly converged: boolean;
  readonly trouble?: string;
  /** What asks more power than can be fed; left out where there is nothing of the sort. */
  readonly overloads?: readonly {
    readonly parts: readonly string[];
    readonly askedWatts?: number;
    readonly fedWatts?: number;
    readonly askedAmps?: number;
    readonly fedAmps?: number;
  }[];
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

export type PartJson = Partial<Record<'volts' | 'amps' | 'watts' | 'dropVolts' | 'dropPercent', number>> & {
  /** It gives the most it can, at a lower voltage than it is set to; left out where it does not. */
  readonly limited?: true;
};

/** All cases, or the one of a name. A case that has no answer has no figures either. */
export function answersJson(answers: Answers, caseName?: string): AnswersJson {
  const cases = answers.cases.filter(({ name }) => caseName === undefined || name === caseName);
  const { terminals, cores, devices } = answers.faults;
  return {
    version: 1,
    cases: cases.map(caseJson),
    faults: {
      terminals: Object.fromEntries(
        [...terminals].map(([id, { greatestAmps, leastAmps }]) => [
          id,
          { greatestAmps: known(greatestAmps), leastAmps: known(leastAmps) },
        ]),
      ),
      cores: [...cores.values()].map(({ core, farEnd, leastAmps }) => ({
        run: core.run.name,
        core: core.label,
        farEnd: farEnd?.id ?? null,
        leastAmps: known(leastAmps),
      })),
    },
    protection: {
      devices: [...devices.values()].flat().map(deviceJson),
      cores: [...cores.values()].map(protectionJson),
    },
    directions: directionsJson(answers),
    solar: stringsJson(answers.strings),
  };
}

function directionsJson({ network, directions, cores, contacts }: Answers): DirectionsJson {
  const isReturn = (part: Part, pole: number) =>
    contacts.get(part.name)?.find((one) => one.pole === pole)?.isReturn ?? false;
  return {
    cores: [...cores.values()].map(({ core, crankingOnly, isReturn: back }) => ({
      run: core.run.name,
      core: core.label,
      ...flowJson(core.from?.id ?? '', core.to?.id ?? '', back, directions.ofCore(core)),
      heatingAmps: crankingOnly ? null : figure(directions.heatingAmps(core)),
    })),
    contacts: network.edges.flatMap((edge) =>
      edge.is !== 'contact'
        ? []
        : [
            {
              part: edge.part.name,
              pole: edge.contact.pole,
              ...flowJson(
                edge.from.id,
                edge.to.id,
                isReturn(edge.part, edge.contact.pole),
                directions.ofContact(edge.part, edge.contact.pole),
              ),
            },
          ],
    ),
  };
}

function flowJson(from: string, to: string, isReturn: boolean, flow: Flow): FlowJson {
  const { forward, backward, runs, starts, cranks } = flow;
  return {
    from,
    to,
    isReturn,
    forward: directedJson(forward),
    backward: directedJson(backward),
    shortTime: [...runs, ...starts, ...cranks].map(({ is, loads, amps, seconds, duty, caseName }) => ({
      is,
      loads: loads.map(({ name }) => name),
      amps: figure(amps),
      seconds: known(seconds),
      duty: known(duty),
      case: caseName,
    })),
  };
}

function directedJson({ sources, lastingAmps, inrush }: DirectedFlow): DirectedJson {
  return {
    sources: sources.map(({ name }) => name),
    lastingAmps: figure(lastingAmps),
    inrushAmps: known(inrush === undefined ? undefined : Math.abs(inrush.amps)),
  };
}

function deviceJson(device: DeviceFault): ProtectionJson['devices'][number] {
  const { part, pole, ratedAmps, greatestAmps, leastAmps, breaks, clears, curve, greatestSeconds, leastSeconds } =
    device;
  return {
    part: part.name,
    pole,
    ratedAmps: known(ratedAmps),
    greatestAmps: figure(greatestAmps),
    leastAmps: known(leastAmps),
    breaksAmps: known(breaks?.amps),
    breaksFrom: origin(breaks?.from),
    clears,
    greatestSeconds: known(greatestSeconds),
    leastSeconds: known(leastSeconds),
    curveFrom: origin(curve),
  };
}

function protectionJson(fault: CoreFault): ProtectionJson['cores'][number] {
  const { core, devices, clears, seconds, letThrough, withstand, withstands, sources } = fault;
  return {
    run: core.run.name,
    core: core.label,
    devices: devices.map(({ part, pole }) => (part.contacts.length > 1 ? `${part.name}:${pole}` : part.name)),
    clears,
    seconds: known(seconds),
    letThrough: known(letThrough),
    withstand: known(withstand),
    withstands: withstands ?? null,
    sources: sources.map(cite),
  };
}

function origin(from: Origin | undefined): string | null {
  return from === undefined ? null : from === 'stated' ? from : cite(from);
}

function known(value: number | undefined): number | null {
  return value === undefined ? null : figure(value);
}

function caseJson({ name, converged, trouble, overloads, volts, cores, parts }: CaseAnswer): CaseJson {
  return {
    name,
    converged,
    ...(trouble === undefined ? {} : { trouble }),
    ...(overloads.length === 0
      ? {}
      : {
          overloads: overloads.map(({ parts, asked, fed, unit }) => ({
            parts: parts.map((part) => part.name),
            ...(unit === 'W'
              ? { askedWatts: figure(asked), fedWatts: figure(fed) }
              : { askedAmps: figure(asked), fedAmps: figure(fed) }),
          })),
        }),
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

function partJson({ volts, amps, watts, dropVolts, dropPercent, limited }: PartInCase): PartJson {
  const said = Object.entries({ volts, amps, watts, dropVolts, dropPercent }).filter(
    ([, value]) => value !== undefined,
  );
  return {
    ...Object.fromEntries(said.map(([key, value]) => [key, figure(value as number)])),
    ...(limited === undefined ? {} : { limited }),
  };
}

/** A nought has no sign. */
function figure(value: number): number {
  return value === 0 ? 0 : value;
}
