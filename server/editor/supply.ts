/**
 * Call hierarchy, read as supply: who calls a part is what feeds it, whom it calls is what it feeds, step by step along the
 * cores that carry its plus. Each step tells its cable, its current and what protects it.
 */
import type { CallHierarchyIncomingCall, CallHierarchyItem, CallHierarchyOutgoingCall } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import type { DirectedFlow, Protection } from '../answers/answers.ts';
import type { Core, Part, Place, Run, Terminal } from '../model/model.ts';
import { deviceName } from '../rules/words.ts';
import { amps, listed } from './figures.ts';
import { worstOfCore } from './hover/cases.ts';
import { iconOf } from './outline.ts';
import { linesOf, locationOf, rangeOf } from './ranges.ts';
import { named } from './uses.ts';

/** What an item carries from one request to the next. */
export interface SupplyData {
  /** Address of the spec that is worked out: the part may stand in a file it uses. */
  readonly spec: string;
  readonly name: string;
  /** Terminal at which the step before came in, and the core it came by. */
  readonly entered?: string;
  readonly by?: string;
}

type Direction = 'up' | 'down';

/** Below this nothing flows: it is the last digit of the solver. */
const leastAmps = 1e-6;

interface Step {
  readonly core: Core;
  /** Ends of the core: at what was asked about, and at what is found there. */
  readonly near: Terminal;
  readonly far: Terminal;
  readonly flow: DirectedFlow;
}

export function prepareSupply(analysis: Analysis, offset: number): CallHierarchyItem[] {
  const use = named(analysis, offset);
  const { parts, runs, terminals } = analysis.model;
  if (use?.target === 'terminal') {
    const terminal = terminals.get(use.name);
    if (terminal === undefined) return [];
    return [itemOf(analysis, terminal.part, { entered: terminal.id }, terminal.id)];
  }
  const thing = use?.target === 'run' ? runs.get(use.name) : use?.target === 'part' ? parts.get(use.name) : undefined;
  if (thing === undefined || ('terminals' in thing && thing.terminals.length === 0)) return [];
  return [itemOf(analysis, thing, {})];
}

export function feeding(analysis: Analysis, data: SupplyData): CallHierarchyIncomingCall[] {
  return steps(analysis, data, 'up').map((step) => {
    const from = stepItem(analysis, step);
    return { from, fromRanges: writtenIn(analysis, from.uri, [endPlace(step.core, step.far)], from) };
  });
}

export function fed(analysis: Analysis, data: SupplyData): CallHierarchyOutgoingCall[] {
  const { parts, runs } = analysis.model;
  const uri = (parts.get(data.name) ?? runs.get(data.name))?.origin.file.uri ?? analysis.uri;
  return steps(analysis, data, 'down').map((step) => {
    const to = stepItem(analysis, step);
    return { to, fromRanges: writtenIn(analysis, uri, [endPlace(step.core, step.near)], undefined) };
  });
}

function itemOf(
  analysis: Analysis,
  thing: Part | Run,
  data: Omit<SupplyData, 'spec' | 'name'>,
  name = thing.name,
  detail = '',
): CallHierarchyItem {
  const { file, statement } = thing.origin;
  const { node, shaped, offset } = statement;
  const lines = linesOf(analysis, file.uri);
  const spec = shaped.wrapper ?? shaped.spec;
  const what = `${spec?.word ?? ''}${thing.title === undefined ? '' : ` “${thing.title}”`}`;
  const own: SupplyData = { spec: analysis.uri, name: thing.name, ...data };
  return {
    name,
    kind: spec === undefined ? 19 : iconOf(spec),
    detail: [what, detail].filter((piece) => piece !== '').join(', '),
    uri: file.uri,
    range: rangeOf(lines, { start: offset, end: offset + node.text.trimEnd().length }),
    selectionRange: rangeOf(lines, thing.namePlace.span),
    data: own,
  };
}

function stepItem(analysis: Analysis, { core, far, flow }: Step): CallHierarchyItem {
  const figures = analysis.answers.cores.get(core);
  const cable = `by ${core.run.name}${core.colour === undefined ? '' : ` ${core.colour}`}`;
  const carried =
    flow.lastingAmps > leastAmps
      ? amps(flow.lastingAmps)
      : flow.inrush !== undefined
        ? `${amps(Math.abs(flow.inrush.amps))} at its start`
        : 'no current in any case';
  const guard = figures === undefined ? '' : guarding(figures.protection);
  const detail = [cable, carried, guard].filter((piece) => piece !== '').join(', ');
  return itemOf(analysis, far.part, { entered: far.id, by: keyOf(core) }, far.part.name, detail);
}

/** What protects a cable, in a few words: hover tells all of it. */
function guarding({ unprotectedFrom, devices, limitedSources }: Protection): string {
  const names = (parts: readonly { readonly part: Part }[]) => listed([...new Set(parts.map(({ part }) => part.name))]);
  if (unprotectedFrom.length > 0) return `unprotected from ${listed(unprotectedFrom.map(({ name }) => name))}`;
  if (devices.length > 0)
    return `protected by ${listed(devices.map(({ part, pole, amps: rating }) => `${deviceName(part, pole)} (${rating > 0 ? amps(rating) : '? A'})`))}`;
  return limitedSources.length === 0 ? '' : `limited by ${names(limitedSources)}`;
}

