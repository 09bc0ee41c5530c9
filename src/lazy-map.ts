/** A map whose values are made when they are first asked for. */

/** What is in the map, and what can be put into it. */
export interface LazyMap<V> extends ReadonlyMap<string, V> {
  readonly set: (key: string, value: V) => unknown;
}

/** A map of those keys, in their order; `make` is asked once for the value of each. */
export function lazyMap<V>(keys: Iterable<string>, make: (key: string) => V): LazyMap<V> {
  const known = new Map<string, V | undefined>();
  for (const key of keys) known.set(key, undefined);
  const valueOf = (key: string): V => {
    const value = known.get(key) ?? make(key);
    known.set(key, value);
    return value;
  };
  const map: LazyMap<V> = {
    get size() {
      return known.size;
    },
    has: (key) => known.has(key),
    get: (key) => (known.has(key) ? valueOf(key) : undefined),
    set: (key, value) => known.set(key, value),
    keys: () => known.keys(),
    *values() {
      for (const key of known.keys()) yield valueOf(key);
      return undefined;
    },
    *entries() {
      for (const key of known.keys()) yield [key, valueOf(key)];
      return undefined;
    },
    forEach: (act) => {
      for (const key of known.keys()) act(valueOf(key), key, map);
    },
    [Symbol.iterator]: () => map.entries(),
  };
  return map;
}
