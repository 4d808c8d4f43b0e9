/** Made when first asked for, and then kept. */
export function lazily<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

/** Made for each that is asked about, once. */
export function lazilyEach<K, V>(make: (key: K) => V): (key: K) => V {
  const made = new Map<K, V>();
  return (key) => {
    let value = made.get(key);
    if (value === undefined && !made.has(key)) {
      value = make(key);
      made.set(key, value);
    }
    return value as V;
  };
}

/** Made once for each object that is asked about, and kept as long as that is. */
export function keptWith<K extends object, V>(make: (key: K) => V): (key: K) => V {
  const made = new WeakMap<K, { readonly value: V }>();
  return (key) => {
    let known = made.get(key);
    if (known === undefined) {
      known = { value: make(key) };
      made.set(key, known);
    }
    return known.value;
  };
}

/** Kept with an object as long as all else that it follows from is the same, one by one. */
export function keptWhile<K extends object, V>(): (key: K, from: readonly unknown[], make: () => V) => V {
  const made = new WeakMap<K, { readonly from: readonly unknown[]; readonly value: V }>();
  return (key, from, make) => {
    let known = made.get(key);
    if (known === undefined || known.from.length !== from.length || known.from.some((one, i) => one !== from[i])) {
      known = { from, value: make() };
      made.set(key, known);
    }
    return known.value;
  };
}
