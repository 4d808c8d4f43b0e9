/** Contacts of devices and switches: what they carry, what protects their circuit, and what linked poles are rated. */
import type { Model, Part } from '../model/model.ts';

export interface PoleLinks {
  /** Poles joined with it by bars on both sides, itself included, in order. */
  readonly parallel: readonly number[];
  /** Poles joined with it on one side only. */
  readonly oneSided: readonly number[];
}

/** How bars join the poles of a part: both sides linked make poles parallel, one side alone does nothing. */
export function poleLinks(part: Part, model: Model): ReadonlyMap<number, PoleLinks> {
  const bars = model.bars.filter((bar) => bar.part === part);
  const joined = (a: string, b: string): boolean => {
    const seen = new Set([a]);
    const queue = [a];
    for (const terminal of queue) {
      if (terminal === b) return true;
      for (const { from, to } of bars) {
        const next = from.spec.name === terminal ? to.spec.name : to.spec.name === terminal ? from.spec.name : undefined;
        if (next !== undefined && !seen.has(next)) {
          seen.add(next);
          queue.push(next);
        }
      }
    }
    return false;
  };
  const links = new Map<number, PoleLinks>();
  for (const one of part.contacts) {
    const parallel = [one.pole];
    const oneSided: number[] = [];
    for (const other of part.contacts) {
      if (other === one || bars.length === 0) continue;
      const straight = [joined(one.from, other.from), joined(one.to, other.to)];
      if (straight[0] && straight[1]) parallel.push(other.pole);
      else if (straight[0] || straight[1]) oneSided.push(other.pole);
    }
    links.set(one.pole, { parallel: parallel.sort((a, b) => a - b), oneSided: oneSided.sort((a, b) => a - b) });
  }
  return links;
}

/** The maker's rating of poles in parallel, else that of one pole: no gain is assumed. */
export function ratedAmps(part: Part, onePole: number | undefined, parallel: number): number | undefined {
  if (parallel > 1) {
    for (const row of part.facts.each('parallel'))
      if (row.number('parallel', 'poles') === parallel) {
        const stated = row.number('parallel', 'current');
        if (stated !== undefined) return stated;
      }
  }
  return onePole;
}
