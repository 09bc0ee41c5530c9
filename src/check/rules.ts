/** The list of rules, and running all of them over a book. */
import type { Book, Day } from '../book.ts';
import type { Finding } from '../problem.ts';
import { countsFlow } from '../reckon/flow.ts';
import { compareTexts } from '../text-order.ts';
import { answerRule } from './answered.ts';
import { COST_DOUBTS } from './doubts/costs.ts';
import { ENERGY_DOUBTS } from './doubts/energy.ts';
import { HEAT_DOUBTS } from './doubts/heat.ts';
import { HOURS_DOUBTS } from './doubts/hours.ts';
import { MAKING_DOUBTS } from './doubts/making.ts';
import { PRICE_DOUBTS } from './doubts/prices.ts';
import { YEAR_DOUBTS } from './doubts/years.ts';
import { foundIn } from './looking.ts';
import { NOTHING_UNSOUND, type Rule, type Short, type Unsound } from './rule.ts';
import { AGREEING_RULES } from './rules/agreeing.ts';
import { CLASS_RULES } from './rules/classes.ts';
import { DAY_RULES } from './rules/days.ts';
import { EARLY_RULES } from './rules/early.ts';
import { FILE_RULES } from './rules/files.ts';
import { FILING_RULES } from './rules/filings.ts';
import { FIRING_RULES } from './rules/firings.ts';
import { FOOD_RULES } from './rules/food.ts';
import { GALLERY_RULES } from './rules/galleries.ts';
import { INVOICE_RULES } from './rules/invoices.ts';
import { LOAD_RULES } from './rules/loads.ts';
import { MONEY_RULES } from './rules/money.ts';
import { ORDER_RULES } from './rules/orders.ts';
import { RECIPE_RULES } from './rules/recipes.ts';
import { REFERENCE_RULES } from './rules/references.ts';
import { SHEET_YEAR } from './rules/sheet-years.ts';
import { SALES_TAX_RULES } from './rules/sales-tax.ts';
import { SALE_RULES } from './rules/sales.ts';
import { START_RULES } from './rules/start.ts';
import { STOCK_RULES } from './rules/stock.ts';
import { TAX_SHEET } from './rules/tax-sheet.ts';
import { UNIT_RULES } from './rules/units.ts';
import { shortIn } from './shortfalls.ts';

const BOOK_RULES: readonly Rule[] = [
  ...AGREEING_RULES,
  ...CLASS_RULES,
  ...DAY_RULES,
  ...EARLY_RULES,
  ...FIRING_RULES,
  ...FOOD_RULES,
  ...GALLERY_RULES,
  ...INVOICE_RULES,
  ...LOAD_RULES,
  ...MONEY_RULES,
  ...ORDER_RULES,
  ...RECIPE_RULES,
  ...REFERENCE_RULES,
  ...SALES_TAX_RULES,
  ...SALE_RULES,
  ...START_RULES,
  ...STOCK_RULES,
  ...UNIT_RULES,
  ...COST_DOUBTS,
  ...ENERGY_DOUBTS,
  ...HEAT_DOUBTS,
  ...HOURS_DOUBTS,
  ...MAKING_DOUBTS,
  ...PRICE_DOUBTS,
  ...YEAR_DOUBTS,
];

/** The rules that look at more than the book: at files, their form and their fields, at tax sheets. */
export const READER_RULES = [...FILE_RULES, ...FILING_RULES, SHEET_YEAR, TAX_SHEET].sort(
  (one, other) => compareTexts(one.name, other.name),
);

/** Every rule that looks at the book as a whole, by name. */
export const RULES: readonly Rule[] = [
  ...BOOK_RULES,
  answerRule([...BOOK_RULES, ...READER_RULES]),
].sort((one, other) => compareTexts(one.name, other.name));

/** Names of the rules that only ask about figures. */
export const DOUBTS: ReadonlySet<string> = new Set(
  RULES.filter(({ isDoubt }) => isDoubt).map(({ name }) => name),
);

/**
 * What all rules find in a book on a day (the day of the check, ISO), rule by rule. What the book
 * leaves out because it is unsound keeps the rules from blaming sound records for it.
 */
export function runRules(book: Book, day: Day, unsound = NOTHING_UNSOUND): readonly Finding[] {
  const shortBeside = (doubted: Unsound): Short =>
    shortIn(countsFlow(book, day), { book, unsound: doubted });
  return foundIn({ rules: RULES, book, unsound }, { day, shortBeside });
}
