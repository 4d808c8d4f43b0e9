/** Where a finding asks for fuses: in which conductors, at which of their ends, and within which bounds. */
import type { Analysis } from '../../analysis.ts';
import type { UnfusedStretch } from '../../answers/answers.ts';
import { noInner, pathsFrom } from '../../answers/paths.ts';
import type { Core, Part, Terminal } from '../../model/model.ts';
import type { Edge, Network } from '../../model/network.ts';
import { ownFuseOf } from '../../rules/controller-output-unfused.ts';
import type { FuseWanted } from '../../rules/new-fuse.ts';
import { parallelStrings } from '../../rules/panel-strings.ts';
import { reach } from '../../rules/reach.ts';
import type { Finding } from '../../rules/rule.ts';
import { isSource } from '../../rules/supply-unfused.ts';
import { stringFuseFactors } from '../../tables/sizes.ts';

/** A fuse, and how far along the conductors its end is from the battery that drives a fault there, in metre. */
export interface FusePlace extends FuseWanted {
  readonly metresBefore: number;
}

type Entry = Pick<FusePlace, 'core' | 'near' | 'far' | 'metresBefore'>;

/** All that mend it together; none where one of them could not stand where it is wanted. */
export function fusesFor(analysis: Analysis, finding: Finding): readonly FusePlace[] {
  const places = wantedBy(analysis, finding);
  const found = places.filter((place) => place !== undefined);
  return found.length < places.length ? [] : found;
}

function wantedBy(analysis: Analysis, finding: Finding): readonly (FusePlace | undefined)[] {
  switch (finding.slug) {
    case 'supply-unfused':
      return ofStretch(analysis, finding);
    case 'protection-too-far':
      return tooFar(analysis, finding);
    case 'both-ends-need-protection':
      return atFarEnd(analysis, finding);
    case 'bank-fuse-each':
      return ofBank(analysis, finding);
    case 'string-fuse-needed':
      return ofStrings(analysis, finding);
    case 'controller-output-unfused':
      return ofController(analysis, finding);
    case 'cable-too-small':
    case 'fuse-above-appliance':
      return ofBranch(analysis, finding);
    default:
      return [];
  }
}

function ofStretch(analysis: Analysis, { subject, figures }: Finding): (FusePlace | undefined)[] {
  // Ways of a fusebox want what is fitted to be said.
  if (figures.ways !== undefined) return [];
  const { unfusedStretches, cores } = analysis.answers;
  const stretch = unfusedStretches.find(({ cores: [first] }) => first?.run.name === subject);
  if (stretch === undefined) return [];
  const { batteries, feeds } = stretch;
  return batteries.map((battery) => {
    const entry = entryOf(analysis, stretch, battery);
    if (entry === undefined) return undefined;
    const amps = cores.get(entry.core)?.designAmps ?? 0;
    const isLink = batteries.length > 1 || !(amps > 0);
    const wished = !isLink && feeds.some(isSource) ? ownFuseOf(amps).wished : 0;
    return { ...entry, prefers: isLink ? 'largest' : 'smallest', wished };
  });
}

/** Where a stretch begins, seen from a battery; undefined where several of its conductors do. */
function entryOf(
  { answers: { network, limits } }: Analysis,
  { cores }: UnfusedStretch,
  battery: Part,
): Entry | undefined {
  const start = battery.terminals.find(({ spec }) => spec.polarity === '+');
  if (start === undefined) return undefined;
  const own = new Set(cores);
  const metres = (edge: Edge) =>
    edge.is === 'core'
      ? own.has(edge.core)
        ? undefined
        : (edge.core.run.lengthMetres ?? 0)
      : edge.is === 'contact' && edge.contact.protects
        ? undefined
        : 0;
  const paths = pathsFrom(start, network, noInner, metres);
  const limit = limits.unfusedLength(false).metres;
  const reached = new Map(paths.reached.map((terminal) => [terminal, paths.cost(terminal) ?? 0]));
  const entries = cores.flatMap((core): Entry[] => {
    const { from, to } = core;
    if (from === undefined || to === undefined) return [];
    return [
      { core, near: from, far: to },
      { core, near: to, far: from },
    ].flatMap((one) => {
      const before = reached.get(one.near);
      return before === undefined ? [] : [{ ...one, metresBefore: before }];
    });
  });
  const [entry, another] = entries;
  if (entry === undefined || another !== undefined || entry.metresBefore < limit)
    return another === undefined ? entry : undefined;
  // Too far from the battery already: then at its terminal, for all that branches off on the way.
  const [first] = paths.edges(entry.near);
  return first?.is === 'core' ? atBattery(first.core, battery, 'smallest') : undefined;
}

