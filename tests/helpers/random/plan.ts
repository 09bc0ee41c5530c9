/** What decides a random studio: a seed, how much happens, and which things happen at all. */

/** Things that a random studio may have; without all of them it is as plain as can be. */
export const FEATURES = [
  'mixed-units',
  'first-in',
  'other-currency',
  'notes',
  'recipe-versions',
  'clay-recipe',
  'low-fire',
  'two-glazes',
  'glaze-variants',
  'named-lots',
  'fired-otherwise',
  'freight',
  'purchase-discount',
  'purchase-tax',
  'reclaimed',
  'total-weight',
  'making-losses',
  'gone',
  'lot-details',
  'firing-losses',
  'seconds',
  'refires',
  'still-in-kiln',
  'part-loads',
  'supplies',
  'labour',
  'wear',
  'meter',
  'bands',
  'gas',
  'fuel-from-stock',
  'classes',
  'guests',
  'used',
  'material-counts',
  'piece-counts',
  'packing',
  'sale-discounts',
  'returns',
  'terms',
  'consigned',
  'other-income',
  'spent',
  'tests',
  'meets',
  'advances',
  'fairs',
  'exchanges',
  'returns-alone',
  'gallery-returns',
  'tax-in-price',
  'class-refunds',
  'pieces-found',
  'lot-tests',
  'odd-money',
  'given-back',
  'shipping-without-tax',
  'filed',
  'orders',
] as const;

export type Feature = (typeof FEATURES)[number];

/** Ways in which a random studio may break the rules. */
export const BREAKS = ['stock', 'lots', 'out-of-turn', 'gone', 'sold', 'consigned'] as const;

export type Break = (typeof BREAKS)[number];

export interface StudioPlan {
  readonly seed: number;
  /** How many days there are; a shorter plan is the beginning of a longer one. */
  readonly days: number;
  readonly products: number;
  /** About how much happens: 1 is little, 4 is much. */
  readonly pace: number;
  readonly features: readonly Feature[];
  /** Empty: the studio keeps every rule. */
  readonly breaks: readonly Break[];
}
