/** The benchmark's arithmetic: medians, ratios, growth and whether a target is met. */

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

/**
 * @typedef {object} Growth
 * @property {number | undefined} times how many times as long the larger studio takes
 * @property {number | undefined} perMegabyte the same for each megabyte of records
 */

/**
 * How a duration grows from a small studio to a large one.
 * @param {{ ms: number | undefined, bytes: number | undefined }} small
 * @param {{ ms: number | undefined, bytes: number | undefined }} large
 * @returns {Growth}
 */
export function growth(small, large) {
  const times = ratio(large.ms, small.ms);
  return { times, perMegabyte: ratio(times, ratio(large.bytes, small.bytes)) };
}

/**
 * @param {number | undefined} value
 * @param {{ limit: number, below?: boolean | undefined }} target met at the limit too, unless it must be below
 * @returns {'met' | 'missed' | 'not measured'}
 */
export function verdict(value, { limit, below = false }) {
  if (value === undefined) return 'not measured';
  return (below ? value < limit : value <= limit) ? 'met' : 'missed';
}
