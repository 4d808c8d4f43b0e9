/** The graph in the form the layout engine takes: parts with ports, boxes round them, conductors with room for their labels. */

import type { Directions } from './directions.ts';
import { leastWidth } from './elements.ts';
import type { EngineEdge, EngineNode } from './engine.ts';
import { labelBox } from './label.ts';
import { barStep } from './measures.ts';
import type { SymbolPlan } from './plan.ts';
import type { PictureCore, PictureGraph, PictureGroup, PicturePart } from './scene.ts';

const rootOptions: Readonly<Record<string, string>> = {
  'elk.algorithm': 'layered',
  'elk.direction': 'RIGHT',
  'elk.randomSeed': '1',
  'elk.edgeRouting': 'ORTHOGONAL',
  'elk.hierarchyHandling': 'INCLUDE_CHILDREN',
  'elk.json.edgeCoords': 'ROOT',
  'elk.json.shapeCoords': 'ROOT',
  'elk.padding': '[top=0,left=0,bottom=0,right=0]',
  'elk.spacing.nodeNode': '26',
  'elk.spacing.edgeNode': '12',
  'elk.spacing.edgeEdge': '12',
  'elk.spacing.edgeLabel': '2',
  'elk.spacing.componentComponent': '40',
  'elk.layered.spacing.nodeNodeBetweenLayers': '14',
  'elk.layered.spacing.edgeNodeBetweenLayers': '10',
  'elk.layered.spacing.edgeEdgeBetweenLayers': '10',
  'elk.layered.edgeLabels.centerLabelPlacementStrategy': 'SPACE_EFFICIENT_LAYER',
  'elk.layered.nodePlacement.strategy': 'NETWORK_SIMPLEX',
  'elk.layered.highDegreeNodes.treatment': 'false',
};

const groupOptions: Readonly<Record<string, string>> = {
  'elk.padding': '[top=44,left=30,bottom=26,right=30]',
  'elk.nodeSize.constraints': '[MINIMUM_SIZE]',
};

/** Of a bar in the layout; its words may be wider. */
export const barWidth = 16;

/** Beyond so many cores in one piece less effort is taken, so that a drawing still comes at once. */
const manyCores = 90;
const veryManyCores = 260;

export interface EngineInput {
  readonly graph: Pick<PictureGraph, 'parts' | 'cores' | 'groups'>;
  readonly plans: ReadonlyMap<string, SymbolPlan>;
  readonly directions: Directions;
}

export function engineGraph({ graph, plans, directions }: EngineInput): EngineNode {
  const large = graph.cores.length > manyCores;
  const effort: Record<string, string> = {
    'elk.layered.thoroughness': large ? '3' : '12',
  };
  if (graph.cores.length > veryManyCores) effort['elk.layered.nodePlacement.strategy'] = 'BRANDES_KOEPF';
  const nodes = new Map<string, EngineNode>();
  const root: EngineNode = { id: 'sheet', layoutOptions: { ...rootOptions, ...effort }, children: [], edges: [] };
  const groups = new Map(graph.groups.map((group) => [group.id, group]));
  const holder = (id: string | undefined): EngineNode => {
    const group = id === undefined ? undefined : groups.get(id);
    if (group === undefined) return root;
    let node = nodes.get(group.id);
    if (node === undefined) {
      node = groupNode(group);
      nodes.set(group.id, node);
      holder(group.parent).children?.push(node);
    }
    return node;
  };
  const inReadingOrder = [...graph.parts].sort(
    (one, other) => directions.of(one.name) - directions.of(other.name) || one.ordinal - other.ordinal,
  );
  for (const part of inReadingOrder) {
    const plan = plans.get(part.name);
    if (plan !== undefined) holder(part.group).children?.push(partNode(part, plan, large));
  }
  const owners = ownersOf(graph);
  for (const core of graph.cores) root.edges?.push(edgeOf(core, owners, directions));
  return root;
}

export function ownersOf({ parts }: Pick<PictureGraph, 'parts'>): Map<string, PicturePart> {
  return new Map(parts.flatMap((part) => part.terminals.map(({ id }) => [id, part] as const)));
}

function groupNode(group: PictureGroup): EngineNode {
  const least = { 'elk.nodeSize.minimum': `(${leastWidth(group)},0)` };
  return { id: group.id, layoutOptions: { ...groupOptions, ...least }, children: [] };
}

function partNode(
  part: PicturePart,
  { width, height, ports, head, foot, isBar }: SymbolPlan,
  large: boolean,
): EngineNode {
  return {
    id: `part:${part.name}`,
    width: isBar ? barWidth : width,
    height: isBar ? height - head : height,
    // Only the bar itself may grow; its words stand above it.
    ...(isBar ? { labels: [{ text: part.name, width, height: head }] } : {}),
    layoutOptions: {
      'elk.portConstraints': isBar ? 'FIXED_SIDE' : 'FIXED_POS',
      ...(isBar
        ? {
            'elk.spacing.portPort': String(barStep),
            'elk.spacing.portsSurrounding': `[top=8,left=0,bottom=${8 + foot},right=0]`,
            'elk.spacing.labelNode': '0',
            'elk.nodeLabels.placement': '[OUTSIDE, V_TOP, H_CENTER]',
            'elk.nodeSize.constraints': '[PORTS, MINIMUM_SIZE]',
            'elk.nodeSize.minimum': `(${barWidth},${height - head})`,
            'elk.layered.nodePlacement.networkSimplex.nodeFlexibility': 'NODE_SIZE',
          }
        : {}),
      ...(large ? {} : layerOf(part)),
    },
    ports: ports.map(({ key, wing, y }) => ({
      id: key,
      width: 0,
      height: 0,
      ...(y === undefined ? {} : { x: wing === 'left' ? 0 : isBar ? barWidth : width, y }),
      layoutOptions: { 'elk.port.side': wing === 'left' ? 'WEST' : 'EAST' },
    })),
  };
}

/** Loads line up at the right edge of whatever they stand in. */
function layerOf({ family, group }: PicturePart): Record<string, string> {
  return family === 'load' && group === undefined ? { 'elk.layered.layering.layerConstraint': 'LAST' } : {};
}

function edgeOf(core: PictureCore, owners: ReadonlyMap<string, PicturePart>, directions: Directions): EngineEdge {
  const at = (terminal: string) => directions.of(owners.get(terminal)?.name ?? '');
  const ends = [`${core.id}#from`, `${core.id}#to`] as const;
  const [source, target] = at(core.from) <= at(core.to) ? ends : ([ends[1], ends[0]] as const);
  return {
    id: core.id,
    // Where not both can be straight, the positive is.
    layoutOptions: { 'elk.layered.priority.straightness': core.polarity === '+' ? '10' : '1' },
    sources: [source],
    targets: [target],
    labels: [
      {
        text: core.label[0],
        ...labelBox(core.label),
        layoutOptions: { 'elk.edgeLabels.inline': 'true', 'elk.edgeLabels.placement': 'CENTER' },
      },
    ],
  };
}
