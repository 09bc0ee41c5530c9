/** Fees of classes: on which days a class meets, what each meeting earns, and what is paid ahead. */
import type { Book, Day, Sale, StudioClass } from '../book.ts';
import { ZERO, decimal, divide, shownParts, sum, type Decimal } from '../number/decimal.ts';
import { addDays } from '../number/date.ts';
import { minorDigits } from '../number/money.ts';
import { paidOn } from './paid.ts';
import { saleMoney, type LineMoney } from './sale-money.ts';

/** What a day earns of a line, in whole minor units; negative of what was refunded. */
export interface EarnedPart {
  readonly day: Day;
  readonly gross: Decimal;
  readonly discounts: Decimal;
  readonly returns: Decimal;
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
  readonly amount: Decimal;
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

/**
 * What a class line earns on which day: equal parts at each meeting, those before the sale's date on
 * that date. A refund takes back evenly from the meetings from its date on, else counts on its date.
 * Parts are in whole minor units and add up to the line; the odd units go to the first meetings.
 */
export function enrolmentParts(
  meetings: readonly Day[],
  { date, line, minorDigits: digits }: { date: Day; line: LineMoney; minorDigits: number },
): EarnedPart[] {
  const { returned, amount, saleDiscount } = line;
  const ahead = returned ? meetings.filter((day) => day >= date) : meetings;
  const days = ahead.length === 0 ? [date] : ahead.map((day) => (day < date ? date : day));
  const gross = equalParts(amount, days.length, digits);
  const net = equalParts(amount.minus(saleDiscount), days.length, digits);
  const parts = days.map((day, index) => {
    const whole = gross[index] ?? ZERO;
    const off = whole.minus(net[index] ?? ZERO);
    return returned
      ? { day, gross: ZERO, discounts: ZERO, returns: whole }
      : { day, gross: whole, discounts: off, returns: ZERO };
  });
  return byDay(parts);
}

/** What is paid for lessons after the day, by class; classes in the order of their next meeting. */
export function classesOwed(book: Book, asOf: Day): ClassOwed[] {
  const owed = new Map<string, Decimal>();
  const sales = [...book.sales.values()].filter((sale) => isPaid(sale, asOf));
  for (const [id, amount] of sales.flatMap((sale) => aheadIn(book, sale, asOf)))
    owed.set(id, (owed.get(id) ?? ZERO).plus(amount));
  return [...owed]
    .flatMap(([id, amount]) => (amount.isZero() ? [] : owedFor(book.classes.get(id), amount, asOf)))
    .sort((one, other) => (one.next + one.class < other.next + other.class ? -1 : 1));
}

function isPaid(sale: Sale, asOf: Day): boolean {
  const day = paidOn(sale);
  return day !== undefined && day <= asOf && sale.date <= asOf;
}

/** Class → what a sale's lines earn of it after the day. */
function aheadIn(book: Book, sale: Sale, asOf: Day): [string, Decimal][] {
  if (!hasClass(sale)) return [];
  const digits = minorDigits(book.studio.currency) ?? 2;
  return saleMoney(book, sale, digits).lines.flatMap((line) => {
    const taught = book.classes.get(line.line.class ?? '');
    if (!taught) return [];
    const parts = enrolmentParts(meetingsOf(taught), {
      date: sale.date,
      line,
      minorDigits: digits,
    });
    const later = parts.filter(({ day }) => day > asOf);
    const nets = later.map(({ gross, discounts, returns }) =>
      gross.minus(discounts).minus(returns),
    );
    return [[taught.id, sum(nets)]];
  });
}

/** Whether a sale has a class among its lines. */
export function hasClass({ lines }: Sale): boolean {
  return lines.some((line) => line.class !== undefined);
}

function owedFor(taught: StudioClass | undefined, amount: Decimal, asOf: Day): ClassOwed[] {
  const ahead = taught ? meetingsOf(taught).filter((day) => day > asOf) : [];
  const [next, last] = [ahead[0], ahead.at(-1)];
  if (!taught || next === undefined || last === undefined) return [];
  const { id, name } = taught;
  return [{ class: id, name, meetings: ahead.length, next, last, amount }];
}

/** Equal parts in whole minor units, the larger ones first. */
function equalParts(total: Decimal, count: number, digits: number): Decimal[] {
  const each = divide(total, decimal(count));
  return shownParts(
    Array.from({ length: count }, () => each),
    digits,
  );
}

function byDay(parts: readonly EarnedPart[]): EarnedPart[] {
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
    gross: one.gross.plus(other.gross),
    discounts: one.discounts.plus(other.discounts),
    returns: one.returns.plus(other.returns),
  };
}
