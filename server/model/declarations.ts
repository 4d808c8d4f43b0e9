/** Names: what every statement declares, one space for parts, runs, stock and places, one for cases. */
import type { PlacedProblem, SpecFile, Origin, NameUse, Place } from './model.ts';
import { placeIn, problem } from './place.ts';

export type Declared = 'part' | 'run' | 'stock' | 'place' | 'case';

export interface Declaration {
  readonly name: string;
  readonly as: Declared;
  readonly origin: Origin;
  readonly namePlace: Place;
}

export interface Declarations {
  readonly byName: ReadonlyMap<string, Declaration>;
  readonly cases: ReadonlyMap<string, Declaration>;
  readonly all: readonly Declaration[];
}

const asOf = (word: string, category: 'statement' | 'kind'): Declared | undefined => {
  if (category === 'kind') return 'part';
  if (word === 'run' || word === 'stock' || word === 'place' || word === 'case') return word;
  return undefined;
};

export function declare(files: readonly SpecFile[], problems: PlacedProblem[], uses: NameUse[]): Declarations {
  const byName = new Map<string, Declaration>();
  const cases = new Map<string, Declaration>();
  const all: Declaration[] = [];
  for (const file of files) {
    for (const statement of file.statements) {
      const { shaped } = statement;
      const spec = shaped.wrapper ?? shaped.spec;
      if (spec === undefined) continue;
      const as = asOf(spec.word, spec.category);
      if (as === undefined) continue;
      for (const atom of statement.node.names) {
        const origin = { file, statement };
        const declaration = { name: atom.value, as, origin, namePlace: placeIn(origin, atom.span) };
        const space = as === 'case' ? cases : byName;
        const first = space.get(atom.value);
        uses.push({ place: declaration.namePlace, name: atom.value, target: as, declaration: true });
        if (first !== undefined) {
          problems.push(
            problem('name-twice', declaration.namePlace, `“${atom.value}” is the name of ${describe(first)} already: give this one another name.`, {
              subject: atom.value,
              related: [{ message: `${atom.value} is declared here first`, place: first.namePlace }],
            }),
          );
          continue;
        }
        space.set(atom.value, declaration);
        all.push(declaration);
      }
    }
  }
  return { byName, cases, all };
}

function describe({ as, origin }: Declaration): string {
  const { shaped } = origin.statement;
  if (as === 'part') {
    const word = shaped.spec?.word ?? 'part';
    return `${/^[aeiou]/.test(word) ? 'an' : 'a'} ${word}`;
  }
  return `a ${as}`;
}
