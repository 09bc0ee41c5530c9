/** The words that reports can be grouped by; apart from the reckoning, so that help loads none of it. */

/** What losses can be grouped by; the kind of firing always stands beside it. */
export const LOSS_GROUPS = [
  'firing',
  'kiln',
  'product',
  'recipe',
  'cone',
  'cause',
  'maker',
  'month',
  'clay-lot',
] as const;

export type LossGroup = (typeof LOSS_GROUPS)[number];

/** What income can be grouped by. */
export const INCOME_GROUPS = ['product', 'channel', 'month', 'class', 'buyer'] as const;

export type IncomeGroup = (typeof INCOME_GROUPS)[number];

/** How pieces are laid out: a line per product and glaze, or one per place, stage and grade. */
export const PIECES_GROUPS = ['product', 'place'] as const;

export type PiecesGroup = (typeof PIECES_GROUPS)[number];

/** What overhead is spread by: the kiln space that ware takes, or the minutes of work on it. */
export const OVERHEAD_BASES = ['space', 'labour'] as const;

export type OverheadBasis = (typeof OVERHEAD_BASES)[number];

/** What a trace may be cut down to: what was sold, what is still in the studio, what galleries have. */
export const TRACE_PARTS = ['sold', 'standing', 'galleries'] as const;

/** One of them. */
export type TracePart = (typeof TRACE_PARTS)[number];

/** What tests are of. */
export const TEST_KINDS = [
  'tile',
  'leach',
  'oven',
  'dishwasher',
  'crazing',
  'shrinkage',
  'absorption',
  'fit',
] as const;

/** What a potter thinks of a test. */
export const VERDICTS = ['good', 'again', 'no'] as const;