function steps(analysis: Analysis, data: SupplyData, direction: Direction): Step[] {
  const { model, answers } = analysis;
  const found: Step[] = [];
  const add = (core: Core, near: Terminal, far: Terminal) => {
    const flow = flowOf(analysis, core, direction === 'up' ? far : near);
    if (flow !== undefined) found.push({ core, near, far, flow });
  };
  const run = model.runs.get(data.name);
  const part = model.parts.get(data.name);
  for (const core of run?.cores ?? []) {
    const { from, to } = core;
    if (from === undefined || to === undefined) continue;
    add(core, from, to);
    add(core, to, from);
  }
  const leave = (nears: readonly Terminal[]) => {
    for (const near of nears)
      for (const edge of answers.network.at.get(near.id) ?? [])
        if (edge.is === 'core' && edge.from !== edge.to && keyOf(edge.core) !== data.by)
          add(edge.core, near, edge.from === near ? edge.to : edge.from);
  };
  const picked = data.by === undefined && data.entered !== undefined ? model.terminals.get(data.entered) : undefined;
  // A terminal that was picked itself is asked for what hangs on it alone, not on the whole part.
  if (picked !== undefined) leave([picked]);
  if (part !== undefined && found.length === 0) leave(ways(analysis, part, data.entered, direction));
  return found.sort((a, b) => b.flow.lastingAmps - a.flow.lastingAmps);
}

/** What flows in a feed away from one of its ends; undefined where nothing does. Returns lead nothing to anyone. */
function flowOf({ answers }: Analysis, core: Core, start: Terminal): DirectedFlow | undefined {
  const figures = answers.cores.get(core);
  if (figures === undefined || figures.isReturn) return undefined;
  const { forward, backward } = answers.directions.ofCore(core);
  const onward = start === core.from;
  const [wanted, other] = onward ? [forward, backward] : [backward, forward];
  // One string of panels could drive another backwards into a fault: what the cases bring counts, and that never happens there.
  if (figures.onPanelSide) {
    const { amps: most = 0 } = worstOfCore(answers, core)?.figures ?? {};
    if (Math.abs(most) > leastAmps) return most > 0 === onward ? wanted : undefined;
  }
  const flows = ({ lastingAmps, inrush }: DirectedFlow) => lastingAmps > leastAmps || inrush !== undefined;
  // Where no case brings a current, what can drive one counts.
  if (flows(wanted) || (!flows(other) && wanted.sources.length > 0 && other.sources.length === 0)) return wanted;
  return undefined;
}

/** Terminals at which the way goes on through a part: all of its own, or those that the one entered is joined to inside. */
function ways({ model, answers }: Analysis, part: Part, entered: string | undefined, direction: Direction): Terminal[] {
  const { terminals, kind } = part;
  const { behaviour } = kind;
  const sides = behaviour.is === 'converter' ? (direction === 'up' ? behaviour.inputs : behaviour.outputs) : undefined;
  const plus = terminals.filter(({ spec }) => spec.polarity !== '-');
  const onSide = ({ spec }: Terminal) => sides === undefined || spec.side === undefined || isOn(spec.side, sides);
  const start = entered === undefined ? undefined : model.terminals.get(entered);
  if (start === undefined) return plus.filter(onSide);
  const reached = new Set([start]);
  // The set is walked while it grows.
  for (const terminal of reached)
    for (const edge of answers.network.at.get(terminal.id) ?? []) {
      if (edge.is === 'core') continue;
      const next = edge.from === terminal ? edge.to : edge.from;
      const against =
        edge.is === 'contact' && edge.contact.operated === 'diode' && (direction === 'up') === (edge.from === terminal);
      if (next.part === part && !against) reached.add(next);
    }
  if (sides === undefined || start.spec.side === undefined) return [...reached];
  // A controller’s load output is fed from its battery side.
  const [from, to] = direction === 'up' ? ['load', 'bat'] : ['bat', 'load'];
  const passed = start.spec.side === from ? plus.filter(({ spec }) => spec.side === to) : [];
  const beyond = isOn(start.spec.side, sides)
    ? []
    : plus.filter(({ spec }) => spec.side !== undefined && isOn(spec.side, sides));
  return [...reached, ...passed, ...beyond];
}

/** `in2` is one of the inputs `in`. */
function isOn(side: string, sides: readonly string[]): boolean {
  return sides.some((one) => side === one || side.replace(/\d+$/u, '') === one);
}

function keyOf({ run, index }: Core): string {
  return `${run.name} ${index}`;
}

function endPlace(core: Core, end: Terminal): Place | undefined {
  return end === core.from ? core.fromPlace : core.toPlace;
}

/** Ranges in one file; where the words stand in another, the item’s own name. */
function writtenIn(
  analysis: Analysis,
  uri: string,
  places: readonly (Place | undefined)[],
  item: CallHierarchyItem | undefined,
) {
  const here = places
    .filter((place) => place?.uri === uri)
    .flatMap((place) => (place === undefined ? [] : [locationOf(analysis, place).range]));
  return here.length > 0 || item === undefined ? here : [item.selectionRange];
}
