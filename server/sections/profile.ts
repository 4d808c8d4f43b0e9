/**
 * What a statement declares and what it mentions, by name: all that decides which statements hang together. It is read from
 * the statement alone, once for every text.
 */
import type { ShapedPlaced, ShapedStatement } from '../../grammar/shaped.ts';
import type { Atom, StatementNode } from '../../grammar/tree.ts';
import { trimmed } from '../../grammar/trimmed.ts';
import { isStockOnly, kindOf } from '../kinds/vocabulary.ts';
import { seemingNames } from '../model/declarations.ts';

export interface Profile {
  /**
   * `common` holds for the whole spec: its system, places, cases and stock, the files it uses, and what it accepts of all. A stock with a blank is
   * no such thing, since what would be chosen for it depends on all that take it.
   */
  readonly is: 'common' | 'member';
  /** A case tells of parts and joins none of them. */
  readonly onlyTells: boolean;
  readonly declares: readonly number[];
  /** Every word that may be a name; most are not. */
  readonly mentions: readonly number[];
  /** Those that can be nothing but names. */
  readonly names: readonly number[];
  readonly isRun: boolean;
  /** Bonded to the vehicle's body, which is one for all. */
  readonly isBonded: boolean;
}

/** Names of cases, which stand for nothing else, and of findings, which are no names of a spec. */
const namesApart: ReadonlySet<string> = new Set(['name<case>', 'name<slug>']);

function isName(type: string): boolean {
  return type === 'end' || type === 'terminal' || (type.startsWith('name<') && !namesApart.has(type));
}

const commonWords: ReadonlySet<string> = new Set(['system', 'use', 'place', 'case']);

const none: readonly number[] = [];

/** Profiles by statement, with a number for every name. */
export class Profiles {
  private readonly numbers = new Map<string, number>();
  private readonly words: string[] = [];
  private readonly known = new WeakMap<ShapedStatement, Profile>();
  /** Lists of numbers made so far, and by name the last that it stands in. */
  private lists = 0;
  private readonly lastIn: number[] = [];

  /** Names that have a number. */
  get size(): number {
    return this.words.length;
  }

  nameOf(number: number): string {
    return this.words[number] ?? '';
  }

  of(statement: ShapedPlaced): Profile {
    let profile = this.known.get(statement.shaped);
    if (profile === undefined) {
      profile = this.read(statement);
      this.known.set(statement.shaped, profile);
    }
    return profile;
  }

  private number(name: string): number {
    let number = this.numbers.get(name);
    if (number === undefined) {
      number = this.words.push(name) - 1;
      this.numbers.set(name, number);
    }
    return number;
  }

  /** The numbers of some names, each once. */
  private numbersOf(names: readonly string[]): readonly number[] {
    if (names.length === 0) return none;
    this.lists += 1;
    const numbers: number[] = [];
    for (let i = 0; i < names.length; i++) {
      const number = this.number(names[i] as string);
      if (this.lastIn[number] === this.lists) continue;
      this.lastIn[number] = this.lists;
      numbers.push(number);
    }
    return trimmed(numbers);
  }

  private read({ node, shaped }: ShapedPlaced): Profile {
    const { spec, wrapper } = shaped;
    const word = (wrapper ?? spec)?.word;
    const isCommon =
      (word !== undefined && commonWords.has(word)) ||
      (word === 'stock' && !node.text.includes('?')) ||
      (word === 'allow' && acceptsAnywhere(shaped));
    const declared = node.names.map(({ value }) => value);
    const declares = declaresNames(word);
    const isGhost =
      word === undefined || (declares && declared.length === 0) || (wrapper === undefined && isStockOnly(kindOf(word)));
    const names = surelyNames(shaped);
    return {
      is: isCommon ? 'common' : 'member',
      onlyTells: word === 'case',
      // Cases have names of their own; an expectation, a reading or an `allow` declares nothing.
      declares: this.numbersOf(word === 'case' ? [] : isGhost ? seemingNames(node) : declares ? declared : []),
      mentions: this.numbersOf(declared.concat(seemingly(node), names)),
      names: this.numbersOf(names),
      isRun: word === 'run' && declared.length > 0,
      isBonded: word === 'chassis',
    };
  }
}

/** An `allow` with its reason and of no one part or run. While that is being written it accepts nothing yet. */
function acceptsAnywhere({ clauses, problems }: ShapedStatement): boolean {
  const has = (slot: string) => clauses.some(({ values }) => values.some((value) => value.slot === slot));
  return problems.length === 0 && has('reason') && !has('subject');
}

/** Words of a statement that may be names; those of terminals are so surely. */
function seemingly({ atoms }: StatementNode): string[] {
  const mentioned: string[] = [];
  for (let i = 0; i < atoms.length; i++) {
    const atom = atoms[i] as Atom;
    if (atom.kind !== 'word') continue;
    mentioned.push(atom.value);
    // `B1-` may be a name, or a part and its terminal.
    if (atom.value.endsWith('-')) mentioned.push(atom.value.slice(0, -1));
  }
  return mentioned;
}

/** Words that can be nothing but names. */
function surelyNames({ node, clauses, problems }: ShapedStatement): string[] {
  const names: string[] = [];
  for (let i = 0; i < node.atoms.length; i++) {
    const atom = node.atoms[i];
    if (atom?.kind === 'terminal') names.push(atom.part);
  }
  // What a slip was read as stands in the clauses alone.
  for (const { values } of clauses)
    for (const { atom, type } of values)
      if (atom.kind === 'terminal') names.push(atom.part);
      else if (atom.kind === 'word' && isName(type)) names.push(atom.value);
  // Words that a mistake hid in a comment may be names as well.
  if (problems.length > 0)
    for (const { text } of node.comments)
      for (const [, name = ''] of text.matchAll(/(\p{L}[\p{L}\p{M}\p{N}_-]*):/gu)) names.push(name);
  return names;
}

function declaresNames(word: string | undefined): boolean {
  return word !== undefined && !['system', 'use', 'link', 'expect', 'reading', 'allow'].includes(word);
}
