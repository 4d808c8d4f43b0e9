/**
 * Names: what every statement declares. Parts, runs, stock and places share one space, so that a name means one thing
 * wherever it stands; cases have a space of their own, since only `in` of an expectation and their own head name them.
 */

import { nameBehindComma, nameBehindMark, nameBehindTitle, nameInTwo } from '../../grammar/name-problems.ts';
import { article } from '../../grammar/phrases.ts';
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { StatementNode } from '../../grammar/tree.ts';
import { isStockOnly, kindOf } from '../kinds/vocabulary.ts';
import { fileName, type ReadStatements } from './files.ts';
import type { DeclaredName, KeptModel } from './kept.ts';
import type { Lookups } from './lookups.ts';
import type { NameUse, Origin, Place, PlacedProblem, SaidInFile } from './model.ts';
import { fix, isBroken, placeIn, problem } from './place.ts';

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
  /** In statement order, the spec's own file first; each name once. */
  readonly all: readonly Declaration[];
  /** Names that broken statements seem to declare: they are there, and nothing else is known of them. */
  readonly ghosts: ReadonlySet<string>;
  /** Statements of which a name was taken already, so that they declare nothing by it. */
  readonly lost: ReadonlySet<ShapedPlaced>;
}

const asOf = (word: string, category: 'statement' | 'kind'): Declared | undefined => {
  if (category === 'kind') return 'part';
  if (word === 'run' || word === 'stock' || word === 'place' || word === 'case') return word;
  return undefined;
};

/** Every name in the heads of these files: a new one must be free in the whole spec. */
export function writtenIn(files: readonly SaidInFile[]): ReadonlySet<string> {
  return new Set(
    files.flatMap(({ statements }) => statements.flatMap(({ node }) => node.names.map(({ value }) => value))),
  );
}

/** What a statement declares by one of its names. */
export function declarationBy(origin: Origin, name: string): Declaration | undefined {
  const { shaped, node } = origin.statement;
  const spec = shaped.wrapper ?? shaped.spec;
  const as = spec === undefined ? undefined : asOf(spec.word, spec.category);
  const atom = node.names.find(({ value }) => value === name);
  if (as === undefined || atom === undefined || (as === 'part' && isStockOnly(kindOf(spec?.word ?? ''))))
    return undefined;
  return { name, as, origin, namePlace: placeIn(origin, atom.span) };
}

export function declare(
  read: ReadStatements,
  kept: KeptModel,
  lookups: Lookups,
  problems: PlacedProblem[],
  uses: NameUse[],
  written: () => ReadonlySet<string> = () => writtenIn(read.files),
): Declarations {
  const { files } = read;
  const byName = lookups.of<Declaration>('name');
  const cases = lookups.of<Declaration>('case');
  const all: Declaration[] = [];
  const ghosts = new Set<string>();
  const lost = new Set<ShapedPlaced>();
  const free = new FreeNames(written);
  for (const file of files) {
    for (const statement of file.statements) {
      const origin = kept.origin(file, statement);
      const { shaped } = statement;
      const spec = shaped.wrapper ?? shaped.spec;
      const as = spec === undefined ? undefined : asOf(spec.word, spec.category);
      if (as === 'part' && isStockOnly(kindOf(spec?.word ?? ''))) {
        problems.push(...laidBare(origin));
        for (const name of seemingNames(statement.node)) ghosts.add(name);
        continue;
      }
      if (as === undefined || statement.node.names.length === 0) {
        if (spec === undefined || as !== undefined) for (const name of seemingNames(statement.node)) ghosts.add(name);
        continue;
      }
      if (shaped.problems.length > 0) {
        const { node } = statement;
        const parted = nameInTwo(node) ?? [];
        const further = nameBehindMark(node) ?? nameBehindComma(node) ?? nameBehindTitle(node);
        const slashed = node.names.flatMap(({ value }) => (value.includes('/') ? value.split('/') : []));
        const [spaced = '', second = ''] = nameInWords(statement) ?? [];
        const joined = nameBehindClause(statement) ?? '';
        const two = parted.map(({ text }) => text).join('');
        for (const name of [two, further?.text ?? '', ...slashed, spaced, second, joined])
          if (name !== '') ghosts.add(name);
      }
      // A case belongs to the spec that is worked out, not to a file it uses.
      if (as === 'case' && file !== files[0]) continue;
      const space = as === 'case' ? cases : byName;
      for (const { declaration, use } of kept.declarations(origin, () => declaredBy(origin, as))) {
        uses.push(use);
        const first = space.get(declaration.name);
        if (first === undefined) {
          space.set(declaration.name, declaration);
          all.push(declaration);
        } else {
          lost.add(statement);
          // `enclosure ROOF BOX`: the name is not ROOF.
          if (nameInWords(statement) !== undefined || isNameless(statement)) continue;
          problems.push(...clash(read, first, declaration, free));
        }
      }
    }
  }
  return { byName, cases, all, ghosts, lost };
}

