/** Small drawings of figures in signs of the terminal: bars in eighths of a cell, and spark lines. */

const EIGHTHS = ['', '▏', '▎', '▍', '▌', '▋', '▊', '▉'] as const;
const FULL = '█';
const LEVELS = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'] as const;
const MISSING = '·';

/**
 * A bar for a value where `largest` fills `cells` cells, rounded to an eighth of a cell. Whatever is
 * above zero shows at least an eighth; zero, less, and what is no number show nothing.
 */
export function bar(value: number, scale: { largest: number; cells: number }): string {
  if (!(value > 0) || !(scale.largest > 0)) return '';
  const share = Math.min(1, value / scale.largest);
  const eighths = Math.max(1, Math.round(share * scale.cells * 8));
  return FULL.repeat(Math.floor(eighths / 8)) + (EIGHTHS[eighths % 8] ?? '');
}

function isNumber(value: number | null): value is number {
  return value !== null && Number.isFinite(value);
}

/**
 * A spark line: one sign for each value, its height in eighths between the lowest and the highest
 * value, with zero always among them, so that a small change looks small; a dot where a value is missing. For drawing only.
 */
export function sparkLine(values: readonly (number | null)[]): string {
  const numbers = values.filter(isNumber);
  const low = numbers.reduce((least, value) => Math.min(least, value), 0);
  const high = numbers.reduce((most, value) => Math.max(most, value), 0);
  const level = (value: number): number =>
    high === low ? 0 : Math.round(((value - low) / (high - low)) * (LEVELS.length - 1));
  return values.map((value) => (isNumber(value) ? LEVELS[level(value)] : MISSING)).join('');
}
