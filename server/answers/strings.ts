/**
 * Strings of panels as the wiring makes them: what they reach in the greatest cold and heat, and what the others in parallel
 * can drive backwards through one that has failed. Contacts count as closed.
 */
import { keptWhile } from '../model/lazily.ts';
import type { Part } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import { cellCelsius, standardWattsPerSquareMetre } from '../physics/cell-temperature.ts';
import { type PanelCurve, panelCurve } from '../physics/panel-curve.ts';
import { greatestPower } from '../physics/panel-strings.ts';
import { typicalNoct } from '../tables/photovoltaic.ts';
import { chargeVoltsOf } from './charging.ts';
import { defaultAmbientCelsius } from './conditions.ts';
import type { Installation } from './installation.ts';
import { type PanelString, stringsAt } from './panel-side.ts';
import { coldVolts, hotVolts, pointsOf } from './panels.ts';
import type { Draw } from './ports.ts';
import { isBattery, type Supply } from './supplies.ts';

export interface StringFigures {
  /** From its minus to its plus. */
  readonly panels: readonly Part[];
  /** The controller or charger that it feeds; undefined where it feeds none. */
  readonly controller: Part | undefined;
  /** Open-circuit voltage at 25 °C. */
  readonly openVolts: number;
  /** The same at the system's coldest; undefined where that is not said. */
  readonly coldVolts: number | undefined;
  /** Panels whose drift is not stated, so that a table stands in for it. */
  readonly byTable: readonly Part[];
  /** Temperature of the hottest of its cells, and the string's voltage at greatest power with them. */
  readonly hotCelsius: number;
  readonly hotVmp: number;
  /** Sums of its panels' voltages and the least of their currents at greatest power, 25 °C. */
  readonly vmp: number;
  readonly imp: number;
  readonly shortCircuitAmps: number;
  /** What the others in parallel can drive backwards through it. */
  readonly reverseAmps: number;
  /** Greatest powers of its panels each by itself, and of the string by their curves; 25 °C, without cables. */
  readonly panelWatts: number;
  readonly watts: number;
}

/** Panel side of a controller or charger: the strings that feed it. */
export interface PanelInput {
  readonly controller: Part;
  readonly strings: readonly StringFigures[];
  /** The highest of its strings' at the system's coldest. */
  readonly coldVolts: number | undefined;
  readonly mostVolts: number | undefined;
  /** Sum of its strings' short-circuit currents. */
  readonly shortCircuitAmps: number;
  readonly mostAmps: number | undefined;
  readonly mostWatts: number | undefined;
  /** Greatest power of all its strings at one voltage, by their curves. */
  readonly watts: number;
  /** Charging voltage of what it charges; undefined where it charges nothing. */
  readonly chargeVolts: number | undefined;
  readonly chargeFrom: 'stated' | 'typical';
}

export interface StringAnswers {
  readonly strings: readonly StringFigures[];
  readonly inputs: readonly PanelInput[];
}

const kept = keptWhile<Layout, StringAnswers>();

/** The same ones while their panels, what they feed and the temperatures of the system are. */
export function stringAnswers(installation: Installation): StringAnswers {
  const { layout, draws, sources, model } = installation;
  const { coldestCelsius, hottestCelsius, ambientCelsius } = model.system;
  const inputs = draws.filter(({ is }) => is === 'pv').sort((one, other) => (one.part.name < other.part.name ? -1 : 1));
  /** What stands beside the output of each panel side. */
  const feeders = inputs.map(({ part }) => {
    const source = sources.find((one) => one.part === part && one.is === 'output');
    return source === undefined ? undefined : installation.usualFeeder(source);
  });
  return kept(layout, [coldestCelsius, hottestCelsius, ambientCelsius, ...feeders], () =>
    answersOf(installation, inputs, feeders),
  );
}

