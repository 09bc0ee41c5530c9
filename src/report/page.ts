/** A page: tables, charts beside them, and the records behind their figures. */
import type { Table } from './table.ts';

/** One record as a page lists it. */
export interface RecordLine {
  readonly id: string;
  /** What it is, in a word: `sale`. */
  readonly kind: string;
  readonly date: string | undefined;
  readonly what: string;
  /** Path of its file from the studio's root. */
  readonly file: string;
  /** Line of its first key in the file, from 1; undefined where the file can't be read any more. */
  readonly line: number | undefined;
}

/** A page as it is to be rendered; the first table is what it is about. */
export interface ReportPage {
  readonly tables: readonly [Table, ...Table[]];
  readonly charts: readonly Chart[];
  /** The records that the tables' `behind` name, by id. */
  readonly records: ReadonlyMap<string, RecordLine>;
  /** Where a file of the studio can be read, from the page; absent beside the files themselves. */
  readonly placeOf?: LineAddress;
  /** The page that leads to this one and others. */
  readonly up?: PageLink;
}

/** The address of a line of a file, or of its beginning. */
export type LineAddress = (file: string, line: number | undefined) => string;

/** An address and its words. */
export interface PageLink {
  readonly to: string;
  readonly words: string;
}

/** The page of one table, where nothing is known but the table. */
export function bareTable(table: Table): ReportPage {
  return { tables: [table], charts: [], records: new Map() };
}

/** A table that only a chart of the page shows, with its number on the page. */
interface ChartTable {
  readonly chart: Chart;
  readonly table: Table;
  /** Counted on from the page's tables. */
  readonly number: number;
}

/** The keys of all columns that a chart draws, each once, those that name its rows first. */
export function drawnKeys({
  parts = [],
  marks = [],
  ...chart
}: Omit<Chart, 'shape' | 'title' | 'span' | 'table'>): string[] {
  const { label, value, against, count, across, named, bounds } = chart;
  const others = [against, ...marks, count, across, named, bounds?.low, bounds?.high];
  const keys = [label, ...parts, value, ...others].filter((key) => key !== undefined);
  return [...new Set(keys)];
}

/** The tables of the page's charts, but for those that stand on the page by themselves. */
export function chartTables({
  tables,
  charts,
}: Pick<ReportPage, 'tables' | 'charts'>): ChartTable[] {
  const above = new Set(tables.map(tableName));
  return charts
    .map((chart, at) => ({ chart, table: chart.table, number: tables.length + at + 1 }))
    .filter(({ table }) => !above.has(tableName(table)));
}

function tableName({ report, title }: Table): string {
  return `${report} ${title}`;
}

/** Ids of all records that a page leads to, those of its charts too. */
export function idsBehind({ tables, charts }: Pick<ReportPage, 'tables' | 'charts'>): string[] {
  const all = [...tables, ...chartTables({ tables, charts }).map(({ table }) => table)];
  return all.flatMap(listedBehind);
}

/** But for those that a page only counts. */
function listedBehind({ behind, further, earlier }: Table): string[] {
  const before = earlier?.behind()?.map((ids) => new Set(ids)) ?? [];
  const listed = (behind?.() ?? []).flatMap((ids, row) =>
    ids.filter((id) => !before[row]?.has(id)),
  );
  return [...listed, ...(further?.behind() ?? []).flat()];
}

/**
 * How figures are drawn.
 * - `columns`: one upright bar a row, for a course of months; two where there is something `against`
 * - `bars`: one lying bar a row, for things side by side; of `parts` where they add up to it
 * - `intervals`: a dot between its lower and its upper bound, a row each
 * - `course`: a line through the rows
 * - `control`: the same between limits that may step from row to row, on a scale that need not begin at zero
 * - `spots`: a dot a row, by two figures, each named where there is room
 * - `strip`: a bar from one day to another, a row each, over the days from `firstDay` on
 */
export type ChartShape =
  'columns' | 'bars' | 'intervals' | 'course' | 'control' | 'spots' | 'strip';

/** Whether there is something to compare: one figure is sooner read than seen. */
export function isToCompare({ shape, table: { rows }, parts, marks }: Chart): boolean {
  const isOneEnough = shape === 'strip' || (parts ?? marks) !== undefined;
  return rows.length > (isOneEnough ? 0 : 1);
}

/** The drawing never says more than its table, which stands beside it for those who can't see it. */
export interface Chart {
  readonly shape: ChartShape;
  /** A heading for people. */
  readonly title: string;
  /** The days that it is of, in words. */
  readonly span: string;
  /** The figures; totals are not drawn. */
  readonly table: Table;
  /** Keys of the columns that name a row. */
  readonly label: string;
  /** Key of the column that is drawn. */
  readonly value: string;
  /** Keys of the columns whose figures add up to a bar, in the order in which they are drawn; each has its own pattern. */
  readonly parts?: readonly string[];
  /** Key of the column that is drawn beside the value, paler: the year before. */
  readonly against?: string;
  /** Keys of figures that are marked across a row's bar: a price, a floor, a lead time. */
  readonly marks?: readonly string[];
  /** Key of the count that a row rests on, said beside it. */
  readonly count?: string;
  /** Key of the column that a spot lies across by; its value is how high. */
  readonly across?: string;
  /** What the quarters of spots mean, parted at the medians. */
  readonly corners?: Readonly<
    Record<'topLeft' | 'topRight' | 'bottomLeft' | 'bottomRight', string>
  >;
  /** Key of a column whose words, where there are any, name a row in the drawing: a firing that is out of line. */
  readonly named?: string;
  /** Keys of the bounds, for intervals, of the limits, or of the first and last day of a strip, from `firstDay`. */
  readonly bounds?: { readonly low: string; readonly high: string };
  /** The day that a strip begins with. */
  readonly firstDay?: string;
}
