/** The figures of all reports of two states of the book, and those that are not the same in both. */
import { decimal, isDecimal, roundTo, ZERO, type Decimal } from '../number/decimal.ts';
import { decimalOf } from '../number/money.ts';
import { RATIO_PLACES } from '../number/ratio-places.ts';
import type { Cell, Column, ColumnType, Row, Table } from '../report/table.ts';
import type { MadeReport } from './all-reports.ts';

/** A figure of a report that comes out otherwise; undefined where there is none. */
export interface MovedFigure extends Omit<MadeReport, 'table'> {
  /** What its row is of: ids and words of the report, with a comma between; `total` for the totals. */
  readonly row: string;
  /** Key of its column, as in the report's JSON. */
  readonly column: string;
  readonly type: ColumnType;
  readonly unit: string | undefined;
  readonly before: ReportFigure | undefined;
  readonly after: ReportFigure | undefined;
}

/** A figure, or a word that stands for how things are: `ok`, `order now`. */
export type ReportFigure = Decimal | string;

/** What stands for the row of totals. */
export const TOTAL = 'total';

/** The columns by whose words a report's rows are told apart. */
const ROW_KEYS: Readonly<Record<string, readonly string[]>> = {
  quarter: ['item'],
  income: ['item'],
  losses: ['group', 'firing'],
  firings: ['firing'],
  materials: ['material'],
  'materials where': ['side', 'part'],
  'pieces product': ['product', 'glaze'],
  'pieces place': ['place', 'product', 'glaze', 'stage', 'grade'],
  galleries: ['gallery'],
  recipes: ['recipe'],
  kilns: ['kiln', 'part', 'fitted'],
  orders: ['order'],
  fairs: ['fair'],
  claims: ['product', 'claim', 'glaze'],
  costs: ['product'],
  day: ['section', 'what', 'kind'],
};

/** Words that say how something stands, by report. */
const STATE_WORDS: Readonly<Record<string, string>> = {
  materials: 'state',
  costs: 'belowAt',
  claims: 'outcome',
};

/** Parts of reports that say what was filed and closed, or what else there is to do: no figures of the book. */
const NO_FIGURES: Readonly<Record<string, RegExp>> = {
  quarter: /^(?:filed|closed)\./,
  day: /^(?:filed|problems|uncommitted|next|records)(?:, |$)/,
};

const FIGURES: ReadonlySet<ColumnType> = new Set([
  'count',
  'money',
  'rate',
  'quantity',
  'fraction',
]);

/** A report on both sides; one that only one side has is compared with nothing. */
interface ReportPair {
  readonly report: MadeReport;
  readonly old: Table | undefined;
  readonly now: Table | undefined;
}

/**
 * The figures that are not the same, in the order of the reports. One that is not there is the same as
 * zero. `rename` gives the words of an old row as they are now.
 */
export function movedFigures(
  before: readonly MadeReport[],
  after: readonly MadeReport[],
  rename: (words: string) => string,
): MovedFigure[] {
  const old = new Map(before.map((each) => [nameOfReport(each), each]));
  const now = new Map(after.map((each) => [nameOfReport(each), each]));
  return [...new Map([...now, ...old])].flatMap(([name, report]) =>
    movedIn({ report, old: old.get(name)?.table, now: now.get(name)?.table }, rename),
  );
}

function nameOfReport({ report, by, period }: MadeReport): string {
  return [report, by, period].join('\n');
}

function movedIn(
  { report, old, now }: ReportPair,
  rename: (words: string) => string,
): MovedFigure[] {
  const { report: name, by, period } = report;
  const columns = columnsOf(report, [...(now?.columns ?? []), ...(old?.columns ?? [])]);
  const was = rowsByWords(report, old, rename);
  const is = rowsByWords(report, now, (words) => words);
  return [...new Set([...is.keys(), ...was.keys()])].flatMap((words) => {
    const rows = [was.get(words), is.get(words)] as const;
    return columns.flatMap((column): MovedFigure[] => {
      const { key, type } = column;
      const [one = null, other = null] = rows.map((row) => row?.[key]);
      if (one === other) return [];
      const [before, after] = [figureIn(one, type, old), figureIn(other, type, now)];
      if (saysTheSame(before, after)) return [];
      const unit = unitIn(rows[1] ?? rows[0] ?? {}, column);
      const [row = ''] = words.split('\n');
      return [{ report: name, by, period, row, column: key, type, unit, before, after }];
    });
  });
}

/** The columns that have figures, or words that stand for how things are, each once. */
function columnsOf({ report }: MadeReport, columns: readonly Column[]): Column[] {
  const some = columns.filter(({ key, type }) => FIGURES.has(type) || STATE_WORDS[report] === key);
  return [...new Map(some.map((column) => [column.key, column])).values()];
}

/** Rows that are told apart by nothing are taken in their order. */
function rowsByWords(
  { report, by }: MadeReport,
  table: Table | undefined,
  rename: (words: string) => string,
): ReadonlyMap<string, Row> {
  const keys = ROW_KEYS[`${report} ${by}`] ?? ROW_KEYS[report] ?? [];
  const rows = new Map<string, Row>();
  for (const row of table?.rows ?? []) {
    const words = rename(rowWords(row, keys));
    let again = words;
    for (let turn = 2; rows.has(again); turn += 1) again = `${words}\n${turn}`;
    if (!NO_FIGURES[report]?.test(words)) rows.set(again, row);
  }
  return table?.totals ? rows.set(TOTAL, table.totals) : rows;
}

function rowWords(row: Row, keys: readonly string[]): string {
  return keys
    .map((key) => row[key])
    .filter((cell) => typeof cell === 'string' && cell !== '')
    .join(', ');
}

function unitIn(row: Row, { unit, unitFrom }: Column): string | undefined {
  const own = unitFrom === undefined ? undefined : row[unitFrom];
  return typeof own === 'string' ? own : unit;
}

/** A ratio as far as it is told, so that what is told alike is alike. */
function figureIn(cell: Cell, type: ColumnType, table?: Table): ReportFigure | undefined {
  if (typeof cell === 'bigint') return decimalOf(cell, table?.minorDigits ?? 0);
  if (typeof cell === 'number') return decimal(cell);
  const places = RATIO_PLACES[type];
  if (isDecimal(cell)) return places === undefined ? cell : roundTo(cell, places);
  return typeof cell === 'string' ? cell : undefined;
}

function saysTheSame(one: ReportFigure | undefined, other: ReportFigure | undefined): boolean {
  if (typeof one === 'string' || typeof other === 'string') return (one ?? '') === (other ?? '');
  return (one ?? ZERO).eq(other ?? ZERO);
}