function answersOf(
  installation: Installation,
  inputs: readonly Draw[],
  feeders: readonly (Supply | undefined)[],
): StringAnswers {
  const { wiring, strings } = installation;
  const joined = (a: Parameters<typeof wiring.node>[0], b: typeof a) =>
    wiring.whole.part[wiring.node(a)] === wiring.whole.part[wiring.node(b)];
  const feeds = new Map<PanelString, Draw>();
  for (const draw of inputs)
    for (const one of stringsAt(draw, strings, joined)) if (!feeds.has(one)) feeds.set(one, draw);
  const figures = new Map(
    strings.map((one) => {
      const parallel = strings.filter(
        (other) => other !== one && joined(one.plus, other.plus) && joined(one.minus, other.minus),
      );
      return [one, figuresOf(installation, one, feeds.get(one)?.part, parallel)] as const;
    }),
  );
  return {
    strings: [...figures.values()],
    inputs: inputs.map((draw, i) =>
      inputOf(
        draw,
        feeders[i],
        [...figures].filter(([one]) => feeds.get(one) === draw).map(([, string]) => string),
      ),
    ),
  };
}

function figuresOf(
  { model }: Installation,
  { panels, shortCircuitAmps }: PanelString,
  controller: Part | undefined,
  parallel: readonly PanelString[],
): StringFigures {
  const parts = panels.map(({ part }) => part);
  const { coldestCelsius } = model.system;
  const cold = coldestCelsius === undefined ? undefined : parts.map((part) => coldVolts(part, coldestCelsius));
  const cells = parts.map((part) => hottestCells(part, model.system));
  return {
    panels: parts,
    controller,
    openVolts: sum(parts.map((part) => pointsOf(part).voc)),
    coldVolts: cold === undefined ? undefined : sum(cold.map(({ volts }) => volts)),
    byTable: parts.filter((_, i) => cold?.[i]?.byTable),
    hotCelsius: Math.max(...cells),
    hotVmp: sum(parts.map((part, i) => hotVolts(part, cells[i] ?? 0))),
    vmp: sum(parts.map((part) => pointsOf(part).vmp)),
    imp: Math.min(...parts.map((part) => pointsOf(part).imp)),
    shortCircuitAmps,
    reverseAmps: sum(parallel.map((other) => other.shortCircuitAmps)),
    panelWatts: sum(parts.map((part) => pointsOf(part).vmp * pointsOf(part).imp)),
    watts: wattsOf([parts]),
  };
}

/** What strings give at most at one voltage, at 25 °C. Like panels share their curve, which then is one of a single hump. */
function wattsOf(strings: readonly (readonly Part[])[]): number {
  const known = new Map<string, PanelCurve | undefined>();
  const curves = strings.map((panels) =>
    panels.flatMap((part) => {
      const points = pointsOf(part);
      const key = Object.values(points).join(' ');
      if (!known.has(key)) known.set(key, panelCurve(points));
      return known.get(key) ?? [];
    }),
  );
  const most = greatestPower(
    curves.filter(({ length }) => length > 0).map((panels) => ({ panels, ohms: 0, lostVolts: 0 })),
    0,
  );
  return most.volts * most.amps;
}

/** Cells at their hottest: as hot as the system says it gets, or what full sun makes of its ambient, if that is more. */
function hottestCells({ facts }: Part, { hottestCelsius, ambientCelsius }: Installation['model']['system']): number {
  const inSun = cellCelsius(
    ambientCelsius ?? defaultAmbientCelsius,
    facts.number('noct') ?? typicalNoct,
    standardWattsPerSquareMetre,
  );
  return Math.max(inSun, hottestCelsius ?? inSun);
}

function inputOf({ part }: Draw, battery: Supply | undefined, strings: readonly StringFigures[]): PanelInput {
  const { facts } = part;
  const charged = battery !== undefined && isBattery(battery) ? battery : undefined;
  const colds = strings.map((string) => string.coldVolts).filter((volts) => volts !== undefined);
  const stated =
    facts.says('charge-voltage') || charged?.sources.every((one) => one.part.facts.says('charge-voltage')) === true;
  return {
    controller: part,
    strings,
    coldVolts: colds.length === 0 ? undefined : Math.max(...colds),
    mostVolts: facts.number('pv', 'voltage'),
    shortCircuitAmps: sum(strings.map(({ shortCircuitAmps }) => shortCircuitAmps)),
    mostAmps: facts.number('pv', 'current'),
    mostWatts: facts.number('pv', 'power'),
    watts: wattsOf(strings.map(({ panels }) => panels)),
    chargeVolts: charged === undefined ? undefined : chargeVoltsOf(part, charged),
    chargeFrom: stated ? 'stated' : 'typical',
  };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
