/** The charts of pages: income by month and product, losses with their intervals, firing cost over time. */
import { grouped } from '../grouping.ts';
import { madeOnce, once } from '../once.ts';
import type { Book } from '../book.ts';
import { type Span, monthOf } from '../number/date.ts';
import { total } from '../number/money.ts';
import type { FiringCost } from '../reckon/kilns/firing-cost.ts';
import type { Flows } from '../reckon/flows.ts';
import type { DaysUpTo } from '../among.ts';
import type { Chart } from './page.ts';
import { expenseAmounts } from '../reckon/tax/tax-expenses.ts';
import { sellingAmounts } from '../reckon/tax/tax-income.ts';
import { totalAmount, type TaxView } from '../reckon/tax/tax-view.ts';
import { firingsIn } from './firings.ts';
import { broughtByRecord } from './brought.ts';
import { perPiece, spanInWords, tableHead } from './head.ts';
import { incomeTable } from './income.ts';
import { lossesTable } from './losses.ts';
import type { Row, Table } from './table.ts';
import { amountName } from './quarter/tax-words.ts';

/** Net income of a period by month and by item. */
export function incomeCharts(book: Book, flows: Flows, period: Span): readonly Chart[] {
  const months = incomeTable(book, flows, { by: 'month', period });
  const items = incomeTable(book, flows, { by: 'product', period });
  const common = { span: spanInWords(period), label: 'item', value: 'net' };
  return [
    { shape: 'columns', title: 'Net income by month', table: months, ...common },
    { shape: 'bars', title: 'Net income by item', table: items, ...common },
  ];
}

/** Expenses of a period by category, on the view's basis and by its sheet: all that the tax summary totals. */
export function expenseChart(view: TaxView, period: Span): Chart {
  const { book } = view;
  const amounts = [...expenseAmounts(view, period), ...sellingAmounts(view, period)];
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
  const title = 'Expenses by category';
  return { shape: 'bars', title, span, table, label: 'name', value: 'amount' };
}

/** Loss rates by kind of firing, each between its 95 % bounds. */
export function lossChart(book: Book, flows: Flows, span: DaysUpTo): Chart {
  return {
    shape: 'intervals',
    title: 'Loss rate by kind of firing, with its 95 % interval',
    span: spanInWords(span),
    table: lossesTable(book, flows, { by: 'firing', span }),
    label: 'group',
    value: 'lossRate',
    bounds: { low: 'low', high: 'high' },
  };
}

/** What a piece in a firing cost on average, month by month. */
export function firingCourseChart(book: Book, flows: Flows, span: DaysUpTo): Chart {
  return {
    shape: 'course',
    title: 'Cost of firing a piece, by month',
    span: spanInWords(span),
    table: firingMonths(book, flows, span),
    label: 'month',
    value: 'perPiece',
  };
}

/** Firings by month: how many, their pieces, their cost, and the cost of a piece over all of them. */
function firingMonths(book: Book, flows: Flows, span: DaysUpTo): Table {
  const firings = firingsIn(flows, span);
  const months = grouped(firings, ({ firing }) => monthOf(firing.date));
  return {
    report: 'firings',
    title: `Cost of firings by month, ${spanInWords(span)}`,
    ...tableHead(book, flows.stock.asOf),
    columns: [
      { key: 'month', title: 'Month', type: 'text' },
      { key: 'firings', title: 'Firings', type: 'count' },
      { key: 'pieces', title: 'Pieces', type: 'count' },
      { key: 'total', title: 'Total', type: 'money' },
      { key: 'perPiece', title: 'Per piece', type: 'rate', from: 'Total ÷ Pieces' },
    ],
    rows: [...months].map(([month, those]) => ({ month, ...costOfFirings(book, those) })),
    totals: { month: 'all months', ...costOfFirings(book, firings) },
    notes: [],
    behind: once(() => [...months.values()].map((those) => those.map(({ firing }) => firing.id))),
    brought: broughtByRecord(() => [...months.values()], {
      keys: ['firings', 'pieces', 'total'],
      idOf: ({ firing }) => firing.id,
      cellsOf: (those) => costOfFirings(book, those),
    }),
  };
}

function costOfFirings(book: Book, firings: readonly FiringCost[]): Row {
  const pieces = firings.reduce((count, cost) => count + cost.pieces, 0);
  const all = total(firings.map((cost) => cost.total));
  return { firings: firings.length, pieces, total: all, perPiece: perPiece(book, all, pieces) };
}
