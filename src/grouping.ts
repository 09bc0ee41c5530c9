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
