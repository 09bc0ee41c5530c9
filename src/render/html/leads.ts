/** What leads on from the figures of a page: the records of a row, and how each of its figures comes out of them. */
import { cachedFor } from '../../once.ts';
import { isNothing, isSummable, type Summable } from '../../number/summable.ts';
import type { ReportPage, RecordLine } from '../../report/page.ts';
import type { AddedUp, Column, Reckoning, RecordFigures, Table } from '../../report/table.ts';
import { forReading, isFigure, type TableToRead } from '../shown.ts';

/** What leads on from a row. */
export interface RowLeads {
  /** The records that are known, by day and then id; what has no day comes last. */
  readonly records: readonly RecordLine[];
  /** Those that only some figures rest on, where it isn't known what each brings. */
  readonly further: readonly RecordLine[];
  /** How many more there are from long ago. */
  readonly earlier: number;
  readonly reckoned: Reckoning | undefined;
  /** The figures that lead on, in the order of their columns. */
  readonly figures: readonly FigureLead[];
}

/** A figure that leads on, and how it comes about. */
export interface FigureLead {
  readonly column: Column;
  /** What each record brings to it. */
  readonly brought: RecordFigures;
  /** The other columns that it adds up. */
  readonly sum: AddedUp | undefined;
}

/** A table as it is read, and what leads on from each of its rows. */
interface TableLeads {
  readonly reading: TableToRead;
  readonly rows: readonly RowLeads[];
}

const leadsByTable = cachedFor((page: ReportPage) =>
  cachedFor((table: Table): TableLeads => {
    const reading = forReading(table);
    const rows = [...reading.table.rows.keys()].map((at) => rowLeads(page, reading.table, at));
    return { reading, rows };
  }),
);

/** What leads on from a table of a page. */
export function tableLeads(page: ReportPage, table: Table): TableLeads {
  return leadsByTable(page)(table);
}

/** Whether a row leads to records of the book, or to other rows. */
export function leadsOn(page: ReportPage, table: Table, row: number): boolean {
  const leads = tableLeads(page, table).rows[row];
  return leads !== undefined && hasLeads(leads);
}

/** Whether there is anything to be led to. */
export function hasLeads({ records, further, reckoned }: RowLeads): boolean {
  return records.length + further.length > 0 || isWorkedOut(reckoned);
}

function isWorkedOut(reckoned: Reckoning | undefined): boolean {
  if (reckoned === undefined) return false;
  const { plus, less, of, words } = reckoned;
  return words !== undefined || plus.length + less.length + of.length > 0;
}

/** Whether a figure of a row leads on; of no row, whether the total of its column does. */
export function figureLeads(
  page: ReportPage,
  table: Table,
  { column, row }: { readonly column: string; readonly row: number | undefined },
): boolean {
  const { rows, reading } = tableLeads(page, table);
  if (row === undefined) return isTotalOfRows(reading.table, column) && rows.some(hasLeads);
  const leads = rows[row];
  return leads?.figures.some((each) => each.column.key === column) ?? false;
}

/** Whether a total is what the rows of its column add up to. */
export function isTotalOfRows({ rows, totals }: Table, key: string): boolean {
  const cells = rows.map((row) => row[key] ?? null);
  const total = totals?.[key] ?? null;
  if (typeof total === 'number')
    return total !== 0 && total === cells.reduce<number>((sum, cell) => sum + Number(cell), 0);
  if (typeof total !== 'bigint' || isNothing(total)) return false;
  const amounts = cells.filter((cell) => typeof cell === 'bigint');
  return total === amounts.reduce<bigint>((sum, cell) => sum + cell, 0n);
}

function rowLeads(page: ReportPage, table: Table, row: number): RowLeads {
  const { behind, further, earlier, reckoned } = table;
  const isSeen = visibleFigures(table).some(({ key }) => further?.columns.includes(key));
  const before = new Set(earlier?.behind()?.[row]);
  const own = (behind?.()?.[row] ?? []).filter((id) => !before.has(id));
  const more = (isSeen ? further?.behind()?.[row] : undefined) ?? [];
  const isKnownToAll = further?.columns.every((key) => table.brought?.[key]?.()[row]) ?? false;
  const ids = isKnownToAll ? [...own, ...more] : own;
  const rest = {
    records: knownOf(page, ids),
    further: isKnownToAll ? [] : knownOf(page, more),
    earlier: before.size,
    reckoned: reckoned?.[row],
  };
  const figures = hasLeads({ ...rest, figures: [] })
    ? visibleFigures(table).flatMap((column) => figureLead(table, row, { column, ...rest }))
    : [];
  return { ...rest, figures };
}

/** The records that are known, by day and then id; what has no day comes last. */
function knownOf({ records }: ReportPage, ids: readonly string[]): readonly RecordLine[] {
  const known = [...new Set(ids)].flatMap((id) => records.get(id) ?? []);
  return known.sort(byDay);
}

function byDay(a: RecordLine, b: RecordLine): number {
  if (a.date === b.date) return a.id < b.id ? -1 : 1;
  return (a.date ?? '~') < (b.date ?? '~') ? -1 : 1;
}

function visibleFigures({ columns }: Table): Column[] {
  return columns.filter((column) => column.dataOnly !== true && isFigure(column));
}

type FigurePlace = Pick<RowLeads, 'records' | 'further' | 'reckoned'> & { readonly column: Column };

/** A zero leads on only where records bring something to it. */
function figureLead(table: Table, row: number, place: FigurePlace): FigureLead[] {
  const { column, reckoned } = place;
  const cell = table.rows[row]?.[column.key] ?? null;
  if (!isSummable(cell)) return [];
  const sum = table.sums?.find(({ total }) => total === column.key);
  const isSum = sum !== undefined && isAddedUp(table, row, sum);
  const known = table.brought?.[column.key]?.()[row];
  const brought = isSum ? undefined : (known ?? ofSoleRecord(cell, place));
  const isEmpty = isNothing(cell) && !isWorkedOut(reckoned) && (brought?.size ?? 0) === 0;
  return isEmpty ? [] : [{ column, brought, sum: isSum ? sum : undefined }];
}

/** Where there is one record, and nothing else, it brings the whole figure. */
function ofSoleRecord(cell: Summable, place: FigurePlace): RecordFigures {
  const { column, records, further, reckoned } = place;
  const [record, ...others] = records;
  const adds = column.from === undefined && (column.type === 'money' || column.type === 'count');
  const isAlone = others.length + further.length === 0 && !isWorkedOut(reckoned);
  return record && isAlone && adds ? new Map([[record.id, cell]]) : undefined;
}

/** Whether the row has all that a sum is made of. */
function isAddedUp({ rows, columns }: Table, row: number, { plus, less = [] }: AddedUp): boolean {
  return [...plus, ...less].every(
    (key) =>
      isSummable(rows[row]?.[key] ?? null) &&
      columns.some((column) => column.key === key && column.dataOnly !== true),
  );
}

/** A row that leads on, where it stands, and to what. */
export interface LeadingRow {
  readonly reading: TableToRead;
  /** That of its table on the page. */
  readonly number: number;
  readonly at: number;
  readonly leads: RowLeads;
}
