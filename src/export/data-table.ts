/** A table of an export: what it holds, and by which columns its rows are known and lead to others. */
import type { Column } from '../report/table.ts';

/** Columns whose values are the key of a row of another table. */
export interface ForeignKey {
  readonly fields: readonly string[];
  readonly resource: string;
  readonly to: readonly string[];
}

/** One CSV file of an export. */
export interface DataTable {
  /** Unique in the export: small letters, digits and hyphens. */
  readonly name: string;
  /** Path of its file in the export. */
  readonly path: string;
  readonly title: string;
  readonly description?: string;
  readonly columns: readonly Column[];
  /** Of the file, its head first; made when they are written: of a long book they are many. */
  readonly lines: () => Iterable<string>;
  /** Keys of the columns that no two rows have alike; empty where there is no such key. */
  readonly primaryKey: readonly string[];
  readonly foreignKeys: readonly ForeignKey[];
  /** Keys of the columns that are never empty. */
  readonly required: readonly string[];
}
