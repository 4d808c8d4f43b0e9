/**
 * Islands: pieces of the network whose currents do not depend on each other, so that an edit re-solves one and not all.
 *
 * With all contacts closed, conductors, loads and sources make one graph; a conversion part (controller, charger,
 * converter) is in it as one edge a side, joined inside where its sides have a common conductor. Two sides that share at most
 * one node then lie in different blocks (biconnected components) of that graph: what flows in one never flows in the other,
 * whatever busbar or chassis they meet at. Every block with a side of a conversion part begins an island; what has none
 * (a bonding lead, a circuit without source) goes with the nearest one. A battery splits nothing.
 */
import type { Part, Terminal } from './model.ts';
import type { Island, Joint } from './network.ts';

interface Link {
  readonly a: number;
  readonly b: number;
  /** Begins an island: it is a side of a conversion part. */
  readonly side: boolean;
}

export function islandsOf(
  parts: readonly Part[],
  terminals: readonly Terminal[],
  joints: readonly Joint[],
): { islands: Island[]; islandOf: Map<string, number> } {
  const index = new Map(terminals.map((terminal, i) => [terminal.id, i]));
  const links: Link[] = joints.map(({ from, to }) => ({
    a: index.get(from.id) ?? 0,
    b: index.get(to.id) ?? 0,
    side: false,
  }));
  for (const part of parts)
    for (const { from, to, side } of elementsOf(part))
      links.push({ a: index.get(from.id) ?? 0, b: index.get(to.id) ?? 0, side });
  const graph = graphOf(terminals.length, links);
  const { blockOf, count } = blocksOf(terminals.length, links, graph);
  const groupOf = groupBlocks(terminals.length, links, graph, blockOf, count);
  return collect(terminals, joints, graph, blockOf, groupOf);
}

/** What a part joins between its terminals besides its contacts: what it draws or feeds, and conductors shared inside. */
function elementsOf(part: Part): { readonly from: Terminal; readonly to: Terminal; readonly side: boolean }[] {
  const { behaviour } = part.kind;
  const named = (name: string) => part.terminals.find(({ spec }) => spec.name === name);
  const between = (from: Terminal | undefined, to: Terminal | undefined, side: boolean) =>
    from === undefined || to === undefined ? [] : [{ from, to, side }];
  if (behaviour.is === 'none') return [];
  if (behaviour.is === 'coil') return between(named(behaviour.from), named(behaviour.to), false);
  const sides = new Map<string, Terminal[]>();
  for (const terminal of part.terminals) {
    if (terminal.spec.polarity === undefined) continue;
    const side = terminal.spec.side ?? '';
    const list = sides.get(side);
    if (list) list.push(terminal);
    else sides.set(side, [terminal]);
  }
  const converts = behaviour.is === 'converter';
  const elements = [...sides.values()].flatMap(([plus, ...rest]) =>
    rest.flatMap((minus) => between(plus, minus, converts)),
  );
  if (converts && part.facts.word('common') === 'common') {
    const sign = part.facts.word('common', 'pole') === 'positive' ? '+' : '-';
    const [first, ...others] = part.terminals.filter(({ spec }) => spec.polarity === sign && spec.side !== undefined);
    elements.push(...others.flatMap((other) => between(first, other, false)));
  }
  return elements;
}

/** Links at each terminal, in two flat arrays. */
interface Graph {
  readonly first: Int32Array;
  readonly at: Int32Array;
}

function graphOf(size: number, links: readonly Link[]): Graph {
  const first = new Int32Array(size + 1);
  const ends = (link: Link) => (link.a === link.b ? [link.a] : [link.a, link.b]);
  for (const link of links) for (const end of ends(link)) first[end + 1] = (first[end + 1] ?? 0) + 1;
  for (let i = 0; i < size; i++) first[i + 1] = (first[i + 1] ?? 0) + (first[i] ?? 0);
  const next = first.slice();
  const at = new Int32Array(first[size] ?? 0);
  links.forEach((link, i) => {
    for (const end of ends(link)) {
      at[next[end] ?? 0] = i;
      next[end] = (next[end] ?? 0) + 1;
    }
  });
  return { first, at };
}

function linksAt({ first, at }: Graph, node: number): Int32Array {
  return at.subarray(first[node] ?? 0, first[node + 1] ?? 0);
}

