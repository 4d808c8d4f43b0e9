/**
 * Answers of islands that were solved before. An island is known again by its own figures, every one of them, so that nothing
 * must be told to forget: a changed length makes another circuit, and whatever is unchanged is found. What was not asked for
 * longest is let go.
 */
import type { Circuit } from './circuit.ts';
import type { Settled } from './solve-island.ts';
import type { States } from './state-network.ts';

/** About as many numbers as are kept at most, in the circuits and their answers; 8 bytes each. */
const mostNumbers = 2_000_000;

interface Kept {
  readonly figures: Float64Array;
  readonly settled: Settled;
}

export class SolvedBefore {
  /** By a digest of the figures, the longest unasked first. */
  private readonly kept = new Map<number, Kept>();
  private numbers = 0;
  private counts = { found: 0, solved: 0 };

  constructor(private readonly most = mostNumbers) {}

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
  solve(
    island: Circuit,
    start: States | undefined,
    solve: (island: Circuit, start: States | undefined) => Settled,
  ): Settled {
    const figures = figuresOf(island, start);
    const digest = digestOf(figures);
    const known = this.kept.get(digest);
    if (known !== undefined && same(known.figures, figures)) {
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
    if (weight(figures) > this.most / 4) return settled;
    this.kept.set(digest, { figures, settled });
    this.numbers += weight(figures);
    for (const [oldest, one] of this.kept) {
      if (this.numbers <= this.most) break;
      this.forget(oldest, one);
    }
    return settled;
  }

  private forget(digest: number, { figures }: Kept): void {
    this.kept.delete(digest);
    this.numbers -= weight(figures);
  }
}

/** An answer has about as many numbers as the circuit. */
function weight(figures: Float64Array): number {
  return 2 * figures.length;
}

/** Every figure of a circuit, in one row: how many there are of each sort, and then each; then the states to start from. */
function figuresOf(circuit: Circuit, start: States | undefined): Float64Array {
  const { nodeCount, resistors, links, emfs, limited, currents, powers, diodes, references } = circuit;
  const counts = [nodeCount, resistors, links, emfs, limited, currents, powers, diodes, references].map((one) =>
    typeof one === 'number' ? one : one.length,
  );
  const [, r = 0, l = 0, e = 0, m = 0, c = 0, p = 0, d = 0, f = 0] = counts;
  const figures = new Float64Array(counts.length + 3 * (r + c + p) + 2 * l + 4 * (e + d) + 5 * m + f + m + d);
  figures.set(counts);
  let at = counts.length;
  for (const { a, b, ohms } of resistors) {
    figures[at++] = a;
    figures[at++] = b;
    figures[at++] = ohms;
  }
  for (const { a, b } of links) {
    figures[at++] = a;
    figures[at++] = b;
  }
  for (const { plus, minus, volts, ohms } of emfs) {
    figures[at++] = plus;
    figures[at++] = minus;
    figures[at++] = volts;
    figures[at++] = ohms;
  }
  for (const { plus, minus, volts, ohms, mostAmps } of limited) {
    figures[at++] = plus;
    figures[at++] = minus;
    figures[at++] = volts;
    figures[at++] = ohms;
    figures[at++] = mostAmps;
  }
  for (const { plus, minus, amps } of currents) {
    figures[at++] = plus;
    figures[at++] = minus;
    figures[at++] = amps;
  }
  for (const { plus, minus, watts } of powers) {
    figures[at++] = plus;
    figures[at++] = minus;
    figures[at++] = watts;
  }
  for (const { a, b, volts, ohms } of diodes) {
    figures[at++] = a;
    figures[at++] = b;
    figures[at++] = volts;
    figures[at++] = ohms;
  }
  for (const node of references) figures[at++] = node;
  for (let i = 0; i < m; i++) figures[at++] = start === undefined ? 0 : numberOf[start.limited[i] ?? 'holds'];
  for (let i = 0; i < d; i++) figures[at++] = start === undefined ? 0 : start.conducting[i] === true ? 1 : 2;
  return figures;
}

const numberOf = { holds: 1, limits: 2, off: 3 } as const;

/** FNV-1a over 32-bit words (G. Fowler, L. C. Noll, K.-P. Vo), twice with other starts for 53 bits. */
function digestOf(figures: Float64Array): number {
  const words = new Uint32Array(figures.buffer, figures.byteOffset, 2 * figures.length);
  let [high, low] = [0x811c9dc5, 0x01000193];
  for (let i = 0; i < words.length; i++) {
    const word = words[i] as number;
    high = Math.imul(high ^ word, 0x01000193);
    low = Math.imul(low + word, 0x85ebca6b) ^ (low >>> 13);
  }
  return (high >>> 0) * 0x200000 + ((low >>> 0) & 0x1fffff);
}

function same(a: Float64Array, b: Float64Array): boolean {
  if (a.length !== b.length) return false;
  // As bits: what is not a number is the same as itself.
  const [x, y] = [new Uint32Array(a.buffer), new Uint32Array(b.buffer)];
  for (let i = 0; i < x.length; i++) if (x[i] !== y[i]) return false;
  return true;
}
