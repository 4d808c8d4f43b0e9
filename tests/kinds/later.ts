/**
 * Clauses that decide nothing yet, and the work that will use them. Until then they are read, checked for their form and
 * units, and shown on hover where the statement has a name. A clause that has come into use must be taken out here.
 */
const partsList = 'the parts list';
const energy = 'the energy balance of a day';
const voltages = 'rated voltages against the voltages of the system';

/** By `kind.clause`; `part.…` is said of every kind that may say it. */
export const later: Readonly<Record<string, string>> = {
  'part.torque': 'the fitting sheet',
  'part.reference': partsList,
  'part.price': partsList,

  'panel.tilt': energy,
  'panel.facing': energy,

  'inverter.hours': energy,

  'fuse.spares': partsList,

  'connector.voltage': voltages,
  'socket.hours': energy,

  'cable.reference': partsList,
  'cable.price': partsList,

  'system.site': energy,
};
