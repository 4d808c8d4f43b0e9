/** A drawing laid out whole: the engine's answer read back as parts, cores and boxes. */
import { directionsOf } from './directions.ts';
import { drawnCore, drawnGroup, drawnPart } from './elements.ts';
import type { EngineNode } from './engine.ts';
import { engineGraph } from './engine-graph.ts';
import { passagesOf } from './passages.ts';
import { beside, type Piece, piecesOfGraph } from './pieces.ts';
import type { SymbolPlan } from './plan.ts';
import { plansOf } from './plans.ts';
import type {
  Box,
  Drawing,
  DrawnCore,
  DrawnElement,
  DrawnGroup,
  DrawnPart,
  LayoutEngine,
  PictureGraph,
  Point,
} from './scene.ts';
import { straightened } from './straighten.ts';

export interface Laid {
  readonly elements: DrawnElement[];
  readonly size: Drawing['size'];
}

const margin = 40;
const gap = 40;

export async function layOutWhole(graph: PictureGraph, engine: LayoutEngine): Promise<Laid> {
  const directions = directionsOf(graph);
  const plans = plansOf(graph, directions);
  const pieces = piecesOfGraph(graph);
  const answers: EngineNode[] = [];
  for (const piece of pieces) answers.push(await engine.layout(engineGraph({ graph: piece, plans, directions })));
  const sizes = answers.map(({ width = 0, height = 0 }) => ({ width, height }));
  const { at, size } = beside(sizes, margin, gap);
  const elements = pieces.flatMap((piece, i) => {
    const answer = answers[i];
    return answer === undefined ? [] : readBack(piece, plans, answer, at[i] ?? { x: 0, y: 0 });
  });
  return { elements, size };
}

function readBack(
  piece: Piece,
  plans: ReadonlyMap<string, SymbolPlan>,
  answer: EngineNode,
  by: Point,
): (DrawnGroup | DrawnPart | DrawnCore | DrawnElement)[] {
  const nodes = new Map<string, EngineNode>();
  const collect = (node: EngineNode) => {
    for (const child of node.children ?? []) {
      nodes.set(child.id, child);
      collect(child);
    }
  };
  collect(answer);
  // The engine gives ends and ports with errors in their last digit, which must not fall to both sides of a half.
  const whole = (value: number) => Math.round(Math.round(value * 1000) / 1000);
  const moved = ({ x, y }: Point): Point => ({ x: whole(x + by.x), y: whole(y + by.y) });
  const boxOf = ({ x = 0, y = 0, width = 0, height = 0 }: EngineNode): Box => ({ ...moved({ x, y }), width, height });
  const groups = piece.groups.flatMap((group) => {
    const node = nodes.get(group.id);
    return node === undefined ? [] : [drawnGroup(group, boxOf(node))];
  });
  const parts = piece.parts.flatMap((part) => {
    const node = nodes.get(`part:${part.name}`);
    const plan = plans.get(part.name);
    if (node === undefined || plan === undefined) return [];
    const box = wholeBox(plan, boxOf(node));
    const at = new Map((node.ports ?? []).map(({ id, y = 0 }) => [id, moved({ x: 0, y }).y - box.y]));
    return [drawnPart(part, plan, box, at)];
  });
  const byName = new Map(parts.map((part) => [part.name, part]));
  const edges = new Map((answer.edges ?? []).map((edge) => [edge.id, edge]));
  const laid = piece.cores.flatMap((core) => {
    const edge = edges.get(core.id);
    const section = edge?.sections?.[0];
    if (edge === undefined || section === undefined) return [];
    const along = [section.startPoint, ...(section.bendPoints ?? []), section.endPoint].map(moved);
    if (edge.sources[0] !== `${core.id}#from`) along.reverse();
    const [label] = edge.labels ?? [];
    return [drawnCore(core, along, moved({ x: label?.x ?? 0, y: label?.y ?? 0 }), byName)];
  });
  const bars = parts.filter(({ name }) => plans.get(name)?.isBar === true);
  const bodies = new Map(bars.map(({ name, body }) => [name, body]));
  const cores = straightened(laid, piece.cores, parts, bodies, groups);
  const levels = levelsOn(cores);
  const said = new Map(piece.cores.map((core) => [core.id, core]));
  const passages = cores.flatMap((core) => passagesOf(core, said.get(core.id), groups));
  const settled = piece.parts.flatMap((part) => {
    const [plan, drawn] = [plans.get(part.name), byName.get(part.name)];
    if (plan === undefined || drawn === undefined) return [];
    const at = new Map(plan.ports.map(({ key }) => [key, (levels.get(key) ?? drawn.body.y) - drawn.box.y]));
    return plan.isBar ? [drawnPart(part, plan, drawn.box, at)] : [drawn];
  });
  return [...groups, ...cores, ...passages, ...settled];
}

/** How high each end of a core is. */
function levelsOn(cores: readonly DrawnCore[]): Map<string, number> {
  return new Map(
    cores.flatMap(({ id, points }) =>
      (
        [
          [`${id}#from`, points[0]],
          [`${id}#to`, points.at(-1)],
        ] as const
      ).flatMap(([key, point]) => (point === undefined ? [] : [[key, point.y] as const])),
    ),
  );
}

/** The engine lays out a bar alone; its words stand above it. */
function wholeBox({ isBar, width, head }: SymbolPlan, box: Box): Box {
  if (!isBar) return box;
  return {
    x: box.x + (box.width - width) / 2,
    y: box.y - head,
    width,
    height: box.height + head,
  };
}
