/** The way of a load as the diagram shows it: which elements it goes over, and what each of them costs in volts. */
import type { Analysis } from '../../analysis.ts';
import type { SupplyWay, WayStep } from '../../answers/supply-ways.ts';

export interface TraceStep {
  /** Id of the core or part in the drawing. */
  readonly element: string;
  /** `W3 red`, `F1`, `Q1 pole 2`. */
  readonly name: string;
  /** `2.5 mm², 3.2 m`; of a part its title or kind. */
  readonly detail: string;
  readonly side: 'out' | 'back';
  readonly from: string;
  readonly to: string;
  readonly amps: number;
  readonly dropVolts: number;
}

export interface TraceWay {
  readonly source: string;
  readonly load: string;
  readonly sourceVolts: number;
  readonly loadVolts: number;
  readonly amps: number;
  readonly lostVolts: number;
  /** Of the nominal voltage. */
  readonly lostPercent: number;
  readonly steps: readonly TraceStep[];
}

export interface Trace {
  readonly load: string;
  readonly caseName: string;
  /** Why there is no way to show; then there is none. */
  readonly trouble: string | undefined;
  /** The load's own, then those of the chargers and converters that feed it. */
  readonly ways: readonly TraceWay[];
  /** Everything on these ways, each once: sources and loads too. */
  readonly elements: readonly string[];
}

/** Undefined when the spec has no such part or case. */
export function traceOf({ model, answers }: Analysis, loadName: string, caseName: string): Trace | undefined {
  const load = model.parts.get(loadName);
  const stated = answers.cases.find(({ name }) => name === caseName);
  if (load === undefined || stated === undefined) return undefined;
  const found = answers.waysTo(load, caseName);
  const trouble = !stated.converged
    ? (stated.trouble ?? `The case ${caseName} has no answer.`)
    : found.length > 0
      ? undefined
      : `Nothing feeds ${loadName} in the case ${caseName}: something on its way is open, or what feeds it gives nothing there.`;
  return { load: loadName, caseName, trouble, ways: found.map(told), elements: elementsOf(found) };
}

/** Bars that it only passes over are on the way too. */
function elementsOf(ways: readonly SupplyWay[]): string[] {
  const ids = ways.flatMap(({ source, load, steps }) => [
    `part:${source.name}`,
    ...steps.flatMap((step) => [`part:${step.from.part.name}`, stepOf(step).element, `part:${step.to.part.name}`]),
    `part:${load.name}`,
  ]);
  return [...new Set(ids)];
}

function told({ source, load, sourceVolts, loadVolts, nominalVolts, amps, steps }: SupplyWay): TraceWay {
  const lostVolts = sourceVolts - loadVolts;
  return {
    source: source.name,
    load: load.name,
    sourceVolts,
    loadVolts,
    amps,
    lostVolts,
    lostPercent: nominalVolts > 0 ? (100 * lostVolts) / nominalVolts : 0,
    steps: steps.map(stepOf),
  };
}

function stepOf({ edge, side, from, to, amps, dropVolts }: WayStep): TraceStep {
  const step = { side, from: from.id, to: to.id, amps, dropVolts };
  switch (edge.is) {
    case 'core': {
      const { run, index, colour } = edge.core;
      const size = run.size?.written ?? '';
      const length = run.facts.written('length') ?? '';
      return {
        element: `core:${run.name}/${index}`,
        name: colour === undefined ? run.name : `${run.name} ${colour}`,
        detail: [size, length].filter((one) => one !== '').join(', '),
        ...step,
      };
    }
    case 'contact': {
      const { part, contact } = edge;
      const ways = part.kind.word === 'fusebox' ? 'way' : 'pole';
      const name = part.contacts.length > 1 ? `${part.name} ${ways} ${contact.pole}` : part.name;
      return { element: `part:${part.name}`, name, detail: part.title ?? part.kind.word, ...step };
    }
    case 'bar': {
      const { part } = edge.bar;
      return { element: `part:${part.name}`, name: part.name, detail: part.title ?? part.kind.word, ...step };
    }
    case 'body':
      return { element: `part:${from.part.name}`, name: from.part.name, detail: 'the vehicle’s body', ...step };
  }
}
