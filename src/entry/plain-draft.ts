/** Looks at a plain sale that is not written yet by what is known of the end of the book. */
import type { Book, Kind } from '../book.ts';
import { emptyDraft, finishBook } from '../check/draft.ts';
import { typeRecord } from '../check/typed.ts';
import type { RawMap } from '../read/raw.ts';
import { isPlainSale } from './plain-sale.ts';
import type { OpenedStudio } from './plan.ts';
import { dayOf } from './put.ts';
import { isAtEnd, isQuiet, stateAfter } from './quick-sale.ts';

/** A new record whose fields are sound, and what its file is called. */
export interface NewDraft {
  readonly kind: Kind;
  readonly id: string;
  readonly fields: RawMap;
  readonly file: string;
}

/**
 * A book with the record among the definitions that it may name, where a check of the whole would
 * find nothing new; undefined where only that can tell.
 */
export function vouchedDraft(opened: OpenedStudio, draft: NewDraft): Book | undefined {
  const { kind, id, fields, file } = draft;
  if (kind !== 'sales' || !isPlainSale(fields)) return undefined;
  const { asOf, findings, book } = opened;
  const known = opened.known && { ...opened.known, asOf, findings };
  if (!known || !isQuiet(known) || !isAtEnd(known, dayOf(fields, asOf))) return undefined;
  const sale = typeRecord('sales', fields, { id, file });
  const { studio, channels, products, materials, recipes } = book;
  const defined = { studio, channels, products, materials, recipes };
  const after = { ...finishBook(emptyDraft()), ...defined, sales: new Map([[id, sale]]) };
  return stateAfter(known, after, sale) && after;
}
