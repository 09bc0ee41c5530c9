/** The form part by part: every line with its number, what it says in place of an amount, and what is on no line. */
import type { Book } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import { ONE } from '../../number/decimal.ts';
import { NO_MONEY, fractionOf, less as lessOf, type Money } from '../../number/money.ts';
import { broughtInTurn, broughtTogether, runningSums } from '../../reckon/brought.ts';
import type { Basis } from '../../reckon/sales/income-fact.ts';
import type { Mileage } from '../../reckon/tax/tax-expenses.ts';
import { sheetAmounts } from '../../reckon/tax/tax-profit.ts';
import {
  NET_PROFIT,
  STOCK_AMOUNTS,
  lineAmounts,
  lineFor,
  unplaced,
  type LineWords,
  type TaxLine,
  type TaxSheet,
} from '../../reckon/tax/tax-sheet.ts';
import type { TaxAmount } from '../../reckon/tax/tax-view.ts';
import { amountName, distanceInWords, shareInWords } from './tax-words.ts';
import { amountText } from '../day/day-words.ts';
import { digitsOf } from '../../reckon/booked.ts';
import type { Accounts, FromRows, LineFigures, QuarterPart, QuarterRow } from './quarter-rows.ts';

/** What the form is filled in from. */
interface FormOf {
  readonly book: Book;
  readonly sheet: TaxSheet;
  readonly mileage: Mileage | undefined;
  readonly basis: Basis;
  /** Of a whole year every line is shown, zero or not, with those that say words. */
  readonly isWhole: boolean;
}

type LineAmounts = ReadonlyMap<string, Money>;

/** What every line comes to, in the period and in the year to date. */
interface Filled extends FormOf {
  readonly accounts: Accounts;
  readonly lines: readonly [LineAmounts, LineAmounts];
}

/**
 * Every line of the sheet with its number, under the parts of its form; then what is in the profit and on
 * no line, so that it adds up.
 */
export function formParts(accounts: Accounts, form: FormOf): QuarterPart[] {
  const { sheet, book } = form;
  const amounts = [sheetAmounts(accounts[0]), sheetAmounts(accounts[1])] as const;
  const linesOf = (of: (typeof amounts)[number]): LineAmounts =>
    lineAmounts(sheet, of, book.studio.categories);
  const filled = { ...form, accounts, lines: [linesOf(amounts[0]), linesOf(amounts[1])] as const };
  const parts = grouped(sheet.lines, ({ part = sheet.title }) => part);
  const lacking = [
    ...amounts.flatMap((each) => unplaced(sheet, each, book.studio.categories)),
    ...sheet.lines.flatMap((line) =>
      shareOn(line, filled).length === 0 ? [] : [`the rest of ${line.takes.join(', ')}`],
    ),
  ];
  return [
    ...[...parts].map(([part, lines]) => ({
      part,
      rows: lines.flatMap((line) => rowsOf(line, filled)),
    })),
    { part: 'On no line of the form', rows: restRows(filled, [...new Set(lacking)]) },
  ];
}

function rowsOf(line: TaxLine, filled: Filled): QuarterRow[] {
  const { lines, sheet, isWhole } = filled;
  const { key, title, number, part, isBold, says } = line;
  const isForm = part !== undefined;
  const row = { item: `line.${key}`, sheetLine: number, isKept: isForm && isWhole };
  if (says !== undefined)
    return isWhole
      ? [{ ...row, name: saidOn(line, says, filled), amount: null, toDate: null }]
      : [];
  const listed = sheet.lines.find((each) => each.key === line.itemizes);
  return [
    ...(listed ? listedOn(listed, line, filled) : []),
    {
      ...row,
      name: [title, ...shareOn(line, filled)].join(': '),
      amount: lines[0].get(key) ?? NO_MONEY,
      toDate: lines[1].get(key) ?? NO_MONEY,
      ...(isForm ? { isStrong: isBold ?? false } : {}),
      from: fromRows(line, amountsOn(line, filled)),
      ...sharedOn(line, filled),
    },
  ];
}

/** What each line of the sheet comes to. */
export function lineFigures(
  accounts: Accounts,
  { studio }: Pick<Book, 'studio'>,
  sheet: TaxSheet,
): LineFigures[] {
  const [period, year] = accounts.map((account) =>
    lineAmounts(sheet, sheetAmounts(account), studio.categories),
  );
  return sheet.lines.map(({ key, number }) => ({
    key,
    number,
    amount: period?.get(key) ?? NO_MONEY,
    toDate: year?.get(key) ?? NO_MONEY,
  }));
}

/** A row for each line of a sheet, put together from the amounts that it takes. */
export function lineRows(
  accounts: Accounts,
  { book, sheet }: Pick<FormOf, 'book' | 'sheet'>,
  item: string,
): QuarterRow[] {
  const figures = lineFigures(accounts, book, sheet);
  return sheet.lines.map((line, at) => ({
    item: `${item}.${line.key}`,
    name: line.title,
    amount: figures[at]?.amount ?? NO_MONEY,
    toDate: figures[at]?.toDate ?? NO_MONEY,
    sheetLine: line.number,
    from: fromRows(line, amountsOn(line, { accounts, book, sheet })),
  }));
}

