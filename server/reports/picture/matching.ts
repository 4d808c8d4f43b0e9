/**
 * What of the picture before is what now: by name, and where a name has gone and another come, by what is joined to it or by
 * its place among the statements. So a renamed part stays where it is.
 */
import { ownersOf } from './engine-graph.ts';
import type { PictureCable, PictureGraph, PicturePart } from './scene.ts';

export interface Matching {
  /** Names before by names now. */
  readonly parts: ReadonlyMap<string, string>;
  readonly runs: ReadonlyMap<string, string>;
}

export function matchingOf(before: PictureGraph, now: PictureGraph): Matching {
  const parts = matched(before.parts, now.parts, attachments(before), attachments(now), alikeParts);
  const runs = matched(
    before.cables,
    now.cables,
    endsOf(before, (name) => name),
    endsOf(now, (name) => parts.get(name) ?? name),
    alikeCables,
  );
  return { parts, runs };
}

interface Ranked {
  readonly name: string;
  readonly ordinal: number;
}

function matched<T extends Ranked>(
  before: readonly T[],
  now: readonly T[],
  joinedBefore: ReadonlyMap<string, ReadonlySet<string>>,
  joinedNow: ReadonlyMap<string, ReadonlySet<string>>,
  alike: (one: T, other: T) => boolean,
): Map<string, string> {
  const known = new Map(before.map((one) => [one.name, one]));
  const found = new Map<string, string>();
  for (const { name } of now) if (known.delete(name)) found.set(name, name);
  for (const one of now) {
    if (found.has(one.name)) continue;
    const joined = joinedNow.get(one.name) ?? new Set();
    const rated = [...known.values()]
      .filter((other) => alike(other, one))
      .map((other) => {
        const shared = [...(joinedBefore.get(other.name) ?? [])].filter((key) => joined.has(key)).length;
        return { other, rate: 2 * shared + (other.ordinal === one.ordinal ? 1 : 0) };
      })
      .sort((a, b) => b.rate - a.rate);
    const [best] = rated;
    if (best === undefined || best.rate === 0) continue;
    known.delete(best.other.name);
    found.set(one.name, best.other.name);
  }
  return found;
}

const alikeParts = (one: PicturePart, other: PicturePart): boolean => one.symbol === other.symbol;
const alikeCables = (one: PictureCable, other: PictureCable): boolean => one.cores.length === other.cores.length;

/** `W1/0 in` and so on, by part. */
function attachments(graph: PictureGraph): Map<string, Set<string>> {
  const owners = ownersOf(graph);
  const found = new Map<string, Set<string>>();
  for (const { id, from, to } of graph.cores)
    for (const terminal of [from, to]) {
      const part = owners.get(terminal);
      if (part === undefined) continue;
      const set = found.get(part.name) ?? new Set();
      found.set(part.name, set.add(`${id} ${terminal.slice(part.name.length)}`));
    }
  return found;
}

/** Both ends of every core of a run, by the names before. */
function endsOf(graph: PictureGraph, nameBefore: (part: string) => string): Map<string, Set<string>> {
  const owners = ownersOf(graph);
  const old = (terminal: string) => {
    const name = owners.get(terminal)?.name ?? terminal;
    return nameBefore(name) + terminal.slice(name.length);
  };
  const found = new Map<string, Set<string>>();
  for (const { run, index, from, to } of graph.cores) {
    const set = found.get(run) ?? new Set();
    found.set(run, set.add(`${index} ${old(from)} ${old(to)}`));
  }
  return found;
}
