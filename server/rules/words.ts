/** Words and figures of messages, the same everywhere. */
import { plainNumber } from '../../grammar/units.ts';
import type { Answers, ContactFigures, Protection, ShortCurrent } from '../answers/answers.ts';
import type { Model, Part, Run } from '../model/model.ts';
import type { Capacity } from '../physics/limits/limit-set.ts';
import { cite, isSure, tellStatus } from '../tables/table.ts';

/** Ampere for people: one decimal below 100, none above. */
export function amps(value: number): string {
  return `${plainNumber(value, Math.abs(value) < 99.95 ? 1 : 0)} A`;
}

/** Kiloampere from a thousand on: the currents of short circuits. */
export function kiloamps(value: number): string {
  return value < 1000 ? amps(value) : `${plainNumber(value / 1000, 2)} kA`;
}

/** I²t for people: always of the same unit, so that the larger reads larger; `16.2 million A²s`. */
export function ampsSquared(value: number): string {
  const [shown, unit] = value < 1e6 ? [value, 'A²s'] : [value / 1e6, 'million A²s'];
  return `${Number(shown.toPrecision(3))} ${unit}`;
}

export function volts(value: number): string {
  return `${plainNumber(value, 2)} V`;
}

export function percent(value: number): string {
  return `${plainNumber(value, 1)} %`;
}

/** How soon a device clears; times of fuses are not known better than to two figures: `0.35 s`, `12 ms`, `7.6 µs`. */
export function clearingTime(value: number): string {
  const [shown, unit] =
    value >= 0.1 || value === 0 ? [value, 's'] : value >= 1e-5 ? [value * 1e3, 'ms'] : [value * 1e6, 'µs'];
  return `${Number(shown.toPrecision(2))} ${unit}`;
}

/** `F1` or `F1 and F2`. */
export function names(parts: readonly { readonly name: string }[]): string {
  const list = [...new Set(parts.map(({ name }) => name))];
  return list.length <= 1 ? (list[0] ?? '') : `${list.slice(0, -1).join(', ')} and ${list.at(-1)}`;
}

/** The same of many: so many are named and the rest counted. */
export function someNames(parts: readonly { readonly name: string }[], most = 4): string {
  if (parts.length <= most) return names(parts);
  const first = parts.slice(0, most - 1).map(({ name }) => name);
  return `${first.join(', ')} and ${parts.length - first.length} others`;
}

