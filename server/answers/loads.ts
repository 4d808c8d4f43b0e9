/** Loads: which source feeds each, by which cores out and back, and how much is lost on the way. */
import type { Core, Terminal } from '../model/model.ts';
import type { Edge, Network } from '../model/network.ts';
import type { LoadFigures } from './answers.ts';
import type { OperatingPoint } from './operating-point.ts';
import { type Draw, designDraw, type Source } from './supplies.ts';
import type { Topology } from './topology.ts';

/** The source that feeds a draw: a battery first by name in its connected part, else the first of another kind. */
export function feederOf(draw: Draw, sources: readonly Source[], topology: Topology): Source | undefined {
  const part = (terminal: Terminal) => topology.part[topology.of(terminal)];
  const here = sources.filter(({ plus, minus, part: own }) => part(plus) === part(draw.plus) && part(minus) === part(draw.minus) && own !== draw.part);
  const batteries = here.filter(({ part: own }) => own.kind.word === 'battery').sort((a, b) => (a.part.name < b.part.name ? -1 : 1));
  return batteries[0] ?? here.find(({ part: own }) => own.kind.word !== 'panel');
}

/** Fewest edges from one terminal to another; the cores on that way. */
export function wayBetween(network: Network, from: Terminal, to: Terminal): readonly Core[] {
  const via = new Map<string, { edge: Edge; back: Terminal }>();
  const queue = [from];
  const seen = new Set([from.id]);
  for (const terminal of queue) {
    if (terminal === to) break;
    for (const edge of network.at.get(terminal.id) ?? []) {
      const next = edge.from === terminal ? edge.to : edge.from;
      if (seen.has(next.id)) continue;
      seen.add(next.id);
      via.set(next.id, { edge, back: terminal });
      queue.push(next);
    }
  }
  const cores: Core[] = [];
  let at: Terminal | undefined = to;
  while (at !== undefined && at !== from) {
    const step: { edge: Edge; back: Terminal } | undefined = via.get(at.id);
    if (step === undefined) return [];
    if (step.edge.is === 'core') cores.unshift(step.edge.core);
    at = step.back;
  }
  return cores;
}

/** Drop of a draw in a case: the source's volts less its own, in volt. */
export function dropOf(draw: Draw, source: Source, point: OperatingPoint): number {
  const across = (plus: Terminal, minus: Terminal) => point.voltsAt(plus) - point.voltsAt(minus);
  return across(source.plus, source.minus) - across(draw.plus, draw.minus);
}

export function loadFigures(
  draws: readonly Draw[],
  sources: readonly Source[],
  points: readonly OperatingPoint[],
  network: Network,
  topology: Topology,
  nominalOf: (source: Source | undefined) => number,
): Map<string, LoadFigures> {
  const figures = new Map<string, LoadFigures>();
  for (const draw of draws) {
    if (draw.is === 'coil') continue;
    const source = feederOf(draw, sources, topology);
    const supplyVolts = nominalOf(source);
    const cores = source === undefined ? [] : [...wayBetween(network, source.plus, draw.plus), ...wayBetween(network, draw.minus, source.minus)];
    let [dropVolts, worstCase, lowestVolts] = [0, '', Number.POSITIVE_INFINITY];
    for (const point of points) {
      if (source === undefined || !point.solution.converged || !((point.drawAmps.get(draw) ?? 0) > 0)) continue;
      const drop = dropOf(draw, source, point);
      if (drop > dropVolts || worstCase === '') {
        dropVolts = drop;
        worstCase = point.stated.name;
      }
      lowestVolts = Math.min(lowestVolts, point.voltsAt(draw.plus) - point.voltsAt(draw.minus));
    }
    const known = figures.get(draw.part.name);
    if (known !== undefined && known.dropVolts >= dropVolts) continue;
    figures.set(draw.part.name, {
      load: draw.part,
      source: source?.part,
      cores,
      dropVolts,
      dropPercent: supplyVolts > 0 ? (100 * dropVolts) / supplyVolts : 0,
      supplyVolts,
      worstCase,
      lowestVolts: Number.isFinite(lowestVolts) ? lowestVolts : 0,
      designAmps: designDraw(draw, supplyVolts),
    });
  }
  return figures;
}
