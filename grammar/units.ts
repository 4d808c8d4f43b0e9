/**
 * Quantities and units: what is written, what it is in SI, and how it is written properly. Units live at this edge; inside,
 * numbers are SI (see `QuantityAtom.si` for the SI unit of every dimension).
 */
import type { Dimension } from './tree.ts';

export interface Unit {
  /** As the formatter writes it. */
  readonly symbol: string;
  readonly dimension: Dimension;
  /** SI = value × factor + offset. */
  readonly factor: number;
  readonly offset: number;
  /** Read as this unit and normalised by the formatter. */
  readonly accepted: readonly string[];
  /** Understood, but reported as `unit-spelling` with the symbol as its fix. */
  readonly misspelt: readonly string[];
}

const unit = (
  symbol: string,
  dimension: Dimension,
  factor: number,
  accepted: readonly string[] = [],
  misspelt: readonly string[] = [],
  offset = 0,
): Unit => ({ symbol, dimension, factor, offset, accepted, misspelt });

const inch = 0.0254;
const fahrenheitStep = 5 / 9;
const degree = ['°', 'º', '˚'];
const celsius = [...degree.flatMap((d) => [`${d}C`, `${d} C`]), 'degC', '℃'];
/** A drift's spellings: `%/°C` in every way to write the degree. */
const per = (numerator: string) => celsius.slice(1).map((c) => `${numerator}/${c}`);

export const units: readonly Unit[] = [
  unit(
    'A',
    'current',
    1,
    [],
    [
      'a',
      'amp',
      'amps',
      'Amp',
      'Amps',
      'ampere',
      'amperes',
      'Ampere',
      'Amperes',
      'AMP',
      'AMPS',
      'Ampère',
      'Ampères',
      'ampères',
    ],
  ),
  unit('mA', 'current', 1e-3, [], ['ma', 'milliamp', 'milliamps']),
  unit('kA', 'current', 1e3, [], ['KA', 'ka', 'kiloamp', 'kiloamps', 'kiloampere', 'kiloamperes', 'kAmp', 'kAmps']),
  unit('V', 'voltage', 1, [], ['v', 'volt', 'volts', 'Volt', 'Volts', 'Vdc', 'VDC', 'vdc', 'VOLT', 'VOLTS']),
  unit('mV', 'voltage', 1e-3, [], ['mv', 'millivolt', 'millivolts']),
  unit('kV', 'voltage', 1e3, [], ['KV', 'kv']),
  unit('W', 'power', 1, [], ['w', 'watt', 'watts', 'Watt', 'Watts', 'WATT', 'WATTS', 'Wp', 'wp']),
  unit('kW', 'power', 1e3, [], ['KW', 'kw', 'Kw', 'kilowatt', 'kilowatts']),
  unit('Wh', 'energy', 3600, [], ['wh', 'WH', 'watthour', 'watthours']),
  unit('kWh', 'energy', 3.6e6, [], ['KWH', 'kwh', 'KWh', 'kWH']),
  unit(
    'Ah',
    'charge',
    3600,
    ['A·h'],
    [
      'ah',
      'AH',
      'aH',
      'A h',
      'A.h',
      'amphour',
      'amphours',
      'amp hour',
      'amp hours',
      'Amp hours',
      'Amph',
      'Ahr',
      'Ahrs',
    ],
  ),
  unit('Ω', 'resistance', 1, ['\u2126', 'ohm'], ['ohms', 'Ohm', 'Ohms', 'OHM']),
  unit(
    'mΩ',
    'resistance',
    1e-3,
    ['m\u2126', 'mohm'],
    ['mohms', 'milliohm', 'milliohms', 'mOhm', 'mOhms', 'MOhm', 'mOHM', 'm ohm', 'm Ω', 'mR'],
  ),
  unit(
    'mm²',
    'area',
    1e-6,
    ['mm2', 'mm^2', 'sq mm', 'sqmm', '㎟'],
    ['MM2', 'MM²', 'Mm2', 'Mm²', 'mmq', 'mm sq', 'sq. mm', 'mm 2', 'mm ²', 'qmm'],
  ),
  unit('AWG', 'gauge', 1, [], ['awg', 'Awg', 'gauge', 'ga']),
  unit('mm', 'length', 1e-3, [], ['MM', 'millimetre', 'millimetres', 'millimeter', 'millimeters']),
  unit('cm', 'length', 1e-2, [], ['CM', 'centimetre', 'centimetres', 'centimeter', 'centimeters']),
  unit(
    'm',
    'length',
    1,
    [],
    [
      'M',
      'metre',
      'metres',
      'meter',
      'meters',
      'Meter',
      'Meters',
      'Metre',
      'Metres',
      'METER',
      'METERS',
      'mètre',
      'mètres',
      'mtr',
      'mtrs',
      'mts',
    ],
  ),
  unit('ft', 'length', 12 * inch, [], ['FT', 'Ft', 'ft.', 'feet', 'foot', 'Feet', "'", '′']),
  unit('inch', 'length', inch, [], ['"', '″', 'inches', 'Inch', 'Inches', 'INCH', 'in.', 'Zoll']),
  unit('°C', 'temperature', 1, celsius.slice(1), [
    ...['C', 'c', 'degc', 'DegC', 'DEGC', 'celsius', 'Celsius', 'oC', 'ºc', '°c', '° c', 'C°', '°Celsius', '° Celsius'],
    ...['deg C', 'deg. C', 'degree C', 'degrees C', 'degrees Celsius', 'degrees celsius', 'degree Celsius'],
  ]),
  unit(
    '°F',
    'temperature',
    fahrenheitStep,
    [...degree.flatMap((d) => [`${d}F`, `${d} F`]).slice(1), 'degF', '℉'],
    [
      'F',
      'f',
      'degf',
      'DegF',
      'DEGF',
      'fahrenheit',
      'Fahrenheit',
      'oF',
      '°f',
      'deg F',
      'degrees F',
      'degrees Fahrenheit',
    ],
    -32 * fahrenheitStep,
  ),
  unit('h', 'time', 3600, [], ['H', 'hr', 'hrs', 'hour', 'hours', 'Std', 'Stunden']),
  unit('min', 'time', 60, [], ['Min', 'mins', 'minute', 'minutes']),
  unit('s', 'time', 1, [], ['S', 'sec', 'secs', 'second', 'seconds']),
  unit('%', 'ratio', 0.01, [], ['percent', 'pct', 'per cent', 'Prozent']),
  unit('%/°C', 'relative-drift', 0.01, per('%'), ['%/C', '%/K']),
  unit('V/°C', 'voltage-drift', 1, per('V'), ['V/C', 'V/K']),
  unit('mV/°C', 'voltage-drift', 1e-3, per('mV'), ['mV/C', 'mV/K']),
  unit('mA/°C', 'current-drift', 1e-3, per('mA'), ['mA/C', 'mA/K']),
  unit('Nm', 'torque', 1, ['N·m', 'N m'], ['nm', 'NM', 'newtonmetre', 'newtonmetres']),
  unit('kg', 'mass', 1, [], ['KG', 'Kg', 'kgs', 'kilo', 'kilos']),
  unit('A²s', 'let-through', 1, ['A2s', 'A^2s', 'A²·s'], ['A2S', 'a2s']),
  unit(
    'h/day',
    'daily-time',
    3600,
    [],
    ['h/d', 'H/DAY', 'hours/day', 'hrs/day', 'h per day', 'hours per day', 'hours a day', 'h a day'],
  ),
  unit(
    'min/day',
    'daily-time',
    60,
    [],
    ['min/d', 'MIN/DAY', 'minutes/day', 'mins/day', 'min per day', 'minutes a day', 'min a day'],
  ),
  unit('°', 'angle', 1, degree.slice(1)),
];

