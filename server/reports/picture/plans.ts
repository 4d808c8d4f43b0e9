/** The symbol of every part, turned so that its terminals face what they are joined to. */
import type { Directions } from './directions.ts';
import { ownersOf } from './engine-graph.ts';
import type { CoreEnd, SymbolPlan, Wing } from './plan.ts';
import type { PictureGraph } from './scene.ts';
import { planOf } from './symbols/all.ts';

export function plansOf(graph: PictureGraph, directions: Directions): Map<string, SymbolPlan> {
  const owners = ownersOf(graph);
  const ends = new Map<string, CoreEnd[]>();
  const add = (terminal: string, end: CoreEnd) => {
    const list = ends.get(terminal);
    if (list === undefined) ends.set(terminal, [end]);
    else list.push(end);
  };
  const at = (terminal: string) => directions.of(owners.get(terminal)?.name ?? '');
  for (const { id, from, to } of graph.cores) {
    const wants: Wing = at(from) <= at(to) ? 'right' : 'left';
    add(from, { key: `${id}#from`, wants });
    add(to, { key: `${id}#to`, wants: wants === 'right' ? 'left' : 'right' });
  }
  return new Map(
    graph.parts.map((part) => [
      part.name,
      planOf({ part, ends: new Map(part.terminals.map(({ id, name }) => [name, ends.get(id) ?? []])) }),
    ]),
  );
}
