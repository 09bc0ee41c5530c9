/** How far a look reaches: the book that it is given, and whether a record can give it anything new. */
import { recordsDuring, recordsHaving, type Records } from '../among.ts';
import {
  KINDS,
  type Book,
  type Day,
  type Entry,
  type Kind,
  type Named,
  type NamedBook,
} from '../book.ts';
import { camelCase } from '../camel-case.ts';
import { addDays } from '../number/date.ts';
import { isDecimal } from '../number/decimal.ts';
import type { PartOfKind, Reached, Walked } from './rule.ts';

/** What was asked for by id, whether it was there or not. */
export type AskedIds = ReadonlyMap<Kind, ReadonlySet<string>>;

/** A book that keeps in mind what it is asked for. */
interface AskedBook {
  readonly book: NamedBook;
  /** All that was asked for since the last time, and begins anew. */
  readonly asked: () => AskedIds;
}

interface Asking {
  readonly kind: Kind;
  ids: Set<string> | undefined;
  /** Most of what is asked for is asked for again at once, by the next rule. */
  last: string | undefined;
}

/** Puts a note to all that a book is asked for by id. */
export function askedBook(book: NamedBook): AskedBook {
  const all = KINDS.map((kind): Asking => ({ kind, ids: undefined, last: undefined }));
  const kinds = all.map((asking) => [asking.kind, noted(book[asking.kind], asking)]);
  return {
    book: { studio: book.studio, ...Object.fromEntries(kinds) } as NamedBook,
    asked: () => {
      const asked = new Map<Kind, ReadonlySet<string>>();
      for (const asking of all) {
        if (asking.ids) asked.set(asking.kind, asking.ids);
        asking.ids = undefined;
        asking.last = undefined;
      }
      return asked;
    },
  };
}

function noted(records: Named<Entry>, asking: Asking): Named<Entry> {
  const note = (id: string): void => {
    if (id === asking.last) return;
    asking.last = id;
    asking.ids ??= new Set();
    asking.ids.add(id);
  };
  return {
    get: (id) => {
      note(id);
      return records.get(id);
    },
    has: (id) => {
      note(id);
      return records.has(id);
    },
  };
}

type AnyPart = PartOfKind<never>;

/** How far a look reaches on a day, and the book that it asks by id. */
interface Given {
  readonly reached: Reached;
  readonly day: Day;
  readonly named: NamedBook;
}

/** The book for a look, which goes through no more of each kind than it says. */
export function reachedBook(book: Book, { reached, day, named }: Given): object {
  const kinds = KINDS.map((kind) => {
    const part = reached[kind];
    const records: Records<Entry> = book[kind];
    if (part === undefined) return [kind, named[kind]];
    const values = valuesOf(records, part, day);
    return [kind, values ? walked(named[kind], values) : records];
  });
  return { studio: book.studio, ...Object.fromEntries(kinds) } as object;
}

function walked(records: Named<Entry>, values: Walked<Entry>['values']): Walked<Entry> {
  return { get: (id) => records.get(id), has: (id) => records.has(id), values };
}

/** Undefined where a look goes through all records, whichever of them concern it. */
function valuesOf<T>(
  records: Records<T>,
  part: AnyPart,
  day: Day,
): Walked<T>['values'] | undefined {
  if (part === 'all' || 'where' in part) return undefined;
  if ('later' in part) return () => recordsDuring(records, { from: addDays(day, 1) });
  return () => recordsHaving(records, part.having);
}

/** A record as it is or was, and the book and the day by which it is looked at. */
interface Changed {
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