/** A second device at the battery; the one that is there already opens first. */
function tooFar({ answers }: Analysis, { subject, figures }: Finding): (FusePlace | undefined)[] {
  const way = answers.unfused.find(
    ({ battery, device, cores }) =>
      battery.name === figures.battery &&
      device.name === figures.device &&
      cores.some(({ run }) => run.name === subject),
  );
  const [core] = way?.cores ?? [];
  return [atBattery(core, way?.battery, 'smallest')];
}

function atFarEnd({ answers }: Analysis, { subject, figures }: Finding): (FusePlace | undefined)[] {
  const lone = answers.loneDevices.find(
    ({ far }) => far.metres === figures.farMetres && far.cores.some(({ run }) => run.name === subject),
  );
  return [atBattery(lone?.far.cores[0], lone?.far.battery, 'largest')];
}

/** Where a conductor begins at a battery; undefined where it begins elsewhere. */
function atBattery(
  core: Core | undefined,
  battery: Part | undefined,
  prefers: FusePlace['prefers'],
): FusePlace | undefined {
  const ends = [core?.from, core?.to];
  const near = ends.find((end) => end !== undefined && end.part === battery);
  const far = ends.find((end) => end !== near);
  return core === undefined || near === undefined || far === undefined
    ? undefined
    : { core, near, far, metresBefore: 0, prefers };
}

/** At the positive of each battery, as far as one conductor alone leaves it. */
function ofBank({ answers: { unfusedBanks, network } }: Analysis, { subject }: Finding): (FusePlace | undefined)[] {
  const bank = unfusedBanks.find(({ leads }) => leads.some(({ core }) => core.run.name === subject));
  return (bank?.tops ?? []).map((battery) => {
    const plus = battery.terminals.find(({ spec }) => spec.polarity === '+');
    return atBattery(onlyCoreAt(plus, network.at), battery, 'largest');
  });
}

function onlyCoreAt(terminal: Terminal | undefined, at: ReadonlyMap<string, readonly Edge[]>): Core | undefined {
  const edges = at.get(terminal?.id ?? '') ?? [];
  const [edge] = edges;
  return edges.length === 1 && edge?.is === 'core' ? edge.core : undefined;
}

/** Where a string’s plus meets the others, which drive through it. */
function ofStrings({ model, answers }: Analysis, { subject, severity }: Finding): (FusePlace | undefined)[] {
  const groups = parallelStrings({ model, answers });
  const group = groups.find((strings) => strings.some(({ panels }) => panels.some(({ name }) => name === subject)));
  // Of those of which no figure is stated one finding tells for all.
  const bare = (group ?? []).filter(({ fused, panels, mostSeriesFuseAmps }) =>
    severity === 'error' ? panels.some(({ name }) => name === subject) : !fused && mostSeriesFuseAmps === undefined,
  );
  return bare.map(({ panels, shortCircuitAmps, mostSeriesFuseAmps = Number.POSITIVE_INFINITY }) => {
    const last = panels.at(-1);
    const plus = last?.terminals.find(({ spec }) => spec.polarity === '+');
    const core = onlyCoreAt(plus, answers.network.at);
    const near = [core?.from, core?.to].find((end) => end !== undefined && end !== plus);
    if (core === undefined || plus === undefined || near === undefined) return undefined;
    const least = stringFuseFactors.least * shortCircuitAmps;
    // Above the one and below the other: neither is allowed itself.
    const most = Math.min(mostSeriesFuseAmps, stringFuseFactors.most * shortCircuitAmps * (1 - 1e-6));
    const bounds = { least: least * (1 + 1e-5), most, ofString: true };
    return { core, near, far: plus, metresBefore: 0, prefers: 'smallest', ...bounds };
  });
}

