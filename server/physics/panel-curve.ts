/**
 * The curve of a panel at one cell temperature and irradiance: a single diode whose current and voltage both follow from the
 * voltage of its junction. It passes through the open-circuit, short-circuit and greatest-power points, has its greatest power
 * there, and falls all the way. Three points and a slope leave room for one loss beside the diode: a resistance in series
 * where the knee lies low for its current, else a leak across the cells.
 */

/** Volt and ampere of the data sheet, or of it at another temperature. */
export interface PanelPoints {
  readonly voc: number;
  readonly isc: number;
  readonly vmp: number;
  readonly imp: number;
}

export interface OnCurve {
  readonly volts: number;
  /** Change of the voltage with the current, in ohm; below 0. */
  readonly slope: number;
}

/** Bypass diodes conduct when the others of a string drive more through a panel than it gives (common practice, no source). */
const bypassVolts = 1;
const bypassOhms = 0.01;

/** A knee outside of these parts of Voc and Isc is none that a diode in full sun makes. */
const leastPart = 0.6;
const mostPart = 0.99;

export class PanelCurve {
  /** What a shorted junction gives: that of the light, and the saturation current as far as it is a number. */
  readonly mostAmps: number;

  constructor(
    /** Of the light. */
    readonly lightAmps: number,
    /** Logarithm of the saturation current, which may be too small for a number. */
    readonly logSaturation: number,
    /** Of the exponential. */
    readonly thermalVolts: number,
    readonly seriesOhms: number,
    readonly leakSiemens: number,
  ) {
    this.mostAmps = lightAmps + Math.exp(logSaturation);
  }
}

/** Whether a diode's curve has its greatest power there; else the nearest that has stands in. */
export function isCurve({ voc, isc, vmp, imp }: PanelPoints): boolean {
  return [vmp / voc, imp / isc].every((part) => part > leastPart && part < mostPart) && voc > 0 && isc > 0;
}

/** The curve through four points; undefined where there is no voltage or no current. */
export function panelCurve({ voc, isc, vmp, imp }: PanelPoints): PanelCurve | undefined {
  if (!(voc > 0 && isc > 0 && Number.isFinite(voc * isc))) return undefined;
  const within = (part: number) =>
    Number.isFinite(part) ? Math.min(mostPart, Math.max(leastPart, part)) : (leastPart + mostPart) / 2;
  const [vm, im] = [within(vmp / voc), within(imp / isc)];
  const { light, logSaturation, thermal, series, leak } = withSeries(vm, im) ?? withLeak(vm, im);
  return new PanelCurve(
    light * isc,
    logSaturation + Math.log(isc),
    thermal * voc,
    (series * voc) / isc,
    (leak * isc) / voc,
  );
}

/** In parts of Voc and Isc. */
interface Parts {
  readonly light: number;
  readonly logSaturation: number;
  readonly thermal: number;
  readonly series: number;
  readonly leak: number;
}

/**
 * With a resistance in series: v = 1 + t ln(1 − i/j) − r i. The knee and the slope −vm/im there give t and r of a j, and
 * v(1) = 0 gives j, which is 1 but for e^(−1/t). Undefined where r would be below 0.
 */
function withSeries(vm: number, im: number): Parts | undefined {
  let beyond = 0;
  for (let step = 0; step < 200; step++) {
    const x = im * (1 - beyond);
    const steep = x / (1 - x);
    const thermal = (2 * vm - 1) / (Math.log1p(-x) + steep);
    const series = (vm - thermal * steep) / im;
    if (!(thermal > 0 && series >= 0 && series < 1)) return undefined;
    const next = Math.exp(-(1 - series) / thermal);
    if (Math.abs(next - beyond) <= 1e-16) {
      const most = 1 / (1 - next);
      const logSaturation = Math.log(most) - 1 / thermal;
      return { light: most - Math.exp(logSaturation), logSaturation, thermal, series, leak: 0 };
    }
    beyond = next;
  }
  return undefined;
}

/**
 * With a leak: i = 1 − c (e^(v/t) − 1) − g v. The knee and the slope there give c and g of a t; i(1) = 0 gives t, by halving
 * its logarithm.
 */
function withLeak(vm: number, im: number): Parts {
  const of = (thermal: number) => {
    const knee = Math.exp(vm / thermal);
    const saturation = (2 * im - 1) / (knee * (vm / thermal - 1) + 1);
    const leak = im / vm - (saturation * knee) / thermal;
    return { saturation, leak, rest: leak + saturation * Math.expm1(1 / thermal) - 1 };
  };
  let [low, high] = [Math.log(0.0015), Math.log(10)];
  for (let step = 0; step < 200 && high - low > 1e-16; step++) {
    const middle = (low + high) / 2;
    if (of(Math.exp(middle)).rest > 0) low = middle;
    else high = middle;
  }
  const thermal = Math.exp(low);
  const { saturation, leak } = of(thermal);
  return { light: 1, logSaturation: Math.log(saturation), thermal, series: 0, leak: Math.max(0, leak) };
}