export interface UnitSpelling {
  readonly unit: Unit;
  readonly spelling: string;
  readonly right: boolean;
}

/** Every spelling, longest first, so that the first that fits is the one meant. */
export const spellings: readonly UnitSpelling[] = units
  .flatMap((u) => [
    ...[u.symbol, ...u.accepted].map((spelling) => ({ unit: u, spelling, right: true })),
    ...u.misspelt.map((spelling) => ({ unit: u, spelling, right: false })),
  ])
  .sort((a, b) => b.spelling.length - a.spelling.length);

const bySymbol = new Map(units.map((u) => [u.symbol, u]));

export function unitOf(symbol: string): Unit | undefined {
  return bySymbol.get(symbol);
}

/** Symbols of a dimension, the plain one first: what a fix or a completion offers. */
export function symbolsOf(dimension: Dimension): readonly string[] {
  return units.filter((u) => u.dimension === dimension).map((u) => u.symbol);
}

/** The unit of a dimension that an example of a clause is written in, else the plain one. */
export function usualSymbol(dimension: Dimension, example: string): string | undefined {
  const symbols = symbolsOf(dimension);
  const written = (symbol: string) => new RegExp(`[\\d?] ?${symbol}(?![\\p{L}\\p{N}/°])`, 'u').test(example);
  return symbols.find(written) ?? symbols[0];
}

const wordCharacter = /[\p{L}\p{N}_]/u;
const letter = /\p{L}/u;
const spellingsByFirst = new Map<string, UnitSpelling[]>();
for (const spelling of spellings) {
  const first = spelling.spelling.charAt(0);
  const list = spellingsByFirst.get(first);
  if (list) list.push(spelling);
  else spellingsByFirst.set(first, [spelling]);
}

