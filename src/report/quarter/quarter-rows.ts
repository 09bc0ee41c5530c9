/** Rows of the tax summary while they are put together: two figures, a line of the sheet, the records. */
import { type Money, NO_MONEY } from '../../number/money.ts';
import { madeOnce, once } from '../../once.ts';
import { bringing, type Brought } from '../../reckon/brought.ts';
import type { TaxAmount } from '../../reckon/tax/tax-view.ts';
import type { Reckoning, Row, Table } from '../table.ts';
import type { TaxAccount } from '../../reckon/tax/tax-profit.ts';

/** What takes long to gather is gathered only where it is asked for. */
type Lazily<T> = T | (() => T);

/** One row; `amount` is of the period, `toDate` of the business year up to its end. */
export interface QuarterRow {
  readonly item: string;
  readonly name: string;
  readonly amount: Money | null;
  readonly toDate: Money | null;
  /** What was filed on the line, and what there is now less that; only where something was. */
  readonly filed?: Money;
  readonly difference?: Money;
  readonly sheetLine?: string | undefined;
  /** Records behind the figure of the period; left out, those that bring something to it. */
  readonly behind?: readonly string[];
  /** Records behind that of the year to date. */
  readonly behindToDate?: readonly string[];
  /** What each record brings to the figure of the period, and to that of the year to date. */
  readonly brought?: Lazily<Brought> | undefined;
  readonly broughtToDate?: Lazily<Brought> | undefined;
  readonly from?: FromRows | undefined;
  /** Whether it is shown though it is zero. */
  readonly isKept?: boolean;
  /** Whether it is bold; left out, what adds up others is. */
  readonly isStrong?: boolean;
}

/** Items of the rows that a row is reckoned from; those that the summary does not have are passed over. */
export interface FromRows {
  readonly plus?: readonly string[];
  readonly less?: readonly string[];
  readonly of?: readonly string[];
  readonly words?: string;
}

/** A part with its heading. */
export interface QuarterPart {
  readonly part: string;
  readonly rows: readonly QuarterRow[];
}

/** A figure of the period and of the year to date. */
export interface PeriodAndYear {
  readonly amount: Money;
  readonly toDate: Money;
}

/** The same figure of the period and of the year to date. */
export function both<T>(pair: readonly [T, T], figure: (of: T) => Money): PeriodAndYear {
  return { amount: figure(pair[0]), toDate: figure(pair[1]) };
}

/** The number of the line that an amount is on. */
export type LineOf = (amount: string) => string | undefined;

/** What amounts are called, and on which line they are. */
interface LineNaming {
  readonly nameOf: (amount: TaxAmount) => string;
  readonly lineOf: LineOf;
}

/** Rows for all amounts of the period or of the year to date, in the order of the year's. */
function amountRows(
  [period, year]: readonly [readonly TaxAmount[], readonly TaxAmount[]],
  { nameOf, lineOf }: LineNaming,
): QuarterRow[] {
  const inPeriod = new Map(period.map((each) => [each.item, each]));
  const inYear = new Map(year.map((each) => [each.item, each]));
  const more = period.filter(({ item }) => !inYear.has(item));
  return [...year, ...more].map((each) => {
    const { item, counts } = each;
    return {
      item,
      name: nameOf(each),
      amount: inPeriod.get(item)?.amount ?? NO_MONEY,
      toDate: inYear.get(item)?.amount ?? NO_MONEY,
      sheetLine: lineOf(counts),
      ...recordsBeside(inPeriod.get(item), inYear.get(item)),
    };
  });
}

const NO_RECORDS: Pick<TaxAmount, 'behind' | 'brought'> = { behind: [], brought: new Map() };

function recordsBeside(
  { behind, brought }: typeof NO_RECORDS = NO_RECORDS,
  { behind: behindToDate, brought: broughtToDate }: typeof NO_RECORDS = NO_RECORDS,
): Pick<QuarterRow, 'behind' | 'behindToDate' | 'brought' | 'broughtToDate'> {
  return { behind, behindToDate, brought, broughtToDate };
}

/** The row as a table has it. */
export function tableRow(part: string, row: QuarterRow): Row {
  const { item, name, amount, toDate, filed = null, difference = null, sheetLine = null } = row;
  return { part, item, name, amount, toDate, filed, difference, sheetLine };
}

