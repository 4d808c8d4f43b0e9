/** The set of limits that a spec is held to: a published one, or one of its own in stock. */
import type { Facts, Model, Stock } from '../model/model.ts';
import { conductorSize } from '../model/sizes.ts';
import type { LimitSet } from '../physics/limits/limit-set.ts';
import { type OwnCapacity, ownLimitSet } from '../physics/limits/own-set.ts';
import { limitSet, limitSets } from '../physics/limits/sets.ts';
import type { TableSource } from '../tables/table.ts';
import { physicalSize } from './conditions.ts';

/** As the spec says, else by the units that most of its cables are written in. */
export function limitsOf(model: Model): LimitSet {
  return limitsNamed(model.system.limits, model) ?? limitSet(undefined, mostlyGauges(model));
}

/** A published set, or one of the spec's own. */
export function limitsNamed(name: string | undefined, model: Model): LimitSet | undefined {
  const published = name === undefined ? undefined : limitSets.get(name);
  if (published !== undefined) return published;
  const stock = model.stocks.get(name ?? '');
  return stock?.kindWord === 'limit-set' ? ownSet(stock, mostlyGauges(model)) : undefined;
}

function mostlyGauges({ sizes }: Model): boolean {
  return sizes.gauges * 2 > sizes.stated;
}

/** By whether most sizes are gauges: a set is the same object as long as its stock is. */
const ownSets = new WeakMap<Stock, Map<boolean, LimitSet>>();

function ownSet(stock: Stock, mostlyAwg: boolean): LimitSet {
  const known = ownSets.get(stock) ?? new Map<boolean, LimitSet>();
  ownSets.set(stock, known);
  const set = known.get(mostlyAwg) ?? ownLimits(stock, mostlyAwg);
  known.set(mostlyAwg, set);
  return set;
}

function ownLimits({ name, title, facts }: Stock, mostlyAwg: boolean): LimitSet {
  const base = limitSet(facts.word('base'), mostlyAwg);
  const said = facts.word('source');
  const source: TableSource = {
    title: title ?? 'A set of limits of the spec’s own',
    citation: said === undefined || said.trim() === '' ? `${name}, the spec’s own set` : `${name} (${said.trim()})`,
    units: 'as stated',
    status: 'stated in the spec',
  };
  const figure = (clause: OwnFigure) => within(facts.number(clause), canBe[clause]);
  return ownLimitSet(base, {
    id: name,
    title: `${title ?? 'your own set'}, over ${base.title}`,
    source,
    factor: figure('factor'),
    capacities: ownCapacities(facts),
    deviceRatio: figure('device'),
    dropRatio: figure('drop'),
    essentialDropRatio: figure('essential-drop'),
    unfusedMetres: figure('unfused'),
    sheathedUnfusedMetres: figure('sheathed-unfused'),
    tailMetres: figure('tail'),
    sheathedTailMetres: figure('sheathed-tail'),
    lightlyLoadedRatio: figure('lightly-loaded'),
    pvFactor: figure('pv-factor'),
  });
}

export type OwnFigure =
  | 'factor'
  | 'device'
  | 'drop'
  | 'essential-drop'
  | 'unfused'
  | 'sheathed-unfused'
  | 'tail'
  | 'sheathed-tail'
  | 'lightly-loaded'
  | 'pv-factor';

/** Beyond these a figure is not meant so: a percentage without its sign, a factor written as a percentage. */
export const mostFactor = 2;
export const mostDevice = 3;

const isDrop = (ratio: number) => ratio > 0 && ratio < 1;
const isLength = (metres: number) => metres >= 0;

/** What a figure may be; where it is not, the published set decides, and a finding says so. */
export const canBe: Readonly<Record<OwnFigure, (value: number) => boolean>> = {
  factor: (value) => value > 0 && value <= mostFactor,
  device: (ratio) => ratio > 0 && ratio <= mostDevice,
  drop: isDrop,
  'essential-drop': isDrop,
  unfused: isLength,
  'sheathed-unfused': isLength,
  tail: isLength,
  'sheathed-tail': isLength,
  'lightly-loaded': (ratio) => ratio >= 0 && ratio <= 1,
  'pv-factor': (value) => value >= 1 && value <= mostDevice,
};

/** Those of a size and a current; what cannot be is told of elsewhere, and the published set decides in its place. */
export function ownCapacities(facts: Facts): OwnCapacity[] {
  return facts.each('capacity').flatMap((row) => {
    const slot = row.slot('capacity', 'size');
    const size = slot === undefined ? undefined : conductorSize(slot);
    const amps = within(row.number('capacity', 'current'), (value) => value > 0);
    const insulationCelsius = row.number('capacity', 'temperature');
    return size === undefined || amps === undefined ? [] : [{ size: physicalSize(size), amps, insulationCelsius }];
  });
}

function within(value: number | undefined, holds: (value: number) => boolean): number | undefined {
  return value !== undefined && Number.isFinite(value) && holds(value) ? value : undefined;
}
