/**
 * Maps of sections that are read as one. Who asks for one thing is answered by the section that has it; they are joined only
 * for who asks for many or goes through all. After an edit there is mostly a hover, which asks for a few.
 */

/** After so many questions joining costs less than asking one section after the other. */
const few = 64;

export class JoinedMap<Key, Value> implements ReadonlyMap<Key, Value> {
  private asked = 0;
  private joined: ReadonlyMap<Key, Value> | undefined;

  /** `pieces` have no key in common and nothing undefined in them; `join` puts all that is in them in order. */
  constructor(
    private readonly pieces: readonly Pick<ReadonlyMap<Key, Value>, 'get'>[],
    private readonly join: () => ReadonlyMap<Key, Value>,
  ) {}

  get(key: Key): Value | undefined {
    if (this.joined !== undefined || this.asked >= few) return this.whole().get(key);
    this.asked += 1;
    for (const piece of this.pieces) {
      const value = piece.get(key);
      if (value !== undefined) return value;
    }
    return undefined;
  }

  has(key: Key): boolean {
    return this.get(key) !== undefined;
  }

  get size(): number {
    return this.whole().size;
  }

  forEach(each: (value: Value, key: Key, map: ReadonlyMap<Key, Value>) => void): void {
    for (const [key, value] of this.whole()) each(value, key, this);
  }

  entries(): MapIterator<[Key, Value]> {
    return this.whole().entries();
  }

  keys(): MapIterator<Key> {
    return this.whole().keys();
  }

  values(): MapIterator<Value> {
    return this.whole().values();
  }

  [Symbol.iterator](): MapIterator<[Key, Value]> {
    return this.entries();
  }

  private whole(): ReadonlyMap<Key, Value> {
    this.joined ??= this.join();
    return this.joined;
  }
}
