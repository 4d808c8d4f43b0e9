/** Where everything stands: whole, or as it was with what changed. */
import { marksOn } from './marks-on.ts';
import { withNotes } from './notes.ts';
import type { Drawing, LayOut } from './scene.ts';
import { layOutWhole } from './whole-layout.ts';

export const layOut: LayOut = async (graph, engine) => {
  const { elements: bare, size } = await layOutWhole(graph, engine);
  const elements = withNotes(bare);
  const byId = new Map(elements.map((element) => [element.id, element]));
  const drawing: Drawing = {
    title: graph.title,
    size,
    elements: byId,
    cables: new Map(graph.cables.map((cable) => [cable.id, cable])),
    marks: marksOn(graph.marks, byId),
    sources: graph.sources,
    graph,
    made: { how: 'whole', why: 'first', moved: 0 },
  };
  return drawing;
};