/** The same cells at the same temperature in another light; `share` of that of the curve. */
export function inLight(curve: PanelCurve, share: number): PanelCurve {
  const { lightAmps, logSaturation, thermalVolts, seriesOhms, leakSiemens } = curve;
  return new PanelCurve(lightAmps * Math.max(0, share), logSaturation, thermalVolts, seriesOhms, leakSiemens);
}

/** What the diode takes with its saturation current, in ampere, at a voltage of the junction: the rest follows from it. */
function diodeAmps({ thermalVolts, logSaturation }: PanelCurve, volts: number): number {
  return Math.exp(Math.min(600, volts / thermalVolts + logSaturation));
}

/** Current of the junction at its voltage. */
function junctionAmps({ mostAmps, leakSiemens }: PanelCurve, volts: number, diode: number): number {
  return mostAmps - diode - leakSiemens * volts;
}

/** How fast it falls, in siemens. */
function junctionSiemens({ thermalVolts, leakSiemens }: PanelCurve, diode: number): number {
  return diode / thermalVolts + leakSiemens;
}

/** Junction voltage that passes a current. */
function junctionVolts(curve: PanelCurve, amps: number): number {
  const { mostAmps, logSaturation, thermalVolts, leakSiemens } = curve;
  const above = mostAmps - amps;
  const ofDiode = above > 0 ? thermalVolts * (Math.log(above) - logSaturation) : Number.NEGATIVE_INFINITY;
  if (leakSiemens === 0) return ofDiode;
  // Of the diode alone, or of the leak alone, more would be left: both are bounds from above, from which Newton falls.
  let volts = above > 0 ? Math.min(above / leakSiemens, ofDiode) : above / leakSiemens;
  for (let step = 0; step < 100; step++) {
    const diode = diodeAmps(curve, volts);
    const change = (amps - junctionAmps(curve, volts, diode)) / junctionSiemens(curve, diode);
    volts -= change;
    // It falls until only rounding is left.
    if (!(change > 1e-14 * (Math.abs(volts) + thermalVolts))) break;
  }
  return volts;
}

/** Voltage across a panel that passes a current; below nought once its bypass diodes conduct. */
export function voltsAt(curve: PanelCurve, amps: number): OnCurve {
  const volts = junctionVolts(curve, amps) - curve.seriesOhms * amps;
  if (volts >= -bypassVolts) {
    const diode = diodeAmps(curve, volts + curve.seriesOhms * amps);
    return { volts, slope: -1 / junctionSiemens(curve, diode) - curve.seriesOhms };
  }
  return { volts: -bypassVolts - bypassOhms * (amps - ampsAt(curve, -bypassVolts)), slope: -bypassOhms };
}

/** Current of a panel held at a voltage of -bypassVolts and above. */
export function ampsAt(curve: PanelCurve, volts: number): number {
  const held = new Held();
  seriesAt(curve, 1, 0, volts, held);
  return held.amps;
}

/** What panels held at a voltage come to. A search asks thousands of times, and has the same one filled in each time. */
export class Held {
  amps = 0;
  /** How fast it falls with the voltage. */
  siemens = 0;
}

/**
 * Like panels in series behind a further resistance, held together at a voltage. Newton's method on the junction's voltage,
 * which falls from above on the convex curve.
 */
export function seriesAt(curve: PanelCurve, count: number, ohms: number, volts: number, held: Held): void {
  const resistance = curve.seriesOhms + ohms / count;
  const each = volts / count;
  // No junction stands higher than open, or than the whole voltage and the drop of the greatest current.
  let at = Math.max(each, Math.min(each + resistance * (curve.lightAmps + 1e-9), openVolts(curve)));
  for (let step = 0; step < 200; step++) {
    const diode = diodeAmps(curve, at);
    const change =
      (at - resistance * junctionAmps(curve, at, diode) - each) / (1 + resistance * junctionSiemens(curve, diode));
    at -= change;
    if (!(change > 1e-14 * (Math.abs(at) + curve.thermalVolts))) break;
  }
  const diode = diodeAmps(curve, at);
  const siemens = junctionSiemens(curve, diode);
  held.amps = junctionAmps(curve, at, diode);
  held.siemens = siemens / (1 + resistance * siemens) / count;
}

const opens = new WeakMap<PanelCurve, number>();

/** Open-circuit voltage. */
export function openVolts(curve: PanelCurve): number {
  let volts = opens.get(curve);
  if (volts === undefined) {
    volts = curve.lightAmps > 0 ? junctionVolts(curve, 0) : 0;
    opens.set(curve, volts);
  }
  return volts;
}
