/** The part of the tax summary that is the sheet: its lines, and what of the profit is on none. */
import type { Book } from '../../book.ts';
import { ONE } from '../../number/decimal.ts';
import { NO_MONEY, less as lessOf, type Money } from '../../number/money.ts';
import { digitsOf } from '../../reckon/booked.ts';
import { sheetAmounts, type TaxAccount } from '../../reckon/tax/tax-profit.ts';
import {
  NET_PROFIT,
  STOCK_AMOUNTS,
  lineAmounts,
  lineFor,
  unplaced,
  type TaxLine,
  type TaxSheet,
} from '../../reckon/tax/tax-sheet.ts';
import type { TaxAmount } from '../../reckon/tax/tax-view.ts';
import { amountText } from '../day/day-words.ts';
import { shareInWords } from './quarter-estimates.ts';
import {
  type Accounts,
  type FromRows,
  type LineFigures,
  type PeriodAndYear,
  type QuarterPart,
  type QuarterRow,
} from './quarter-rows.ts';

type Categories = Book['studio']['categories'];

/** Every line of the sheet with its number; what is on no line stands below, so that it adds up. */
export function sheetPart(
  accounts: Accounts,
  sheet: TaxSheet,
  { studio }: Pick<Book, 'studio'>,
): QuarterPart {
  const { categories } = studio;
  const amounts = accounts.map(sheetAmounts);
  const [period, year] = amounts.map((each) => lineAmounts(sheet, each, categories));
  const on = { sheet, categories };
  const shared = sheet.lines.flatMap((line) => sharedLine(line, accounts, on) ?? []);
  const rows = lineFigures(accounts, on).map(({ line, key, amount, toDate }) => ({
    item: `line.${key}`,
    name: [line.title, ...wordsOn(shared, line, studio)].join(': '),
    amount,
    toDate,
    sheetLine: line.number,
    from: fromRows(line, amountsOn(line, accounts, on)),
  }));
  const lacking = [
    ...new Set(amounts.flatMap((each) => unplaced(sheet, each, categories))),
    ...shared.map(({ line }) => `the rest of ${line.takes.join(', ')}`),
  ];
  return { part: sheet.title, rows: [...rows, ...restRows(accounts, [period, year], lacking)] };
}

/** What each line of the sheet comes to. */
export function lineFigures(
  accounts: Accounts,
  { sheet, categories }: OnSheet,
): (LineFigures & { readonly line: TaxLine })[] {
  const [period, year] = accounts.map((account) =>
    lineAmounts(sheet, sheetAmounts(account), categories),
  );
  return sheet.lines.map((line) => ({
    line,
    key: line.key,
    number: line.number,
    amount: period?.get(line.key) ?? NO_MONEY,
    toDate: year?.get(line.key) ?? NO_MONEY,
  }));
}

interface OnSheet {
  readonly sheet: TaxSheet;
  readonly categories: Categories;
}

/** A line of which only a share may be deducted, and all that it is the share of. */
interface SharedLine extends PeriodAndYear {
  readonly line: TaxLine;
}

/** Undefined for a line that takes the whole, or nothing. */
function sharedLine(
  line: TaxLine,
  accounts: Accounts,
  { sheet, categories }: OnSheet,
): SharedLine | undefined {
  if (!line.share) return undefined;
  const lines = [{ ...line, share: ONE, adds: [], less: [] }];
  const [taken] = lineFigures(accounts, { sheet: { ...sheet, lines }, categories });
  if (!taken || (taken.amount === NO_MONEY && taken.toDate === NO_MONEY)) return undefined;
  return { line, amount: taken.amount, toDate: taken.toDate };
}

/** `50% of 123.45`, and of what to date where that is another amount. */
function wordsOn(shared: readonly SharedLine[], line: TaxLine, studio: Book['studio']): string[] {
  const found = shared.find((each) => each.line === line);
  if (!found || !line.share) return [];
  const [now, toDate] = [found.amount, found.toDate].map((amount) =>
    amountText(amount, digitsOf({ studio })),
  );
  const more = now === toDate ? '' : `, of ${toDate ?? ''} to date`;
  return [`${shareInWords(line.share)} of ${now ?? ''}${more}`];
}

type LineAmounts = ReadonlyMap<string, Money> | undefined;

/** What the profit of the sheet lacks, or has too much; nothing where it is the profit. */
function restRows(
  [period, year]: Accounts,
  [onPeriod, onYear]: readonly LineAmounts[],
  lacking: readonly string[],
): QuarterRow[] {
  const rest = (account: TaxAccount, lines: LineAmounts): Money =>
    lessOf(account.netProfit, lines?.get(NET_PROFIT) ?? NO_MONEY);
  const [amount, toDate] = [rest(period, onPeriod), rest(year, onYear)];
  if (amount === NO_MONEY && toDate === NO_MONEY) return [];
  const which = lacking.length === 0 ? '' : `: ${lacking.join(', ')}`;
  return [
    {
      item: 'line.none',
      name: `In the profit, but not on this sheet${which}`,
      amount,
      toDate,
      from: { plus: ['net-profit'], less: [`line.${NET_PROFIT}`] },
    },
  ];
}

/** Rows that the amounts of stock have in the part on the cost of goods. */
const STOCK_ROWS: Readonly<Record<(typeof STOCK_AMOUNTS)[number], string>> = {
  'opening-stock': 'opening',
  purchases: 'purchases',
  'own-use': 'own-use',
  'own-use-price': 'own-use-price',
  'used-unpaid-before': 'used-unpaid-before',
  'used-unpaid': 'used-unpaid',
  'closing-stock': 'closing',
};

/** The rows of the summary that a line is put together from: amounts, stock, and other lines. */
function fromRows(line: TaxLine, own: readonly TaxAmount[]): FromRows | undefined {
  const { takes, takesOff, adds, less } = line;
  const stock = (names: readonly string[]): string[] =>
    STOCK_AMOUNTS.filter((name) => names.includes(name)).map((name) => STOCK_ROWS[name]);
  const lines = (keys: readonly string[]): string[] => keys.map((key) => `line.${key}`);
  const amounts = (isPlus: boolean): string[] =>
    own.filter((amount) => countsUp(line, amount) === isPlus).map(({ item }) => item);
  const plus = [...amounts(true), ...stock(takes), ...lines(adds)];
  const off = [...amounts(false), ...stock(takesOff), ...lines(less)];
  return plus.length + off.length === 0 ? undefined : { plus, less: off };
}

/** Discounts and returns stand below zero in the income, and above it on a sheet. */
function countsUp({ takesOff }: TaxLine, { counts }: TaxAmount): boolean {
  const isTurned = counts === 'discounts' || counts === 'returns';
  return takesOff.includes(counts) === isTurned;
}

/** The amounts of the period or of the year to date that a line takes, each once. */
function amountsOn(
  { key }: TaxLine,
  accounts: Accounts,
  { sheet, categories }: OnSheet,
): TaxAmount[] {
  const all = accounts.flatMap(({ income, expenses }) => [...income, ...expenses]);
  const own = all.filter(({ counts }) => lineFor(sheet, counts, categories)?.key === key);
  return [...new Map(own.map((amount) => [amount.item, amount])).values()];
}
