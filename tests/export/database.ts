/** Loads an export into SQLite just as its datapackage.json says: columns, types, and keys that are enforced. */
import initSqlJs, { type Database, type SqlValue } from 'sql.js';

/** What a test needs to know of a package. */
export interface PackageDocument {
  readonly resources: readonly Resource[];
}

export interface Resource {
  readonly name: string;
  readonly path: string;
  readonly bytes: number;
  readonly hash: string;
  readonly schema: {
    readonly fields: readonly FieldDocument[];
    readonly missingValues: readonly string[];
    readonly primaryKey?: readonly string[];
    readonly foreignKeys?: readonly {
      readonly fields: readonly string[];
      readonly reference: { readonly resource: string; readonly fields: readonly string[] };
    }[];
  };
}

export interface FieldDocument {
  readonly name: string;
  readonly type: 'string' | 'number' | 'integer' | 'boolean' | 'date';
  readonly constraints?: { readonly required?: boolean };
}

/** Rows of RFC 4180 text, the head among them. */
export function csvRows(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  const cell = /("(?:[^"]|"")*"|[^,\r\n]*)(,|\r\n)/gy;
  for (let found = cell.exec(text); found; found = cell.exec(text)) {
    const [, value = '', end] = found;
    row.push(value.startsWith('"') ? value.slice(1, -1).replaceAll('""', '"') : value);
    if (end === ',') continue;
    rows.push(row);
    row = [];
  }
  return rows;
}

const FORMS: Readonly<Record<FieldDocument['type'], RegExp>> = {
  string: /^[\s\S]*$/,
  number: /^-?\d+(?:\.\d+)?$/,
  integer: /^-?\d+$/,
  boolean: /^(?:true|false)$/,
  date: /^\d{4}-\d{2}-\d{2}$/,
};

const TYPES: Readonly<Record<FieldDocument['type'], string>> = {
  string: 'TEXT',
  // Exact decimals: SQLite's own numbers are floats, so they are kept as texts.
  number: 'TEXT',
  integer: 'INTEGER',
  boolean: 'TEXT',
  date: 'TEXT',
};

/** The database of a package; throws where a value, a type or a key doesn't hold. */
export async function loadPackage(
  document: PackageDocument,
  read: (path: string) => string,
): Promise<Database> {
  const { Database: Sqlite } = await initSqlJs();
  const database = new Sqlite();
  for (const resource of document.resources) database.run(createTable(resource));
  database.run('BEGIN');
  for (const resource of document.resources) fill(database, resource, read(resource.path));
  database.run('COMMIT');
  database.run('PRAGMA foreign_keys = ON');
  const broken = database.exec('PRAGMA foreign_key_check')[0]?.values ?? [];
  if (broken.length > 0) throw new Error(`foreign keys: ${JSON.stringify(broken.slice(0, 5))}`);
  return database;
}

function quoted(name: string): string {
  return `"${name}"`;
}

function listed(names: readonly string[]): string {
  return names.map(quoted).join(', ');
}

function createTable({ name, schema }: Resource): string {
  const columns = schema.fields.map(({ name: field, type, constraints }) =>
    [quoted(field), TYPES[type], constraints?.required === true ? 'NOT NULL' : ''].join(' '),
  );
  const keys = (schema.foreignKeys ?? []).map(
    ({ fields, reference }) =>
      `FOREIGN KEY (${listed(fields)}) REFERENCES ${quoted(reference.resource)} (${listed(reference.fields)})`,
  );
  const primary = schema.primaryKey ? [`PRIMARY KEY (${listed(schema.primaryKey)})`] : [];
  return `CREATE TABLE ${quoted(name)} (${[...columns, ...primary, ...keys].join(', ')})`;
}

function fill(database: Database, { name, path, schema }: Resource, text: string): void {
  const [head = [], ...rows] = csvRows(text);
  const names = schema.fields.map((field) => field.name);
  if (head.join() !== names.join())
    throw new Error(`${path}: ${head.join()} is not ${names.join()}`);
  const insert = database.prepare(
    `INSERT INTO ${quoted(name)} VALUES (${names.map(() => '?').join(', ')})`,
  );
  for (const row of rows) insert.run(row.map((cell, at) => valueOf(cell, schema.fields[at], path)));
  insert.free();
}

function valueOf(cell: string, field: FieldDocument | undefined, path: string): SqlValue {
  if (field === undefined) throw new Error(`${path}: more cells than fields`);
  if (cell === '') return null;
  if (!FORMS[field.type].test(cell))
    throw new Error(`${path}: ${field.name} ${cell} is no ${field.type}`);
  return field.type === 'integer' ? Number(cell) : cell;
}

/** The rows that a query gives, as objects. */
export function query(database: Database, sql: string): Record<string, SqlValue>[] {
  const [result] = database.exec(sql);
  return (result?.values ?? []).map((row) =>
    Object.fromEntries(row.map((cell, at) => [result?.columns[at] ?? '', cell])),
  );
}
