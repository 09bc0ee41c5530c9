/** What was filed, in a book that was opened: with the tax sheets that its filings are of. */
import { sheetsOfFilings } from '../../check/sheets/named-sheet.ts';
import { filedPeriods, type FiledPeriod } from '../../reckon/tax/filed.ts';
import { flow } from '../../reckon/flow.ts';
import type { OpenedBook } from '../studio/open.ts';

/** The filings that count by the day that is looked at, beside what the book comes to. */
export function filedIn({
  book,
  asOf,
  sheets,
}: Pick<OpenedBook, 'book' | 'asOf' | 'sheets'>): readonly FiledPeriod[] {
  if (book.filed.size === 0) return [];
  return filedPeriods(book, flow(book, asOf), sheetsOfFilings(book, sheets));
}
