/** Who feeds and who draws: the ports of parts with a plus and a minus, in statement order. */
import type { KindSpec } from '../kinds/kind.ts';
import type { Part, Terminal } from '../model/model.ts';

export interface Port {
  readonly part: Part;
  readonly plus: Terminal;
  readonly minus: Terminal;
}

export interface Source extends Port {
  readonly is: 'battery' | 'panel' | 'alternator' | 'output' | 'load-output' | 'mains';
  /** Greatest current of its own; undefined for a battery, whose current only a device limits. */
  readonly limitAmps: number | undefined;
  /** Nominal voltage of the supply it begins; undefined where it takes that of the battery beside it. */
  readonly nominalVolts: number | undefined;
}

export interface Draw extends Port {
  /**
   * `load`: a load, socket or inverter; `coil`: of a relay; `input`: of a charger or converter; `pv`: panel side of a
   * controller or charger; `pass`: a controller's battery side, which feeds its load output.
   */
  readonly is: 'load' | 'coil' | 'input' | 'pv' | 'pass';
  readonly as: 'power' | 'current' | 'resistance';
  /** W, A or Ω; for an input its greatest output over its efficiency; 0 where nothing is stated. */
  readonly amount: number;
  readonly lowestVolts: number | undefined;
  readonly cranking: boolean;
}

/** Efficiency of inverters, converters and chargers where none is stated (common practice, no source). */
export const defaultEfficiency = 0.9;

/** Coil current of a relay where none is stated: a 12 V vehicle relay takes about 0.15 A (common practice, no source). */
export const defaultCoilAmps = 0.15;

/** Part of the nominal voltage at which constant-power parts are reckoned where no lowest is stated (common practice, no source). */
export const lowestShare = 0.875;

/**
 * What works from 9 V to 32 V takes no more on 24 V than it takes there: no source is in use below this part of its nominal
 * voltage (common practice, no source).
 */
const leastShare = 0.75;

export function efficiencyOf(part: Part): number {
  const stated = part.facts.number('efficiency');
  return stated !== undefined && stated > 0 && stated <= 1 ? stated : defaultEfficiency;
}

function terminalOf({ terminals }: Part, name: string): Terminal | undefined {
  return terminals.find(({ spec }) => spec.name === name);
}

function port(part: Part, prefix: string): Port | undefined {
  const plus = terminalOf(part, `${prefix}+`);
  const minus = terminalOf(part, `${prefix}-`);
  return plus === undefined || minus === undefined ? undefined : { part, plus, minus };
}

const positive = (value: number | undefined): number => (value !== undefined && value > 0 ? value : 0);

export function sourcesOf(parts: Iterable<Part>): Source[] {
  const sources: Source[] = [];
  for (const part of parts) {
    const { facts, kind } = part;
    const add = (is: Source['is'], prefix: string, limitAmps: number | undefined, nominalVolts: number | undefined) => {
      const ends = port(part, prefix);
      if (ends !== undefined) sources.push({ is, limitAmps, nominalVolts, ...ends });
    };
    const { behaviour } = kind;
    switch (behaviour.is) {
      case 'battery':
        add('battery', '', undefined, facts.number('voltage'));
        break;
      case 'panel':
        add('panel', '', positive(facts.number('isc')), undefined);
        break;
      case 'alternator':
        add('alternator', '', positive(facts.number('current')), undefined);
        break;
      case 'converter':
        if (!feedsBattery(kind)) add('output', 'out', positive(facts.number('current')), facts.number('voltage'));
        else {
          add('output', 'bat', positive(facts.number('output')), undefined);
          if (facts.says('load-output')) add('load-output', 'load', positive(facts.number('load-output')), undefined);
        }
        break;
      case 'inverter':
        if (facts.says('charges')) add('mains', '', positive(facts.number('charges')), undefined);
        break;
    }
  }
  return sources;
}

