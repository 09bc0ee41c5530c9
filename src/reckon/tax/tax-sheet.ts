/** A tax sheet: which amount of the book belongs on which line of a form, as data. */
import type { Day } from '../../book.ts';
import type { Decimal } from '../../number/decimal.ts';
import {
  NO_MONEY,
  add,
  fractionOf,
  less,
  opposite,
  total,
  type Money,
} from '../../number/money.ts';
import type {
  AllowanceLaw,
  DuePeriod,
  EstimateLaw,
  GoodsLaw,
  IncomeLimit,
  LastingLaw,
  MileageRate,
  PayeeLaw,
  SelfEmployment,
} from './tax-law.ts';

/** Amounts of income that a line can take; discounts and returns are positive. */
export const INCOME_AMOUNTS = [
  'sales',
  'consignment',
  'classes',
  'firing',
  'work',
  'other-income',
  'shipping',
  'advances',
  'discounts',
  'returns',
] as const;

/** Amounts that selling costs, kept from what came in. */
export const SELLING_AMOUNTS = ['card-fees', 'gallery-commissions'] as const;

/** Amounts of stock and of what was bought for it. */
export const STOCK_AMOUNTS = [
  'opening-stock',
  'purchases',
  'own-use',
  'own-use-price',
  'used-unpaid-before',
  'used-unpaid',
  'closing-stock',
] as const;

/** What an amount is on the line of, where no line of a sheet takes it itself. */
const ELSE_ON: Readonly<Record<string, string>> = { work: 'other-income' };

const OWN_AMOUNTS: ReadonlySet<string> = new Set([
  ...INCOME_AMOUNTS,
  ...SELLING_AMOUNTS,
  ...STOCK_AMOUNTS,
]);

/** What expenses of a category count as: the category, unless a studio calls one as another amount is. */
export function amountOfCategory(category: string): string {
  return OWN_AMOUNTS.has(category) ? `spent.${category}` : category;
}

/** Spending categories of the file format. */
export const CATEGORIES = [
  'advertising',
  'booth',
  'travel',
  'meals',
  'car',
  'commissions',
  'contract',
  'wages',
  'insurance',
  'interest',
  'professional',
  'office',
  'rent-equipment',
  'rent-place',
  'repairs',
  'kiln-parts',
  'tools',
  'supplies',
  'packing',
  'freight-out',
  'utilities',
  'licences',
  'education',
  'bank',
  'home',
  'other',
] as const;

/**
 * What a line without an amount says: how stock is valued, how far was driven, on which basis and up to
 * which day the accounts are, or that the book doesn't know and someone has to be asked.
 */
export const LINE_WORDS = ['stock-method', 'distance', 'basis', 'last-day', 'ask'] as const;

export type LineWords = (typeof LINE_WORDS)[number];

/** One line of a form. What it takes and adds counts up, what it takes off counts down. */
export interface TaxLine {
  /** What it means; lines name each other by it, for numbers change from year to year. */
  readonly key: string;
  readonly number: string;
  readonly title: string;
  /** Amounts of the book. */
  readonly takes: readonly string[];
  readonly takesOff: readonly string[];
  /** Other lines of the sheet. */
  readonly adds: readonly string[];
  readonly less: readonly string[];
  /** The part of what it takes that may be deducted, as a fraction of 1; all of it when left out. */
  readonly share?: Decimal;
  /** The part of the form that it is in. */
  readonly part?: string;
  /** Whether the form prints it in bold. */
  readonly isBold?: boolean;
  /** In place of an amount. */
  readonly says?: LineWords;
  /** Key of the line whose amounts the form wants listed one by one above this line. */
  readonly itemizes?: string;
}

/** A whole sheet. Built-in ones have an id; the studio's own ones are called by their file. */
export interface TaxSheet {
  readonly id: string;
  readonly title: string;
  readonly source: string;
  /** Why its lines and figures are not to be relied on yet. */
  readonly unverified?: string;
  readonly cautions: readonly string[];
  /** What the program doesn't do, as questions to ask of whoever files. */
  readonly asks?: readonly string[];
  readonly currency?: string;
  /** Business years that it is for; any when left out. */
  readonly years?: readonly string[];
  /** First days of the business years that it is for, the usual one first; any when left out. */
  readonly yearStarts?: readonly string[];
  readonly lines: readonly TaxLine[];
  readonly goods?: GoodsLaw;
  readonly mileage?: {
    readonly unit: 'mi' | 'km';
    readonly rates: readonly MileageRate[];
    readonly source: string;
  };
  readonly payees?: PayeeLaw;
  readonly lasting?: LastingLaw;
  readonly selfEmployment?: SelfEmployment;
  readonly estimates?: EstimateLaw;
  readonly allowance?: AllowanceLaw;
  readonly limit?: IncomeLimit;
  readonly updates?: {
    readonly periods: readonly DuePeriod[];
    /** What an update says, line by line. */
    readonly lines: readonly TaxLine[];
    readonly isUnverified?: boolean;
  };
}

