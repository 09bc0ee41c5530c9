/** Every report of a book with every grouping, as the commands make them. */
import type { Book, Day } from '../../../src/book.ts';
import { INCOME_GROUPS, LOSS_GROUPS, OVERHEAD_BASES, PIECES_GROUPS } from '../../../src/groups.ts';
import { addDays, yearOf, yearSpan } from '../../../src/number/date.ts';
import { USAGE_WINDOW } from '../../../src/reckon/stock/depletion.ts';
import { flow } from '../../../src/reckon/flow.ts';
import type { Flows } from '../../../src/reckon/flows.ts';
import { renderJson } from '../../../src/render/json.ts';
import { costsTable } from '../../../src/report/costs.ts';
import { dayReport } from '../../../src/report/day/day.ts';
import { orderTable } from '../../../src/report/making/order.ts';
import { ordersTable } from '../../../src/report/making/orders.ts';
import { fairTable, fairsTable } from '../../../src/report/fairs.ts';
import { firingLoad, firingsTable } from '../../../src/report/firings.ts';
import { galleriesTable, galleryHistory } from '../../../src/report/galleries.ts';
import { galleryTable } from '../../../src/report/gallery.ts';
import { incomeTable } from '../../../src/report/income.ts';
import { lossChartTable } from '../../../src/report/loss-charts.ts';
import { lossesTable } from '../../../src/report/losses.ts';
import {
  materialHistory,
  materialValueTable,
  materialsTable,
} from '../../../src/report/materials.ts';
import { piecesTable } from '../../../src/report/pieces.ts';
import { productCostTable } from '../../../src/report/product-cost.ts';
import type { Table } from '../../../src/report/table.ts';
import { summaryOf } from '../../helpers/quarter.ts';

/** The command's words → its table. */
export type Reports = Readonly<Record<string, Table>>;

interface View {
  readonly book: Book;
  readonly flows: Flows;
  readonly asOf: Day;
  /** The first day of the latter half of spans. */
  readonly from: Day;
  readonly year: { readonly from: Day; readonly to: Day };
}

/** Every report at the end of a day: of all up to it, of its last 40 days, and of its business year. */
export function everyReport(book: Book, asOf: Day): Reports {
  const { yearStarts } = book.studio;
  const year = yearSpan(yearOf(asOf, yearStarts), yearStarts);
  const view = { book, asOf, year, flows: flow(book, asOf), from: addDays(asOf, -40) };
  return {
    ...ofMaterials(view),
    ...ofFirings(view),
    ...ofLosses(view),
    ...ofIncome(view),
    ...ofCosts(view),
    ...ofSelling(view),
    ...ofTax(view),
  };
}

function ofTax({ book, asOf, year }: View): Record<string, Table> {
  const period = year.from.slice(0, 4);
  const quarter = `${period}-Q2`;
  return {
    'quarter plain': summaryOf(book, { period, asOf, sheet: 'plain' }),
    'quarter us': summaryOf(book, { period: quarter, asOf, taxRate: '0.22' }),
    'quarter uk': summaryOf(book, { period, asOf, sheet: 'uk-sa103s', basis: 'accrual' }),
  };
}

/** The JSON documents of every report. */
export function everyJson(book: Book, asOf: Day): Record<string, string> {
  const reports = Object.entries(everyReport(book, asOf));
  return Object.fromEntries(reports.map(([name, table]) => [name, renderJson(table)]));
}

const AROUND = { errors: 0, warnings: 0, uncommitted: 0, typed: () => 'next' };

function ofMaterials({ book, flows, from }: View): Record<string, Table> {
  const start = { from, eve: flow(book, addDays(from, -1)) };
  return {
    day: dayReport(book, flows, AROUND),
    materials: materialsTable(book, flows, USAGE_WINDOW),
    'materials --window 7': materialsTable(book, flows, 7),
    'materials --where': materialValueTable(book, flows, undefined),
    'materials --where --from': materialValueTable(book, flows, start),
    ...there([...book.materials.keys(), ...book.recipes.keys()], (id) => [
      `materials ${id}`,
      materialHistory(book, flows, id),
    ]),
    ...there(PIECES_GROUPS, (by) => [`pieces --by ${by}`, piecesTable(book, flows, by)]),
  };
}

function ofFirings({ book, flows, from, asOf, year }: View): Record<string, Table> {
  return {
    firings: firingsTable(book, flows, { to: asOf }),
    'firings --from': firingsTable(book, flows, { from, to: asOf }),
    'firings --year': firingsTable(book, flows, year),
    ...there([...book.firings.keys()], (id) => [`firings ${id}`, firingLoad(book, flows, id)]),
  };
}

function ofLosses({ book, flows, from, asOf, year }: View): Record<string, Table> {
  const spans = Object.entries({
    '': { to: asOf },
    ' --from': { from, to: asOf },
    ' --year': year,
  });
  const tables = spans.flatMap(([words, span]) => [
    [`losses --chart${words}`, lossChartTable(book, flows, span)] as const,
    ...LOSS_GROUPS.map(
      (by) => [`losses --by ${by}${words}`, lossesTable(book, flows, { by, span })] as const,
    ),
  ]);
  return Object.fromEntries(tables);
}

function ofIncome({ book, flows, from, asOf, year }: View): Record<string, Table> {
  const spans = Object.entries({ ' --year': year, ' --from': { from, to: asOf } });
  const tables = spans.flatMap(([words, period]) =>
    INCOME_GROUPS.map(
      (by) => [`income --by ${by}${words}`, incomeTable(book, flows, { by, period })] as const,
    ),
  );
  return Object.fromEntries(tables);
}

function ofSelling({ book, flows, from, asOf, year }: View): Record<string, Table> {
  return {
    galleries: galleriesTable(book, flows),
    orders: ordersTable(book, flows, { all: false }),
    'orders --all': ordersTable(book, flows, { all: true }),
    fairs: fairsTable(book, flows, { to: asOf }),
    'fairs --from': fairsTable(book, flows, { from, to: asOf }),
    'fairs --year': fairsTable(book, flows, year),
    ...there([...book.channels.keys()], (id) => [`galleries ${id}`, galleryTable(book, flows, id)]),
    ...there([...book.channels.keys()], (id) => [
      `galleries ${id} --history`,
      galleryHistory(book, flows, id),
    ]),
    ...there([...book.orders.keys()], (id) => [`orders ${id}`, orderTable(book, flows, id)]),
    ...there([...book.fairs.keys()], (id) => [`fairs ${id}`, fairTable(book, flows, id)]),
  };
}

function ofCosts({ book, flows, from, asOf, year }: View): Record<string, Table> {
  const spans = Object.entries({ ' --year': year, ' --from': { from, to: asOf } });
  return Object.assign(
    {},
    ...spans.flatMap(([words, span]) =>
      OVERHEAD_BASES.map((by) => ({
        [`costs --overhead-by ${by}${words}`]: costsTable(book, flows, { span, by }),
        ...there([...book.products.keys()], (product) => [
          `costs ${product} --overhead-by ${by}${words}`,
          productCostTable(book, flows, { product, span, by }),
        ]),
      })),
    ),
  ) as Record<string, Table>;
}

/** Reports by name, without those of which there is none. */
function there<T>(
  of: readonly T[],
  make: (one: T) => readonly [string, Table | undefined],
): Record<string, Table> {
  return Object.fromEntries(
    of.flatMap((one) => {
      const [name, table] = make(one);
      return table ? [[name, table] as const] : [];
    }),
  );
}
