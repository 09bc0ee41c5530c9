/** What a review has to find, a second way: every report of both books as JSON, row by row subtracted. */
import type { Book, Day } from '../../../src/book.ts';
import { costs } from '../../../src/commands/reports/costs.ts';
import { fairs } from '../../../src/commands/reports/fairs.ts';
import { firings } from '../../../src/commands/reports/firings.ts';
import { galleries } from '../../../src/commands/reports/galleries.ts';
import { income } from '../../../src/commands/reports/income.ts';
import { kilns } from '../../../src/commands/reports/kilns.ts';
import { losses } from '../../../src/commands/reports/losses.ts';
import { materials } from '../../../src/commands/reports/materials.ts';
import { orders } from '../../../src/commands/reports/orders.ts';
import { pieces } from '../../../src/commands/reports/pieces.ts';
import { recipes } from '../../../src/commands/reports/recipes.ts';
import type { Report } from '../../../src/commands/reports/show.ts';
import type { OpenedBook } from '../../../src/commands/studio/open.ts';
import { isRefusal } from '../../../src/commands/world.ts';
import { INCOME_GROUPS, LOSS_GROUPS, OVERHEAD_BASES, PIECES_GROUPS } from '../../../src/groups.ts';
import { decimal } from '../../../src/number/decimal.ts';
import { flow } from '../../../src/reckon/flow.ts';
import type { Basis } from '../../../src/reckon/sales/income-fact.ts';
import { quartersOf, taxPeriod, type TaxPeriod } from '../../../src/reckon/tax/tax-period.ts';
import { renderJson } from '../../../src/render/json.ts';
import { dayReport } from '../../../src/report/day/day.ts';
import { quarterTable } from '../../../src/report/quarter/quarter.ts';
import type { Table } from '../../../src/report/table.ts';
import { builtIn } from '../../helpers/quarter.ts';

type Cells = Readonly<Record<string, string | number | boolean | null>>;

/** A report's JSON, as far as figures are in it. */
export interface ReportDocument {
  readonly columns: readonly { readonly key: string; readonly type: string }[];
  readonly rows: readonly Cells[];
  readonly totals?: Cells;
}

/** Asks a book for a report. */
type Ask = (view: OpenedBook) => Promise<Table>;

/** Name of a report, its grouping and its quarter → how it is asked for. */
type Asks = ReadonlyMap<string, Ask>;

function asks<O extends object>(report: Report<O>, options: Partial<NoInfer<O>>): Ask {
  return async (view) => {
    const table = await report.table(view, { argument: undefined, words: [], options });
    if (isRefusal(table)) throw new Error(table.refused);
    return table;
  };
}

const SHEET = builtIn('us-schedule-c-2025');

/** The sheet by which the law's books are summed up. */
export const sheetOfLaw = (): typeof SHEET => SHEET;

/** The summary of a quarter or a year, on the studio's own basis and on the other one where that is asked for. */
function asksOfSummary(
  period: TaxPeriod,
  asOf: Day,
  bases: readonly (Basis | undefined)[],
): (readonly [string, Ask])[] {
  return bases.map((basis) => [
    `quarter|${basis ?? ''}|${period.name}`,
    ({ book }) =>
      Promise.resolve(quarterTable(book, flow(book, asOf), { period, sheet: SHEET, basis })),
  ]);
}

function asksOfQuarter(period: TaxPeriod, asOf: Day): (readonly [string, Ask])[] {
  const { from, name } = period;
  const to = period.to < asOf ? period.to : asOf;
  const named = (report: string, by: string, ask: Ask) => [`${report}|${by}|${name}`, ask] as const;
  return [
    ...INCOME_GROUPS.map((by) => named('income', by, asks(income, { by, from, to: period.to }))),
    ...LOSS_GROUPS.map((by) => named('losses', by, asks(losses, { by, from, to }))),
    named('firings', '', asks(firings, { from, to })),
    named('materials', 'where', asks(materials, { where: true, from, to })),
  ];
}

const AROUND = { errors: 0, warnings: 0, uncommitted: undefined, typed: () => '' };

const AT_THE_END: readonly (readonly [string, Ask])[] = [
  ['materials||', asks(materials, {})],
  ...PIECES_GROUPS.map((by) => [`pieces|${by}|`, asks(pieces, { by })] as const),
  ['galleries||', asks(galleries, {})],
  ['recipes||', asks(recipes, {})],
  ['kilns||', asks(kilns, {})],
  ['orders||', asks(orders, { all: true })],
  ['fairs||', asks(fairs, {})],
  ['losses|firing|', asks(losses, { by: 'firing' })],
  ...OVERHEAD_BASES.map((by) => [`costs|${by}|`, asks(costs, { overheadBy: by })] as const),
  ['day||', ({ book, asOf }) => Promise.resolve(dayReport(book, flow(book, asOf), AROUND))],
];

