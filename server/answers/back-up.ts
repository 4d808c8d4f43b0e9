/**
 * Back-up protection: a device that breaks too little may stand behind another that breaks what can flow there. On every way
 * on which a battery drives the fault there must be one; what limits its own current asks for none.
 */
import type { Part, Terminal } from '../model/model.ts';
import type { ContactEdge } from '../model/network.ts';
import type { BreakingCapacity } from './clearing.ts';
import type { Installation } from './installation.ts';
import { isBattery } from './supplies.ts';

export interface BackUp {
  readonly part: Part;
  readonly pole: number;
}

/** None where a battery reaches the device without passing one that breaks the current. */
export function backUpOf(
  { wiring, supplies }: Installation,
  device: ContactEdge,
  through: { readonly backwardAmps: number; readonly forwardAmps: number },
  breaksAmps: number,
  capacityOf: (device: ContactEdge) => BreakingCapacity | undefined,
): BackUp[] {
  const zoneOf = (node: number) => wiring.zones.part[node] ?? -1;
  const own = wiring.wayOf[device.index];
  const ways = wiring.ways.filter((way) => (way.device || way.oneWay) && way !== own);
  const atBattery = new Set(
    supplies.filter(isBattery).flatMap(({ plus, minus }) => [plus, minus].map((end) => zoneOf(wiring.node(end)))),
  );
  const guards = new Set<BackUp>();
  /** From the side that drives the fault back to the batteries; false where one is reached. */
  const guarded = (end: Terminal, amps: number): boolean => {
    const reached = new Set([zoneOf(wiring.node(end))]);
    const breaking: { readonly next: number; readonly devices: readonly BackUp[] }[] = [];
    for (const zone of reached) {
      if (atBattery.has(zone)) return false;
      for (const way of ways) {
        const [a, b] = [zoneOf(way.a), zoneOf(way.b)];
        if ((a !== zone && b !== zone) || (way.oneWay && b !== zone)) continue;
        const next = a === zone ? b : a;
        const devices = way.edges.flatMap((edge) =>
          way.device && edge.is === 'contact' && (capacityOf(edge)?.amps ?? 0) >= amps
            ? [{ part: edge.part, pole: edge.contact.pole }]
            : [],
        );
        if (devices.length < way.edges.length) reached.add(next);
        else breaking.push({ next, devices });
      }
    }
    // Others that could break it lead to no battery: they guard nothing.
    const driven = new Set(atBattery);
    for (const zone of driven)
      for (const { a, b } of ways)
        for (const [near, far] of [
          [zoneOf(a), zoneOf(b)],
          [zoneOf(b), zoneOf(a)],
        ] as const)
          if (near === zone && !reached.has(far)) driven.add(far);
    for (const { next, devices } of breaking) if (driven.has(next)) for (const one of devices) guards.add(one);
    return true;
  };
  const sides = [
    { end: device.from, amps: through.forwardAmps },
    { end: device.to, amps: through.backwardAmps },
  ].filter(({ amps }) => amps > breaksAmps);
  return sides.every(({ end, amps }) => guarded(end, amps)) ? [...guards] : [];
}
