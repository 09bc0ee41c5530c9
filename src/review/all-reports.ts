/** Every report of one state of the book, as tables, so that two states can be subtracted. */
import { earlierDay } from '../number/date.js';
import type { Book, Day } from '../book.ts';
import { addDays } from '../number/date.ts';
import { flow } from '../reckon/flow.ts';
import type { Flows } from '../reckon/flows.ts';
import { USAGE_WINDOW } from '../reckon/stock/depletion.ts';
import { factsIn, taxView } from '../reckon/tax/tax-view.ts';
import type { TaxPeriod } from '../reckon/tax/tax-period.ts';
import type { TaxSheet } from '../reckon/tax/tax-sheet.ts';
import { claimsTable } from '../report/claims/claims.ts';
import { costsTable } from '../report/costs.ts';
import { dayReport } from '../report/day/day.ts';
import { fairsTable } from '../report/fairs.ts';
import { firingsTable } from '../report/firings.ts';
import { galleriesTable } from '../report/galleries.ts';
import { incomeTable } from '../report/income.ts';
import { lossesTable } from '../report/losses.ts';
import { materialValueTable, materialsTable } from '../report/materials.ts';
import { ordersTable } from '../report/making/orders.ts';
import { kilnsTable } from '../report/making/kilns.ts';
import { recipesTable } from '../report/making/recipes.ts';
import { piecesTable } from '../report/pieces.ts';
import { quarterTable } from '../report/quarter/quarter.ts';
import type { Table } from '../report/table.ts';

/** One state of the book, and by which sheet a business year is summed up. */
export interface ReportedBook {
  readonly book: Book;
  readonly sheetOf: (year: string) => TaxSheet | undefined;
}

/** One report that was made. */
export interface MadeReport {
  readonly report: string;
  /** What its rows are by, where there is a choice: `channel`. */
  readonly by: string;
  /** The quarter that it is of; empty for how things are at the end, and for what is of all days. */
  readonly period: string;
  readonly table: Table;
}

/** Which reports are asked for. */
export interface ReportsAsked {
  readonly asOf: Day;
  /** The quarters that get reports of their own. */
  readonly periods: readonly TaxPeriod[];
}

/** The reports of each period, then those of all days and of the last one. */
export function allReports(side: ReportedBook, { asOf, periods }: ReportsAsked): MadeReport[] {
  const { book } = side;
  const flows = flow(book, asOf);
  const [first, last] = [periods[0], periods.at(-1)];
  // Asked once for all of them, the lines of income are not reckoned again for each.
  if (first && last)
    for (const basis of BASES)
      factsIn(taxView(book, flows, basis), { from: first.yearFrom, to: last.to });
  return [
    ...periods.flatMap((period) => periodReports(side, flows, period)),
    ...endReports(book, flows),
  ];
}

/** A summary shows the difference between them. */
const BASES = ['cash', 'accrual'] as const;

const BY_INCOME = ['product', 'channel', 'month', 'class', 'buyer'] as const;
const BY_LOSS = [
  'firing',
  'kiln',
  'product',
  'recipe',
  'cone',
  'cause',
  'maker',
  'month',
  'clay-lot',
] as const;

function periodReports(side: ReportedBook, flows: Flows, period: TaxPeriod): MadeReport[] {
  const { book, sheetOf } = side;
  const { asOf } = flows.stock;
  const { from } = period;
  const to = earlierDay(period.to, asOf);
  const sheet = sheetOf(period.year);
  const eve = flow(book, addDays(from, -1));
  const made = (report: string, by: string, table: Table): MadeReport => {
    return { report, by, period: period.name, table };
  };
  return [
    ...(sheet ? [made('quarter', '', quarterTable(book, flows, { period, sheet }))] : []),
    ...BY_INCOME.map((by) => made('income', by, incomeTable(book, flows, { by, period }))),
    ...BY_LOSS.map((by) =>
      made('losses', by, lossesTable(book, flows, { by, span: { from, to } })),
    ),
    made('firings', '', firingsTable(book, flows, { from, to })),
    made('materials', 'where', materialValueTable(book, flow(book, to), { from, eve })),
  ];
}

const YEAR_OF_DAYS = 365;

function endReports(book: Book, flows: Flows): MadeReport[] {
  const { asOf } = flows.stock;
  const span = { from: addDays(asOf, 1 - YEAR_OF_DAYS), to: asOf };
  const made = (report: string, by: string, table: Table): MadeReport => {
    return { report, by, period: '', table };
  };
  return [
    made('materials', '', materialsTable(book, flows, USAGE_WINDOW)),
    made('pieces', 'product', piecesTable(book, flows, 'product')),
    made('pieces', 'place', piecesTable(book, flows, 'place')),
    made('galleries', '', galleriesTable(book, flows)),
    made('recipes', '', recipesTable(book, flows)),
    made('kilns', '', kilnsTable(book, asOf, span)),
    made('orders', '', ordersTable(book, flows, { all: true })),
    made('fairs', '', fairsTable(book, flows, { to: asOf })),
    made('claims', '', claimsTable(book, flows, undefined)),
    made('losses', 'firing', lossesTable(book, flows, { by: 'firing', span: { to: asOf } })),
    made('costs', 'space', costsTable(book, flows, { span, by: 'space' })),
    made('costs', 'labour', costsTable(book, flows, { span, by: 'labour' })),
    made('day', '', dayReport(book, flows, NOTHING_AROUND)),
  ];
}

const NOTHING_AROUND = { errors: 0, warnings: 0, uncommitted: undefined, typed: () => '' };
