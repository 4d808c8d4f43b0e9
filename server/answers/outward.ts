/**
 * From a terminal outward, by the fewest steps: one way to every terminal that is joined to it, which the layout alone decides.
 * What a way there sums up to is no less than over the nearest way, and costs one look at each joint.
 */
import { keptWith, lazilyEach } from '../model/lazily.ts';
import type { Terminal } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import { arrangementOf } from './arrangement.ts';

/** Ways that start at one terminal; terminals and joints by their index. */
export interface Outward {
  /** Terminals from near to far, that itself first. */
  readonly order: Int32Array;
  /** By terminal where it is come from, and by which joint; -1 for the start, for what is not reached, and inside a part. */
  readonly cameFrom: Int32Array;
  readonly joint: Int32Array;
}

interface Steps {
  /** By terminal where its steps begin among all; one more at the end. */
  readonly first: Int32Array;
  readonly to: Int32Array;
  readonly joint: Int32Array;
}

const overJoints = keptWith((layout: Layout) => searches(layout, false));
const throughParts = keptWith((layout: Layout) => searches(layout, true));

function searches(layout: Layout, through: boolean): (start: number) => Outward {
  const steps = stepsOf(layout, through);
  return lazilyEach((start) => search(steps, start));
}

/** `through`: also over ways inside parts. */
export function outwardFrom(layout: Layout, { index }: Terminal, through: boolean): Outward {
  return (through ? throughParts : overJoints)(layout)(index);
}

/** By terminal the sum of `of`, by joint, along its way; NaN for what is not reached. */
export function sumsOutward({ order, cameFrom, joint }: Outward, of: Float64Array): Float64Array {
  const sums = new Float64Array(cameFrom.length).fill(Number.NaN);
  if (order.length > 0) sums[order[0] as number] = 0;
  for (let i = 1; i < order.length; i++) {
    const at = order[i] as number;
    const by = joint[at] as number;
    const more = by === -1 ? 0 : (of[by] as number);
    sums[at] = (sums[cameFrom[at] as number] as number) + more;
  }
  return sums;
}

function stepsOf(layout: Layout, through: boolean): Steps {
  const { terminals, joints } = layout;
  const inner = through ? arrangementOf(layout).wiring.inner : [];
  const all = [...joints.map(({ from, to }) => ({ from, to })), ...inner];
  const first = new Int32Array(terminals.length + 1);
  for (const { from, to } of all) {
    first[from.index] = (first[from.index] as number) + 1;
    first[to.index] = (first[to.index] as number) + 1;
  }
  for (let i = 0, sum = 0; i <= terminals.length; i++) {
    const count = first[i] as number;
    first[i] = sum;
    sum += count;
  }
  const next = first.slice();
  const [to, joint] = [new Int32Array(2 * all.length), new Int32Array(2 * all.length)];
  const add = (at: number, other: number, by: number) => {
    const place = next[at] as number;
    next[at] = place + 1;
    to[place] = other;
    joint[place] = by;
  };
  all.forEach((one, i) => {
    const by = i < joints.length ? i : -1;
    add(one.from.index, one.to.index, by);
    add(one.to.index, one.from.index, by);
  });
  return { first, to, joint };
}

function search({ first, to, joint: by }: Steps, start: number): Outward {
  const count = first.length - 1;
  const [order, cameFrom, joint] = [
    new Int32Array(count),
    new Int32Array(count).fill(-1),
    new Int32Array(count).fill(-1),
  ];
  const seen = new Uint8Array(count);
  let reached = 1;
  order[0] = start;
  seen[start] = 1;
  for (let i = 0; i < reached; i++) {
    const at = order[i] as number;
    for (let step = first[at] as number; step < (first[at + 1] as number); step++) {
      const other = to[step] as number;
      if (seen[other] === 1) continue;
      seen[other] = 1;
      cameFrom[other] = at;
      joint[other] = by[step] as number;
      order[reached++] = other;
    }
  }
  return { order: order.subarray(0, reached), cameFrom, joint };
}
