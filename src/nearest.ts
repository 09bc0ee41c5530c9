/** The nearest word to a mistyped one, for did-you-mean. */

/**
 * The candidate that a mistyped word most likely meant, or undefined when none is near enough.
 * Nearness is the number of letters added, dropped, changed or swapped with their neighbour, without
 * case; at most one such slip in every three letters, at least one. Of equals the first one counts.
 */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  const wanted = word.toLowerCase();
  const letters = letterSet(wanted);
  let limit = Math.max(1, Math.floor(wanted.length / 3));
  let best: string | undefined;
  for (const candidate of candidates) {
    const distance = withinReach({ wanted, letters, limit }, candidate.toLowerCase());
    if (distance > limit) continue;
    best = candidate;
    limit = distance - 1;
    if (limit < 0) break;
  }
  return best;
}

interface NearestSearch {
  readonly wanted: string;
  readonly letters: number;
  readonly limit: number;
}

// Tens of thousands of ids may be compared, so lengths and letters rule out most of them first.
function withinReach({ wanted, letters, limit }: NearestSearch, other: string): number {
  if (Math.abs(wanted.length - other.length) > limit) return Infinity;
  const strange = letters ^ letterSet(other);
  if (bitCount(strange) > 2 * limit) return Infinity;
  return distanceOf(wanted, other);
}

function letterSet(word: string): number {
  let set = 0;
  for (let i = 0; i < word.length; i++) set |= 1 << (word.charCodeAt(i) & 31);
  return set;
}

function bitCount(bits: number): number {
  let left = bits;
  let count = 0;
  while (left !== 0) {
    left &= left - 1;
    count += 1;
  }
  return count;
}

/** Slips between two words: optimal string alignment distance, row by row. */
function distanceOf(a: string, b: string): number {
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) row.push(step({ a, b, i, j }, { row, above, before }));
    before = above;
    above = row;
  }
  return above[b.length] ?? 0;
}

interface EditCell {
  readonly a: string;
  readonly b: string;
  readonly i: number;
  readonly j: number;
}

interface Rows {
  readonly row: readonly number[];
  readonly above: readonly number[];
  readonly before: readonly number[];
}

function step({ a, b, i, j }: EditCell, { row, above, before }: Rows): number {
  const differs = a[i - 1] === b[j - 1] ? 0 : 1;
  const least = Math.min((above[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (above[j - 1] ?? 0) + differs);
  const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
  return swapped ? Math.min(least, (before[j - 2] ?? 0) + 1) : least;
}

/** A hint that asks whether the nearest one is meant, in these quotes; where there is none, another. */
export function didYouMean(near: string | undefined, otherwise: string, quote = '"'): string {
  return near === undefined ? otherwise : `did you mean ${quote}${near}${quote}?`;
}
