/** A small seeded source of random numbers: the same seeds give the same numbers on any machine. */

/**
 * @typedef {object} RandomSource
 * @property {() => number} next a number in [0, 1)
 * @property {(low: number, high: number) => number} int a whole number from low to high, both included
 * @property {(share: number) => boolean} chance true with the given probability
 * @property {<T>(list: readonly T[]) => T} pick one of a list that is not empty
 * @property {<T>(list: readonly T[]) => T[]} shuffle the list in another order
 */

/**
 * Mixes whole numbers and words into one 32-bit seed (FNV-1a over their text).
 * @param {readonly (number | string)[]} seeds
 * @returns {number}
 */
function seedOf(seeds) {
  let hash = 0x811c9dc5;
  for (const char of seeds.join('/')) {
    hash ^= char.codePointAt(0) ?? 0;
    hash = Math.imul(hash, 0x01000193);
  }
  return hash >>> 0;
}

/**
 * The generator known as mulberry32 (public domain): 32 bits of state, quick and even enough for
 * test data, not for secrets.
 * @param {number} seed
 * @returns {() => number}
 */
function mulberry(seed) {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/**
 * A source of its own for the given seeds: `randomSource(seed, day, 'sales')` does not depend on
 * what other sources gave.
 * @param {readonly (number | string)[]} seeds
 * @returns {RandomSource}
 */
export function randomSource(...seeds) {
  const next = mulberry(seedOf(seeds));
  /** @type {RandomSource['int']} */
  const int = (low, high) => low + Math.floor(next() * (high - low + 1));
  return {
    next,
    int,
    chance: (share) => next() < share,
    pick: (list) => /** @type {typeof list[number]} */ (list[int(0, list.length - 1)]),
    shuffle: (list) =>
      list
        .map((value) => ({ value, at: next() }))
        .sort((a, b) => a.at - b.at)
        .map(({ value }) => value),
  };
}
