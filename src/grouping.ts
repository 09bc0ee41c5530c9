/** Puts things that have something in common together. */

/** The things by their key, both in the order in which they came. */
export function grouped<K, T>(things: Iterable<T>, keyOf: (thing: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const thing of things) addTo(groups, keyOf(thing), thing);
  return groups;
}

/** Puts one more thing at the end of its group, which is begun where it is not there. */
export function addTo<K, T>(groups: Map<K, T[]>, key: K, thing: T): void {
  const group = groups.get(key);
  if (group) group.push(thing);
  else groups.set(key, [thing]);
}

/** A value for each key. */
export function keyed<K extends string, V>(keys: readonly K[], make: (key: K) => V): Record<K, V> {
  return Object.fromEntries(keys.map((key) => [key, make(key)])) as Record<K, V>;
}

/** How many all of them are together. */
export function countIn(lines: Iterable<{ readonly count: number }>): number {
  let all = 0;
  for (const { count } of lines) all += count;
  return all;
}
