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
