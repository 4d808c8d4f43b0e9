/** Short circuits in a line or two: what would flow, what stops it and how fast, what the cable bears. */
import type { Answers, CoreFigures } from '../../answers/answers.ts';
import type { Clearing } from '../../answers/clearing.ts';
import type { CoreFault } from '../../answers/fault-answers.ts';
import type { Part, Terminal } from '../../model/model.ts';
import { amps, ampsSquared, clearingTime, listed } from '../../reports/figures.ts';
import { deviceName } from '../../rules/words.ts';
import { tellStatus } from '../../tables/table.ts';
import { type Block, line } from '../markup.ts';

export function terminalFaultLines({ faults }: Answers, terminal: Terminal): Block[] {
  const fault = faults.ofTerminal(terminal);
  if (fault?.greatestAmps === undefined) return [];
  const least = fault.leastAmps === undefined ? '' : `, at least ${amps(fault.leastAmps)}${to(fault.leastTo)}`;
  return [line(`Short circuit here: at most ${amps(fault.greatestAmps)}${to(fault.greatestTo)}${least}.`)];
}

function to(terminal: Terminal | undefined): string {
  return terminal === undefined ? '' : ` to ${terminal.id}`;
}

export function deviceFaultLines({ faults }: Answers, part: Part, pole: number): Block[] {
  const fault = faults.ofDevice(part, pole);
  if (fault === undefined || !(fault.greatestAmps > 0)) return [];
  const { greatestAmps, leastAmps, leastAt, breaks, clears, greatestSeconds, leastSeconds } = fault;
  const able =
    breaks === undefined
      ? '; what it breaks is not known'
      : `; it breaks ${amps(breaks.amps)}${breaks.from === 'stated' ? '' : ` as usual for its kind (${tellStatus(breaks.from.status)})`}`;
  const most = `Short circuit: at most ${amps(greatestAmps)} through it${within(greatestSeconds)}${able}.`;
  const least =
    leastAmps === undefined || leastAt === undefined
      ? ''
      : ` At least ${amps(leastAmps)}, at the far end of ${leastAt.run.name}: ${clearing(clears, leastSeconds)}.`;
  return [line(`${most}${least}`)];
}

function within(time: number | undefined): string {
  return time === undefined ? '' : `, cleared within ${clearingTime(time)}`;
}

function clearing(clears: Clearing, time: number | undefined): string {
  switch (clears) {
    case 'surely':
      return time === undefined ? 'it clears that' : `cleared within ${clearingTime(time)}`;
    case 'never':
      return 'it never clears that';
    case 'not surely':
      return 'it is not sure to clear that';
    default:
      return 'nothing tells how fast it clears that';
  }
}

/** The core that fares worst stands for its run. */
export function runFaultLines({ faults }: Answers, figures: readonly CoreFigures[]): Block[] {
  const known = figures
    .flatMap(({ core }) => faults.ofCore(core) ?? [])
    .filter(({ leastAmps }) => leastAmps !== undefined);
  const part = ({ letThrough = 0, withstand = 1 }: CoreFault) => letThrough / withstand;
  const [worst] = [...known].sort((a, b) => part(b) - part(a) || (a.leastAmps ?? 0) - (b.leastAmps ?? 0));
  if (worst === undefined) return [];
  const { devices, letThrough, withstand, k, leastAmps, clears, seconds: time } = worst;
  const by = listed(devices.map(({ part: own, pole }) => deviceName(own, pole)));
  const told =
    by === ''
      ? ''
      : letThrough === undefined
        ? ` (${by}: ${clearing(clears, time)})`
        : `, cleared by ${by} within ${clearingTime(time ?? 0)}, which lets ${ampsSquared(letThrough)} through at most`;
  const bears = withstand === undefined ? '' : ` It bears ${ampsSquared(withstand)} (k²S², k ${Math.round(k ?? 0)}).`;
  return [line(`Short circuit at its far end: at least ${amps(leastAmps)}${told}.${bears}`)];
}
