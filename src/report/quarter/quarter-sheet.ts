/** Parts of the tax summary on the sheet: its lines, the two bases, distance driven, and what is missing. */
import type { Book } from '../../book.ts';
import { counted } from '../../in-words.ts';
import { roundTo, type Decimal } from '../../number/decimal.ts';
import { NO_MONEY, less as lessOf, type Money } from '../../number/money.ts';
import type { Basis } from '../../reckon/sales/income-fact.ts';
import { BASIS_ITEMS, type BasisDifference, type BasisItem } from '../../reckon/tax/tax-bases.ts';
import type { Mileage } from '../../reckon/tax/tax-expenses.ts';
import type { Gap, GapReason } from '../../reckon/tax/tax-gaps.ts';
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
import {
  type Accounts,
  type FromRows,
  type QuarterPart,
  type QuarterRow,
  both,
} from './quarter-rows.ts';

type Categories = Book['studio']['categories'];

/** Every line of the sheet with its number; what is on no line stands below, so that it adds up. */
export function sheetPart(
  accounts: Accounts,
  sheet: TaxSheet,
  categories: Categories,
): QuarterPart {
  const amounts = accounts.map(sheetAmounts);
  const [period, year] = amounts.map((each) => lineAmounts(sheet, each, categories));
  const on = { sheet, categories };
  const rows = sheet.lines.map((line) => ({
    item: `line.${line.key}`,
    name: line.title,
    amount: period?.get(line.key) ?? NO_MONEY,
    toDate: year?.get(line.key) ?? NO_MONEY,
    sheetLine: line.number,
    from: fromRows(line, amountsOn(line, accounts, on)),
  }));
  const lacking = [...new Set(amounts.flatMap((each) => unplaced(sheet, each, categories)))];
  return { part: sheet.title, rows: [...rows, ...restRows(accounts, [period, year], lacking)] };
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
  { sheet, categories }: { sheet: TaxSheet; categories: Categories },
): TaxAmount[] {
  const all = accounts.flatMap(({ income, expenses }) => [...income, ...expenses]);
  const own = all.filter(({ counts }) => lineFor(sheet, counts, categories)?.key === key);
  return [...new Map(own.map((amount) => [amount.item, amount])).values()];
}

const BASIS_NAMES: Readonly<Record<BasisItem, string>> = {
  'sales-unpaid': 'Sold this period, paid later',
  'sales-paid': 'Paid this period, sold in another',
  'missing-pieces': 'Owed for pieces missing this period, less what was paid for such',
  classes: 'Classes given, less what was paid for classes',
  'advances-taken': 'Deposits and certificates taken',
  'advances-used': 'Deposits and certificates used up',
  'bills-unpaid': 'Bills of this period not yet paid',
  'bills-paid': 'Bills paid this period, dated in another',
};

/** From the cash profit to the accrual profit, for the period and the year to date. */
export function basesPart(
  cash: Accounts,
  accrual: Accounts,
  {
    differences,
    shown,
  }: {
    differences: readonly [readonly BasisDifference[], readonly BasisDifference[]];
    /** The basis of the summary. */
    shown: Basis;
  },
): QuarterPart {
  const of = (list: readonly BasisDifference[], item: BasisItem): BasisDifference | undefined =>
    list.find((each) => each.item === item);
  const rows = BASIS_ITEMS.map((item) => ({
    item: `basis.${item}`,
    name: BASIS_NAMES[item],
    amount: of(differences[0], item)?.amount ?? NO_MONEY,
    toDate: of(differences[1], item)?.amount ?? NO_MONEY,
    behind: of(differences[0], item)?.behind ?? [],
    behindToDate: of(differences[1], item)?.behind ?? [],
  })).filter(isBasisNeeded);
  const profit = (accounts: Accounts, basis: Basis): QuarterRow => ({
    item: `basis.${basis}`,
    name: `Net profit on the ${basis} basis`,
    ...both(accounts, (each) => each.netProfit),
    from: basis === shown ? { plus: ['net-profit'] } : otherBasis(basis, rows),
  });
  return {
    part: 'From the cash basis to the accrual basis',
    rows: [profit(cash, 'cash'), ...rows, profit(accrual, 'accrual')],
  };
}

