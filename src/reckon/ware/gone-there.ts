/** Pieces of lots that broke or left otherwise at a gallery. */
import { recordsNaming } from '../../among.ts';
import type { Book, Day, Grade } from '../../book.ts';
import { isBeforeStart, openedLots } from '../stock/opening.ts';
import { turnAfter, type Turn } from '../timeline.ts';

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

/** Ids of the channels that goods are left with. */
function galleriesOf({ channels }: Pick<Book, 'channels'>): ReadonlySet<string> {
  const galleries = [...channels.values()].filter(({ kind }) => kind === 'consignment');
  return new Set(galleries.map(({ id }) => id));
}

/** The book without what was sold elsewhere: a gallery's statements are few among the sales of years. */
export function atGalleries(book: GalleryBook): GalleryBook {
  const sales = [...recordsNaming(book.sales, galleriesOf(book))].filter(
    ({ channel }) => book.channels.get(channel)?.kind === 'consignment',
  );
  return { ...book, sales: new Map(sales.map((sale) => [sale.id, sale])) };
}

/** After the deliveries of its day, and before the sales, as the ware itself is reckoned. */
export function goneFromGalleries(book: GalleryBook, asOf: Day): GoneThere[] {
  const turn = turnAfter('consigned');
  const opened = openedLots(book);
  const galleries = galleriesOf(book);
  return [...recordsNaming(book.pieces, galleries)].flatMap(({ id, product, gone = [] }) =>
    gone.flatMap(({ date, count, grade, channel }) => {
      const isOld = isBeforeStart(book, date) || date < (opened.get(id) ?? '');
      if (channel === undefined || !galleries.has(channel) || isOld || date > asOf) return [];
      const wanted = { channel, product, lot: id, grade, count };
      return [{ kind: 'gone' as const, day: date, turn, id, wanted }];
    }),
  );
}