/** `50% of 123.45`, and of what to date where that is another amount; nothing for a line that takes all. */
function shareOn(line: TaxLine, { accounts, book, sheet }: Filled): string[] {
  if (!line.share) return [];
  const lines = [{ ...line, share: ONE, adds: [], less: [] }];
  const [taken] = lineFigures(accounts, book, { ...sheet, lines });
  const [now = '', toDate = ''] = [taken?.amount, taken?.toDate].map((amount = NO_MONEY) =>
    amountText(amount, digitsOf(book)),
  );
  if (taken?.toDate === NO_MONEY) return [];
  return [`${shareInWords(line.share)} of ${now}${now === toDate ? '' : `, of ${toDate} to date`}`];
}

/** What records bring to a part of what the line takes: what that part grows by with each of them. */
function sharedOn(
  { key, share }: TaxLine,
  { accounts, sheet, book }: Filled,
): Pick<QuarterRow, 'brought' | 'broughtToDate'> {
  if (!share) return {};
  const [brought, broughtToDate] = accounts.map(({ expenses }) => {
    const own = expenses.filter(
      ({ counts }) => lineFor(sheet, counts, book.studio.categories)?.key === key,
    );
    const taken = broughtTogether(
      own.map(({ brought: by = new Map() }) => by),
      [],
    );
    return broughtInTurn(runningSums(taken), (sum) => fractionOf(sum, share));
  });
  return { brought, broughtToDate };
}

/** Each amount of a line by itself, as the form wants it above another one. */
function listedOn(line: TaxLine, { key }: TaxLine, filled: Filled): QuarterRow[] {
  const { accounts, book } = filled;
  const [period, year] = accounts.map(({ income, expenses }) => [...income, ...expenses]);
  const sumOf = (of: readonly TaxAmount[] = [], item: string): Money =>
    of.find((each) => each.item === item)?.amount ?? NO_MONEY;
  return amountsOn(line, filled).map((amount) => ({
    item: `line.${key}.${amount.item}`,
    name: amountName(book, amount),
    amount: sumOf(period, amount.item),
    toDate: sumOf(year, amount.item),
    isStrong: false,
    from: { plus: [amount.item] },
  }));
}

const METHODS = {
  average: 'a, cost (moving average)',
  'first-in': 'a, cost (first bought, first used)',
} as const;

/** A line that wants words: what the book knows, or that it doesn't. */
function saidOn({ title }: TaxLine, says: LineWords, filled: Filled): string {
  return says === 'ask' ? `Ask: ${title}` : `${title}: ${KNOWN_WORDS[says](filled)}`;
}

const KNOWN_WORDS: Readonly<Record<Exclude<LineWords, 'ask'>, (filled: Filled) => string>> = {
  'stock-method': ({ book }) => METHODS[book.studio.stockValue ?? 'average'],
  basis: ({ basis }) => `${basis} basis`,
  'last-day': ({ accounts }) => accounts[0].period.to,
  distance: ({ mileage, sheet }) =>
    mileage && !mileage.distanceToDate.isZero()
      ? `${distanceInWords(mileage.distanceToDate)} ${sheet.mileage?.unit ?? 'mi'}`
      : 'none on record',
};

/** What the profit of the sheet lacks, or has too much; nothing where it is the profit. */
function restRows(
  { accounts: [period, year], lines: [onPeriod, onYear] }: Filled,
  lacking: readonly string[],
): QuarterRow[] {
  const profit = (lines: LineAmounts): Money => lines.get(NET_PROFIT) ?? NO_MONEY;
  const amount = lessOf(period.netProfit, profit(onPeriod));
  const toDate = lessOf(year.netProfit, profit(onYear));
  if (amount === NO_MONEY && toDate === NO_MONEY) return [];
  const which = lacking.length === 0 ? '' : `: ${lacking.join(', ')}`;
  const name = `In the profit, but not on this sheet${which}`;
  const from = { plus: ['net-profit'], less: [`line.${NET_PROFIT}`] };
  return [{ item: 'line.none', name, amount, toDate, from }];
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
  if (plus.length + off.length === 0) return undefined;
  if (line.share) return { of: [...plus, ...off], words: `${shareInWords(line.share)} of it` };
  return { plus, less: off };
}

/** Discounts and returns stand below zero in the income, and above it on a sheet. */
function countsUp({ takesOff }: TaxLine, { counts }: TaxAmount): boolean {
  const isTurned = counts === 'discounts' || counts === 'returns';
  return takesOff.includes(counts) === isTurned;
}

/** The amounts of the period or of the year to date that a line takes, each once. */
function amountsOn(
  { key }: TaxLine,
  { accounts, sheet, book }: Pick<Filled, 'accounts' | 'sheet' | 'book'>,
): TaxAmount[] {
  const all = accounts.flatMap(({ income, expenses }) => [...income, ...expenses]);
  const own = all.filter(
    ({ counts }) => lineFor(sheet, counts, book.studio.categories)?.key === key,
  );
  return [...new Map(own.map((amount) => [amount.item, amount])).values()];
}