function ofController({ model, answers: { network, cores } }: Analysis, { subject }: Finding) {
  const controller = model.parts.get(subject ?? '');
  const plus = controller?.terminals.find(({ spec }) => spec.name === 'bat+');
  const core = onlyCoreAt(plus, network.at);
  const near = [core?.from, core?.to].find((end) => end !== undefined && end !== plus);
  const output = controller?.facts.number('output');
  if (core === undefined || plus === undefined || near === undefined || output === undefined) return [undefined];
  const { wished, most } = ownFuseOf(output);
  // What protects the cable now opens for more than the controller.
  const before = cores.get(core)?.protection.amps ?? Number.POSITIVE_INFINITY;
  return [
    {
      core,
      near,
      far: plus,
      metresBefore: 0,
      prefers: 'smallest' as const,
      least: wished,
      most: Math.min(most, before * (1 - 1e-6)),
    },
  ];
}

/**
 * Where a circuit branches off whose cable or appliance may not have so large a device as all has, and close to the battery where
 * there is none before it. What a device has for itself wants another rating.
 */
function ofBranch({ model, answers }: Analysis, { slug, subject = '' }: Finding): (FusePlace | undefined)[] {
  const { cores, network, unfused } = answers;
  const plusses = model.parts.get(subject)?.terminals.filter(({ spec }) => spec.polarity === '+') ?? [];
  const own =
    slug === 'cable-too-small'
      ? (model.runs.get(subject)?.cores ?? [])
      : plusses.flatMap(({ id }) =>
          (network.at.get(id) ?? []).flatMap((edge) => (edge.is === 'core' ? edge.core : [])),
        );
  const figures = own.flatMap((core) => cores.get(core) ?? []).find(({ isReturn }) => !isReturn);
  if (figures === undefined || figures.onPanelSide || figures.protection.blank) return [];
  if (figures.beforeFirstDevice) {
    const way = unfused.find((one) => one.cores.includes(figures.core));
    return [atBattery(way?.cores[0], way?.battery, 'smallest')];
  }
  const entry = branchFrom(figures.core, network);
  const most = figures.protection.amps * (1 - 1e-6);
  return [entry && { ...entry, metresBefore: 0, prefers: 'smallest', most }];
}

/** From a core towards the battery as long as nothing else joins; undefined between batteries, and behind a device of its own. */
function branchFrom(core: Core, network: Network): Pick<Entry, 'core' | 'near' | 'far'> | undefined {
  const leadsToBattery = (end: Terminal) =>
    [...reach(end, network, (edge) => edge.is !== 'core' || edge.core !== core)].some(
      ({ part }) => part.kind.behaviour.is === 'battery',
    );
  const { from, to } = core;
  if (from === undefined || to === undefined) return undefined;
  const fed = [from, to].filter(leadsToBattery);
  const [near] = fed;
  if (near === undefined || fed.length > 1) return undefined;
  let at = { core, near, far: near === from ? to : from };
  let edge: Edge | undefined;
  const passed = new Set<Edge>();
  for (let here = near; ; ) {
    const others: Edge[] = (network.at.get(here.id) ?? []).filter(
      (one) => !passed.has(one) && !(one.is === 'core' && one.core === at.core),
    );
    [edge] = others;
    if (here.part.kind.behaviour.is === 'battery' || edge === undefined) return undefined;
    if (others.length > 1) return at;
    if (edge.is === 'contact' && edge.contact.protects) return undefined;
    passed.add(edge);
    const next = edge.from === here ? edge.to : edge.from;
    if (edge.is === 'core') at = { core: edge.core, near: next, far: here };
    here = next;
  }
}
