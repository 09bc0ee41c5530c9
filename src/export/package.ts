/** Describes an export as a Data Package: an open standard for tables in CSV, their types and their keys. */
import { visibleJson } from '../render/escape.ts';
import type { Column, ColumnType } from '../report/table.ts';

/** What the package as a whole is called. */
export interface PackageHead {
  readonly studio: string;
  readonly asOf: string;
  readonly currency: string;
  readonly span: string;
}

/** A table and what was written of it. */
export interface Resource {
  readonly data: DataTable;
  readonly rows: number;
  readonly bytes: number;
  /** SHA-256 of its file, in hexadecimal. */
  readonly hash: string;
}

/** Types of Table Schema; amounts stand as exact decimals, which its numbers are. */
const TYPES: Readonly<Record<ColumnType, string>> = {
  text: 'string',
  id: 'string',
  date: 'date',
  flag: 'boolean',
  count: 'integer',
  money: 'number',
  rate: 'number',
  quantity: 'number',
  fraction: 'number',
};

/**
 * The text of `datapackage.json` (Data Package v2, https://datapackage.org/standard/data-package/, with
 * a Table Schema for each table): fields with types, what is missing, primary and foreign keys, size and
 * SHA-256 of each file.
 */
export function dataPackage(head: PackageHead, resources: readonly Resource[]): string {
  const document = {
    $schema: 'https://datapackage.org/profiles/2.0/datapackage.json',
    name: 'saggar-export',
    title: `${head.studio}: records and reports`,
    description: `The book of a pottery studio as of ${head.asOf}: every record, flattened, and the reports of ${head.span}. Amounts are in ${head.currency}. A text that a spreadsheet would run as a formula begins with an apostrophe.`,
    resources: resources.map(resourceOf),
  };
  return `${visibleJson(JSON.stringify(document, null, 2))}\n`;
}

function resourceOf({ data, bytes, hash }: Resource): object {
  return {
    name: data.name,
    type: 'table',
    path: data.path,
    title: data.title,
    ...(data.description === undefined ? {} : { description: data.description }),
    format: 'csv',
    mediatype: 'text/csv',
    encoding: 'utf-8',
    bytes,
    hash: `sha256:${hash}`,
    dialect: {
      delimiter: ',',
      lineTerminator: '\r\n',
      quoteChar: '"',
      doubleQuote: true,
      header: true,
    },
    schema: schemaOf(data),
  };
}

function schemaOf({ columns, primaryKey, foreignKeys, required }: DataTable): object {
  const needed = new Set([...primaryKey, ...required]);
  return {
    $schema: 'https://datapackage.org/profiles/2.0/tableschema.json',
    fields: columns.map((column) => fieldSchema(column, needed.has(column.key))),
    missingValues: [''],
    ...(primaryKey.length === 0 ? {} : { primaryKey }),
    ...(foreignKeys.length === 0
      ? {}
      : {
          foreignKeys: foreignKeys.map(({ fields, resource, to }) => ({
            fields,
            reference: { resource, fields: to },
          })),
        }),
  };
}

function fieldSchema({ key, title, type, unit }: Column, isRequired: boolean): object {
  return {
    name: key,
    type: TYPES[type],
    ...(title === '' ? {} : { title }),
    ...(unit === undefined ? {} : { description: `in ${unit}` }),
    ...(isRequired ? { constraints: { required: true } } : {}),
  };
}

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