function asksOf(
  { studio: { yearStarts } }: Book,
  { first, asOf }: Days,
  bases: readonly (Basis | undefined)[],
): Asks {
  const years = [-1, 0, 1, 2].map((more) => String(Number(first.slice(0, 4)) + more));
  const quarters = years
    .flatMap((year) => quartersOf(year, yearStarts))
    .filter(({ from, to }) => to >= first && from <= asOf);
  const whole = years.flatMap((year) => taxPeriod(year, yearStarts) ?? []);
  const some = whole.filter(({ year }) => quarters.some((each) => each.year === year));
  return new Map([
    ...[...quarters, ...some].flatMap((each) => asksOfSummary(each, asOf, bases)),
    ...quarters.flatMap((each) => asksOfQuarter(each, asOf)),
    ...AT_THE_END,
  ]);
}

/** The columns that tell the rows of a report apart. */
const TOLD_BY: Readonly<Record<string, readonly string[]>> = {
  quarter: ['item'],
  income: ['item'],
  losses: ['group', 'firing'],
  firings: ['firing'],
  'materials|where': ['side', 'part'],
  materials: ['material'],
  'pieces|product': ['product', 'glaze'],
  pieces: ['place', 'product', 'glaze', 'stage', 'grade'],
  galleries: ['gallery'],
  recipes: ['recipe'],
  kilns: ['kiln', 'part', 'fitted'],
  orders: ['order'],
  fairs: ['fair'],
  costs: ['product'],
  day: ['section', 'what', 'kind'],
};

const FIGURES = new Set(['money', 'count', 'quantity', 'rate', 'fraction']);

/** Words that stand for how things are. */
const STATES = new Set(['materials||state', 'costs|space|belowAt', 'costs|labour|belowAt']);

/** Columns of a summary on what was filed. */
const OF_FILINGS = new Set(['filed', 'now', 'difference']);

/** Rows on what was filed, on files, and on what is to be typed next. */
const NO_FIGURES: Readonly<Record<string, RegExp>> = {
  quarter: /^(?:filed|closed)\./,
  day: /^(?:problems|uncommitted|next|filed|records)/,
};

/** From which day on a book has something, and on which it is looked at. */
interface Days {
  readonly first: Day;
  readonly asOf: Day;
}

/** Every figure of a book by report, row and column; one of zero is left out. */
export async function figuresOfBook(
  book: Book,
  days: Days,
  bases: readonly (Basis | undefined)[],
): Promise<ReadonlyMap<string, string>> {
  const view = { book, asOf: days.asOf } as OpenedBook;
  const figures: (readonly [string, string])[] = [];
  for (const [name, ask] of asksOf(book, days, bases))
    figures.push(...figuresIn(name, JSON.parse(renderJson(await ask(view))) as ReportDocument));
  return new Map(figures);
}

/** Every figure of a document of this name; one of zero is left out. */
export function figuresIn(name: string, document: ReportDocument): (readonly [string, string])[] {
  const columns = document.columns.filter(
    ({ key, type }) => !OF_FILINGS.has(key) && (FIGURES.has(type) || STATES.has(`${name}${key}`)),
  );
  return [...rowsByName(name, document)].flatMap(([row, cells]) =>
    columns
      .map(({ key }) => [`${name}|${row}|${key}`, figureOf(cells[key])] as const)
      .filter(([, figure]) => figure !== ''),
  );
}

function rowsByName(name: string, { rows, totals }: ReportDocument): Map<string, Cells> {
  const [report = '', by = ''] = name.split('|');
  const keys = TOLD_BY[`${report}|${by}`] ?? TOLD_BY[report] ?? [];
  const named = new Map<string, Cells>();
  for (const cells of rows) {
    const words = keys.map((key) => cells[key] ?? '').filter((word) => word !== '');
    const row = words.join(', ');
    const again = [...named.keys()].filter((each) => each.split('#')[0] === row).length;
    if (!NO_FIGURES[report]?.test(row)) named.set(again === 0 ? row : `${row}#${again}`, cells);
  }
  return totals ? named.set('total', totals) : named;
}

function figureOf(cell: string | number | boolean | null | undefined): string {
  return cell === undefined || cell === null || typeof cell === 'boolean'
    ? ''
    : figureText(String(cell));
}

/** A figure without zeros that say nothing; empty for zero itself, and a word as it is. */
export function figureText(text: string): string {
  if (!/^-?[\d.]+$/.test(text)) return text;
  const value = decimal(text);
  return value.isZero() ? '' : value.toString();
}

/** `report|by|quarter|row|column: before → after` of each figure that two books do not share. */
export function figuresApart(
  before: ReadonlyMap<string, string>,
  after: ReadonlyMap<string, string>,
): string[] {
  return [...new Set([...before.keys(), ...after.keys()])]
    .filter((key) => before.get(key) !== after.get(key))
    .map((key) => `${key.replace(/#\d+/, '')}: ${before.get(key) ?? ''} → ${after.get(key) ?? ''}`)
    .sort();
}
