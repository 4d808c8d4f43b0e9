/** References: every use of a name, in this spec and in the other open specs that use the same file. */
import type { Location } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { locationOf } from './ranges.ts';
import { named, usesOf } from './uses.ts';

/** `others` are analyses of specs that use the file, so that a stock knows who takes it. */
export function references(
  analysis: Analysis,
  offset: number,
  options: { readonly declaration: boolean },
  others: readonly Analysis[] = [],
): Location[] {
  const use = named(analysis, offset);
  if (use === undefined) return [];
  const found = new Map<string, Location>();
  for (const one of [analysis, ...others]) {
    for (const { place, declaration } of usesOf(one, use)) {
      if (declaration && !options.declaration) continue;
      const location = locationOf(one, place);
      found.set(`${location.uri}\n${place.span.start}\n${place.span.end}`, location);
    }
  }
  return [...found.values()];
}
