/** Devices that stand alone between two batteries: what they part is driven from both sides, and they guard one side of each. */
import type { LoneDevice, UnfusedLength } from './answers.ts';
import { groupBy } from './grouping.ts';
import type { Installation } from './installation.ts';

/** In the order in which batteries meet them. Ways past the device make one side of both: then it parts nothing. */
export function loneDevices({ wiring }: Installation, unfused: readonly UnfusedLength[]): LoneDevice[] {
  const found: LoneDevice[] = [];
  const zoneOf = ({ end }: UnfusedLength) => wiring.zones.part[wiring.node(end)] ?? -1;
  const byMetres = (one: UnfusedLength, other: UnfusedLength) =>
    one.metres - other.metres || (one.battery.name < other.battery.name ? -1 : 1);
  for (const lengths of groupBy(unfused, ({ device, pole }) => `${pole} ${device.name}`).values()) {
    const nearest = [...groupBy(lengths, zoneOf).values()].flatMap((side) => [...side].sort(byMetres).slice(0, 1));
    const [near, far] = nearest.sort(byMetres);
    if (near === undefined || far === undefined || near.battery === far.battery) continue;
    found.push({ device: near.device, pole: near.pole, near, far });
  }
  return found;
}
