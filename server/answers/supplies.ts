/** Who feeds and who draws: sources and loads of a spec with their terminals, in statement order. */
import type { Model, Part, Terminal } from '../model/model.ts';

export interface Source {
  readonly part: Part;
  readonly plus: Terminal;
  readonly minus: Terminal;
  /** Greatest current of its own; undefined for a battery, whose current only a device limits. */
  readonly limitAmps: number | undefined;
  readonly nominalVolts: number | undefined;
  readonly side: string;
}

export interface Draw {
  readonly part: Part;
  readonly plus: Terminal;
  readonly minus: Terminal;
  readonly as: 'power' | 'current' | 'resistance';
  /** W, A or Ω at the terminals. For a conversion part's input: its greatest output over its efficiency. */
  readonly amount: number;
  readonly lowestVolts: number | undefined;
  readonly is: 'load' | 'coil' | 'input';
  readonly cranking: boolean;
}

/** Efficiency of inverters, converters and chargers where none is stated (common practice, no source). */
export const defaultEfficiency = 0.9;

const pair = (model: Model, part: Part, prefix: string): { plus: Terminal; minus: Terminal } | undefined => {
  const plus = model.terminals.get(`${part.name}:${prefix}+`);
  const minus = model.terminals.get(`${part.name}:${prefix}-`);
  return plus === undefined || minus === undefined ? undefined : { plus, minus };
};

export function sourcesOf(model: Model): Source[] {
  const sources: Source[] = [];
  for (const part of model.parts.values()) {
    const { facts, kind } = part;
    const add = (prefix: string, limitAmps: number | undefined, nominalVolts: number | undefined) => {
      const ends = pair(model, part, prefix);
      if (ends !== undefined) sources.push({ part, ...ends, limitAmps, nominalVolts, side: prefix });
    };
    switch (kind.word) {
      case 'battery':
        add('', undefined, facts.number('voltage'));
        break;
      case 'panel':
        add('', facts.number('isc') ?? 0, facts.number('vmp'));
        break;
      case 'alternator':
        add('', facts.number('current') ?? 0, facts.number('voltage'));
        break;
      case 'controller':
        add('bat', facts.number('output') ?? 0, undefined);
        if (facts.says('load-output')) add('load', facts.number('load-output') ?? 0, undefined);
        break;
      case 'charger':
      case 'converter':
        add('out', facts.number('current') ?? 0, facts.number('voltage'));
        break;
      case 'inverter':
        if (facts.says('charges')) add('', facts.number('charges') ?? 0, undefined);
        break;
    }
  }
  return sources;
}

export function drawsOf(model: Model): Draw[] {
  const draws: Draw[] = [];
  for (const part of model.parts.values()) {
    const { facts, kind } = part;
    const lowestVolts = facts.number('lowest');
    const common = { part, lowestVolts, cranking: facts.says('cranking') };
    const ends = pair(model, part, '');
    switch (kind.word) {
      case 'load': {
        if (ends === undefined) break;
        const [watts, amps, ohms] = [facts.number('power'), facts.number('current'), facts.number('resistance')];
        if (watts !== undefined) draws.push({ ...common, ...ends, as: 'power', amount: watts, is: 'load' });
        else if (amps !== undefined) draws.push({ ...common, ...ends, as: 'current', amount: amps, is: 'load' });
        else if (ohms !== undefined && ohms > 0) draws.push({ ...common, ...ends, as: 'resistance', amount: ohms, is: 'load' });
        else draws.push({ ...common, ...ends, as: 'power', amount: 0, is: 'load' });
        break;
      }
      case 'socket': {
        if (ends === undefined) break;
        const plugged = facts.slot('plugged', 'power');
        const amount = facts.number('plugged', 'power');
        if (plugged?.atom.kind === 'quantity' && amount !== undefined)
          draws.push({ ...common, ...ends, as: plugged.atom.dimension === 'power' ? 'power' : 'current', amount, is: 'load' });
        else draws.push({ ...common, ...ends, as: 'current', amount: facts.number('rating') ?? 0, is: 'load' });
        break;
      }
      case 'inverter':
        if (ends !== undefined)
          draws.push({ ...common, ...ends, as: 'power', amount: (facts.number('power') ?? 0) / efficiencyOf(part), is: 'load' });
        break;
      case 'relay': {
        const plus = model.terminals.get(`${part.name}:86`);
        const minus = model.terminals.get(`${part.name}:85`);
        const [volts, amps] = [facts.number('coil', 'voltage'), facts.number('coil', 'current')];
        if (plus !== undefined && minus !== undefined && volts !== undefined && volts > 0)
          draws.push({ ...common, plus, minus, as: 'resistance', amount: volts / (amps ?? defaultCoilAmps), is: 'coil' });
        break;
      }
      case 'charger':
      case 'converter': {
        const watts = ((facts.number('voltage') ?? 0) * (facts.number('current') ?? 0)) / efficiencyOf(part);
        for (const prefix of ['in', 'in1', 'in2', 'in3', 'in4', 'in5', 'in6', 'in7', 'in8']) {
          const input = pair(model, part, prefix);
          if (input !== undefined) draws.push({ ...common, ...input, as: 'power', amount: watts, is: 'input' });
        }
        break;
      }
    }
  }
  return draws;
}

/** Coil current of a relay where none is stated: a 12 V automotive coil of about 85 Ω (common practice, no source). */
export const defaultCoilAmps = 0.15;

export function efficiencyOf(part: Part): number {
  const stated = part.facts.number('efficiency');
  return stated !== undefined && stated > 0 && stated <= 1 ? stated : defaultEfficiency;
}

/** Lowest input voltage of a constant-power part: stated, else 0.875 of nominal (common practice, no source). */
export function lowestInputVolts(draw: Draw, nominalVolts: number): number {
  return draw.lowestVolts !== undefined && draw.lowestVolts > 0 ? draw.lowestVolts : 0.875 * nominalVolts;
}

/** Design current of a draw by itself, in ampere. */
export function designDraw(draw: Draw, nominalVolts: number): number {
  if (draw.as === 'current') return draw.amount;
  if (draw.as === 'resistance') return nominalVolts / draw.amount;
  const volts = lowestInputVolts(draw, nominalVolts);
  return volts > 0 ? draw.amount / volts : 0;
}
