/** Batteries that a source charges as the contacts of a case stand, and the voltage that it charges them to. */
import type { Case, Part } from '../model/model.ts';
import { defaultInternalOhms, electromotiveForce } from '../tables/battery.ts';
import { typicalChargeVolts } from '../tables/charge-voltage.ts';
import type { Connections } from './contacts-in-case.ts';
import type { Installation } from './installation.ts';
import type { Port } from './ports.ts';
import { isBattery, type Supply } from './supplies.ts';

/** Electromotive force of a battery: said in volts, by its charge, else its stated voltage. */
export function batteryVolts(part: Part, stated: Case): number {
  const nominal = part.facts.number('voltage') ?? 12;
  const said = stated.voltsOf.get(part.name);
  if (said !== undefined) return said;
  const charge = stated.chargeOf.get(part.name) ?? stated.charge;
  return charge === undefined ? nominal : electromotiveForce(chemistry(part), nominal, charge);
}

/** Internal resistance: as stated, else a default by chemistry and capacity; never 0. */
export function batteryOhms(part: Part): number {
  const stated = part.facts.number('internal');
  if (stated !== undefined && stated > 0) return stated;
  const coulombs = part.facts.number('capacity');
  return defaultInternalOhms(
    chemistry(part),
    part.facts.number('voltage') ?? 12,
    coulombs === undefined ? undefined : coulombs / 3600,
  );
}

function chemistry(part: Part): string {
  return part.facts.word('chemistry') ?? 'lead-acid';
}

/** The battery that a source charges as the contacts stand: the nearest. */
export function batteryReached(
  port: Port,
  installation: Installation,
  stated: Case,
  { joined }: Connections,
): Supply | undefined {
  return installation.feeder(
    port,
    (supply) =>
      isBattery(supply) &&
      supply.sources.every(({ part }) => stated.on.get(part.name) !== false) &&
      joined(supply.plus, port.plus) &&
      joined(supply.minus, port.minus),
  );
}

/** Voltage that a charger or controller holds at its terminals: its own, else what the batteries ask for, else typical. */
export function chargeVoltsOf(part: Part, battery: Supply): number {
  const own = part.facts.number('charge-voltage');
  return own !== undefined && own > 0 ? own : askedChargeVolts(battery);
}

/** Charging voltage that batteries in series ask for together, else typical of their chemistry. */
export function askedChargeVolts({ sources }: Supply): number {
  return sources.reduce((sum, { part }) => {
    const asked = part.facts.number('charge-voltage');
    const nominal = part.facts.number('voltage') ?? 12;
    return sum + (asked !== undefined && asked > 0 ? asked : typicalChargeVolts(chemistry(part), nominal));
  }, 0);
}
