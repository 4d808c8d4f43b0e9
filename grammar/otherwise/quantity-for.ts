/** A quantity that is said otherwise, as the notation would have it. */
import { spanOf } from '../mend.ts';
import type { Atom, QuantityAtom } from '../tree.ts';
import { toSi, unitGap, unitOf } from '../units.ts';

/** A quantity at the place of the atoms that were meant for it; undefined for a unit that there is not. */
export function quantityFor(some: readonly Atom[], number: string, symbol: string): QuantityAtom | undefined {
  const unit = unitOf(symbol);
  if (unit === undefined) return undefined;
  const span = spanOf(some);
  const value = Number(number);
  return {
    kind: 'quantity',
    span,
    leading: some[0]?.leading ?? '',
    text: `${number}${unitGap(symbol)}${symbol}`,
    value,
    si: toSi(value, unit),
    unit: symbol,
    dimension: unit.dimension,
    numberSpan: span,
    unitSpan: { start: span.end, end: span.end },
  };
}
