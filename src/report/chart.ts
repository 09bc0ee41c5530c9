/** Charts for pages: a table of figures and which of its columns are drawn. */
import type { Table } from './table.ts';

/**
 * How figures are drawn.
 * - `columns`: one upright bar a row, for a course of months
 * - `bars`: one lying bar a row, for things side by side
 * - `intervals`: a dot between its lower and its upper bound, a row each
 * - `course`: a line through the rows
 */
export type ChartShape = 'columns' | 'bars' | 'intervals' | 'course';

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
  /** Keys of the bounds, for intervals. */
  readonly bounds?: { readonly low: string; readonly high: string };
}
