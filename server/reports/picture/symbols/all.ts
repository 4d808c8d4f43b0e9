/** Symbols by the word that a kind says. What has none of its own is a box with its terminals. */
import type { SymbolInput, SymbolMaker, SymbolPlan } from '../plan.ts';
import { barSymbols } from './bars.ts';
import { boxed } from './boxed.ts';
import { connector } from './connector.ts';
import { conversionSymbols } from './conversion.ts';
import { fusebox } from './fusebox.ts';
import { loadSymbols } from './loads.ts';
import { poleSymbols } from './poles.ts';
import { relay } from './relay.ts';
import { sourceSymbols } from './sources.ts';

export const symbols: ReadonlyMap<string, SymbolMaker> = new Map(
  Object.entries({
    ...poleSymbols,
    ...barSymbols,
    ...sourceSymbols,
    ...loadSymbols,
    ...conversionSymbols,
    connector,
    fusebox,
    relay,
  }),
);

const plain: SymbolMaker = (input) =>
  boxed(input, { usual: () => 'left', sign: { width: 30, height: 20 }, draw: () => undefined });

export function planOf(input: SymbolInput): SymbolPlan {
  return (symbols.get(input.part.symbol) ?? plain)(input);
}
