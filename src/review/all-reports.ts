/** Every report of one state of the book, as tables, so that two states can be subtracted. */
import type { Book, Day } from '../book.ts';
import type { Basis } from '../reckon/sales/income-fact.ts';
import { INCOME_GROUPS, LOSS_GROUPS, OVERHEAD_BASES, PIECES_GROUPS } from '../groups.ts';
import { addDays, earlierDay } from '../number/date.ts';
import { flow } from '../reckon/flow.ts';
import type { Flows } from '../reckon/flows.ts';
import { USAGE_WINDOW } from '../reckon/stock/depletion.ts';
import { factsIn, taxView } from '../reckon/tax/tax-view.ts';
import { taxPeriod, type TaxPeriod } from '../reckon/tax/tax-period.ts';
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
import { KILN_DAYS, kilnsTable } from '../report/making/kilns.ts';
import { recipesTable } from '../report/making/recipes.ts';
import { piecesTable } from '../report/pieces.ts';
import { quarterTable } from '../report/quarter/quarter.ts';
import type { Table } from '../report/table.ts';

/** One state of the book, and by which sheet a business year is summed up. */
export interface ReportedBook {
  readonly book: Book;
  readonly sheetOf: (year: string) => TaxSheet | undefined;
  /** The sheets of the studio's own that it uses, by their files, each as a text that is the same for the same lines. */
  readonly ownSheets: ReadonlyMap<string, string>;
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
  /** The basis by which tax is summed up once more, beside the studio's own. */
  readonly otherBasis?: Basis | undefined;
}

/** The reports of each period, the tax summaries of their years, then the reports of all days and of the last one. */
export function allReports(side: ReportedBook, asked: ReportsAsked): MadeReport[] {
  const { book } = side;
  const { asOf, periods } = asked;
  const flows = flow(book, asOf);
  const [first, last] = [periods[0], periods.at(-1)];
  // Asked once for all of them, the lines of income are not reckoned again for each.
  if (first && last)
    for (const basis of BASES)
      factsIn(taxView(book, flows, basis), { from: first.yearFrom, to: last.to });
  return [
    ...periods.flatMap((period) => [
      ...summaries(side, flows, { ...asked, period }),
      ...periodReports(side, flows, period),
    ]),
    ...yearsOf(book, periods).flatMap((period) => summaries(side, flows, { ...asked, period })),
    ...endReports(book, flows),
  ];
}

/** A summary shows the difference between them. */
const BASES = ['cash', 'accrual'] as const;

/** Whole business years: what is filed is of them. */
function yearsOf({ studio }: Book, periods: readonly TaxPeriod[]): TaxPeriod[] {
  const years = new Set(periods.map(({ year }) => year));
  return [...years].flatMap((year) => taxPeriod(year, studio.yearStarts) ?? []);
}

/** The tax summary of a period on the studio's own basis, and on the other one where that is asked for. */
function summaries(
  { book, sheetOf }: ReportedBook,
  flows: Flows,
  { period, otherBasis }: Pick<ReportsAsked, 'otherBasis'> & { readonly period: TaxPeriod },
): MadeReport[] {
  const sheet = sheetOf(period.year);
  if (!sheet) return [];
  const bases = otherBasis === undefined ? [undefined] : [undefined, otherBasis];
  return bases.map((basis) => ({
    report: 'quarter',
    by: basis ?? '',
    period: period.name,
    table: quarterTable(book, flows, { period, sheet, basis }),
  }));
}

function periodReports(side: ReportedBook, flows: Flows, period: TaxPeriod): MadeReport[] {
  const { book } = side;
  const { asOf } = flows.stock;
  const { from } = period;
  const to = earlierDay(period.to, asOf);
  const eve = flow(book, addDays(from, -1));
  const made = (report: string, by: string, table: Table): MadeReport => {
    return { report, by, period: period.name, table };
  };
  return [
    ...INCOME_GROUPS.map((by) => made('income', by, incomeTable(book, flows, { by, period }))),
    ...LOSS_GROUPS.map((by) =>
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
    ...PIECES_GROUPS.map((by) => made('pieces', by, piecesTable(book, flows, by))),
    made('galleries', '', galleriesTable(book, flows)),
    made('recipes', '', recipesTable(book, flows)),
    made('kilns', '', kilnsTable(book, asOf, { from: addDays(asOf, 1 - KILN_DAYS), to: asOf })),
    made('orders', '', ordersTable(book, flows, { all: true })),
    made('fairs', '', fairsTable(book, flows, { to: asOf })),
    made('claims', '', claimsTable(book, flows, undefined)),
    made('losses', 'firing', lossesTable(book, flows, { by: 'firing', span: { to: asOf } })),
    ...OVERHEAD_BASES.map((by) => made('costs', by, costsTable(book, flows, { span, by }))),
    made('day', '', dayReport(book, flows, NOTHING_AROUND)),
  ];
}

const NOTHING_AROUND = { errors: 0, warnings: 0, uncommitted: undefined, typed: () => '' };
