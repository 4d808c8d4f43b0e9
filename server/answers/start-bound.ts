/**
 * No less than stands across a load while it starts, told without solving the case once more: the battery less what all
 * currents together lose over the way to that load, with the copper as hot as any. A current drawn elsewhere takes no more from
 * a load than one drawn at the load itself.
 */
import { keptWith } from '../model/lazily.ts';
import type { Terminal } from '../model/model.ts';
import type { Joint, Layout } from '../model/network.ts';
import { batteryOhms, batteryVolts } from './charging.ts';
import { faultContactsOf } from './fault-contacts.ts';
import type { Installation } from './installation.ts';
import { hottestCelsius, hottestShare } from './least-fault.ts';
import type { OperatingPoint } from './operating-points.ts';
import { outwardFrom } from './outward.ts';
import type { Draw, Port } from './ports.ts';
import { simplyFed } from './simply-fed.ts';

/** Currents that follow from what is left of the voltage may be so much more than they are without the start. */
const more = 1.02;

/**
 * In volt; undefined where a closer look is needed. `usual` is the case without the start, for design currents; `amps` what
 * the load takes when it starts.
 */
export function leastWhileStarting(
  installation: Installation,
  draw: Draw,
  amps: number,
  usual: OperatingPoint,
): number | undefined {
  const { layout, wiring, near, draws, sources } = installation;
  const { stated } = usual;
  if (!usual.converged || !isPlain(layout) || (stated.conductorsCelsius ?? 0) > hottestCelsius) return undefined;
  const partOf = (terminal: Terminal) => wiring.whole.part[wiring.node(terminal)] as number;
  const [out, back] = [partOf(draw.plus), partOf(draw.minus)];
  const fed = simplyFed(layout)[out];
  const [battery, second] = fed?.batteries ?? [];
  if (fed?.other !== back || battery === undefined || second !== undefined) return undefined;
  if (partOf(battery.plus) !== out || !usual.sourceAmps.has(battery)) return undefined;
  if (wiring.inner.some(({ is, from, to }) => is === 'load-output' && [partOf(from), partOf(to)].includes(out)))
    return undefined;
  const ohmsOf = (start: Terminal, end: Terminal): number | undefined => {
    const ways = outwardFrom(layout, start, true);
    let ohms = 0;
    for (let at = end.index; at !== start.index; at = ways.cameFrom[at] as number) {
      if (at === -1) return undefined;
      const joint = layout.joints[ways.joint[at] as number];
      if (joint === undefined) continue;
      ohms += near[joint.index] as number;
      if (joint.is !== 'contact') continue;
      if (joint.contact.operated === 'coil' || usual.connections.closed[joint.index] !== true) return undefined;
    }
    return hottestShare * ohms;
  };
  const [there, home] = [ohmsOf(battery.plus, draw.plus), ohmsOf(battery.minus, draw.minus)];
  if (there === undefined || home === undefined) return undefined;
  const whole = batteryOhms(battery.part) + there + home;
  /** What a current takes from the load for each ampere: of one that does not pass the battery what lies on its side of it. */
  const ohmsAcross = ({ plus, minus }: Port): number => {
    const ends = [partOf(plus), partOf(minus)];
    const [onOut, onBack] = [ends.includes(out), ends.includes(back)];
    return onOut && onBack ? whole : onOut ? there : onBack ? home : 0;
  };
  let lost = 0;
  for (const other of draws) if (other !== draw) lost += Math.abs(usual.drawAmps.get(other) ?? 0) * ohmsAcross(other);
  // What feeds the two parts as the battery does takes nothing.
  for (const source of sources)
    if (partOf(source.plus) !== out || partOf(source.minus) !== back)
      lost += Math.abs(usual.sourceAmps.get(source) ?? 0) * ohmsAcross(source);
  return batteryVolts(battery.part, stated) - (amps * whole + more * lost);
}

/** Whether no contact closes at rest and there is no diode: then a lower voltage adds no load and takes no way. */
const isPlain = keptWith((layout: Layout): boolean => {
  const isDiode = (joint: Joint) => joint.is === 'contact' && joint.contact.operated === 'diode';
  return !faultContactsOf(layout).changing() && !layout.joints.some(isDiode);
});
