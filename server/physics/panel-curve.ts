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

export interface PanelCurve {
  /** Current of the light; logarithm of the saturation current, which may be too small for a number; volts of the exponential. */
  readonly lightAmps: number;
  readonly logSaturation: number;
  readonly thermalVolts: number;
  readonly seriesOhms: number;
  readonly leakSiemens: number;
  /** What a shorted junction gives: that of the light, and the saturation current as far as it is a number. */
  readonly mostAmps: number;
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
  return curveOf({
    lightAmps: light * isc,
    logSaturation: logSaturation + Math.log(isc),
    thermalVolts: thermal * voc,
    seriesOhms: (series * voc) / isc,
    leakSiemens: (leak * isc) / voc,
  });
}

function curveOf(curve: Omit<PanelCurve, 'mostAmps'>): PanelCurve {
  return { ...curve, mostAmps: curve.lightAmps + Math.exp(curve.logSaturation) };
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
  return curveOf({ ...curve, lightAmps: curve.lightAmps * Math.max(0, share) });
}

/** Current of the junction at its voltage, and how fast it falls, in siemens. */
export function junction(curve: PanelCurve, volts: number): { readonly amps: number; readonly siemens: number } {
  const { mostAmps, logSaturation, thermalVolts, leakSiemens } = curve;
  const exponential = Math.exp(Math.min(600, volts / thermalVolts + logSaturation));
  return {
    amps: mostAmps - exponential - leakSiemens * volts,
    siemens: exponential / thermalVolts + leakSiemens,
  };
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
    const here = junction(curve, volts);
    const change = (amps - here.amps) / here.siemens;
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
    const { siemens } = junction(curve, volts + curve.seriesOhms * amps);
    return { volts, slope: -1 / siemens - curve.seriesOhms };
  }
  return { volts: -bypassVolts - bypassOhms * (amps - ampsAt(curve, -bypassVolts)), slope: -bypassOhms };
}

/** Current of a panel held at a voltage of -bypassVolts and above. */
export function ampsAt(curve: PanelCurve, volts: number): number {
  return seriesAt(curve, 1, 0, volts).amps;
}

/**
 * Like panels in series behind a further resistance, held together at a voltage: their current and how fast it falls, in
 * siemens. Newton's method on the junction's voltage, which falls from above on the convex curve.
 */
export function seriesAt(
  curve: PanelCurve,
  count: number,
  ohms: number,
  volts: number,
): { readonly amps: number; readonly siemens: number } {
  const resistance = curve.seriesOhms + ohms / count;
  const each = volts / count;
  // No junction stands higher than open, or than the whole voltage and the drop of the greatest current.
  let at = Math.max(each, Math.min(each + resistance * (curve.lightAmps + 1e-9), openVolts(curve)));
  for (let step = 0; step < 200; step++) {
    const here = junction(curve, at);
    const change = (at - resistance * here.amps - each) / (1 + resistance * here.siemens);
    at -= change;
    if (!(change > 1e-14 * (Math.abs(at) + curve.thermalVolts))) break;
  }
  const { amps, siemens } = junction(curve, at);
  return { amps, siemens: siemens / (1 + resistance * siemens) / count };
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
