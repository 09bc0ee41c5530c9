/** How many decimals of a ratio are told. */
import type { ColumnType } from './table.ts';

/** Ratios never end, and nobody needs more of them than this. */
export const RATIO_PLACES: Partial<Readonly<Record<ColumnType, number>>> = { rate: 8, fraction: 12 };
