/**
 * Answers of islands that were solved before. An island is known again by its own figures, every one of them, so that nothing
 * must be told to forget: a changed length makes another circuit, and whatever is unchanged is found. What was not asked for
 * longest is let go.
 */
import type { Settled } from './solve-island.ts';
import type { States } from './state-rows.ts';
import { type Flat, sameTopology, type Topology } from './topology.ts';

/**
 * About as many numbers as are kept at most, in the circuits and their answers; 8 bytes each. An edit of 200 lines makes 20,000
 * of them, one of 2,000 lines in one island 150,000; what hangs together is kept with its section besides.
 */
export const usualNumbers = 500_000;

interface Kept {
  readonly topology: Topology;
  readonly figures: Float64Array;
  readonly start: States | undefined;
  readonly settled: Settled;
}

export class SolvedBefore {
  /** By a digest of the figures, the longest unasked first. */
  private readonly kept = new Map<number, Kept>();
  private numbers = 0;
  private counts = { found: 0, solved: 0 };

  constructor(private readonly most = usualNumbers) {}

  /** How many answers were found as they were, and how many were worked out. */
  get counted(): { readonly found: number; readonly solved: number } {
    return { ...this.counts };
  }

  /** Numbers that are kept now. */
  get size(): number {
    return this.numbers;
  }

  /**
   * The answer of an island, worked out by `solve` from `start` unless it is known. Where it was begun is a part of what it is
   * known by: should there be several answers, none depends on what was asked before. Answers are shared: they are read only.
   */
  solve(island: Flat, start: States | undefined, solve: (island: Flat, start: States | undefined) => Settled): Settled {
    const { topology, figures } = island;
    const digest = digestOf(island, start);
    const known = this.kept.get(digest);
    if (known !== undefined && isOf(known, island, start)) {
      this.counts.found += 1;
      this.kept.delete(digest);
      this.kept.set(digest, known);
      return known.settled;
    }
    this.counts.solved += 1;
    const settled = solve(island, start);
    // Two circuits of one digest: the later stays.
    if (known !== undefined) this.forget(digest, known);
    // Something that fills most of the room would push out all else.
    if (weight(topology) > this.most / 4) return settled;
    this.kept.set(digest, { topology, figures: figures.slice(), start, settled });
    this.numbers += weight(topology);
    for (const [oldest, one] of this.kept) {
      if (this.numbers <= this.most) break;
      this.forget(oldest, one);
    }
    return settled;
  }

  private forget(digest: number, { topology }: Kept): void {
    this.kept.delete(digest);
    this.numbers -= weight(topology);
  }
}

/** An answer has about as many numbers as the circuit. */
function weight({ elements, figures, references }: Topology): number {
  return 2 * (2 * elements + figures + references.length);
}

function isOf(known: Kept, { topology, figures }: Flat, start: States | undefined): boolean {
  return sameTopology(known.topology, topology) && sameStates(known.start, start) && same(known.figures, figures);
}

function sameStates(one: States | undefined, other: States | undefined): boolean {
  // Where there is nothing that has a state it is no matter whether one was given.
  if (one === undefined || other === undefined) return countOf(one ?? other) === 0;
  return (
    one.limited.every((state, i) => state === other.limited[i]) &&
    one.conducting.every((state, i) => state === other.conducting[i])
  );
}

function countOf(states: States | undefined): number {
  return states === undefined ? 0 : states.limited.length + states.conducting.length;
}

const numberOf = { holds: 1, limits: 2, off: 3 } as const;

/** By every bit of every figure: from round to round they differ in their last digits only. */
function digestOf({ topology, figures }: Flat, start: States | undefined): number {
  const words = new Uint32Array(figures.buffer, figures.byteOffset, 2 * figures.length);
  let digest = topology.digest;
  for (let i = 0; i < words.length; i++)
    digest = Math.imul((digest << 5) ^ (digest >>> 27) ^ (words[i] as number), 0x85ebca6b);
  if (start !== undefined) {
    for (let i = 0; i < start.limited.length; i++) digest = 3 * digest + numberOf[start.limited[i] ?? 'holds'];
    for (let i = 0; i < start.conducting.length; i++) digest = 2 * digest + (start.conducting[i] === true ? 1 : 0);
  }
  return digest;
}

/** What is not a number is the same as itself. */
function same(a: Float64Array, b: Float64Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) {
    const one = a[i] as number;
    const other = b[i] as number;
    if (one !== other && !(Number.isNaN(one) && Number.isNaN(other))) return false;
  }
  return true;
}
