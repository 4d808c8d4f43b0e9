/**
 * Call hierarchy, read as supply: who calls a part is what feeds it, whom it calls is what it feeds, step by step along the
 * cores that carry its plus. Each step tells its cable, its current and what protects it.
 */
import type { CallHierarchyIncomingCall, CallHierarchyItem, CallHierarchyOutgoingCall } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import type { Protection } from '../answers/answers.ts';
import type { Core, Part, Place, Run, Terminal } from '../model/model.ts';
import { amps, listed } from '../reports/figures.ts';
import { deviceName } from '../rules/words.ts';
import { casesOfCore } from './hover/cases.ts';
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
  /** Greatest current over the cases; 0 where none brings any. */
  readonly amps: number;
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

function stepItem(analysis: Analysis, { core, far, amps: current }: Step): CallHierarchyItem {
  const figures = analysis.answers.cores.get(core);
  const cable = `by ${core.run.name}${core.colour === undefined ? '' : ` ${core.colour}`}`;
  const carried = current > leastAmps ? amps(current) : 'no current in any case';
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
    const current = ampsFrom(analysis, core, direction === 'up' ? far : near);
    if (current !== undefined) found.push({ core, near, far, amps: current });
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
  return found.sort((a, b) => b.amps - a.amps);
}

/** Greatest current in a feed away from one of its ends; undefined where none flows that way. Returns lead nothing to anyone. */
function ampsFrom(analysis: Analysis, core: Core, start: Terminal): number | undefined {
  const { answers } = analysis;
  const figures = answers.cores.get(core);
  if (figures === undefined || figures.isReturn) return undefined;
  const sign = start === core.from ? 1 : -1;
  const cases = casesOfCore(answers, core).map(({ figures: { amps: here } }) => here);
  const most = Math.max(0, ...cases.map((here) => sign * here));
  const back = Math.max(0, ...cases.map((here) => -sign * here));
  const { designAmps, shortCircuitAmps } = figures;
  // The design current is that of the greater direction.
  if (most > leastAmps) return most >= back ? Math.max(most, shortCircuitAmps ?? designAmps) : most;
  if (back > leastAmps) return undefined;
  // Where no case brings a current, what is the only way from a source counts.
  const far = start === core.from ? core.to : core.from;
  return far !== undefined && hasSource(analysis, start, core) && !hasSource(analysis, far, core)
    ? designAmps
    : undefined;
}

/** Whether the plus of a source can be come to from a terminal without passing a core. */
function hasSource({ answers }: Analysis, start: Terminal, without: Core): boolean {
  const reached = new Set([start]);
  // The set is walked while it grows.
  for (const terminal of reached) {
    const { family, behaviour } = terminal.part.kind;
    const { polarity, side } = terminal.spec;
    const gives = behaviour.is !== 'converter' || (side !== undefined && isOn(side, behaviour.outputs));
    if ((family === 'source' || family === 'conversion') && behaviour.is !== 'inverter' && gives && polarity === '+')
      return true;
    for (const edge of answers.network.at.get(terminal.id) ?? [])
      if (edge.is !== 'core' || edge.core !== without) reached.add(edge.from === terminal ? edge.to : edge.from);
  }
  return false;
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
