/** The map of a list: how its rows become records. It is read from the studio's lists/NAME.yaml. */
import type { Kind } from '../../book.ts';
import {
  fault,
  fieldOf,
  has,
  isRecord,
  keysOf,
  numberIn,
  textIn,
  textsIn,
  wordIn,
  type Page,
  type SheetSpot,
} from '../../check/sheets/sheet-page.ts';
import { listed } from '../../check/finding.ts';
import { didYouMean, nearest } from '../../nearest.ts';
import type { Finding } from '../../problem.ts';
import { isMap, type Raw, type RawMap } from '../../read/raw.ts';
import { listField, listFieldNames } from './list-field.ts';

/** The kinds of record that a list may become. */
export const LIST_KINDS = ['sales', 'advances', 'orders', 'bought', 'spent'] as const;
export type ListKind = (typeof LIST_KINDS)[number] & Kind;

/** In which order a date has its day and month. */
export const DATE_ORDERS = ['year-month-day', 'day-month-year', 'month-day-year'] as const;
export type DateOrder = (typeof DATE_ORDERS)[number];

export const DECIMAL_MARKS = ['point', 'comma'] as const;
export type DecimalMark = (typeof DECIMAL_MARKS)[number];

export const ENCODINGS = ['utf-8', 'windows-1252', 'utf-16le'] as const;
export type Encoding = (typeof ENCODINGS)[number];

/** Column → the values that single a row out. */
export type RowTest = ReadonlyMap<string, readonly string[]>;

/** Fields → what is said of each. */
type ByField = ReadonlyMap<string, string>;

export interface ListMap {
  /** `shop` of lists/shop.yaml. */
  readonly name: string;
  readonly file: string;
  /** Absent: nothing is taken in by it, it is only compared. */
  readonly kind?: ListKind;
  /** `notes`: sentences, one a line, below the day that they are of. */
  readonly form: 'csv' | 'notes';
  /** The column that tells rows apart; rows in which it says the same are one record. */
  readonly unique?: string;
  /** Field → column. */
  readonly columns: ByField;
  /** What every record says. */
  readonly fixed: ByField;
  /** What other income is for → the column that has its amount. */
  readonly other: ByField;
  /** Field → the list's word → the book's. */
  readonly words: ReadonlyMap<string, ByField>;
  readonly skip: RowTest;
  readonly payouts: RowTest;
  /** Rows that add the others up. */
  readonly sums: RowTest;
  /** Fields whose amounts are of each row alone, and are added up over the rows of a record. */
  readonly eachRow: readonly string[];
  readonly dates?: DateOrder;
  readonly decimals: DecimalMark;
  readonly encoding: Encoding;
  readonly delimiter?: string;
  /** The line that names the columns, from 1. */
  readonly head: number;
  /** The channels whose money is on the list; without any that which is fixed, else all. */
  readonly channels: readonly string[];
  /** Of signed amounts only those that went `out`, without their sign, or came `in`. */
  readonly money?: 'out' | 'in';
}

const MAP_FIELDS = [
  ...['kind', 'form', 'unique', 'columns', 'fixed', 'other', 'words', 'skip', 'payouts', 'sums'],
  ...[
    'each-row',
    'dates',
    'decimals',
    'encoding',
    'delimiter',
    'head',
    'money',
    'channels',
    'note',
  ],
];

/** The map, or all that is wrong with it. Never throws. */
export function readListMap(
  raw: RawMap,
  { name, file }: Pick<ListMap, 'name' | 'file'>,
): ListMap | readonly Finding[] {
  const page: Page = { file, noun: 'the map of a list', rule: 'list-map', findings: [] };
  const root: SheetSpot = { page, raw, path: [] };
  isRecord(root, MAP_FIELDS);
  const said = <W extends string>(key: string, words: readonly W[]): W | undefined =>
    has(root, key) ? wordIn(fieldOf(root, key), words) : undefined;
  const kind = said('kind', LIST_KINDS);
  const map: ListMap = {
    name,
    file,
    ...(kind && { kind }),
    form: said('form', ['csv', 'notes']) ?? 'csv',
    ...optional('unique', has(root, 'unique') && textIn(fieldOf(root, 'unique'))),
    columns: textsByKey(fieldOf(root, 'columns')),
    fixed: textsByKey(fieldOf(root, 'fixed')),
    other: textsByKey(fieldOf(root, 'other')),
    words: wordsIn(fieldOf(root, 'words')),
    skip: testIn(fieldOf(root, 'skip')),
    payouts: testIn(fieldOf(root, 'payouts')),
    sums: testIn(fieldOf(root, 'sums')),
    eachRow: textsIn(fieldOf(root, 'each-row')),
    ...optional('dates', said('dates', DATE_ORDERS)),
    decimals: said('decimals', DECIMAL_MARKS) ?? 'point',
    encoding: said('encoding', ENCODINGS) ?? 'utf-8',
    ...optional('delimiter', has(root, 'delimiter') && delimiterIn(fieldOf(root, 'delimiter'))),
    head: has(root, 'head') ? headIn(fieldOf(root, 'head')) : 1,
    channels: textsIn(fieldOf(root, 'channels')),
    ...optional('money', said('money', ['out', 'in'] as const)),
  };
  lookAtFields(root, map);
  return page.findings.length === 0 ? map : page.findings;
}

