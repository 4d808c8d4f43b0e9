/** Lengths of conductor from a battery's positive terminal to the first device on every way out of it. */
import type { Terminal } from '../model/model.ts';
import type { Edge } from '../model/network.ts';
import type { UnfusedLength } from './answers.ts';
import type { Installation } from './installation.ts';
import { pathsFrom } from './paths.ts';
import { isBattery } from './supplies.ts';

/** In order of supplies, then of devices by distance; a device that is met from two sides is told by the nearer. */
export function unfusedLengths({ network, supplies, wiring }: Installation): UnfusedLength[] {
  const lengths: UnfusedLength[] = [];
  const ends = (edge: Edge) => edge.is === 'contact' && edge.contact.protects;
  const metresOf = (edge: Edge, at: Terminal) =>
    ends(edge) || isBackwards(edge, at) ? undefined : edge.is === 'core' ? (edge.core.run.lengthMetres ?? 0) : 0;
  for (const supply of supplies) {
    if (!isBattery(supply)) continue;
    const paths = pathsFrom(supply.plus, network, wiring.innerAt, metresOf);
    const met = new Set<Edge>();
    for (const terminal of paths.reached) {
      for (const edge of network.at.get(terminal.id) ?? []) {
        if (!ends(edge) || edge.is !== 'contact' || met.has(edge)) continue;
        met.add(edge);
        const cores = paths.edges(terminal).flatMap((way) => (way.is === 'core' ? [way.core] : []));
        lengths.push({
          battery: supply.part,
          device: edge.part,
          pole: edge.contact.pole,
          end: terminal,
          cores,
          metres: paths.cost(terminal) ?? 0,
        });
      }
    }
  }
  return lengths;
}

/** No battery drives anything through a diode from behind. */
function isBackwards(edge: Edge, at: Terminal): boolean {
  return edge.is === 'contact' && edge.contact.operated === 'diode' && edge.to === at;
}
