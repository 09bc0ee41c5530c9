/** A book that gives of its records, and flows that give of their facts, no more than is asked for. */
import type { Days, Records } from '../../../src/among.ts';
import { KINDS, type Book, type Day, type Entry } from '../../../src/book.ts';
import { camelCase } from '../../../src/camel-case.ts';
import { everyVersion } from '../../../src/in-force.ts';
import { meetingsOf } from '../../../src/reckon/sales/enrolment.ts';
import { flow } from '../../../src/reckon/flow.ts';

/** The same book; what is asked of its records in part is given exactly, and the last of them first. */
export function sparse(book: Book): Book {
  const kinds = KINDS.map((kind) => [kind, sparseRecords<Entry>(book[kind])]);
  return { ...book, ...(Object.fromEntries(kinds) as Partial<Book>) };
}

function sparseRecords<T extends Entry>(records: ReadonlyMap<string, T>): Records<T> {
  const those = (isMeant: (words: Words) => boolean): T[] =>
    [...records.values()].filter((record) => isMeant(wordsIn(record))).reverse();
  return Object.assign(new Map(records), {
    during: (days: Days) => those(({ texts }) => texts.some((text) => isAmong(text, days))),
    having: (key: string) => those(({ keys }) => keys.includes(camelCase(key))),
    naming: (names: ReadonlySet<string>) =>
      those(({ keys, texts }) => [...keys, ...texts].some((word) => names.has(word))),
  });
}

interface Words {
  readonly keys: readonly string[];
  readonly texts: readonly string[];
}

/** All keys and texts in a record, however deep. */
function wordsIn(value: unknown): Words {
  if (typeof value === 'string') return { keys: [], texts: [value] };
  if (typeof value !== 'object' || value === null) return { keys: [], texts: [] };
  const inner = Object.values(value).map(wordsIn);
  return {
    keys: [
      ...(Array.isArray(value) ? [] : Object.keys(value)),
      ...inner.flatMap(({ keys }) => keys),
    ],
    texts: inner.flatMap(({ texts }) => texts),
  };
}

function isAmong(text: string, { from = '', to = '9999-99-99' }: Days): boolean {
  return /^\d{4}-\d\d-\d\d$/.test(text) && text >= from && text <= to;
}

/** Lets the flows of a book's day give their facts by days alone. */
export function sparseFlows(book: Book, asOf: Day): void {
  const { stock, ware } = flow(book, asOf);
  onlyDuring(stock.movements, ({ day }) => [day]);
  onlyDuring(ware.facts, ({ day }) => [day]);
  onlyDuring(ware.sales, ({ date, paid = date, lines }) => [
    date,
    paid,
    ...lines.filter(({ kind }) => kind === 'class').flatMap(({ item }) => meetings(book, item)),
  ]);
}

function meetings(book: Book, id: string): readonly Day[] {
  const taught = book.classes.get(id);
  return taught ? everyVersion(taught).flatMap(meetingsOf) : [];
}

function onlyDuring<T>(facts: Iterable<T>, daysOf: (fact: T) => readonly Day[]): void {
  const during = (days: Days): T[] =>
    [...facts].filter((fact) => daysOf(fact).some((day) => isAmong(day, days)));
  Object.assign(facts, { during });
}
