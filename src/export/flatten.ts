/** A whole book as flat tables: one for each kind of record, and one for each list in it. */
import { camelCase } from '../camel-case.ts';
import { DESCRIPTIONS } from '../../schema/generated/descriptions.js';
import { FIELDS, type FieldSpec, type RecordSpec } from '../../schema/generated/fields.js';
import { KINDS, type Book, type Entry, type Kind } from '../book.ts';
import { madeOnce } from '../once.ts';
import { csvLines } from '../render/csv.ts';
import { tableHead } from '../report/head.ts';
import type { Cell, Column } from '../report/table.ts';
import type { DataTable, ForeignKey } from './package.ts';
import { saleFigures } from '../report/sale-figures.ts';
import { fieldLeaves, recordLeaves, type FieldValues, type Leaf } from './leaves.ts';

/** A value of a record, with the keys of the row that it stands in. */
interface RowItem {
  readonly keys: readonly Cell[];
  readonly value: unknown;
}

/** Columns that the rows of a table are known by. */
const ID_COLUMN: Column = { key: 'id', title: 'Id', type: 'id' };
const FILE: Column = { key: 'file', title: 'File', type: 'text' };
const LINE: Column = { key: 'line', title: 'Line in the file', type: 'count' };
const RECORD: Column = { key: 'record', title: 'Record', type: 'id' };
const NAME: Column = { key: 'name', title: 'Name', type: 'text' };
/** The place in a list, from 1, and that in a list within it. */
const PLACES: readonly Column[] = [
  { key: 'number', title: 'Number in the list', type: 'count' },
  { key: 'part', title: 'Number in the inner list', type: 'count' },
];

/**
 * A table of each kind, by id, and a table of each list and map of its records, whose rows name the
 * record and the place in the list, from 1; sales have what they came to beside what is written. Quantities are exact, with their unit in a column of its
 * own; percentages are fractions of 1. Every table is there, even without rows. `lineOf` gives the line
 * of a record in its file by its id.
 */
export function flatten(book: Book, lineOf: (id: string) => number | undefined): DataTable[] {
  const { minorDigits } = tableHead(book, '');
  const figures = saleFigures(book);
  return KINDS.flatMap((kind) => {
    const sorted = madeOnce(() => [...book[kind].values()].sort((a, b) => (a.id < b.id ? -1 : 1)));
    const items = itemsIn(sorted, ({ id, file }) => [id, file, lineOf(id) ?? null]);
    const inner = itemsIn(sorted, ({ id }) => [id]);
    const spec = FIELDS[kind];
    const about = (place: string): string => DESCRIPTIONS[kind][place] ?? '';
    const names = { name: kind, parent: kind, title: spec.title, place: '' };
    const source = { minorDigits, figures, about, ...names };
    const own = tableOf({ ...source, keys: [ID_COLUMN, FILE, LINE], items }, recordLeaves(spec));
    const isIn = { fields: ['id'], resource: 'records', to: ['id'] };
    return [
      { ...own, primaryKey: ['id'], foreignKeys: [isIn, ...own.foreignKeys] },
      ...lists(spec, { ...source, keys: [RECORD], items: inner }),
    ];
  });
}

function itemsIn(
  records: () => readonly Entry[],
  keysOf: (record: Entry) => readonly Cell[],
): TableSource['items'] {
  return function* () {
    for (const value of records()) yield { keys: keysOf(value), value };
  };
}

/** Where a table's rows come from. */
interface TableSource {
  readonly minorDigits: number;
  /** Columns beside those of the records, by the table's name. */
  readonly figures: Readonly<Partial<Record<string, readonly Leaf[]>>>;
  readonly name: string;
  /** Name of the table that its rows belong to; of a kind's own table it is its own. */
  readonly parent: string;
  readonly title: string;
  /** Of its list in a record: `versions.base`. */
  readonly place: string;
  /** What the schema says of a place. */
  readonly about: (place: string) => string;
  readonly keys: readonly Column[];
  readonly items: () => Iterable<RowItem>;
}

/** The tables of all lists and maps of a record, and of those within them. */
function lists(spec: RecordSpec, source: TableSource): DataTable[] {
  return Object.entries(spec.fields).flatMap(([key, field]) => {
    const name = `${source.name}-${key}`;
    const title = `${source.title}: ${field.title.toLowerCase()}`;
    const place = source.place === '' ? key : `${source.place}.${key}`;
    const into = { ...source, parent: source.name, name, title, place };
    if (field.type === 'list') return listTables(camelCase(key), field.of, into);
    if (field.type === 'map') return [mapTable(camelCase(key), field, into)];
    return [];
  });
}

function listTables(field: string, of: FieldSpec, source: TableSource): DataTable[] {
  const place = PLACES[source.keys.length - 1];
  if (place === undefined) return [];
  const items = function* (): Generator<RowItem> {
    for (const { keys, value } of source.items())
      for (const [at, item] of asList((value as FieldValues)[field]).entries())
        yield { keys: [...keys, at + 1], value: item };
  };
  const own = { ...source, keys: [...source.keys, place], items };
  if (of.type === 'record') return [childTable(own, recordLeaves(of)), ...lists(of, own)];
  return [childTable(own, fieldLeaves('value', of))];
}

function mapTable(
  field: string,
  { of, keysTo }: Extract<FieldSpec, { type: 'map' }>,
  source: TableSource,
): DataTable {
  const items = function* (): Generator<RowItem> {
    for (const { keys, value } of source.items())
      for (const [name, item] of Object.entries(
        ((value as FieldValues)[field] ?? {}) as FieldValues,
      ))
        yield { keys: [...keys, name], value: item };
  };
  const own = childTable(
    { ...source, keys: [...source.keys, NAME], items },
    fieldLeaves('value', of),
  );
  const [only, ...others] = keysTo ?? [];
  if (only === undefined || others.length > 0) return own;
  return { ...own, foreignKeys: [...own.foreignKeys, keyTo('name', only)] };
}

/** A table of rows that belong to a row of another: of a record, or of a list that they are in. */
function childTable(source: TableSource, leaves: readonly Leaf[]): DataTable {
  const own = tableOf(source, leaves);
  const keys = source.keys.map(({ key }) => key);
  const outer = keys.slice(0, -1);
  const to = outer.length > 1 ? outer : ['id'];
  return {
    ...own,
    primaryKey: keys,
    foreignKeys: [{ fields: outer, resource: source.parent, to }, ...own.foreignKeys],
  };
}

function tableOf(source: TableSource, ofRecords: readonly Leaf[]): DataTable {
  const { minorDigits, figures, name, title, place, about, keys, items } = source;
  const leaves = [...ofRecords, ...(figures[name] ?? [])];
  const columns = [...keys, ...leaves.map(({ column }) => column)];
  return {
    name,
    path: `records/${name}.csv`,
    title,
    description: about(place),
    columns,
    lines: () => csvLines({ columns, minorDigits }, cellsByRow(items(), leaves)),
    primaryKey: [],
    foreignKeys: leaves.flatMap(({ column, to }) =>
      to === undefined ? [] : [keyTo(column.key, to)],
    ),
    required: leaves.filter(({ required }) => required).map(({ column }) => column.key),
  };
}

function* cellsByRow(
  items: Iterable<RowItem>,
  leaves: readonly Leaf[],
): Generator<readonly Cell[]> {
  for (const { keys, value } of items) yield [...keys, ...leaves.map(({ pick }) => pick(value))];
}

function keyTo(field: string, kind: Kind): ForeignKey {
  return { fields: [field], resource: kind, to: ['id'] };
}

function asList(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? (value as readonly unknown[]) : [];
}
