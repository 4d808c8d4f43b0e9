/** Names for what an action brings in: free ones, in the spec's own pattern. */
import type { Analysis } from '../../analysis.ts';
import type { Run } from '../../model/model.ts';
import { nextName } from '../completion/new-names.ts';
import { spokenOf } from '../spoken-of.ts';
import type { Asked } from './offered.ts';

const numbered = /^(.*?)(\d+)$/su;

const known = new WeakMap<Analysis, ReadonlySet<string>>();

/**
 * Every name that stands in the spec and its files, also where nothing has it yet: what is brought in would be taken for that.
 * Cases are left out: they have names of their own.
 */
function takenNames(analysis: Analysis): ReadonlySet<string> {
  let taken = known.get(analysis);
  if (taken === undefined) {
    const found = new Set<string>();
    for (const { statements } of analysis.model.files)
      for (const statement of statements) {
        for (const { value } of statement.node.names) found.add(value);
        for (const { name, asOther } of spokenOf(statement)) if (asOther) found.add(name);
      }
    taken = found;
    known.set(analysis, taken);
  }
  return taken;
}

/** Gives names that are free, each once. */
export class FreshNames {
  private readonly given = new Set<string>();

  constructor(private readonly asked: Pick<Asked, 'analysis' | 'users'>) {}

  /**
   * The next of a kind: Q4 after Q3. `example` is the kind's own, for a spec that numbers none yet. Where a run and what it
   * joins begin alike (`VAN2-W5`, `VAN2-F1`), so does the new name.
   */
  ofKind(word: string, example: string, { name, cores }: Run): string {
    const joined = cores.flatMap(({ from, to }) => [from?.part.name ?? '', to?.part.name ?? '']);
    const [, prefix = ''] = /^(.*[-_])[^-_]*$/u.exec(name) ?? [];
    const usual = nextName(this.asked.analysis, word, example) ?? example;
    if (prefix === '' || !joined.every((part) => part.startsWith(prefix))) return this.from(usual);
    return this.from(`${prefix}${/[^-_]*$/u.exec(example)?.[0] ?? example}`);
  }

  /** One that goes on from another: W9 after W8, WASH-2 after WASH. */
  after(name: string): string {
    return this.from(numbered.test(name) ? name : `${name}-2`);
  }

  /** The name itself if it is free, else the next number that is. */
  from(name: string): string {
    const [, stem = `${name}-`, digits = '1'] = numbered.exec(name) ?? [];
    let free = name;
    for (let number = Number(digits); this.isTaken(free); number += 1)
      free = `${stem}${String(number + 1).padStart(digits.length, '0')}`;
    this.given.add(free);
    return free;
  }

  private isTaken(name: string): boolean {
    const { analysis, users } = this.asked;
    return this.given.has(name) || [analysis, ...users].some((one) => takenNames(one).has(name));
  }
}
