/** Parts of the tax summary on what came in, what was spent, and what is left. */
import { NO_MONEY, type Money } from '../number/money.ts';
import type { TaxAccount } from '../reckon/tax-profit.ts';
import type { TaxAtPlace } from '../reckon/tax-income.ts';
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
    from: { plus: rows.map(({ item }) => item) },
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
    const row = (item: string, name: string, figure: (at: TaxAtPlace) => Money): QuarterRow => ({
      item: `${item}.${toDate.place}`,
      name: `${place}: ${name}`,
      amount: now ? figure(now) : NO_MONEY,
      toDate: figure(toDate),
      behind: now?.behind ?? [],
      behindToDate: toDate.behind,
    });
    const tax = row('sales-tax', 'tax collected', (at) => at.tax);
    if (toDate.place !== '') return [row('sales-there', 'sales', (at) => at.sales), tax];
    return toDate.tax === NO_MONEY && (now?.tax ?? NO_MONEY) === NO_MONEY ? [] : [tax];
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

/** What is left. */
export function profitPart(accounts: Accounts, numbers: ReadonlyMap<string, string>): QuarterPart {
  const gross = {
    item: 'gross-profit',
    name: 'Gross profit: income less cost of goods',
    ...both(accounts, (of) => of.grossProfit),
    sheetLine: numbers.get('gross-profit'),
    from: { plus: ['income'], less: ['cost-of-goods-sold'] },
  };
  const net = {
    item: 'net-profit',
    name: 'Net profit: that less expenses',
    ...both(accounts, (of) => of.netProfit),
    sheetLine: numbers.get('net-profit'),
    from: { plus: ['gross-profit'], less: ['expenses'] },
  };
  return { part: 'Profit', rows: [gross, net] };
}
