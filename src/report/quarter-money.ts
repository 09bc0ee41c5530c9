/** Parts of the tax summary on what came in, what was spent, and what the ware cost. */
import { sum, type Decimal } from '../number/decimal.ts';
import { CONSUMED } from '../reckon/goods.ts';
import type { TaxAccount } from '../reckon/tax-profit.ts';
import type { TaxAtPlace } from '../reckon/tax-income.ts';
import { STANDING } from '../reckon/where.ts';
import { amountRows, both, type QuarterPart, type QuarterRow } from './quarter-rows.ts';

/** The account of the period, and of the business year up to its end. */
export type Accounts = readonly [period: TaxAccount, year: TaxAccount];

/** The number of the line that an amount is on. */
export type LineOf = (amount: string) => string | undefined;

/** Income by channel and by what it is for, with discounts and returns apart. */
export function incomePart(accounts: Accounts, lineOf: LineOf): QuarterPart {
  const [period, year] = accounts;
  const rows = amountRows([period.income, year.income], lineOf);
  const total = {
    item: 'income',
    name: 'Total income',
    ...both(accounts, (each) => each.totalIncome),
  };
  return { part: 'Income', rows: [...rows, total] };
}

/** Sales tax by place, with the sales that it is on. */
export function salesTaxPart(
  period: readonly TaxAtPlace[],
  year: readonly TaxAtPlace[],
): QuarterPart {
  const rows = year.flatMap((toDate) => {
    const now = period.find((each) => each.place === toDate.place);
    const place = toDate.place === '' ? 'No place named' : toDate.place;
    const row = (item: string, name: string, figure: (at: TaxAtPlace) => Decimal): QuarterRow => ({
      item: `${item}.${toDate.place}`,
      name: `${place}: ${name}`,
      amount: now ? figure(now) : sum([]),
      toDate: figure(toDate),
      behind: (now ?? toDate).behind,
    });
    const tax = row('sales-tax', 'tax collected', (at) => at.tax);
    if (toDate.place !== '') return [row('sales-there', 'sales', (at) => at.sales), tax];
    return toDate.tax.isZero() && (now?.tax.isZero() ?? true) ? [] : [tax];
  });
  return { part: 'Sales tax collected: owed on, and no income', rows };
}

/** Expenses by category, with what others kept of the sales. */
export function expensePart(accounts: Accounts, lineOf: LineOf): QuarterPart {
  const [period, year] = accounts;
  const rows = amountRows([period.expenses, year.expenses], lineOf);
  const figures = both(accounts, (each) => each.totalExpenses);
  return {
    part: 'Expenses',
    rows: [...rows, { item: 'expenses', name: 'Total expenses', ...figures }],
  };
}

/** Stock at the start and the end by kind, what was bought between, and where it went. */
export function goodsPart(accounts: Accounts, lineOf: LineOf): QuarterPart {
  const row = (item: string, name: string, figure: (of: TaxAccount) => Decimal): QuarterRow => ({
    item,
    name,
    ...both(accounts, figure),
  });
  const stock = (when: 'opening' | 'closing', words: string): QuarterRow[] =>
    STANDING.map((place) =>
      row(`${when}.${slug(place)}`, `${words} ${place}`, (of) => of.goods[when][place]),
    );
  const total = (when: 'opening' | 'closing', name: string): QuarterRow => ({
    ...row(when, name, ({ goods }) => sum(Object.values(goods[when]))),
    sheetLine: lineOf(`${when}-stock`),
  });
  const rows = [
    ...stock('opening', 'At the start:'),
    total('opening', 'Stock at the start'),
    {
      ...row('purchases', 'Materials bought, landed', ({ goods }) => goods.purchases),
      sheetLine: lineOf('purchases'),
    },
    {
      ...row('own-use', 'Less ware kept for oneself', ({ goods }) => goods.ownUse),
      sheetLine: lineOf('own-use'),
    },
    ...stock('closing', 'At the end:'),
    total('closing', 'Less stock at the end'),
    row('cost-of-goods-sold', 'Cost of goods sold', ({ goods }) => goods.costOfGoodsSold),
    ...CONSUMED.map((way) =>
      row(`consumed.${slug(way)}`, `Of that, ${way}`, ({ goods }) => goods.consumed[way]),
    ),
  ];
  return { part: 'Cost of goods sold: materials only, no pay for oneself', rows };
}

/** What is left. */
export function profitPart(accounts: Accounts, numbers: ReadonlyMap<string, string>): QuarterPart {
  const row = (item: string, name: string, figure: (of: TaxAccount) => Decimal): QuarterRow => ({
    item,
    name,
    ...both(accounts, figure),
    sheetLine: numbers.get(item),
  });
  const rows = [
    row('gross-profit', 'Gross profit: income less cost of goods', (of) => of.grossProfit),
    row('net-profit', 'Net profit: that less expenses', (of) => of.netProfit),
  ];
  return { part: 'Profit', rows };
}

function slug(words: string): string {
  return words.replace(/[^a-z]+/g, '-');
}