export function drawsOf(parts: Iterable<Part>): Draw[] {
  const draws: Draw[] = [];
  for (const part of parts) {
    const { facts, kind } = part;
    const [lowestVolts, cranking] = [facts.number('lowest'), facts.says('cranking')];
    const add = (ends: Port | undefined, is: Draw['is'], as: Draw['as'], amount: number) => {
      if (ends !== undefined) draws.push({ is, as, amount, lowestVolts, cranking, ...ends });
    };
    const { behaviour } = kind;
    switch (behaviour.is) {
      case 'load': {
        const ends = port(part, '');
        const [amps, ohms] = [facts.number('current'), facts.number('resistance')];
        if (facts.number('power') !== undefined) add(ends, 'load', 'power', positive(facts.number('power')));
        else if (amps !== undefined) add(ends, 'load', 'current', positive(amps));
        else if (ohms !== undefined && ohms > 0) add(ends, 'load', 'resistance', ohms);
        else add(ends, 'load', 'power', 0);
        break;
      }
      case 'socket': {
        const plugged = facts.slot('plugged', 'power')?.atom;
        const watts = plugged?.kind === 'quantity' && plugged.dimension === 'power';
        const amount = facts.number('plugged', 'power') ?? facts.number('rating');
        add(port(part, ''), 'load', watts ? 'power' : 'current', positive(amount));
        break;
      }
      case 'inverter':
        add(port(part, ''), 'load', 'power', positive(facts.number('power')) / efficiencyOf(part));
        break;
      case 'coil': {
        const [plus, minus] = [behaviour.from, behaviour.to].map((name) => terminalOf(part, name));
        const volts = positive(facts.number('coil', 'voltage'));
        const amps = positive(facts.number('coil', 'current')) || defaultCoilAmps;
        if (plus !== undefined && minus !== undefined && volts > 0)
          add({ part, plus, minus }, 'coil', 'resistance', volts / amps);
        break;
      }
      case 'converter': {
        add(port(part, 'pv'), 'pv', 'power', 0);
        if (feedsBattery(kind)) {
          if (facts.says('load-output'))
            add(port(part, 'bat'), 'pass', 'current', positive(facts.number('load-output')));
          break;
        }
        const watts = (positive(facts.number('voltage')) * positive(facts.number('current'))) / efficiencyOf(part);
        for (const prefix of inputSides(part)) add(port(part, prefix), 'input', 'power', watts);
        break;
      }
    }
  }
  return draws;
}

/** A controller: its output is the battery's own side, with the voltage of that battery. */
export function feedsBattery({ behaviour }: KindSpec): boolean {
  return behaviour.is === 'converter' && behaviour.outputs.includes('bat');
}

/** Sides an input may come from (`in`, or `in1`, `in2` …), in order of their numbers. */
function inputSides(part: Part): string[] {
  const sides = new Set<string>();
  for (const { spec } of part.terminals) if (spec.side?.startsWith('in')) sides.add(spec.side);
  return [...sides];
}

/** Lowest input voltage of a constant-power part: as stated but no less than its source ever has, else 0.875 of nominal. */
export function lowestInputVolts({ lowestVolts }: Draw, nominalVolts: number): number {
  if (lowestVolts === undefined || !(lowestVolts > 0)) return lowestShare * nominalVolts;
  return nominalVolts > 0 ? Math.max(lowestVolts, leastShare * nominalVolts) : lowestVolts;
}

/** Design current of a draw by itself, in ampere. */
export function designAmpsOf(draw: Draw, nominalVolts: number): number {
  if (draw.as === 'current') return draw.amount;
  if (draw.as === 'resistance') return nominalVolts / draw.amount;
  const volts = lowestInputVolts(draw, nominalVolts);
  return volts > 0 ? draw.amount / volts : 0;
}

/** The port alone, of whatever it is the port of. */
export function portOf({ part, plus, minus }: Port): Port {
  return { part, plus, minus };
}
