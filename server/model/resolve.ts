/** Looking names up where clauses use them: what kind of thing is wanted, near matches, and the record of every use. */
import { nearWords } from '../../grammar/near.ts';
import { article, list } from '../../grammar/shape-problems.ts';
import type { Declaration, Declarations, Declared } from './declarations.ts';
import type { NameUse, Place, PlacedProblem } from './model.ts';
import { problem } from './place.ts';

/** What a name may stand for: `enclosure` and `entry` are parts of that kind. */
export type Wanted = 'part' | 'run' | 'place' | 'stock' | 'case' | 'enclosure' | 'entry';

export class Resolver {
  constructor(
    private readonly declarations: Declarations,
    private readonly problems: PlacedProblem[],
    private readonly uses: NameUse[],
  ) {}

  /** The declaration a name stands for, recorded as a use; an unknown or unfit name becomes one problem. */
  find(name: string, place: Place, wanted: readonly Wanted[]): Declaration | undefined {
    const found = wanted.includes('case') && wanted.length === 1 ? this.declarations.cases.get(name) : this.declarations.byName.get(name);
    const other = found ?? (wanted.includes('case') ? this.declarations.cases.get(name) : undefined);
    if (other !== undefined && wanted.some((want) => fits(other, want))) {
      this.uses.push({ place, name, target: other.as, declaration: false });
      return other;
    }
    this.problems.push(other === undefined ? this.unknown(name, place, wanted) : unfit(name, place, wanted, other));
    return undefined;
  }

  private unknown(name: string, place: Place, wanted: readonly Wanted[]): PlacedProblem {
    const known = [...this.declarations.byName.values(), ...this.declarations.cases.values()]
      .filter((declaration) => wanted.some((want) => fits(declaration, want)))
      .map((declaration) => declaration.name);
    const near = nearWords(name, known);
    const what = list(wanted.map((want) => (want === 'stock' ? 'stock' : want)));
    return problem(
      'unknown-name',
      place,
      near.length > 0
        ? `There is no ${what} “${name}”: did you mean ${list(near)}?`
        : `There is no ${what} “${name}” in this spec or the files it uses: write its statement, or correct the name.`,
      {
        subject: name,
        fixes: near.map((word) => ({ title: `Write ${word}`, safe: false, edits: [{ place, newText: word }] })),
      },
    );
  }
}

function fits(declaration: Declaration, want: Wanted): boolean {
  if (want === 'enclosure' || want === 'entry') return declaration.as === 'part' && declaration.origin.statement.shaped.spec?.word === want;
  return declaration.as === (want as Declared);
}

function unfit(name: string, place: Place, wanted: readonly Wanted[], other: Declaration): PlacedProblem {
  const is = other.as === 'part' ? (other.origin.statement.shaped.spec?.word ?? 'part') : other.as;
  return problem('unknown-name', place, `“${name}” is ${article(is)}, but here stands the name of ${list(wanted.map((want) => article(want)))}.`, {
    subject: name,
    related: [{ message: `${name} is declared here`, place: other.namePlace }],
  });
}
