/** Links: solid bars between terminals of one part. */
import type { Builder } from './builder.ts';
import type { Bar } from './model.ts';
import { placeIn } from './place.ts';
import { statementsOf } from './statements.ts';

export function buildBars(builder: Builder): Bar[] {
  const bars: Bar[] = [];
  for (const origin of statementsOf(builder, 'link')) {
    const part = builder.parts.get(origin.statement.node.names[0]?.value ?? '');
    if (part === undefined) continue;
    for (const { values } of origin.statement.shaped.clauses) {
      const atom = values[0]?.atom;
      if (atom?.kind !== 'range') continue;
      const from = builder.terminals.get(`${part.name}:${atom.from}`);
      const to = builder.terminals.get(`${part.name}:${atom.to}`);
      if (from !== undefined && to !== undefined)
        bars.push({ part, from, to, origin, place: placeIn(origin, atom.span) });
    }
  }
  return bars;
}
