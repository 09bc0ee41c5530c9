/** A class fee over the meetings of the class (rule 23). */
import type { Book, Day, Sale, SaleLine, StudioClass } from '../../src/book.ts';
import { byCodeUnits, daysAfter } from './days.ts';
import type { MeetingPart } from './result.ts';
import type { LineMoney } from './sale-money.ts';
import { equally } from './shares.ts';
import { classOn } from './on-day.ts';

const MOST = 1000;

/** The days on which a class meets, in their order. */
export function meetingsOf({ starts, meets, sessions = 1 }: StudioClass): Day[] {
  if (meets) return [...meets].sort(byCodeUnits).slice(0, MOST);
  const weeks = Math.min(sessions, MOST);
  return Array.from({ length: weeks }, (_, week) => daysAfter(starts, 7 * week));
}

/** What each day earns of a fee, or gives back of it; nothing for other lines. */
export function meetingParts(
  book: Book,
  { date }: Sale,
  { line, money }: { line: SaleLine; money: LineMoney },
): MeetingPart[] {
  const taught = classOn(book, line.class, date);
  if (!taught) return [];
  const meetings = meetingsOf(taught);
  const toCome = meetings.filter((day) => day >= date);
  const over = money.side === 'sold' ? meetings : toCome;
  const days = over.length === 0 ? [date] : over;
  // A refund is what was given back, after its discount.
  const whole = money.side === 'sold' ? money.gross : money.net;
  const gross = equally(whole, days.length);
  const discount = equally(whole - money.net, days.length);
  return onDays(
    days.map((day, at) => ({
      day: day < date ? date : day,
      ...{ gross: gross[at] ?? 0n, discount: discount[at] ?? 0n },
    })),
  );
}

/** Parts of one day put together. */
function onDays(parts: readonly MeetingPart[]): MeetingPart[] {
  return [...new Set(parts.map(({ day }) => day))].map((day) => {
    const some = parts.filter((part) => part.day === day);
    return {
      day,
      gross: some.reduce((sum, part) => sum + part.gross, 0n),
      discount: some.reduce((sum, part) => sum + part.discount, 0n),
    };
  });
}
