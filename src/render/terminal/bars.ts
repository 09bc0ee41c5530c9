/** Bars for figures in signs of the terminal, in eighths of a cell. */

const EIGHTHS = ['', '▏', '▎', '▍', '▌', '▋', '▊', '▉'] as const;
const FULL = '█';

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