/** What stands for its name is told of as none. */
const isNameless = ({ shaped }: ShapedPlaced): boolean =>
  shaped.problems.some(({ slug }) => slug === 'missing-name' || slug === 'reserved-name');

/** `ROOF-BOX` and `BOX` of `enclosure ROOF BOX`, where words behind the name are told of as part of it. */
function nameInWords({ node, shaped }: ShapedPlaced): readonly [joined: string, second: string] | undefined {
  const [first] = node.body;
  if (first?.kind !== 'word' || node.names.length !== 1) return undefined;
  const isTold = shaped.problems.some(({ slug, span }) => slug === 'unknown-clause' && span.start === first.span.start);
  return isTold ? [`${node.names[0]?.value}-${first.value}`, first.value] : undefined;
}

/** `RIGHT` of `load LEFT 9 W and RIGHT 9 W`, told of at its “and”. */
function nameBehindClause({ node, shaped }: ShapedPlaced): string | undefined {
  for (const { slug, span } of shaped.problems) {
    if (slug !== 'unknown-clause') continue;
    const [, name] = /^and (\p{L}[\p{L}\p{M}\p{N}_-]*)/u.exec(node.text.slice(span.start, span.end)) ?? [];
    if (name !== undefined) return name;
  }
  return undefined;
}

function declaredBy(origin: Origin, as: Declared): DeclaredName[] {
  return origin.statement.node.names.map(({ value: name, span }) => {
    const namePlace = placeIn(origin, span);
    return {
      declaration: { name, as, origin, namePlace },
      use: { place: namePlace, name, target: as, declaration: true },
    };
  });
}

/** `cable C1 6 mm²` by itself is neither on a drum nor laid anywhere; nor is `limit-set ours …` anything fitted. */
function laidBare(origin: Origin): PlacedProblem[] {
  const { keyword, names } = origin.statement.node;
  const name = names[0];
  if (keyword === undefined || isBroken(origin)) return [];
  const place = placeIn(origin, keyword.span);
  const whole = name === undefined ? undefined : placeIn(origin, { start: keyword.span.start, end: name.span.end });
  if (keyword.value !== 'cable') {
    const stocked = `stock ${name?.value ?? 'our-van'} ${keyword.value}`;
    return [
      problem('unknown-statement', place, `A ${keyword.value} stands in stock: write “${stocked} …”.`, {
        subject: name?.value,
        fixes: whole === undefined ? [] : [fix('Make it stock', whole, stocked, true)],
      }),
    ];
  }
  return [
    problem(
      'unknown-statement',
      place,
      `A ${keyword.value} is stock or is laid: write “stock ${name?.value ?? 'C1'} ${keyword.value} …” for one on the drum, or “run ${name?.value ?? 'W1'} …” for one from terminal to terminal.`,
      {
        subject: name?.value,
        fixes:
          whole === undefined || name === undefined
            ? []
            : [fix('Make it stock', whole, `stock ${name.value} ${keyword.value}`), fix('Make it a run', place, 'run')],
      },
    ),
  ];
}

