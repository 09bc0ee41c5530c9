/** All that a book comes to on a day as one text; records in it are named, not shown. */
import type { Book, Day } from '../../../src/book.ts';
import { flow } from '../../../src/reckon/flow.ts';

/** The same text wherever all facts, states and shortfalls are the same. */
export function flowText(book: Book, day: Day): string {
  const { stock, ware, taxes, shortfalls } = flow(book, day);
  const minutes = [...ware.lots.keys()].map(ware.minutesOf);
  return JSON.stringify({ stock, ware, minutes, taxes, shortfalls }, shown);
}

function shown(key: string, value: unknown): unknown {
  if (typeof value === 'bigint') return `${value}n`;
  if (value instanceof Map || value instanceof Set) return [...(value as Iterable<unknown>)];
  if (typeof value !== 'object' || value === null) return value;
  if ('file' in value && 'id' in value) return `record ${String(value.id)}`;
  if (key === 'line') return undefined; // A load line as its record has it.
  return key === 'lot' && 'lot' in value ? shown('', value.lot) : value;
}
