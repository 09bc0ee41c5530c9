/** Charts of the tax summary: profit by month, expenses by size, what is to be set aside by when. */
import { addDays, earlierDay, endOfMonth, monthOf, type Span } from '../../number/date.ts';
import { less } from '../../number/money.ts';
import { madeOnce, once } from '../../once.ts';
import { expenseAmounts } from '../../reckon/tax/tax-expenses.ts';
import { incomeAmounts, sellingAmounts } from '../../reckon/tax/tax-income.ts';
import { totalAmount, type TaxAmount, type TaxView } from '../../reckon/tax/tax-view.ts';
import { spanInWords, tableHead } from '../head.ts';
import type { Chart } from '../page.ts';
import { amountName } from '../quarter/tax-words.ts';
import type { Column, Row, Table } from '../table.ts';
import { chartOfRows, isSome } from './drawn-rows.ts';

/** Expenses of a period by category, the largest first, on the view's basis and by its sheet: all that the tax summary totals. */
export function expenseChart(view: TaxView, period: Span): Chart {
  const { book } = view;
  const amounts = expensesIn(view, period)
    .filter(({ amount }) => isSome(amount))
    .sort((one, other) => Number(other.amount - one.amount));
  const span = spanInWords(period);
  const table: Table = {
    report: 'expenses',
    title: `Expenses by category, ${span}`,
    ...tableHead(book, view.asOf),
    columns: [
      { key: 'name', title: 'Category', type: 'text' },
      { key: 'amount', title: 'Amount', type: 'money' },
    ],
    rows: amounts.map((each) => ({ name: amountName(book, each), amount: each.amount })),
    totals: { name: 'total', amount: totalAmount(amounts) },
    notes: [],
    behind: once(() => amounts.map(({ behind }) => behind)),
    brought: { amount: madeOnce(() => amounts.map(({ brought }) => brought)) },
  };
  const title = 'Expenses by category, the largest first';
  return { shape: 'bars', title, span, table, label: 'name', value: 'amount' };
}

/** Expenses and costs of selling. */
function expensesIn(view: TaxView, period: Span): TaxAmount[] {
  return [...expenseAmounts(view, period), ...sellingAmounts(view, period)];
}

/**
 * Income less expenses of each month of a period. What goods cost is known only from the value of the
 * whole stock at both ends, which takes too long month by month.
 */
export function monthChart(view: TaxView, period: Span): Chart {
  const counting = { from: period.from, to: earlierDay(period.to, view.asOf) };
  const rows = monthsIn(counting).map((month) => {
    const income = totalAmount(incomeAmounts(view, month));
    const expenses = totalAmount(expensesIn(view, month));
    return { month: monthOf(month.from), income, expenses, left: less(income, expenses) };
  });
  const span = spanInWords(period);
  const table: Table = {
    report: 'months',
    title: `Income and expenses by month, ${span}`,
    ...tableHead(view.book, view.asOf),
    columns: [
      { key: 'month', title: 'Month', type: 'text' },
      { key: 'income', title: 'Income', type: 'money' },
      { key: 'expenses', title: 'Expenses', type: 'money' },
      { key: 'left', title: 'Left before goods', type: 'money' },
    ],
    rows,
    notes: [],
  };
  const title = 'Income less expenses by month, before the cost of goods';
  return { shape: 'columns', title, span, table, label: 'month', value: 'left' };
}

/** The months of a period; the first and the last may be parts of one. */
function monthsIn({ from, to }: Span): Span[] {
  if (from > to) return [];
  const end = earlierDay(endOfMonth(from), to);
  return [{ from, to: end }, ...monthsIn({ from: addDays(end, 1), to })];
}

const PAYMENT = /^estimate\.\d+\.payment$/;
const DUE: Column = { key: 'due', title: 'Due', type: 'text' };
const PAID: Column = { key: 'amount', title: 'To be paid', type: 'money' };

/** The payments of estimated tax of a summary that has several, by the days on which they are due. */
export function paymentCharts(table: Table): Chart[] {
  const rows = table.rows
    .filter(({ item }) => PAYMENT.test(String(item)))
    .map((row): Row => ({ ...row, due: String(row['part']).replace(/^.*, /, '') }));
  if (rows.length < 2 || rows.every(({ amount }) => !isSome(amount))) return [];
  return [
    chartOfRows(table, {
      shape: 'bars',
      title: 'Estimated tax by the annualized method',
      span: 'by due date',
      label: DUE.key,
      value: PAID.key,
      more: [DUE, PAID],
      some: { rows, words: '' },
    }),
  ];
}
