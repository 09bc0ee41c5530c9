/** Bars for figures in signs of the terminal, in eighths of a cell. */

const EIGHTHS = ['', '▏', '▎', '▍', '▌', '▋', '▊', '▉'] as const;
const FULL = '█';
/** What marks a limit on a bar. */
export const LIMIT = '┃';

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

/**
 * The same bar with a mark over the cell that a limit falls into, so that a longer one is seen to be over it. A limit
 * that is zero, less, or beyond the scale has no mark.
 */
export function barWithLimit(
  value: number,
  { limit, ...scale }: { limit: number; largest: number; cells: number },
): string {
  const { largest, cells } = scale;
  const drawn = bar(value, scale);
  if (!(limit > 0) || !(largest > 0) || limit > largest) return drawn;
  const at = Math.min(cells - 1, Math.floor((limit / largest) * cells));
  return drawn.slice(0, at).padEnd(at) + LIMIT + drawn.slice(at + 1);
}
