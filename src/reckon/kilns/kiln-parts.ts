/** The parts of kilns that wear out: how much of each is used up, and when that will be all of it. */
import { recordsDuring } from '../../among.ts';
import type { Book, Day, Firing, Kiln, WearPart } from '../../book.ts';
import { ZERO, decimal, divide, type Decimal } from '../../number/decimal.ts';
import { addDays, daysBetween } from '../../number/date.ts';
import { less, times, type Money } from '../../number/money.ts';
import { compareTexts } from '../../text-order.ts';
import { booked, digitsOf } from '../booked.ts';
import { isBeforeStart } from '../stock/opening.ts';
import { USAGE_WINDOW } from '../stock/depletion.ts';
import { wearOf } from './firing-cost.ts';

/** One part in a kiln on a day. */
export interface PartInKiln {
  readonly kiln: Kiln;
  readonly part: WearPart;
  /** Firings of the kiln since it was fitted. */
  readonly firings: number;
  readonly since: readonly Firing[];
  /** Those of them that are charged for. */
  readonly charging: readonly Firing[];
  /** What one of these is charged. */
  readonly wear: Money;
  /** How many more it should last; below zero where it has lasted longer than that. */
  readonly left: Decimal;
  /** The day of the last of them at the pace of the last 90 days; undefined where nothing was fired in them. */
  readonly dueOn: Day | undefined;
  /** Due: it has lasted as long as it should; soon: it will have within a month. */
  readonly state: 'due' | 'soon' | 'ok';
  /** What wear has been charged for it, and what of a new one's cost is not charged yet. */
  readonly charged: Money;
  readonly toCharge: Money;
}

/** Every part that is in a kiln on the day, kiln by kiln, the one that is due first, first. */
export function partsInKilns(book: Book, asOf: Day): PartInKiln[] {
  return [...book.kilns.values()]
    .sort((one, other) => compareTexts(one.id, other.id))
    .flatMap((kiln) => partsIn(book, kiln, asOf));
}

function partsIn(book: Book, kiln: Kiln, asOf: Day): PartInKiln[] {
  const parts = (kiln.wear ?? []).filter((part) => isFitted(part, asOf));
  if (parts.length === 0) return [];
  const fitted = parts.map((part) => part.fitted ?? '').sort()[0];
  const fired = firingsOfKiln(book, kiln, { from: fitted, to: asOf });
  const perDay = paceOf(fired, asOf);
  return parts
    .map((part) => partInKiln(book, kiln, { part, fired, perDay, asOf }))
    .sort((one, other) => one.left.cmp(other.left) || compareTexts(one.part.part, other.part.part));
}

function isFitted({ fitted = '', replaced }: WearPart, day: Day): boolean {
  return fitted <= day && (replaced === undefined || day < replaced);
}

/** Firings of one kiln by their dates. */
export function firingsOfKiln(
  book: Book,
  { id }: Kiln,
  { from = '', to }: { readonly from?: Day | undefined; readonly to: Day },
): Firing[] {
  return [...recordsDuring(book.firings, { from, to })].filter(
    ({ kiln, date }) => kiln === id && from <= date && date <= to,
  );
}

/** Firings a day in the last 90 days, or since the first where that is later. */
function paceOf(fired: readonly Firing[], asOf: Day): Decimal {
  const since = addDays(asOf, -USAGE_WINDOW);
  const first = fired.reduce((least, { date }) => (date < least ? date : least), asOf);
  const days = Math.max(1, Math.min(USAGE_WINDOW, daysBetween(first, asOf)));
  const lately = fired.filter(({ date }) => date > since);
  return divide(decimal(lately.length), decimal(days));
}

interface PartSeen {
  readonly part: WearPart;
  readonly fired: readonly Firing[];
  readonly perDay: Decimal;
  readonly asOf: Day;
}

function partInKiln(book: Book, kiln: Kiln, { part, fired, perDay, asOf }: PartSeen): PartInKiln {
  const since = fired.filter(({ date }) => date >= (part.fitted ?? ''));
  const left = part.firings.minus(decimal(since.length));
  const charging = since.filter(({ date }) => !isBeforeStart(book, date));
  const due = dueOn(left, perDay, asOf);
  const wear = wearOf([part], asOf, digitsOf(book));
  const charged = times(wear, charging.length);
  return {
    kiln,
    part,
    firings: since.length,
    since,
    charging,
    wear,
    left,
    dueOn: due,
    state: due === undefined || due > addDays(asOf, SOON) ? 'ok' : left.gt(ZERO) ? 'soon' : 'due',
    charged,
    toCharge: less(booked(book, part.cost), charged),
  };
}

/** Parts are to be had in some weeks. */
const SOON = 30;

/** A hundred years of days. */
const NEVER = 36_500;

function dueOn(left: Decimal, perDay: Decimal, asOf: Day): Day | undefined {
  if (left.lte(ZERO)) return asOf;
  if (perDay.isZero()) return undefined;
  const days = Math.floor(divide(left, perDay).toNumber());
  return days > NEVER ? undefined : addDays(asOf, days);
}
