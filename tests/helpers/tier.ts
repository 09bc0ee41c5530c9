/**
 * The two tiers of the same tests: `npm test`, which is over in minutes, and `npm run long`, with the
 * numbers that make a rare mistake likely to be met. The one place that reads which of them runs.
 */

/** Whether this is `npm run long`. */
export const IS_LONG = process.env['TIER'] === 'long';

/** How many times as many cases as the tier has: `LAW_RUNS=20 npm run unit -- FILE` searches longer. */
const TIMES = Number(process.env['LAW_RUNS'] ?? 1);

/** How many cases to run; ten times as many in the long tier, where nothing else is said. */
export function cases(short: number, long = short * 10): number {
  return Math.round((IS_LONG ? long : short) * TIMES);
}

/** Some of these for the short tier, evenly from the first to the last; all of them in the long one. */
export function some<T>(all: readonly T[], short: number): readonly T[] {
  if (IS_LONG || all.length <= short) return all;
  const step = (all.length - 1) / Math.max(1, short - 1);
  return Array.from({ length: short }, (_, index) => all[Math.round(index * step)]!);
}
