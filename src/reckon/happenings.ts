/** All that moves stock or ware in some days, in the one order in which it is reckoned. */
import type { Book, Lot } from '../book.ts';
import { type Days, isAmong, recordsDuring } from '../among.ts';
import { type Opening, isBeforeStart, openedLots, openings } from './stock/opening.ts';
import { type Unloading, unloadings } from './kilns/out-of-kiln.ts';
import {
  type Happening,
  TIMELINE_KINDS,
  type Turn,
  byTurn,
  happeningsOf,
  turnAfter,
} from './timeline.ts';
import { placeOf } from './ware/lot-making.ts';
import { STUDIO_PLACE } from './ware/lot.ts';

/** An event, or a part of one that has a day of its own. */
export type AnyHappening = Happening | LotHappening | Opening | Unloading;

const EVEN_BEFORE: ReadonlySet<AnyHappening['kind']> = new Set([
  'pieces',
  'firings',
  'unloaded',
  'sales',
]);

/** In their order; before the book begins lots and firings are only named, and sales only earn. */
export function allHappenings(book: Book, days: Days): AnyHappening[] {
  const all: AnyHappening[] = [
    ...happeningsOf(book, days, TIMELINE_KINDS),
    ...lotHappenings(book, days),
    ...openings(book, days),
    ...unloadings(book, days),
  ];
  const told =
    book.studio.starts === undefined
      ? all
      : all.filter(({ kind, day }) => EVEN_BEFORE.has(kind) || !isBeforeStart(book, day));
  return told.sort(byTurn);
}

/** A dated line of a lot: pieces lost, or gone without a sale. */
interface LotHappening extends Turn {
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
function lotHappenings(book: Book, days: Days): LotHappening[] {
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
