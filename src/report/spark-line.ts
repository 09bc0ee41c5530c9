/** Spark lines: the course of a figure in one line of block signs, for the notes below a table. */

const LEVELS = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'] as const;
const MISSING = '·';

function isNumber(value: number | null): value is number {
  return value !== null && Number.isFinite(value);
}

/**
 * A spark line: one sign for each value, its height in eighths between the lowest and the highest
 * value, with zero always among them, so that a small
 * change looks small; a dot where a value is missing. For drawing only.
 */
export function sparkLine(values: readonly (number | null)[]): string {
  const numbers = values.filter(isNumber);
  const low = numbers.reduce((least, value) => Math.min(least, value), 0);
  const high = numbers.reduce((most, value) => Math.max(most, value), 0);
  const level = (value: number): number =>
    high === low ? 0 : Math.round(((value - low) / (high - low)) * (LEVELS.length - 1));
  return values.map((value) => (isNumber(value) ? LEVELS[level(value)] : MISSING)).join('');
}
