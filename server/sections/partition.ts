/**
 * Which statements hang together. Statements that declare or mention a name in common make a group; what is said for the
 * whole spec joins nothing. Groups that share no name share no conductor, no enclosure and no bunch, so that nothing worked
 * out in one depends on another, and an edit in one leaves the others as they were. Small groups are put together, for
 * reading what is common costs something each time.
 */
import { allNear } from '../../grammar/near.ts';
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { Profile, Profiles } from './profile.ts';

export interface Partition {
  readonly common: readonly ShapedPlaced[];
  /** In the order of the spec, each in the order of its first statement. */
  readonly packs: readonly Pack[];
  /** The first statement, not a common one, that declares the name of this number. */
  owner(name: number): ShapedPlaced | undefined;
  /** Names that are declared, each with the first statement to declare it; those of common statements left out. */
  declared(): readonly { readonly name: string; readonly statement: ShapedPlaced }[];
}

/** Statements that are worked out together. */
export interface Pack {
  readonly statements: readonly ShapedPlaced[];
}

export interface Packing {
  /** A spec with fewer statements is not parted. */
  readonly least: number;
  /** Groups smaller than this, in statements, are put together with others. */
  readonly small: number;
  /** So many or a little more go together. */
  readonly most: number;
}

/** More names than these that mean nothing, and the spec is not parted: it is noise, or half of it is missing. */
const mostUnknown = 40;

/** Statements as they were parted last, and what it rests on. */
interface Parted {
  readonly statements: readonly ShapedPlaced[];
  readonly partition: Partition;
  /** The pack of every statement; -1 of a common one. */
  readonly packOf: Int32Array;
  /** Where each name is declared, by its number. */
  readonly owner: Int32Array;
  /** Names that are declared, and those that common statements declare. */
  readonly declared: readonly number[];
  readonly common: ReadonlySet<number>;
}

/** Names near to one that is not declared, kept while the declared names are the same. */
interface NearBefore {
  readonly declared: readonly number[];
  readonly near: Map<number, readonly number[]>;
}

export class Parting {
  private nearBefore: NearBefore = { declared: [], near: new Map() };
  private last: Parted | undefined;

  constructor(
    private readonly profiles: Profiles,
    private readonly packing: Packing,
  ) {}

  /** Undefined where the spec cannot be parted: something common is something else as well, or rests on it. */
  of(statements: readonly ShapedPlaced[]): Partition | undefined {
    const like = this.likeBefore(statements);
    if (like !== undefined) return like;
    this.last = undefined;
    const { profiles } = this;
    const all = statements.map((statement) => profiles.of(statement));
    const owner = new Int32Array(profiles.size).fill(-1);
    const parent = Int32Array.from(all, (_, i) => i);
    const join = (a: number, b: number) => {
      const one = rootOf(parent, a);
      const other = rootOf(parent, b);
      if (one < other) parent[other] = one;
      else parent[one] = other;
    };
    const common = new Set<number>();
    const declared: number[] = [];
    let body = -1;
    all.forEach(({ is, declares, isBonded }, i) => {
      for (const name of declares) {
        if (is === 'common') common.add(name);
        else if (owner[name] === -1) {
          owner[name] = i;
          declared.push(name);
        } else join(i, owner[name] ?? i);
      }
      if (!isBonded) return;
      if (body === -1) body = i;
      else join(i, body);
    });
    if (declared.some((name) => common.has(name))) return undefined;
    // Stock with a blank that what is common rests on.
    if (
      all.some(
        ({ is, onlyTells, mentions }) => is === 'common' && !onlyTells && mentions.some((name) => owner[name] !== -1),
      )
    )
      return undefined;
    all.forEach(({ is, mentions }, i) => {
      if (is !== 'member') return;
      for (let at = 0; at < mentions.length; at++) {
        const declares = owner[mentions[at] as number] ?? -1;
        if (declares !== -1) join(i, declares);
      }
    });
    if (!this.joinNear(all, owner, common, declared, join)) return undefined;
    const packOf = new Int32Array(statements.length).fill(-1);
    const packs = this.pack(all, parent).map((indexes, at) => {
      for (const i of indexes) packOf[i] = at;
      return { statements: indexes.map((i) => statements[i] as ShapedPlaced) };
    });
    const partition = {
      common: statements.filter((_, i) => all[i]?.is === 'common'),
      packs,
      ...this.owners(statements, owner, declared),
    };
    this.last = { statements, partition, packOf, owner, declared, common };
    return partition;
  }

  private owners(
    statements: readonly ShapedPlaced[],
    owner: Int32Array,
    declared: readonly number[],
  ): Pick<Partition, 'owner' | 'declared'> {
    const { profiles } = this;
    return {
      owner: (name) => statements[owner[name] ?? -1],
      declared: () =>
        declared.map((name) => ({
          name: profiles.nameOf(name),
          statement: statements[owner[name] ?? 0] as ShapedPlaced,
        })),
    };
  }

