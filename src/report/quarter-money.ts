/** Parts of the tax summary on what came in, what was spent, and what is left. */
import type { TaxAccount } from '../reckon/tax-profit.ts';
import { amountRows, both, type Naming, type QuarterPart } from './quarter-rows.ts';

/** The account of the period, and of the business year up to its end. */
export type Accounts = readonly [period: TaxAccount, year: TaxAccount];

/** Income by channel and by what it is for, with discounts and returns apart. */
export function incomePart(accounts: Accounts, naming: Naming): QuarterPart {
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
export function expensePart(accounts: Accounts, naming: Naming): QuarterPart {
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
