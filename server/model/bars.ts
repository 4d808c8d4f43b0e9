/** Links: solid bars between terminals of one part. */
import type { Builder } from './builder.ts';
import type { Bar, Origin } from './model.ts';
import { placeIn } from './place.ts';
import { statementsOf } from './statements.ts';

export function buildBars(builder: Builder): Bar[] {
  const { kept, lookups } = builder;
  return statementsOf(builder, 'link').flatMap((origin) =>
    kept.bars.of(origin.statement, lookups, () => barsOf(builder, origin)),
  );
}

function barsOf({ parts, terminals }: Builder, origin: Origin): Bar[] {
  const part = parts.get(origin.statement.node.names[0]?.value ?? '');
  if (part === undefined) return [];
  return origin.statement.shaped.clauses.flatMap(({ values }) => {
    const atom = values[0]?.atom;
    if (atom?.kind !== 'range') return [];
    const from = terminals.get(`${part.name}:${atom.from}`);
    const to = terminals.get(`${part.name}:${atom.to}`);
    return from === undefined || to === undefined
      ? []
      : [{ part, from, to, origin, place: placeIn(origin, atom.span) }];
  });
}
