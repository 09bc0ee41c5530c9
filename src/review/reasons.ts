/** Why a change may be wrong, by name. */

/** The reasons, the riskiest first. */
export const RISKS = [
  'closed-period',
  'filed-moved',
  'invoice-moved',
  'settings',
  'leach-result',
  'claim',
  'substance',
  'removed',
  'doubled',
  'out-of-scale',
  'unit-changed',
  'cone-changed',
  'below-zero',
  'quarter-moved',
  'losses-edited',
  'quarter-changed',
  'faulty',
  'price-or-recipe',
  'definition',
  'tax-or-account',
  'old-record',
] as const;

export type RiskWhy = (typeof RISKS)[number];

/** One reason to look. */
export interface Reason {
  readonly why: RiskWhy;
  /** A part of a sentence: `price 40.00 → 4.00, 1/10 of what it was`. */
  readonly text: string;
}
