/** Pieces of lots that broke or left otherwise at a gallery. */
import type { Book, Day, Grade } from '../book.ts';
import { isBeforeStart, openedLots } from './opening.ts';
import { turnAfter, type Turn } from './timeline.ts';

/** The kinds of record by which pieces at galleries are followed. */
export type GalleryBook = Pick<
  Book,
  'studio' | 'channels' | 'consigned' | 'counted' | 'pieces' | 'sales'
>;

/** Which pieces at which gallery are meant. */
export interface Wanted {
  readonly channel: string;
  readonly product: string;
  readonly lot?: string | undefined;
  readonly glaze?: string | undefined;
  /** Absent: firsts, then seconds. */
  readonly grade?: Grade | undefined;
  readonly count: number;
}

/** Pieces of a lot that broke or left at a gallery. */
export interface GoneThere extends Turn {
  readonly kind: 'gone';
  readonly wanted: Wanted;
}

/** After the deliveries of its day, and before the sales, as the ware itself is reckoned. */
export function goneFromGalleries(book: GalleryBook, asOf: Day): GoneThere[] {
  const turn = turnAfter('consigned');
  const opened = openedLots(book);
  return [...book.pieces.values()].flatMap(({ id, product, gone = [] }) =>
    gone.flatMap(({ date, count, grade, channel }) => {
      const isThere = book.channels.get(channel ?? '')?.kind === 'consignment';
      const isOld = isBeforeStart(book, date) || date < (opened.get(id) ?? '');
      if (!isThere || isOld || channel === undefined || date > asOf) return [];
      const wanted = { channel, product, lot: id, grade, count };
      return [{ kind: 'gone' as const, day: date, turn, id, wanted }];
    }),
  );
}
