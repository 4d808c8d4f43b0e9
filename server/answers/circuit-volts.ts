/** The voltage that a device or switch may have to part: of the supplies that feed its circuit, or of the panels on it. */

import { keptWhile, lazily, lazilyEach } from '../model/lazily.ts';
import type { Part, Terminal } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import { type Arrangement, arrangementOf } from './arrangement.ts';
import type { Installation } from './installation.ts';
import type { StringAnswers, StringFigures } from './strings.ts';
import { isBattery, type Supply } from './supplies.ts';
import type { Way } from './wiring.ts';

export interface SuppliedVolts {
  /** What makes it up: of batteries in series all of them. */
  readonly by: readonly Part[];
  readonly volts: number;
}

export interface CircuitVolts {
  /** Nominal of the supply with the highest; undefined where none feeds it. */
  readonly nominal: SuppliedVolts | undefined;
  /** The highest that something which charges it states. */
  readonly charging: SuppliedVolts | undefined;
  /** Panels on it, where it lies on their side: those with the highest voltage, open and cold. */
  readonly panels: StringFigures | undefined;
}

interface OfParts {
  onPanels(part: number): CircuitVolts;
  elsewhere(part: number): CircuitVolts;
}

const kept = keptWhile<Layout, OfParts>();

/** Looks it up for a way; all ways of a connected part have the same, while strings and the voltages of supplies are what they were. */
export function circuitVolts(
  installation: Installation,
  strings: () => StringAnswers,
): (way: Way, onPanelSide: boolean) => CircuitVolts {
  const { layout, wiring, supplies, nominalOf } = installation;
  const { part } = wiring.whole;
  const ofParts = lazily(() => {
    const [answers, nominal] = [strings(), supplies.map(nominalOf)];
    return kept(layout, [answers, ...nominal], () => volts(layout, answers.strings, nominal));
  });
  return ({ a }, onPanelSide) => (onPanelSide ? ofParts().onPanels : ofParts().elsewhere)(part[a] ?? -1);
}

/** `nominal` by the supplies, in their order. */
function volts(layout: Layout, strings: readonly StringFigures[], nominal: readonly number[]): OfParts {
  const arrangement = arrangementOf(layout);
  const told = (onPanelSide: boolean) =>
    lazilyEach((own: number) => voltsOn(own, arrangement, nominal, strings, onPanelSide));
  return { onPanels: told(true), elsewhere: told(false) };
}

function voltsOn(
  own: number,
  { wiring, supplies }: Arrangement,
  nominals: readonly number[],
  strings: readonly StringFigures[],
  onPanelSide: boolean,
): CircuitVolts {
  const isHere = (terminal: Terminal) => wiring.whole.part[wiring.node(terminal)] === own;
  if (onPanelSide) {
    const here = strings.filter(({ panels }) => panels.some(({ terminals }) => terminals.some(isHere)));
    const volts = ({ coldVolts, openVolts }: StringFigures) => coldVolts ?? openVolts;
    return {
      nominal: undefined,
      charging: undefined,
      panels: highest(here, volts),
    };
  }
  const feeding = supplies.filter(
    ({ plus, minus, sources }) =>
      isHere(plus) || isHere(minus) || sources.some((source) => isHere(source.plus) || isHere(source.minus)),
  );
  // Of equals a battery is named: others take their voltage from it.
  feeding.sort((a, b) => Number(isBattery(b)) - Number(isBattery(a)));
  const nominal = feeding.map((supply) => ({ by: partsOf(supply), volts: nominals[supplies.indexOf(supply)] ?? 0 }));
  const charging = feeding.flatMap((supply) => {
    const volts = statedCharge(supply);
    return volts === undefined ? [] : [{ by: partsOf(supply), volts }];
  });
  return {
    nominal: highest(nominal, ({ volts }) => volts),
    charging: highest(charging, ({ volts }) => volts),
    panels: undefined,
  };
}

function partsOf({ sources }: Supply): Part[] {
  return sources.map(({ part }) => part);
}

/** What a source holds when it charges, as it says; of batteries in series all must say. */
function statedCharge(supply: Supply): number | undefined {
  const { sources } = supply;
  if (isBattery(supply)) {
    const volts = sources.map(({ part }) => part.facts.number('charge-voltage'));
    return volts.reduce((sum, one) => (sum === undefined || one === undefined ? undefined : sum + one), 0);
  }
  const [source] = sources;
  return source?.is === 'alternator'
    ? source.part.facts.number('voltage')
    : source?.part.facts.number('charge-voltage');
}

function highest<T>(items: readonly T[], volts: (item: T) => number): T | undefined {
  return items.reduce<T | undefined>(
    (best, one) => (best === undefined || volts(one) > volts(best) ? one : best),
    undefined,
  );
}
