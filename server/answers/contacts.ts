/** Linked poles: which are in parallel, which by mistake on one side only, and what they are rated together. */
import type { ContactSpec } from '../kinds/kind.ts';
import type { Model, Part } from '../model/model.ts';
import { UnionFind } from '../physics/union-find.ts';

export interface PoleLinks {
  /** Poles joined with it by bars on both sides, itself included, in order. */
  readonly parallel: readonly number[];
  /** Poles joined with it on the same side only; poles in series are not. */
  readonly oneSided: readonly number[];
}

/** How bars join the poles of a part: both sides linked make poles parallel, one side alone does nothing. */
export function poleLinks(part: Part, model: Model): ReadonlyMap<number, PoleLinks> {
  const bars = model.bars.filter((bar) => bar.part === part);
  const number = new Map(part.terminals.map(({ spec }, i) => [spec.name, i]));
  const sets = new UnionFind(part.terminals.length);
  for (const { from, to } of bars) sets.join(number.get(from.spec.name) ?? 0, number.get(to.spec.name) ?? 0);
  const joined = (a: string, b: string) => sets.find(number.get(a) ?? 0) === sets.find(number.get(b) ?? 0);
  const isParallel = (one: ContactSpec, other: ContactSpec) =>
    (joined(one.from, other.from) && joined(one.to, other.to)) ||
    (joined(one.from, other.to) && joined(one.to, other.from));
  const poles = (contacts: readonly ContactSpec[]) => contacts.map(({ pole }) => pole).sort((a, b) => a - b);
  const links = new Map<number, PoleLinks>();
  for (const one of part.contacts) {
    const others = bars.length === 0 ? [] : part.contacts.filter((other) => other !== one);
    const parallel = others.filter((other) => isParallel(one, other));
    const oneSided = others.filter(
      // Two ways of a fusebox share their feed by their making; only a bar can be on the wrong side.
      (other) =>
        !parallel.includes(other) &&
        one.from !== other.from &&
        one.to !== other.to &&
        (joined(one.from, other.from) || joined(one.to, other.to)),
    );
    links.set(one.pole, { parallel: poles([one, ...parallel]), oneSided: poles(oneSided) });
  }
  return links;
}

/** The maker's rating of so many poles in parallel, else that of one pole: no gain is assumed. */
export function ratedAmps(part: Part, onePole: number | undefined, parallel: number): number | undefined {
  if (parallel > 1) {
    for (const row of part.facts.each('parallel')) {
      const stated = row.number('parallel', 'current');
      if (row.number('parallel', 'poles') === parallel && stated !== undefined) return stated;
    }
  }
  return onePole;
}
