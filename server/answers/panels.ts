/** A panel as its data sheet has it, and its curve in a case's sun and air. */
import type { Case, Model, Part } from '../model/model.ts';
import {
  cellCelsius,
  type Drifts,
  drifted,
  pointsAt,
  standardCelsius,
  standardWattsPerSquareMetre,
} from '../physics/cell-temperature.ts';
import { inLight, type PanelCurve, type PanelPoints, panelCurve } from '../physics/panel-curve.ts';
import {
  coldVocFactor,
  typicalIscDrift,
  typicalNoct,
  typicalPowerDrift,
  typicalVocDrift,
} from '../tables/photovoltaic.ts';
import { defaultAmbientCelsius } from './conditions.ts';
import type { Purpose } from './loads.ts';

/** At standard test conditions; nothing below nought. */
export function pointsOf({ facts }: Part): PanelPoints {
  const [voc, isc, vmp, imp] = ['voc', 'isc', 'vmp', 'imp'].map((clause) => Math.max(0, facts.number(clause) ?? 0));
  return { voc: voc ?? 0, isc: isc ?? 0, vmp: vmp ?? 0, imp: imp ?? 0 };
}

/** A drift as a part per kelvin: one in V/°C or A/°C is of the figure that it changes. */
function driftOf({ facts }: Part, clause: string, whole: number): number | undefined {
  const atom = facts.slot(clause, 'drift')?.atom;
  if (atom?.kind !== 'quantity' || atom.si === undefined) return undefined;
  return atom.dimension === 'relative-drift' ? atom.si : whole > 0 ? atom.si / whole : undefined;
}

/** As stated, else typical. */
export function driftsOf(part: Part): Drifts {
  const { voc, isc } = pointsOf(part);
  return {
    voc: driftOf(part, 'voc-drift', voc) ?? typicalVocDrift,
    isc: driftOf(part, 'isc-drift', isc) ?? typicalIscDrift,
    power: driftOf(part, 'power-drift', 1) ?? typicalPowerDrift,
  };
}

/**
 * Temperature of a panel's cells in °C under a share of 1000 W/m². The air is the case's, else the system's: a place tells how
 * warm it gets with the sun in it, which the cells' own rise would count again.
 */
export function cellsIn(part: Part, model: Model, stated: Pick<Case, 'ambientCelsius'>, sun: number): number {
  const air = stated.ambientCelsius ?? model.system.ambientCelsius ?? defaultAmbientCelsius;
  const noct = part.facts.number('noct') ?? typicalNoct;
  return cellCelsius(air, noct, sun * standardWattsPerSquareMetre);
}

/** What a panel's curves are made of. */
interface Sheet {
  readonly points: PanelPoints;
  readonly drifts: Drifts;
  /** Curves by sun and temperature. */
  readonly curves: { readonly sun: number; readonly celsius: number; readonly curve: PanelCurve | undefined }[];
}

/** Beyond so many the first are let go. */
const mostCurves = 24;

/** Curves by data sheet, sun and temperature, so that like panels in like sun share one. */
export class PanelCurves {
  private readonly sheets = new Map<Part, Sheet>();
  private readonly alike = new Map<string, Sheet>();

  /** For design currents a panel gives what its data sheet says, at 25 °C. */
  curve(part: Part, model: Model, stated: Case, purpose: Purpose): PanelCurve | undefined {
    const sun = stated.sun ?? 0;
    const celsius = purpose === 'design' ? standardCelsius : cellsIn(part, model, stated, sun);
    const { points, drifts, curves } = this.sheet(part);
    for (const one of curves) if (one.sun === sun && one.celsius === celsius) return one.curve;
    const full = panelCurve(pointsAt(points, drifts, celsius));
    const curve = full === undefined ? undefined : inLight(full, sun);
    if (curves.length === mostCurves) curves.shift();
    curves.push({ sun, celsius, curve });
    return curve;
  }

  private sheet(part: Part): Sheet {
    let sheet = this.sheets.get(part);
    if (sheet === undefined) {
      const [points, drifts] = [pointsOf(part), driftsOf(part)];
      const key = [...Object.values(points), ...Object.values(drifts)].join(' ');
      sheet = this.alike.get(key) ?? { points, drifts, curves: [] };
      this.alike.set(key, sheet);
      this.sheets.set(part, sheet);
    }
    return sheet;
  }
}

/** Open-circuit voltage at a temperature: by the stated drift, else by the table. */
export function coldVolts(part: Part, celsius: number): { readonly volts: number; readonly byTable: boolean } {
  const { voc } = pointsOf(part);
  const drift = driftOf(part, 'voc-drift', voc);
  if (drift !== undefined) return { volts: drifted(voc, drift, celsius), byTable: false };
  return { volts: voc * coldVocFactor(celsius), byTable: true };
}

/** Voltage at greatest power at a cell temperature. */
export function hotVolts(part: Part, celsius: number): number {
  return pointsAt(pointsOf(part), driftsOf(part), celsius).vmp;
}