/** The line whose amount must be the profit; every sheet has it. */
export const NET_PROFIT = 'net-profit';

/**
 * The line that an amount is on: a category of the studio's own by what the studio says of it, the
 * name of another category or a line's number; undefined for one that is on no line.
 */
export function lineFor(
  sheet: TaxSheet,
  amount: string,
  categories: Readonly<Record<string, string>> = {},
): TaxLine | undefined {
  const own = Object.hasOwn(categories, amount) ? categories[amount] : undefined;
  if (own !== undefined) return lineOfWord(sheet, own);
  return lineTaking(sheet, amount) ?? lineTaking(sheet, ELSE_ON[amount] ?? '');
}

/** The line that a word of the settings means: that of another amount, or its number. */
export function lineOfWord(sheet: TaxSheet, word: string): TaxLine | undefined {
  return lineTaking(sheet, word) ?? sheet.lines.find(({ number }) => number === word);
}

function lineTaking({ lines }: TaxSheet, amount: string): TaxLine | undefined {
  return lines.find(({ takes, takesOff }) => takes.includes(amount) || takesOff.includes(amount));
}

const INCOME: ReadonlySet<string> = new Set(INCOME_AMOUNTS);
const STOCK: ReadonlySet<string> = new Set(STOCK_AMOUNTS);

/**
 * Whether what is put on a line lessens the profit as an expense does: not a sum of other lines, not
 * one of income, and of those of stock only the one that takes purchases.
 */
export function isExpenseLine(sheet: TaxSheet, line: TaxLine | undefined): boolean {
  if (!line || line.adds.length + line.less.length > 0 || line.says !== undefined) return false;
  const own = [...line.takes, ...line.takesOff];
  if (own.some((amount) => INCOME.has(amount))) return false;
  if (own.some((amount) => STOCK.has(amount)) && !line.takes.includes('purchases')) return false;
  return lessens(sheet, { from: NET_PROFIT, to: line.key, isLess: false });
}

/** Whether a line counts down in another, by way of the lines between. */
function lessens(
  sheet: TaxSheet,
  { from, to, isLess }: { readonly from: string; readonly to: string; readonly isLess: boolean },
): boolean {
  if (from === to) return isLess;
  const line = sheet.lines.find(({ key }) => key === from);
  const through = (keys: readonly string[], turned: boolean): boolean =>
    keys.some((key) => lessens(sheet, { from: key, to, isLess: turned }));
  return line !== undefined && (through(line.adds, isLess) || through(line.less, !isLess));
}

/** What each amount of the book comes to; the studio's own categories are among them. */
export type Amounts = ReadonlyMap<string, Money>;

/**
 * What each line comes to, by its key. Amounts that are on no line are in none, so the profit of the
 * sheet lacks them: `unplaced` says which they are. Lines must not add each other up in a circle.
 */
export function lineAmounts(
  sheet: TaxSheet,
  amounts: Amounts,
  categories?: Readonly<Record<string, string>>,
): ReadonlyMap<string, Money> {
  const taken = new Map<string, Money>();
  for (const [name, amount] of amounts) {
    const line = lineFor(sheet, name, categories);
    if (!line) continue;
    const signed = line.takesOff.includes(name) ? opposite(amount) : amount;
    taken.set(line.key, add(taken.get(line.key) ?? NO_MONEY, signed));
  }
  const done = new Map<string, Money>();
  for (const { key, says } of sheet.lines)
    if (says === undefined) lineAmount(key, { sheet, taken, done });
  return done;
}

/** Amounts other than zero that are on no line of the sheet. */
export function unplaced(
  sheet: TaxSheet,
  amounts: Amounts,
  categories?: Readonly<Record<string, string>>,
): string[] {
  return [...amounts]
    .filter(([name, amount]) => amount !== NO_MONEY && !lineFor(sheet, name, categories))
    .map(([name]) => name);
}

interface Filling {
  readonly sheet: TaxSheet;
  readonly taken: ReadonlyMap<string, Money>;
  readonly done: Map<string, Money>;
}

function lineAmount(key: string, filling: Filling): Money {
  const { sheet, taken, done } = filling;
  const known = done.get(key);
  if (known !== undefined) return known;
  const line = sheet.lines.find((each) => each.key === key);
  const all = (keys: readonly string[] = []): Money =>
    total(keys.map((each) => lineAmount(each, filling)));
  const own = sharedPart(line, taken.get(key) ?? NO_MONEY);
  const amount = less(add(own, all(line?.adds)), all(line?.less));
  done.set(key, amount);
  return amount;
}

function sharedPart(line: TaxLine | undefined, amount: Money): Money {
  return line?.share ? fractionOf(amount, line.share) : amount;
}

/** The first day with that `MM-DD` on or after another day. */
export function nextOn(monthDay: string, day: Day): Day {
  const year = Number(day.slice(0, 4));
  const same = `${day.slice(0, 4)}-${monthDay}`;
  return same >= day ? same : `${String(year + 1).padStart(4, '0')}-${monthDay}`;
}
