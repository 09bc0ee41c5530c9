/** What happened to lots on days of their own: pieces that were lost, or left without a sale. */
import { isAmong, recordsDuring, type Days } from '../among.ts';
import type { Book, Lot } from '../book.ts';
import { placeOf } from './lot-making.ts';
import { openedLots } from './opening.ts';
import { turnAfter, type Turn } from './timeline.ts';
import { STUDIO_PLACE } from './ware.ts';

/** A dated line of a lot: pieces lost, or gone without a sale. */
export interface LotHappening extends Turn {
  readonly kind: 'lost' | 'gone';
  readonly record: Lot;
  readonly index: number;
}

const LOST = turnAfter('pieces');
const GONE_FROM_STUDIO = turnAfter('used');
const GONE_FROM_GALLERY = turnAfter('consigned');

/**
 * What was lost counts after the day's making and before its firings; what left the studio without a
 * sale before the deliveries to galleries, and what left a gallery after them. What was counted when the
 * book began counts from then on.
 */
export function lotHappenings(book: Book, days: Days): LotHappening[] {
  const opened = openedLots(book);
  return Array.from(recordsDuring(book.pieces, days)).flatMap((record) => {
    const lost = (record.lost ?? []).map(({ date }, index): LotHappening => {
      return { kind: 'lost', day: date, turn: LOST, id: record.id, record, index };
    });
    const gone = (record.gone ?? []).map(({ date, channel }, index): LotHappening => {
      const isHere = placeOf({ book }, channel) === STUDIO_PLACE;
      const turn = isHere ? GONE_FROM_STUDIO : GONE_FROM_GALLERY;
      return { kind: 'gone', day: date, turn, id: record.id, record, index };
    });
    const since = opened.get(record.id) ?? '';
    return [...lost, ...gone].filter(({ day }) => isAmong(day, days) && day >= since);
  });
}
