/** Work that is done when it is first asked for, and not again. */

/**
 * The same function, which does its work once and gives what came of it ever after. Where the work asks
 * for itself, it is not begun again.
 */
export function once<T>(work: () => T): () => T | undefined {
  let isBegun = false;
  let value: T | undefined;
  return () => {
    if (!isBegun) {
      isBegun = true;
      value = work();
    }
    return value;
  };
}

/** What is made when it is first asked for, and then given again and again. */
export function madeOnce<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => (made ??= { value: make() }).value;
}

/** What is made of each key when it is first asked for, and then given again and again. */
export function cached<K, T>(make: (key: K) => T): (key: K) => T {
  const known = new Map<K, { readonly value: T }>();
  return (key) => {
    let made = known.get(key);
    if (!made) known.set(key, (made = { value: make(key) }));
    return made.value;
  };
}

/** The same of objects, which are not kept alive by it and must not change afterwards. */
export function cachedFor<K extends object, T>(make: (key: K) => T): (key: K) => T {
  const known = new WeakMap<K, { readonly value: T }>();
  return (key) => {
    let made = known.get(key);
    if (!made) known.set(key, (made = { value: make(key) }));
    return made.value;
  };
}

/** What is in the map, and what can be put into it. */
interface LazyMap<V> extends ReadonlyMap<string, V> {
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