/** What makes up a protection: `F1`, `F1 and the output of U1`. */
export function protectors(protection: Protection): string {
  const words = protectorWords(protection);
  return words.length <= 1 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

/** `W2 is protected at 30 A (F1)`, `W2 is protected at 45 A (F1 and the output of U1)`: what the sum is made of. */
export function protectedAt(run: string, needed: string, protection: Protection): string {
  return `${run} is protected at ${needed} (${protectors(protection)})`;
}

function protectorWords({ devices, limitedSources }: Protection): string[] {
  return [
    ...new Set([
      ...devices.map(({ part, pole }) => deviceName(part, pole)),
      ...limitedSources.map(({ part }) => `the output of ${part.name}`),
    ]),
  ];
}

/** `4 s`, `1.5 min`, `0.35 s`: two figures, since nothing that takes time is known better. */
export function seconds(value: number): string {
  if (value >= 7200) return `${plainNumber(value / 3600, value < 36_000 ? 1 : 0)} h`;
  if (value >= 120) return `${plainNumber(value / 60, value < 600 ? 1 : 0)} min`;
  return `${Number(value.toPrecision(value >= 99.5 ? 3 : 2))} s`;
}

/** `for 4 s while HORN runs`, `for 0.5 s when PUMP starts`. */
export function forTime({ is, loads, seconds: lasts }: ShortCurrent): string {
  const who = loads.length <= 3 ? names(loads) : `${loads.length} loads`;
  const does = { runs: `while ${who} run`, starts: `when ${who} start`, cranks: `while ${who} crank` }[is];
  return `${lasts === undefined ? '' : `for ${seconds(lasts)} `}${does}${loads.length === 1 ? 's' : ''}`;
}

/** A way of a fusebox is named with its number. */
export function deviceName(part: Part, pole: number): string {
  return part.kind.word === 'fusebox' ? `${part.name}:${pole}` : part.name;
}

/** Lengths in the unit the run was written in. */
export function length(metres: number, run: Run | undefined): string {
  const atom = run?.facts.slot('length')?.atom;
  const unit = atom?.kind === 'quantity' ? atom.unit : 'm';
  if (unit === 'ft' || unit === 'inch') return `${plainNumber(metres / (12 * 0.0254), 1)} ft`;
  return `${plainNumber(metres, 2)} m`;
}

export type Degrees = '°C' | '°F';

/** The unit that the spec's temperatures are said in. */
export function degreesOf({ system, locations }: Model): Degrees {
  let said = system.facts?.slot('ambient')?.atom;
  if (said === undefined)
    for (const { facts } of locations.values()) {
      said = facts.slot('temperature')?.atom;
      if (said !== undefined) break;
    }
  return said?.kind === 'quantity' && said.unit === '°F' ? '°F' : '°C';
}

export function inDegrees(celsius: number, degrees: Degrees): string {
  return degrees === '°F' ? `${plainNumber((celsius * 9) / 5 + 32, 0)} °F` : `${plainNumber(celsius, 1)} °C`;
}

/** Temperature in the unit the spec's places use. */
export function temperature(celsius: number, model: Model): string {
  return inDegrees(celsius, degreesOf(model));
}

/** The conditions that made a capacity, between the size and "is good for 21 A": `at 55 °C in LOFT, bunched with 5 others,`. */
export function conditions(capacity: Capacity, run: Run, model: Model): string {
  const { place } = capacity;
  const words = [`at ${temperature(capacity.ambientCelsius, model)}${place === undefined ? '' : ` in ${place}`}`];
  const { count, leftOut } = capacity.bunch ?? { count: run.bunchedWith, leftOut: [] };
  if (count + leftOut.length > 0) words.push(bunched(count, leftOut));
  if (run.inConduit) words.push('in conduit');
  return words.length === 1 ? (words[0] ?? '') : `${words.join(', ')},`;
}

/** `bunched with 3 others, not counting W7 and W8, which carry little`. */
function bunched(count: number, leftOut: readonly string[]): string {
  const counted = count === 0 ? 'alone' : `bunched with ${count} other${count === 1 ? '' : 's'}`;
  if (leftOut.length === 0) return counted;
  const names = leftOut.length === 1 ? leftOut[0] : `${leftOut.slice(0, -1).join(', ')} and ${leftOut.at(-1)}`;
  return `${counted}, not counting ${names}, which carr${leftOut.length === 1 ? 'ies' : 'y'} little`;
}

/** `1.25 by IEC 62548, not checked against the printed standard`: what short-circuit currents of panels are multiplied by, and where that comes from. */
export function panelFactor({ limits: { pvFactor } }: Answers): string {
  const [publication] = pvFactor.source.citation.split(':');
  return `${pvFactor.factor} by ${publication}${isSure(pvFactor.source) ? '' : `, ${tellStatus(pvFactor.source.status)}`}`;
}

export function sources(capacity: Capacity): string {
  return capacity.sources.map(cite).join('; ');
}

/**
 * `LAMP can take 5 A` of what a device feeds; `60 A can flow through it` where it is an alternator or charger that gives more
 * than the loads beyond take.
 */
export function takes({ feeds, feedsAmps }: ContactFigures, designAmps: number): string {
  const steady = feeds.filter(({ facts }) => !facts.says('cranking'));
  const converts = feeds.some(({ kind }) => kind.behaviour.is === 'converter');
  if (!converts && (steady.length < feeds.length || designAmps > feedsAmps * (1 + 1e-6)))
    return `${amps(designAmps)} can flow through it`;
  const who = steady.length === 0 ? 'what it feeds' : steady.length <= 3 ? names(steady) : `${steady.length} loads`;
  return `${who} can take ${amps(designAmps)}`;
}
