/** Makes the maps that the readers fill: a key can be any word, `constructor` and `__proto__` too. */
import type { Raw } from './raw.ts';

/** A map under construction. */
export type Growing<T = Raw> = Record<string, T>;

// Objects of one constructor share V8's hidden classes; `Object.create(null)` makes a hash table of
// each, which took seven times as long to fill.
const Mapping = function (this: object): void {
  /* nothing is put in yet */
} as unknown as new () => Growing<never>;
Mapping.prototype = Object.create(null) as object;

/** An empty map for a handful of keys; it inherits nothing, so that any key that is there is its own. */
export function newMapping<T = Raw>(): Growing<T> {
  return new Mapping();
}

/** An empty map for many keys: the records of a file. */
export function newTable<T = Raw>(): Growing<T> {
  return Object.create(null) as Growing<T>;
}
