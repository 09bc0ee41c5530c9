/** Fees of classes: on which days a class meets, what each meeting earns, and what is paid ahead. */
import { factsDuring } from '../../among.ts';
import type { Book, Day, Sale, StudioClass } from '../../book.ts';
import { everyVersion, inForce } from '../../in-force.ts';
import { addDays } from '../../number/date.ts';
import {
  NO_MONEY,
  add,
  addUnder,
  less,
  shareOutEqually,
  total,
  type Money,
} from '../../number/money.ts';
import type { SoldSale } from './earned.ts';
import type { LineMoney } from './sale-money.ts';
import type { Flows } from '../flows.ts';

/** What a day earns of a line; negative of what was refunded. */
export interface EarnedPart {
  readonly day: Day;
  readonly gross: Money;
  readonly discounts: Money;
  readonly returns: Money;
}

/** Lessons of one class that are paid and not given yet. */
export interface ClassOwed {
  readonly class: string;
  readonly name: string;
  /** Meetings that are still to come. */
  readonly meetings: number;
  /** The next and the last of them. */
  readonly next: Day;
  readonly last: Day;
  /** Money, without sales tax; below zero where more was refunded than is still to be given. */
  readonly amount: Money;
}

/** A class that is said to meet oftener is a slip of the pen. */
const MOST_MEETINGS = 1000;
const WEEK = 7;

/** The days on which a class meets, in their order: those that it names, else weekly from its first. */
export function meetingsOf({ meets, starts, sessions = 1 }: StudioClass): readonly Day[] {
  if (meets !== undefined) return meets.toSorted();
  const count = Math.min(sessions, MOST_MEETINGS);
  return Array.from({ length: count }, (_, week) => addDays(starts, week * WEEK));
}

/** The last day on which a class meets, by any version of it; empty for none. */
export function lastMeetingOf(taught: StudioClass | undefined): Day {
  const days = taught ? everyVersion(taught).flatMap(meetingsOf) : [];
  return days.sort().at(-1) ?? '';
}

/**
 * What a class line earns on which day: equal parts at each meeting, those before the sale's date on
 * that date. A refund takes back evenly from the meetings from its date on, else counts on its date.
 * Gross and discounts are each shared in equal parts by largest remainder, the first meetings first.
 */
export function enrolmentParts(
  meetings: readonly Day[],
  date: Day,
  { returned, gross, discounts, net }: Pick<LineMoney, 'returned' | 'gross' | 'discounts' | 'net'>,
): EarnedPart[] {
  const ahead = returned ? meetings.filter((day) => day >= date) : meetings;
  const days = ahead.length === 0 ? [date] : ahead.map((day) => (day < date ? date : day));
  const wholes = shareOutEqually(returned ? net : gross, days.length);
  const offs = shareOutEqually(returned ? NO_MONEY : discounts, days.length);
  const parts = days.map((day, at) => {
    const [whole, off] = [wholes[at] ?? NO_MONEY, offs[at] ?? NO_MONEY];
    return returned
      ? { day, gross: NO_MONEY, discounts: NO_MONEY, returns: whole }
      : { day, gross: whole, discounts: off, returns: NO_MONEY };
  });
  return joinedByDay(parts);
}

/** What is paid for lessons after the flows' day, by class; classes in the order of their next meeting. */
export function classesOwed(book: Book, { stock: { asOf }, ware }: Flows): ClassOwed[] {
  const owed = new Map<string, Money>();
  const paid = [...factsDuring(ware.sales, { from: addDays(asOf, 1) })].filter(
    (sale) => sale.paid !== undefined && sale.paid <= asOf,
  );
  for (const [id, amount] of paid.flatMap((sale) => aheadIn(book, sale, asOf)))
    addUnder(owed, id, amount);
  return [...owed]
    .flatMap(([id, amount]) =>
      amount === NO_MONEY ? [] : owedFor(inForce(book.classes.get(id), asOf), amount, asOf),
    )
    .sort((one, other) => (one.next + one.class < other.next + other.class ? -1 : 1));
}

/** Class → what a sale's lines earn of it after the day. */
function aheadIn(book: Book, { date, lines }: SoldSale, asOf: Day): [string, Money][] {
  return lines.flatMap((line): [string, Money][] => {
    const taught = line.kind === 'class' ? inForce(book.classes.get(line.item), date) : undefined;
    if (!taught) return [];
    const later = enrolmentParts(meetingsOf(taught), date, line).filter(({ day }) => day > asOf);
    return [
      [taught.id, total(later.map((part) => less(part.gross, part.discounts, part.returns)))],
    ];
  });
}

/** Whether a sale has a class among its lines. */
export function hasClass({ lines }: Sale): boolean {
  return lines.some((line) => line.class !== undefined);
}

function owedFor(taught: StudioClass | undefined, amount: Money, asOf: Day): ClassOwed[] {
  const ahead = taught ? meetingsOf(taught).filter((day) => day > asOf) : [];
  const [next, last] = [ahead[0], ahead.at(-1)];
  if (!taught || next === undefined || last === undefined) return [];
  const { id, name } = taught;
  return [{ class: id, name, meetings: ahead.length, next, last, amount }];
}

function joinedByDay(parts: readonly EarnedPart[]): EarnedPart[] {
  const days = new Map<Day, EarnedPart>();
  for (const part of parts) {
    const known = days.get(part.day);
    days.set(part.day, known ? addParts(known, part) : part);
  }
  return [...days.values()];
}

function addParts(one: EarnedPart, other: EarnedPart): EarnedPart {
  return {
    day: one.day,
    gross: add(one.gross, other.gross),
    discounts: add(one.discounts, other.discounts),
    returns: add(one.returns, other.returns),
  };
}
