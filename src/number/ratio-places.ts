/** How many decimals of a ratio are told. */

/** By the type of its column: ratios never end, and nobody needs more of them than this. */
export const RATIO_PLACES: Readonly<Partial<Record<string, number>>> = { rate: 8, fraction: 12 };