/** Blocks of the graph by link: a depth-first search without recursion, since a text may chain any number of parts. */
function blocksOf(size: number, links: readonly Link[], graph: Graph): { blockOf: Int32Array; count: number } {
  const blockOf = new Int32Array(links.length).fill(-1);
  const order = new Int32Array(size).fill(-1);
  const low = new Int32Array(size);
  const next = graph.first.slice(0, size);
  const open: number[] = [];
  let [time, count] = [0, 0];
  const enter = (node: number) => {
    order[node] = low[node] = time;
    time += 1;
  };
  for (let start = 0; start < size; start++) {
    if (order[start] !== -1) continue;
    enter(start);
    const stack = [{ node: start, via: -1 }];
    for (let frame = stack.at(-1); frame !== undefined; frame = stack.at(-1)) {
      const { node, via } = frame;
      const at = next[node] ?? 0;
      if (at < (graph.first[node + 1] ?? 0)) {
        next[node] = at + 1;
        const link = graph.at[at] ?? 0;
        if (link === via || blockOf[link] !== -1) continue;
        const { a, b } = links[link] as Link;
        const other = a === node ? b : a;
        if (other === node) {
          blockOf[link] = count;
          count += 1;
        } else if (order[other] === -1) {
          open.push(link);
          enter(other);
          stack.push({ node: other, via: link });
        } else if ((order[other] ?? 0) < (order[node] ?? 0)) {
          open.push(link);
          low[node] = Math.min(low[node] ?? 0, order[other] ?? 0);
        }
        continue;
      }
      stack.pop();
      const parent = stack.at(-1)?.node;
      if (parent === undefined) continue;
      low[parent] = Math.min(low[parent] ?? 0, low[node] ?? 0);
      // Nothing below reaches above the parent: all links since the one that led here are a block.
      if ((low[node] ?? 0) >= (order[parent] ?? 0)) {
        for (let link = open.pop(); link !== undefined; link = open.pop()) {
          blockOf[link] = count;
          if (link === via) break;
        }
        count += 1;
      }
    }
  }
  return { blockOf, count };
}

/** Blocks that begin an island grow, step by step and in turn, over those that do not. */
function groupBlocks(
  size: number,
  links: readonly Link[],
  graph: Graph,
  blockOf: Int32Array,
  count: number,
): Int32Array {
  const groupOf = new Int32Array(count).fill(-1);
  const members: number[][] = Array.from({ length: count }, () => []);
  links.forEach((_, link) => {
    members[blockOf[link] ?? 0]?.push(link);
  });
  const spread = new Uint8Array(size);
  const grow = (queue: number[]) => {
    for (const block of queue) {
      for (const link of members[block] ?? []) {
        const { a, b } = links[link] as Link;
        for (const node of [a, b]) {
          if (spread[node] === 1) continue;
          spread[node] = 1;
          for (const other of linksAt(graph, node)) {
            const beside = blockOf[other] ?? 0;
            if (groupOf[beside] !== -1) continue;
            groupOf[beside] = groupOf[block] ?? 0;
            queue.push(beside);
          }
        }
      }
    }
  };
  const sides = [...new Set(links.flatMap(({ side }, link) => (side ? [blockOf[link] ?? 0] : [])))];
  for (const block of sides) groupOf[block] = block;
  grow(sides);
  // What no conversion part is joined to hangs together as it is wired.
  for (let block = 0; block < count; block++) {
    if (groupOf[block] !== -1) continue;
    groupOf[block] = block;
    grow([block]);
  }
  return groupOf;
}

function collect(
  terminals: readonly Terminal[],
  joints: readonly Joint[],
  graph: Graph,
  blockOf: Int32Array,
  groupOf: Int32Array,
) {
  const numbers = new Map<number, number>();
  const members: Terminal[][] = [];
  const islandOf = new Map<string, number>();
  const numberOf = (group: number) => {
    let number = numbers.get(group);
    if (number === undefined) {
      number = members.push([]) - 1;
      numbers.set(group, number);
    }
    return number;
  };
  terminals.forEach((terminal, node) => {
    const groups = new Set([...linksAt(graph, node)].map((link) => groupOf[blockOf[link] ?? 0] ?? 0));
    // A terminal that nothing joins is an island of its own.
    const here = groups.size === 0 ? [members.push([]) - 1] : [...groups].map(numberOf);
    for (const number of here) members[number]?.push(terminal);
    islandOf.set(terminal.id, Math.min(...here));
  });
  const islandJoints: Joint[][] = members.map(() => []);
  for (const joint of joints) islandJoints[numberOf(groupOf[blockOf[joint.index] ?? 0] ?? 0)]?.push(joint);
  const islands = members.map(
    (list, id): Island => ({
      id,
      terminals: list,
      parts: [...new Set(list.map(({ part }) => part))],
      joints: islandJoints[id] ?? [],
    }),
  );
  return { islands, islandOf };
}
