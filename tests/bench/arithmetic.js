/** The benchmark's arithmetic: medians, ratios, and how much of its target something takes. */

/**
 * The middle value, or the mean of the two middle ones; NaN of nothing.
 * @param {readonly number[]} values
 * @returns {number}
 */
export function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const upper = sorted[middle] ?? NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? NaN) + upper) / 2;
}

/**
 * How many times the one is the other; undefined where either is not known or the other is zero.
 * @param {number | undefined} value
 * @param {number | undefined} base
 * @returns {number | undefined}
 */
export function ratio(value, base) {
  if (value === undefined || base === undefined || base === 0) return undefined;
  const quotient = value / base;
  return Number.isFinite(quotient) ? quotient : undefined;
}
