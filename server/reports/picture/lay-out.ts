/** Where everything stands: as it was with what changed, else laid out whole. */
import { keepLayout } from './keep-layout.ts';
import { marksOn } from './marks-on.ts';
import { matchingOf } from './matching.ts';
import { withNotes } from './notes.ts';
import { same } from './same.ts';
import type { Drawing, DrawnElement, LayOut, PictureGraph } from './scene.ts';
import { layOutWhole } from './whole-layout.ts';

export const layOut: LayOut = async (graph, engine, previous) => {
  if (previous === undefined) {
    const { elements, size } = await layOutWhole(graph, engine);
    return drawingOf(graph, withNotes(elements), size, undefined, { how: 'whole', why: 'first', fitted: 0 });
  }
  const kept = fittedEnough(graph, previous) ? { why: 'much has changed' } : keepLayout(graph, previous);
  if ('elements' in kept) {
    const { elements, size, fresh } = kept;
    const fitted = previous.made.fitted + fresh.size;
    const noted = withNotes(elements, (id) => fresh.has(id));
    return drawingOf(graph, noted, size, previous, { how: 'kept', why: '', fitted });
  }
  const { elements, size } = await layOutWhole(graph, engine);
  return drawingOf(graph, withNotes(elements), size, previous, { how: 'whole', why: kept.why, fitted: 0 });
};

/** What was fitted in makes a picture worse little by little; a small one is soon laid out anew. */
function fittedEnough({ parts }: PictureGraph, { made }: Drawing): boolean {
  return made.fitted > 16 + 2 * parts.length;
}

/** Whatever is the same as before is the same object. */
function drawingOf(
  graph: PictureGraph,
  elements: readonly DrawnElement[],
  size: Drawing['size'],
  previous: Drawing | undefined,
  made: Omit<Drawing['made'], 'moved'>,
): Drawing {
  const byId = new Map(
    elements.map((element) => {
      const old = previous?.elements.get(element.id);
      return [element.id, old !== undefined && same(old, element) ? old : element] as const;
    }),
  );
  const marks = marksOn(graph.marks, byId);
  return {
    title: graph.title,
    size: previous !== undefined && same(previous.size, size) ? previous.size : size,
    elements: byId,
    cables: new Map(graph.cables.map((cable) => [cable.id, cable])),
    marks: previous !== undefined && same(previous.marks, marks) ? previous.marks : marks,
    sources: graph.sources,
    graph,
    made: { ...made, moved: previous === undefined ? 0 : movedParts(graph, byId, previous) },
  };
}

/** How many of the parts that were there stand elsewhere now. */
function movedParts(graph: PictureGraph, elements: ReadonlyMap<string, DrawnElement>, previous: Drawing): number {
  const { parts } = matchingOf(previous.graph, graph);
  return [...parts].filter(([now, before]) => {
    const [one, other] = [elements.get(`part:${now}`), previous.elements.get(`part:${before}`)];
    if (one?.is !== 'part' || other?.is !== 'part') return false;
    return one.body.x !== other.body.x || one.body.y !== other.body.y;
  }).length;
}