  /** The partition from before with some statements in the place of others that hang together with the same ones. */
  private likeBefore(statements: readonly ShapedPlaced[]): Partition | undefined {
    const { last } = this;
    if (last === undefined || last.statements.length !== statements.length) return undefined;
    const others = new Map<number, Map<ShapedPlaced, ShapedPlaced>>();
    for (let i = 0; i < statements.length; i++) {
      const [was, is] = [last.statements[i] as ShapedPlaced, statements[i] as ShapedPlaced];
      if (was === is) continue;
      const pack = last.packOf[i] ?? -1;
      if (pack === -1 || !this.joinsTheSame(was, is, last)) return undefined;
      const here = others.get(pack);
      if (here === undefined) others.set(pack, new Map([[was, is]]));
      else here.set(was, is);
    }
    const packs = last.partition.packs.map((pack, at) => {
      const here = others.get(at);
      return here === undefined ? pack : { statements: pack.statements.map((one) => here.get(one) ?? one) };
    });
    const partition = { ...last.partition, packs, ...this.owners(statements, last.owner, last.declared) };
    this.last = { ...last, statements, partition };
    return partition;
  }

  /** Common names join nothing; a name that nothing declares may, and counts where it can be nothing but a name. */
  private joinsTheSame(was: ShapedPlaced, is: ShapedPlaced, { owner, common }: Parted): boolean {
    const [one, other] = [this.profiles.of(was), this.profiles.of(is)];
    if (one === other) return true;
    const isOwned = (name: number) => (owner[name] ?? -1) !== -1;
    const maySeem = (name: number) => !isOwned(name) && !common.has(name);
    return (
      other.is === 'member' &&
      one.isRun === other.isRun &&
      one.isBonded === other.isBonded &&
      areSame(one.declares, other.declares) &&
      areSame(one.mentions.filter(isOwned), other.mentions.filter(isOwned)) &&
      areSame(one.names.filter(maySeem), other.names.filter(maySeem))
    );
  }

  /** A name that nothing declares may stand for any that is near to it. False where there are too many of them. */
  private joinNear(
    all: readonly Profile[],
    owner: Int32Array,
    common: ReadonlySet<number>,
    declared: readonly number[],
    join: (a: number, b: number) => void,
  ): boolean {
    const { profiles, nearBefore } = this;
    const same =
      declared.length === nearBefore.declared.length && declared.every((n, i) => n === nearBefore.declared[i]);
    const before = same ? nearBefore.near : new Map<number, readonly number[]>();
    const near = new Map<number, readonly number[]>();
    let names: Map<string, number> | undefined;
    for (let i = 0; i < all.length; i++) {
      const { is, names: sure } = all[i] as Profile;
      if (is !== 'member') continue;
      for (let at = 0; at < sure.length; at++) {
        const name = sure[at] as number;
        if (owner[name] !== -1 || common.has(name)) continue;
        let found = near.get(name) ?? before.get(name);
        if (found === undefined) {
          if (near.size >= mostUnknown) return false;
          names ??= new Map(declared.map((number) => [profiles.nameOf(number), number]));
          const known = names;
          found = allNear(profiles.nameOf(name), known.keys()).flatMap((word) => known.get(word) ?? []);
        }
        near.set(name, found);
        for (const other of found) join(i, owner[other] ?? i);
      }
    }
    this.nearBefore = { declared, near };
    return true;
  }

  /** Which small groups go together follows from their names alone, so that it is the same whatever was edited before. */
  private pack(all: readonly Profile[], parent: Int32Array): number[][] {
    const { small, most } = this.packing;
    const groups = new Map<number, number[]>();
    for (let i = 0; i < all.length; i++) {
      if (all[i]?.is !== 'member') continue;
      const root = rootOf(parent, i);
      const group = groups.get(root);
      if (group) group.push(i);
      else groups.set(root, [i]);
    }
    const littles = [...groups.values()].filter((group) => group.length < small);
    const count = littles.reduce((sum, group) => sum + group.length, 0);
    // Doubled as they fill, so that few of them move.
    const bins = 2 ** Math.max(0, Math.ceil(Math.log2(count / Math.max(1, most))));
    const packs = new Map<string, number[]>();
    for (const [root, group] of groups) {
      const key = group.length < small ? `bin ${this.hashOf(group, all) % bins}` : `root ${root}`;
      const indexes = packs.get(key);
      if (indexes) for (const i of group) indexes.push(i);
      else packs.set(key, [...group]);
    }
    return [...packs.values()].map((indexes) => indexes.sort((a, b) => a - b));
  }

  /** By the first name that the group declares (FNV-1a, 32 bits). */
  private hashOf(group: readonly number[], all: readonly Profile[]): number {
    const first = group.find((i) => (all[i]?.declares.length ?? 0) > 0);
    const name = this.profiles.nameOf(all[first ?? -1]?.declares[0] ?? -1);
    let hash = 0x811c9dc5;
    for (let i = 0; i < name.length; i++) hash = Math.imul(hash ^ name.charCodeAt(i), 0x01000193) >>> 0;
    return hash;
  }
}

function areSame(some: readonly number[], others: readonly number[]): boolean {
  return some.length === others.length && some.every((one, i) => one === others[i]);
}

function rootOf(parent: Int32Array, at: number): number {
  let root = at;
  while (parent[root] !== root) root = parent[root] ?? root;
  // Shortened on the way, so that the next look is quick.
  for (let i = at; parent[i] !== root; ) {
    const next = parent[i] ?? root;
    parent[i] = root;
    i = next;
  }
  return root;
}
