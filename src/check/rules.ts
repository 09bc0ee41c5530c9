/** The list of rules, and running all of them over a book. */
import type { Book, Day } from '../book.ts';
import type { Finding } from '../problem.ts';
import { countsFlow } from '../reckon/flow.ts';
import { foundIn } from './looking.ts';
import { NOTHING_UNSOUND, type Rule } from './rule.ts';
import { advanceOverdrawn } from './rules/advance-overdrawn.ts';
import { beforeItExisted } from './rules/before-it-existed.ts';
import { beforeTheStart } from './rules/before-the-start.ts';
import { cardOverSale } from './rules/card-over-sale.ts';
import { causesExceedLosses } from './rules/causes-exceed-losses.ts';
import { classOverfull } from './rules/class-overfull.ts';
import { commissionDiffers } from './rules/commission-differs.ts';
import { consignedOverdrawn } from './rules/consigned-overdrawn.ts';
import { containsRegulatedMetal } from './rules/contains-regulated-metal.ts';
import { discountOverPrice } from './rules/discount-over-price.ts';
import { energyMissing } from './rules/energy-missing.ts';
import { firedOutOfTurn } from './rules/fired-out-of-turn.ts';
import { firedOverRecipeCone } from './rules/fired-over-recipe-cone.ts';
import { foodClaimWithoutTest } from './rules/food-claim-without-test.ts';
import { freightWeightMissing } from './rules/freight-weight-missing.ts';
import { futureDate } from './rules/future-date.ts';
import { invoiceTwice } from './rules/invoice-twice.ts';
import { kilnOverfull } from './rules/kiln-overfull.ts';
import { loadDoesNotAddUp } from './rules/load-does-not-add-up.ts';
import { lotOverdrawn } from './rules/lot-overdrawn.ts';
import { meetingsDiffer } from './rules/meetings-differ.ts';
import { meterGap } from './rules/meter-gap.ts';
import { meterRunsBackwards } from './rules/meter-runs-backwards.ts';
import { mixWithoutRecipeVersion } from './rules/mix-without-recipe-version.ts';
import { openingCount } from './rules/opening-count.ts';
import { paidBeforeSold } from './rules/paid-before-sold.ts';
import { priceMissing } from './rules/price-missing.ts';
import { recipeEmpty } from './rules/recipe-empty.ts';
import { referencesDisagree } from './rules/references-disagree.ts';
import { salesTaxNone } from './rules/sales-tax-none.ts';
import { soldBelowSentPrice } from './rules/sold-below-sent-price.ts';
import { soldMoreThanFinished } from './rules/sold-more-than-finished.ts';
import { stockBelowZero } from './rules/stock-below-zero.ts';
import { tariffMissing } from './rules/tariff-missing.ts';
import { taxDiffers } from './rules/tax-differs.ts';
import { taxPlace } from './rules/tax-place.ts';
import { tooManyDecimals } from './rules/too-many-decimals.ts';
import { twoInForce } from './rules/two-in-force.ts';
import { unknownCurrency } from './rules/unknown-currency.ts';
import { unknownReference } from './rules/unknown-reference.ts';
import { wrongKindOfReference } from './rules/wrong-kind-of-reference.ts';
import { shortIn } from './shortfalls.ts';
import { badUnit } from './units/fuel.ts';

/** Every rule that looks at the book as a whole, by name. */
export const RULES: readonly Rule[] = [
  advanceOverdrawn,
  badUnit,
  beforeItExisted,
  beforeTheStart,
  cardOverSale,
  causesExceedLosses,
  classOverfull,
  commissionDiffers,
  consignedOverdrawn,
  containsRegulatedMetal,
  discountOverPrice,
  energyMissing,
  firedOutOfTurn,
  firedOverRecipeCone,
  foodClaimWithoutTest,
  freightWeightMissing,
  futureDate,
  invoiceTwice,
  kilnOverfull,
  loadDoesNotAddUp,
  lotOverdrawn,
  meetingsDiffer,
  meterGap,
  meterRunsBackwards,
  mixWithoutRecipeVersion,
  openingCount,
  paidBeforeSold,
  priceMissing,
  recipeEmpty,
  referencesDisagree,
  salesTaxNone,
  soldBelowSentPrice,
  soldMoreThanFinished,
  stockBelowZero,
  tariffMissing,
  taxDiffers,
  taxPlace,
  tooManyDecimals,
  twoInForce,
  unknownCurrency,
  unknownReference,
  wrongKindOfReference,
];

/**
 * What all rules find in a book on a day (the day of the check, ISO), rule by rule. What the book
 * leaves out because it is unsound keeps the rules from blaming sound records for it.
 */
export function runRules(book: Book, day: Day, unsound = NOTHING_UNSOUND): readonly Finding[] {
  const short = shortIn(countsFlow(book, day), { book, unsound });
  return foundIn({ rules: RULES, book, unsound }, { day, short });
}
