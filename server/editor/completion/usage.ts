/** What a spec writes itself, so that it is offered its own units first. */
import type { Dimension } from '../../../grammar/tree.ts';
import { symbolsOf, usualSymbol } from '../../../grammar/units.ts';
import type { ClauseSpec } from '../../../grammar/vocabulary.ts';
import type { Analysis } from '../../analysis.ts';

export interface Usage {
  /** Gauges rather than square millimetres. */
  readonly gauges: boolean;
  /** Feet and inches rather than metres. */
  readonly feet: boolean;
  readonly fahrenheit: boolean;
}

export function usageOf({ model }: Analysis): Usage {
  const count = model.unitsWritten();
  const of = (...symbols: string[]) => symbols.reduce((sum, symbol) => sum + (count.get(symbol) ?? 0), 0);
  return {
    gauges: of('AWG') > of('mm²'),
    feet: of('ft', 'inch') > of('m', 'cm', 'mm'),
    fahrenheit: of('°F') > of('°C'),
  };
}

/** Symbols of a dimension: first that of the spec's own system and of the clause's example, then the others. */
export function symbolsFor(analysis: Analysis, dimension: Dimension, clause: ClauseSpec | undefined): string[] {
  const usage = usageOf(analysis);
  const usual = usualSymbol(dimension, clause?.example ?? '');
  const first =
    dimension === 'length' && usage.feet
      ? usual === 'm'
        ? 'ft'
        : 'inch'
      : dimension === 'temperature' && usage.fahrenheit
        ? '°F'
        : usual;
  // Near units before far ones: behind feet come inches, not metres.
  const imperial = (symbol: string) => symbol === 'ft' || symbol === 'inch' || symbol === '°F';
  const near = (symbol: string) => (symbol === first ? 0 : imperial(symbol) === imperial(first ?? '') ? 1 : 2);
  return [...symbolsOf(dimension)].sort((a, b) => near(a) - near(b));
}