/** Pieces that galleries owe for are seldom missing: where there are none, there is no row. */
function isBasisNeeded({ item, amount, toDate }: QuarterRow): boolean {
  return item !== 'basis.missing-pieces' || amount !== NO_MONEY || toDate !== NO_MONEY;
}

/** The profit on the basis that the summary is not on, out of the one that it is on. */
function otherBasis(basis: Basis, rows: readonly QuarterRow[]): FromRows {
  const differences = rows.map(({ item }) => item);
  return basis === 'accrual'
    ? { plus: ['basis.cash', ...differences] }
    : { plus: ['basis.accrual'], less: differences };
}

/** Distance driven by the sheet's rate, beside the car expenses; none where nothing was driven. */
export function drivingPart(
  accounts: Accounts,
  mileage: Mileage | undefined,
  unit: 'mi' | 'km',
): QuarterPart {
  const part = 'Driving: for information, not part of the profit';
  if (!mileage || mileage.distanceToDate.isZero()) return { part, rows: [] };
  const { distance, distanceToDate, value, valueToDate, behind, behindToDate } = mileage;
  const car = ({ expenses }: TaxAccount): Money =>
    expenses.find(({ item }) => item === 'expense.car')?.amount ?? NO_MONEY;
  const year = distance.eq(distanceToDate)
    ? ''
    : `, ${distanceInWords(distanceToDate)} ${unit} to date`;
  const words = `By the rate: ${distanceInWords(distance)} ${unit}${year}`;
  return {
    part,
    rows: [
      { item: 'distance', name: words, amount: value, toDate: valueToDate, behind, behindToDate },
      {
        item: 'distance.car',
        name: 'Car expenses, which are in the profit',
        ...both(accounts, car),
        from: { plus: ['expense.car'] },
      },
    ],
  };
}

function distanceInWords(distance: Decimal): string {
  return roundTo(distance, 1).toString();
}

const GAP_WORDS: Readonly<Record<GapReason, (gap: Gap, of: string) => string>> = {
  'no-tax-place': ({ behind }, of) =>
    `${of}: ${counted(behind.length, 'sale')}, no place for sales tax`,
  'unpaid-consignment': ({ behind }) => `Galleries owe for ${counted(behind.length, 'statement')}`,
  'unpaid-missing': ({ behind }) =>
    `Galleries owe for pieces missing in ${counted(behind.length, 'consignment')}`,
  'unpaid-sales': ({ behind }) => `Buyers owe for ${counted(behind.length, 'sale')}`,
  'unpaid-bills': ({ behind }) => `You owe ${counted(behind.length, 'bill')}`,
  'no-line': ({ behind }, of) =>
    `${counted(behind.length, 'expense')} for ${of}: not on any line of the sheet`,
  'other-expenses': ({ behind }) => `${counted(behind.length, 'expense')} for other: say what for`,
};

const MOST_IDS = 3;

/** What to look at before it goes to a preparer, with the first few records by their ids. */
export function gapsPart(book: Book, gaps: readonly Gap[]): QuarterPart {
  const rows = gaps.map((gap) => {
    const of = book.channels.get(gap.of)?.name ?? gap.of;
    const ids = gap.behind.slice(0, MOST_IDS).join(', ');
    const more = gap.behind.length > MOST_IDS ? ` and ${gap.behind.length - MOST_IDS} more` : '';
    return {
      item: gap.of === '' ? `missing.${gap.reason}` : `missing.${gap.reason}.${gap.of}`,
      name: `${GAP_WORDS[gap.reason](gap, of)} (${ids}${more})`,
      amount: gap.amount,
      toDate: null,
      behind: gap.behind,
    };
  });
  return { part: 'Check before sending', rows };
}
