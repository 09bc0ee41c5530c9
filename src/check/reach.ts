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
import type { Part, Reached, Walked } from './rule.ts';

/** Is told of all that is asked for by id, whether it is there or not. */
export type Note = (kind: Kind, id: string) => void;

/** The book, which tells of all that it is asked for. */
export function notedBook(book: NamedBook, note: Note): NamedBook {
  const kinds = KINDS.map((kind) => [kind, noted(book[kind], kind, note)]);
  return { studio: book.studio, ...Object.fromEntries(kinds) } as NamedBook;
}

function noted(records: Named<Entry>, kind: Kind, note: Note): Named<Entry> {
  return {
    get: (id) => {
      note(kind, id);
      return records.get(id);
    },
    has: (id) => {
      note(kind, id);
      return records.has(id);
    },
  };
}

type AnyPart = Part<never>;

/** How a look is given the book: as of which day, and who is told of what it asks for by id. */
interface Given {
  readonly reached: Reached;
  readonly day: Day;
  readonly note: Note;
}

/** The book for a look, which goes through no more of each kind than it says. */
export function reachedBook(book: Book, { reached, day, note }: Given): object {
  const kinds = KINDS.map((kind) => {
    const part = reached[kind];
    const records: Records<Entry> = book[kind];
    if (part === undefined) return [kind, noted(records, kind, note)];
    const values = valuesOf(records, part, day);
    return [kind, values ? { ...noted(records, kind, note), values } : records];
  });
  return { studio: book.studio, ...Object.fromEntries(kinds) } as object;
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