/** Told in the spec's own file, where it can be mended: at its own declaration, else at the `use` that brings the second in. */
function clash(
  { files, broughtBy }: ReadStatements,
  first: Declaration,
  second: Declaration,
  free: FreeNames,
): PlacedProblem[] {
  const { name } = second;
  const [ownUri, firstUri, secondUri] = [files[0]?.uri, first.namePlace.uri, second.namePlace.uri];
  if (firstUri === secondUri) {
    const other = free.like(name);
    return [
      problem(
        'name-twice',
        second.namePlace,
        `“${name}” is the name of ${describe(first)} already: give this ${describe(second, false)} another name.`,
        {
          subject: name,
          related: [{ message: `${name} is declared here first`, place: first.namePlace }],
          fixes: [fix(`Write ${other}`, second.namePlace, other)],
        },
      ),
    ];
  }
  if (firstUri === ownUri) {
    const other = free.like(name);
    return [
      problem(
        'name-twice',
        first.namePlace,
        `“${name}” is the name of ${describe(second)} in ${fileName(secondUri)} already, which this spec uses: give this ${describe(first, false)} another name.`,
        {
          subject: name,
          related: [{ message: `${name} is declared here too`, place: second.namePlace }],
          fixes: [fix(`Write ${other}`, first.namePlace, other)],
        },
      ),
    ];
  }
  const [one, two] = [broughtBy.get(firstUri), broughtBy.get(secondUri)];
  // Two files that come in by the same use: the file used there is told when it is checked itself.
  if (two === undefined || (one !== undefined && one.span.start === two.span.start)) return [];
  return [
    problem(
      'name-twice',
      two,
      `${fileName(firstUri)} and ${fileName(secondUri)} both declare “${name}”, so they cannot be used together: give one of the two another name.`,
      {
        subject: name,
        related: [
          { message: `${name} is ${describe(first)} here`, place: first.namePlace },
          { message: `${name} is ${describe(second)} here`, place: second.namePlace },
        ],
      },
    ),
  ];
}

/** `a fuse`, `a run`; without its article `fuse`, `run`. */
export function describe({ as, origin }: Pick<Declaration, 'as' | 'origin'>, withArticle = true): string {
  const { spec } = origin.statement.shaped;
  const word = as === 'part' ? (spec?.word ?? 'part') : as;
  if (!withArticle || word === 'stock') return word;
  return article(word);
}

const nameLike = /^\p{L}[\p{L}\p{M}\p{N}_-]*$/u;

/** Names a statement would declare if its first word or its head could be read: `fusee F1 …`, `panl P1 and P2`, `fuse "F1"`. */
export function seemingNames({ names, body, title }: StatementNode): string[] {
  const found = names.map(({ value }) => value);
  let at = 0;
  const first = body[0];
  if (found.length === 0) {
    if (first?.kind === 'terminal') found.push(first.part);
    else if (first?.kind === 'word') found.push(first.value);
    else if (title !== undefined) found.push(title.value);
    at = 1;
  }
  for (; ; at += 2) {
    const [and, name] = [body[at], body[at + 1]];
    if (and?.kind !== 'word' || and.value !== 'and' || name?.kind !== 'word') break;
    found.push(name.value);
  }
  return found.filter((name) => nameLike.test(name));
}

/** The next name of the same letters that nothing has: `W12` becomes `W13`, `LAMP` becomes `LAMP2`. */
class FreeNames {
  private readonly last = new Map<string, number>();

  private known: ReadonlySet<string> | undefined;

  constructor(private readonly taken: () => ReadonlySet<string>) {}

  like(name: string): string {
    const [, stem = name, digits] = /^(.*?)(\d*)$/su.exec(name) ?? [];
    this.known ??= this.taken();
    const taken = this.known;
    let number = Math.max(this.last.get(stem) ?? 0, digits === undefined || digits === '' ? 1 : Number(digits));
    do number += 1;
    while (taken.has(`${stem}${number}`));
    this.last.set(stem, number);
    return `${stem}${number}`;
  }
}
