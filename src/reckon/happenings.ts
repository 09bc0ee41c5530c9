/** All that moves stock or ware in some days, in the one order in which it is reckoned. */
import type { Book } from '../book.ts';
import type { Days } from '../among.ts';
import { lotHappenings, type LotHappening } from './lot-happenings.ts';
import { isBeforeStart, openings, type Opening } from './opening.ts';
import { unloadings, type Unloading } from './out-of-kiln.ts';
import { TIMELINE_KINDS, byTurn, happeningsOf, type Happening } from './timeline.ts';

/** An event, or a part of one that has a day of its own. */
export type Told = Happening | LotHappening | Opening | Unloading;

const EVEN_BEFORE: ReadonlySet<Told['kind']> = new Set(['pieces', 'firings', 'unloaded', 'sales']);

/** In their order; before the book begins lots and firings are only named, and sales only earn. */
export function allHappenings(book: Book, days: Days): Told[] {
  const all: Told[] = [
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