function optional<K extends keyof ListMap>(
  key: K,
  value: ListMap[K] | false | undefined,
): Partial<Pick<ListMap, K>> {
  return value === undefined || value === false ? {} : ({ [key]: value } as Pick<ListMap, K>);
}

function textsByKey(at: SheetSpot): ByField {
  return new Map(entriesIn(at).map(([key, value]) => [key, textIn(value)]));
}

function wordsIn(at: SheetSpot): ListMap['words'] {
  return new Map(entriesIn(at).map(([field, words]) => [field, textsByKey(words)]));
}

function testIn(at: SheetSpot): RowTest {
  return new Map(
    entriesIn(at).map(([column, { raw }]) => [
      column,
      Array.isArray(raw) ? raw.map(asText) : [asText(raw)],
    ]),
  );
}

function asText(raw: Raw | undefined): string {
  return typeof raw === 'string' ? raw.trim() : '';
}

function entriesIn(at: SheetSpot): (readonly [string, SheetSpot])[] {
  if (at.raw !== undefined && !isMap(at.raw))
    fault(at, 'fields with values belong here', 'write each as NAME: VALUE on a line of its own');
  return keysOf(at).map((key) => [key, fieldOf(at, key)] as const);
}

/** A tab is written as a word, since none can be seen. */
function delimiterIn(at: SheetSpot): string {
  const text = textIn(at);
  const sign = text === 'tab' ? '\t' : text;
  if (sign.length !== 1) fault(at, 'the delimiter is one sign', 'write ";" or "," or tab');
  return sign;
}

function headIn(at: SheetSpot): number {
  const line = numberIn(at);
  if (line.isInteger() && line.toNumber() >= 1) return line.toNumber();
  fault(at, 'the head is the number of a line', 'write 1 where the first line names the columns');
  return 1;
}

/** What goes together: the fields are of the kind, a list of rows says its dates and what is unique. */
function lookAtFields(root: SheetSpot, map: ListMap): void {
  const { kind, columns, fixed, eachRow } = map;
  const names = listFieldNames(kind);
  const named = ['columns', 'fixed', 'words'].flatMap((key) => entriesIn(fieldOf(root, key)));
  for (const [name, at] of named) if (!listField(kind, name)) noField(at, name, names);
  for (const name of eachRow.filter((each) => !columns.has(each)))
    fault(fieldOf(root, 'each-row'), `"${name}" is not among the columns`, 'add it under columns');
  if (map.form === 'notes') {
    if (kind) return;
    fault(root, 'notes become records of a kind', `write kind: ${listed(LIST_KINDS, 'or')}`);
    return;
  }
  if (!columns.has('date') && !fixed.has('date'))
    fault(fieldOf(root, 'columns'), 'no column is the date', 'write the line as: date: COLUMN');
  if (columns.has('date') && map.dates === undefined)
    fault(root, 'dates is missing', `write dates: ${DATE_ORDERS.join(' or ')}`);
  if (map.unique === undefined && kind)
    fault(root, 'unique is missing', 'write unique: COLUMN, the column that tells rows apart');
}

function noField(at: SheetSpot, name: string, names: readonly string[]): void {
  const hint = didYouMean(nearest(name, names), `the fields are ${names.join(', ')}`, '');
  at.page.findings.push({
    rule: 'list-map',
    severity: 'error',
    at: { file: at.page.file, path: at.path, on: 'key' },
    message: `there is no field "${name}" to fill`,
    hint,
  });
}
