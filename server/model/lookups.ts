/** Names that are looked up while a model is built, and what they meant: what something that is kept rests on. */

export type Sort = 'name' | 'case' | 'stock' | 'place' | 'part' | 'terminal';

export interface Lookup {
  readonly sort: Sort;
  readonly name: string;
  readonly meaning: unknown;
}

/** Names of one sort with their meanings; every lookup is told of. */
export class Meanings<V> extends Map<string, V> {
  constructor(
    private readonly sort: Sort,
    private readonly lookups: Lookups,
  ) {
    super();
  }

  override get(name: string): V | undefined {
    const meaning = super.get(name);
    this.lookups.add(this.sort, name, meaning);
    return meaning;
  }

  override has(name: string): boolean {
    return this.get(name) !== undefined;
  }

  /** For asking whether a lookup still holds, which is none itself. */
  means(name: string, meaning: unknown): boolean {
    return super.get(name) === meaning;
  }
}

export class Lookups {
  private readonly meanings = new Map<Sort, Meanings<unknown>>();
  private open: Lookup[] | undefined;
  private sound = true;

  /** `problems`: what is found to be wrong while the model is built. */
  constructor(private readonly problems: readonly unknown[]) {}

  of<V>(sort: Sort): Meanings<V> {
    const meanings = new Meanings<V>(sort, this);
    this.meanings.set(sort, meanings);
    return meanings;
  }

  add(sort: Sort, name: string, meaning: unknown): void {
    this.open?.push({ sort, name, meaning });
  }

  /** What is being made rests on more than the meanings of names, or is not known for certain. */
  doubt(): void {
    this.sound = false;
  }

  hold(lookups: readonly Lookup[]): boolean {
    for (const { sort, name, meaning } of lookups)
      if (this.meanings.get(sort)?.means(name, meaning) !== true) return false;
    return true;
  }

  /** With what is looked up for it; undefined where there is doubt, or something was found to be wrong. */
  during<T>(make: () => T): { readonly made: T; readonly lookups: readonly Lookup[] | undefined } {
    const { open, sound } = this;
    const problems = this.problems.length;
    const own: Lookup[] = [];
    this.open = own;
    this.sound = true;
    const made = make();
    const lookups = this.sound && this.problems.length === problems ? own : undefined;
    this.open = open;
    this.sound = sound && lookups !== undefined;
    open?.push(...own);
    return { made, lookups };
  }
}
