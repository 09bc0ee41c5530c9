/** How far a look reaches: the book that it is given, and whether a record can give it anything new. */
import { recordsDuring, recordsHaving, type Records } from '../among.ts';
import { KINDS, type Book, type Day, type Entry, type Kind, type NamedBook } from '../book.ts';
import { camelCase } from '../camel-case.ts';
import { addDays } from '../number/date.ts';
import { isDecimal } from '../number/decimal.ts';
import type { Part, Reached, Walked } from './rule.ts';

type AnyPart = Part<never>;

/** The book for a look, which goes through no more of each kind than it says. */
export function reachedBook(book: Book, reached: Reached, day: Day): Book {
  const parts = KINDS.flatMap((kind) => {
    const part = reached[kind];
    const records: Records<Entry> = book[kind];
    const values = part && valuesOf(records, part, day);
    return values ? [[kind, walked(records, values)] as const] : [];
  });
  return parts.length === 0 ? book : { ...book, ...Object.fromEntries(parts) };
}

function valuesOf<T>(
  records: Records<T>,
  part: AnyPart,
  day: Day,
): Walked<T>['values'] | undefined {
  if (part === 'all' || 'where' in part) return undefined;
  if ('later' in part) return () => recordsDuring(records, { from: addDays(day, 1) });
  return () => recordsHaving(records, part.having);
}

function walked<T>(records: Records<T>, values: Walked<T>['values']): Walked<T> {
  return { get: (id) => records.get(id), has: (id) => records.has(id), values };
}

/** A record as it is or was, and the book and the day by which it is looked at. */
export interface Changed {
  readonly kind: Kind;
  readonly record: Entry;
  readonly book: NamedBook;
  readonly day: Day;
}

/**
 * Whether a look that reaches so far may find something else now that a record has come, gone or
 * changed. It is asked of the record as it was by the old book, and as it is by the new one.
 */
export function concerns(reached: Reached, { kind, record, book, day }: Changed): boolean {
  const part: AnyPart | undefined = reached[kind];
  if (part === undefined || part === 'all') return part === 'all';
  if ('where' in part) return part.where(record as never, book);
  if ('later' in part) return isAnywhere(record, (_, value) => isDayAfter(value, day));
  const wanted = camelCase(part.having);
  return isAnywhere(record, (key) => key === wanted);
}

type Passes = (key: string, value: unknown) => boolean;

function isAnywhere(within: object, passes: Passes): boolean {
  return Object.entries(within).some(([key, value]: [string, unknown]) => {
    if (passes(key, value)) return true;
    return typeof value === 'object' && value !== null && !isDecimal(value)
      ? isAnywhere(value, passes)
      : false;
  });
}

function isDayAfter(value: unknown, day: Day): boolean {
  return typeof value === 'string' && /^\d{4}-\d\d-\d\d$/.test(value) && value > day;
}
