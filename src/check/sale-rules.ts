/**
 * How each rule is kept where one plain sale is put behind all that is in a book, without a look at
 * the whole of it. A plain sale is of ware alone, from the studio, without a lot, a glaze, an advance
 * or a return; the book has no errors.
 */
import type { Book, Day, Sale } from '../book.ts';
import type { Finding } from '../problem.ts';
import { foundIn } from './looking.ts';
import { NOTHING_UNSOUND, type Rule } from './rule.ts';
import { cardOverSale } from './rules/card-over-sale.ts';
import { discountOverPrice } from './rules/discount-over-price.ts';
import { futureDate } from './rules/future-date.ts';
import { paidBeforeSold } from './rules/paid-before-sold.ts';
import { salesTaxNone } from './rules/sales-tax-none.ts';
import { taxDiffers } from './rules/tax-differs.ts';
import { taxPlace } from './rules/tax-place.ts';
import { tooManyDecimals } from './rules/too-many-decimals.ts';
import { unknownReference } from './rules/unknown-reference.ts';
import { wrongKindOfReference } from './rules/wrong-kind-of-reference.ts';
import type { Short } from './shortfalls.ts';

/** Either the rule looks at the sale among the definitions alone, or why it has nothing new to say. */
export type Care = { readonly look: Rule } | { readonly quiet: string };

const FIRINGS = quiet('it is about firings, and none comes after the sale');
const DEFINITIONS = quiet('it is about definitions, their tests and their lots, whatever is sold');
const GALLERIES = quiet('it is about galleries, and the sale is of none');
const MIXES = quiet('it is about mixes and recipes, and a sale names neither');
const FORM = quiet('the record is held against its schema, and read as it will stand in its file');
const FILES = quiet('no file changes but the one of the sale, which the fast reader vouches for');

/** Every rule by its name, those of the readers among them. */
export const CARE_FOR_SALE: Readonly<Record<string, Care>> = {
  'advance-overdrawn': quiet('the sale uses no advance'),
  'bad-unit': quiet('a sale has no quantity that has a unit'),
  'before-it-existed': quiet('the sale names no lot and no advance, and leaves no line short'),
  'before-the-start': quiet('a sale before the start is looked at with the whole book'),
  'card-over-sale': { look: cardOverSale },
  'causes-exceed-losses': FIRINGS,
  'class-overfull': quiet('the sale has no line of a class'),
  'commission-differs': GALLERIES,
  'consigned-overdrawn': GALLERIES,
  'contains-regulated-metal': DEFINITIONS,
  'discount-over-price': { look: discountOverPrice },
  'duplicate-id': quiet('the id is made of those that are free'),
  'energy-missing': FIRINGS,
  'filed-differs': quiet('it is dated after all filings, and what they are of was over by then'),
  'filing-unfit': quiet('it is about filings'),
  'fired-out-of-turn': FIRINGS,
  'fired-over-recipe-cone': FIRINGS,
  'food-claim-without-test': DEFINITIONS,
  'freight-weight-missing': quiet('it is about purchases'),
  'future-date': { look: futureDate },
  'invoice-twice': quiet('it is about purchases'),
  'kiln-overfull': FIRINGS,
  'load-does-not-add-up': FIRINGS,
  'lot-overdrawn': FIRINGS,
  'meetings-differ': quiet('it is about classes'),
  'merge-conflict': FILES,
  'meter-gap': FIRINGS,
  'meter-runs-backwards': FIRINGS,
  'mix-without-recipe-version': MIXES,
  'needs-quotes': FORM,
  'number-form': FORM,
  'opening-count': quiet('it is about counts, and none comes after the sale'),
  'paid-before-sold': { look: paidBeforeSold },
  'price-missing': DEFINITIONS,
  'recipe-empty': MIXES,
  'references-disagree': quiet('the sale names no lot and no fair'),
  'sales-tax-none': { look: salesTaxNone },
  schema: FORM,
  'sold-below-sent-price': GALLERIES,
  'sold-more-than-finished': quiet('there are pieces enough at the end of the book'),
  'stock-below-zero': quiet('there is packing enough at the end of the book'),
  'stray-file': FILES,
  'tariff-missing': FIRINGS,
  'tax-differs': { look: taxDiffers },
  'tax-place': { look: taxPlace },
  'tax-sheet': quiet('it is about the settings'),
  'too-many-decimals': { look: tooManyDecimals },
  'two-in-force': DEFINITIONS,
  'unknown-currency': quiet('it is about the settings'),
  'unknown-reference': { look: unknownReference },
  'unreadable-file': FILES,
  'wrong-kind-of-reference': { look: wrongKindOfReference },
  'yaml-error': FILES,
};

const LOOKING = Object.values(CARE_FOR_SALE).flatMap((care) => ('look' in care ? [care.look] : []));

const NOTHING_SHORT: Short = { of: () => [], early: [] };

/** What is wrong with a sale by itself, in a book of the definitions that it may name. */
export function faultsInSale(book: Book, sale: Sale, day: Day): readonly Finding[] {
  const judging = { rules: LOOKING, book, unsound: NOTHING_UNSOUND };
  const found = foundIn(judging, { day, short: NOTHING_SHORT });
  return found.filter(({ at }) => 'path' in at && at.file === sale.file && at.path[0] === sale.id);
}

function quiet(why: string): Care {
  return { quiet: why };
}