/** Spellings of one piece, and by such a piece those of several that begin with it (`h a day` by `h`). */
const onePiece = new Map(spellings.filter(({ spelling }) => !spelling.includes(' ')).map((s) => [s.spelling, s]));
const longer = new Map<string, string[]>();
for (const { spelling } of spellings) {
  const [first = '', more] = spelling.split(' ');
  if (more !== undefined) longer.set(first, [...(longer.get(first) ?? []), spelling]);
}

const longestSpelling = Math.max(...spellings.map(({ spelling }) => spelling.length));

/** End of the piece at `offset`: what runs on to white space, a comma or the end, as far as a unit might. */
function pieceEnd(text: string, offset: number): number {
  const most = Math.min(text.length, offset + longestSpelling + 1);
  let end = offset;
  for (; end < most; end++) {
    const code = text.charCodeAt(end);
    if (code <= 32 || code === 44 || code === 0xa0) break;
  }
  return end;
}

/** The unit that stands at `offset`, if any: the longest spelling that does not run into more letters or digits. */
export function unitAt(text: string, offset: number): UnitSpelling | undefined {
  const piece = text.slice(offset, pieceEnd(text, offset));
  const exact = onePiece.get(piece);
  if (exact !== undefined && longer.get(piece)?.some((one) => text.startsWith(one, offset)) !== true) return exact;
  for (const candidate of spellingsByFirst.get(text.charAt(offset)) ?? []) {
    if (!text.startsWith(candidate.spelling, offset)) continue;
    const end = offset + candidate.spelling.length;
    // `2.5 mm 2 m` are two figures.
    if (candidate.spelling === 'mm 2' && unitAt(text, end + 1) !== undefined) continue;
    const next = text.charAt(end);
    const last = candidate.spelling.charAt(candidate.spelling.length - 1);
    if (wordCharacter.test(last) && next !== '') {
      if (wordCharacter.test(next)) continue;
      // `10 A-way` is no quantity, and a colon behind the letters makes them a part's name (`bunched with 5 A:+ to B:+`).
      if (next === ':' || ((next === '-' || next === '/') && letter.test(text.charAt(end + 1)))) continue;
    }
    return candidate;
  }
  return undefined;
}

/** SI value of a number in a unit. */
export function toSi(value: number, u: Unit): number {
  return value * u.factor + u.offset;
}

/** The number in a unit of an SI value. */
export function fromSi(si: number, u: Unit): number {
  return (si - u.offset) / u.factor;
}

/** Gauge number as written: `10`, `1/0` (0), `2/0` (-1), `3/0`, `4/0`. */
export function gaugeText(gauge: number): string {
  return gauge <= 0 ? `${1 - gauge}/0` : String(gauge);
}

/** Gauge of its written number; undefined when it is none (`5/0`, `41`). */
export function gaugeOf(text: string): number | undefined {
  const aught = /^([1-4])\/0$/.exec(text);
  if (aught) return 1 - Number(aught[1]);
  if (/^0{1,4}$/.test(text)) return 1 - text.length;
  const gauge = Number(text);
  return Number.isInteger(gauge) && gauge >= 1 && gauge <= 40 ? gauge : undefined;
}

/** A figure for people: at most `digits` decimals, no trailing noughts, no sign on a rounded nought. */
export function plainNumber(value: number, digits = 2): string {
  const fixed = value.toFixed(digits);
  const trimmed = fixed.includes('.') ? fixed.replace(/0+$/, '').replace(/\.$/, '') : fixed;
  return trimmed === '-0' ? '0' : trimmed;
}

/** An SI value in a unit, as the notation writes it: `6 mm²`, `2/0 AWG`, `35 °C`. */
export function formatQuantity(si: number, symbol: string, digits = 3): string {
  const u = bySymbol.get(symbol);
  if (u === undefined) throw new RangeError(`no unit ${symbol}`);
  if (u.dimension === 'gauge') return `${gaugeText(si)} AWG`;
  return `${plainNumber(fromSi(si, u), digits)}${unitGap(symbol)}${symbol}`;
}

/** What stands between a number and its unit: a space, but nothing before the sign of an angle. */
export function unitGap(symbol: string): string {
  return symbol === '°' ? '' : ' ';
}

/** What a dimension is called in a sentence. */
export const dimensionNames: Readonly<Record<Dimension, string>> = {
  current: 'a current',
  voltage: 'a voltage',
  power: 'a power',
  energy: 'an energy',
  charge: 'a capacity in Ah',
  resistance: 'a resistance',
  area: 'a cross-section',
  gauge: 'a gauge',
  length: 'a length',
  temperature: 'a temperature',
  ratio: 'a percentage',
  'relative-drift': 'a drift in %/°C',
  'voltage-drift': 'a drift in V/°C',
  'current-drift': 'a drift in mA/°C',
  time: 'a time',
  torque: 'a torque',
  mass: 'a mass',
  'let-through': 'a let-through in A²s',
  'daily-time': 'hours a day',
  angle: 'an angle',
};