/** What leads from the rows to their records and to each other. */
export function leadsOf(
  parts: readonly QuarterPart[],
): Pick<Table, 'behind' | 'further' | 'reckoned' | 'emphases' | 'brought'> {
  const rows = parts.flatMap((part) => part.rows);
  const numbers = new Map([...rows.entries()].map(([at, { item }]) => [item, at]));
  return {
    behind: once(() => rows.map(behindPeriod)),
    further: {
      columns: ['toDate'],
      words: 'And in the figure to date',
      behind: once(() => rows.map(earlier)),
    },
    brought: {
      amount: madeOnce(() => rows.map(({ brought }) => gathered(brought))),
      toDate: madeOnce(() => rows.map(({ broughtToDate }) => gathered(broughtToDate))),
    },
    emphases: rows.map(({ isKept: kept, isStrong: strong }) => ({ kept, strong })),
    reckoned: rows.map(({ from }) => from && reckoning(from, numbers)),
  };
}

/** A record may bring one part to the period and another one before it, as a class does. */
function earlier(row: QuarterRow): readonly string[] {
  const [brought, broughtToDate] = [gathered(row.brought), gathered(row.broughtToDate)];
  if (brought && broughtToDate)
    return bringing(broughtToDate).filter((id) => brought.get(id) !== broughtToDate.get(id));
  const own = new Set(behindPeriod(row));
  return (row.behindToDate ?? bringing(broughtToDate)).filter((id) => !own.has(id));
}

function behindPeriod({ behind, brought }: QuarterRow): readonly string[] {
  return behind ?? bringing(gathered(brought));
}

function gathered(brought: QuarterRow['brought']): Brought | undefined {
  return typeof brought === 'function' ? brought() : brought;
}

function reckoning(
  { plus = [], less = [], of = [], words }: FromRows,
  numbers: ReadonlyMap<string, number>,
): Reckoning {
  const known = (items: readonly string[]): number[] =>
    items.flatMap((item) => numbers.get(item) ?? []);
  return { plus: known(plus), less: known(less), of: known(of), words };
}

/** The account of the period, and of the business year up to its end. */
export type Accounts = readonly [period: TaxAccount, year: TaxAccount];

/** Income by channel and by what it is for, with discounts and returns apart. */
export function incomePart(accounts: Accounts, naming: LineNaming): QuarterPart {
  const [period, year] = accounts;
  const rows = amountRows([period.income, year.income], naming);
  const total = {
    item: 'income',
    name: 'Total income',
    ...both(accounts, (each) => each.totalIncome),
    from: { plus: rows.map(({ item }) => item) },
  };
  return { part: 'Income', rows: [...rows, total] };
}

/** Expenses by category, with what others kept of the sales. */
export function expensePart(accounts: Accounts, naming: LineNaming): QuarterPart {
  const [period, year] = accounts;
  const rows = amountRows([period.expenses, year.expenses], naming);
  const figures = both(accounts, (each) => each.totalExpenses);
  return {
    part: 'Expenses',
    rows: [
      ...rows,
      {
        item: 'expenses',
        name: 'Total expenses',
        ...figures,
        from: { plus: rows.map(({ item }) => item) },
      },
    ],
  };
}

/** Whether the cost of goods is what the stock says, with nothing used before it is paid for. */
export function isByStock(accounts: Accounts): boolean {
  return accounts.every(
    ({ goodsCost: { way, before, unpaid } }) =>
      way !== 'paid' && before.amount === NO_MONEY && unpaid.amount === NO_MONEY,
  );
}

/** What is left; a line of the sheet is named where it comes to the same. */
export function profitPart(accounts: Accounts, onSheet: readonly LineFigures[]): QuarterPart {
  const [{ kept }] = accounts;
  const row = (item: string, name: string, of: (account: TaxAccount) => Money): QuarterRow => {
    const figures = both(accounts, of);
    const line = onSheet.find(({ key }) => key === item);
    const isSame = line?.amount === figures.amount && line.toDate === figures.toDate;
    return { item, name, ...figures, sheetLine: isSame ? line.number : undefined };
  };
  const cost = isByStock(accounts) ? 'cost-of-goods-sold' : 'cost-of-goods';
  const rows: QuarterRow[] = [
    {
      ...row('gross-profit', 'Gross profit: income less cost of goods', (of) => of.grossProfit),
      from: { plus: ['income'], less: [cost] },
    },
    {
      ...row('net-profit', 'Net profit: gross profit less expenses', (of) => of.netProfit),
      from: { plus: ['gross-profit'], less: ['expenses'] },
    },
  ];
  if (!kept) return { part: 'Profit', rows };
  const ofKept = ({ kept: own }: TaxAccount): Money => own?.amount ?? NO_MONEY;
  const own = {
    ...row('own-use-price', 'Ware for personal use, at its price', ofKept),
    brought: kept.brought,
    broughtToDate: accounts[1].kept?.brought,
  };
  return { part: 'Profit', rows: [...rows, own] };
}

/** What a line of the sheet comes to. */
export interface LineFigures extends PeriodAndYear {
  readonly key: string;
  readonly number: string;
}
