/** Nothing can be compared without the simulator: on a person's machine that is said and let be, in continuous integration it fails. */
import { rmSync } from 'node:fs';
import { simulatorVersion } from '../physics/simulator.ts';

export default function setup(): void {
  // A report of an earlier run must not pass for one of this.
  rmSync(new URL('../../out/oracle-report.json', import.meta.url), { force: true });
  if (simulatorVersion() !== undefined) return;
  const missing = 'The circuit simulator ngspice is not installed, so the solver was compared with nothing';
  if (process.env.CI === 'true') throw new Error(`${missing}: install it (apt-get install ngspice).`);
  console.log(`${missing}; install it (apt-get install ngspice) and run this again.`);
  process.exit(0);
}
