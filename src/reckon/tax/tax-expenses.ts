/** Expenses for tax by category, and the distance driven. */
import { recordsDated, recordsDuring } from '../../among.ts';
import type { Book, Day, Spent } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { type Span, yearOf, yearSpan } from '../../number/date.ts';
import { ZERO, decimal, divide, type Decimal } from '../../number/decimal.ts';
import { NO_MONEY, roundedMoney, total, type Money } from '../../number/money.ts';
import { keyed } from '../../grouping.ts';
import { booked, digitsOf } from '../booked.ts';
import { broughtInTurn, type Brought } from '../brought.ts';
import { isPaidOver } from '../sales/paid.ts';
import type { MileageRate } from './tax-law.ts';
import { CATEGORIES, amountOfCategory, type TaxSheet } from './tax-sheet.ts';
import {
  countsIn,
  gathered,
  countingDay,
  type Billed,
  type TaxAmount,
  type TaxView,
} from './tax-view.ts';
import { byDate } from '../../text-order.ts';

/**
 * Expenses of the period by category, in the order of the categories; purchases of stock are none. Where
 * the studio takes the rate for its car, that is there instead of what the car cost.
 */
export function expenseAmounts(view: TaxView, period: Span): TaxAmount[] {
  const order: readonly string[] = [
    ...CATEGORIES,
    ...Object.keys(view.book.studio.categories ?? {}),
  ];
  const rank = ({ counts }: TaxAmount): number => {
    const at = order.indexOf(counts);
    return at < 0 ? order.length : at;
  };
  const driven = drivenByRate(view, period);
  const amounts = spentIn(view, period)
    .filter((spent) => !driven || spent.for !== CAR)
    .map((spent) => ({
      item: `expense.${spent.for}`,
      counts: amountOfCategory(spent.for),
      amount: booked(view.book, spent.amount),
      behind: [spent.id],
    }));
  return gathered([...amounts, ...(driven ?? [])]).sort(
    (a, b) => rank(a) - rank(b) || (a.item < b.item ? -1 : 1),
  );
}

/**
 * Expenses that count in a period: paid in it on the cash basis, dated in it on the accrual basis. Sales
 * tax that is paid over is none.
 */
export function spentIn(view: Billed, period: Span): Spent[] {
  const spent = [...recordsDuring(view.book.spent, period)].filter(
    (each) =>
      each.date <= view.asOf &&
      countsIn(view, period, countingDay(view, each)) &&
      !isPaidOver(view.book, each),
  );
  return spent.sort(byDate);
}

const CAR = 'car';

/** Whether the car counts by the rate for its distance, by what the settings say on the year's first day. */
export function isByRate({ studio }: Pick<Book, 'studio'>, yearFrom: Day): boolean {
  return inForce(studio, yearFrom).car === 'mileage';
}

/** What the journeys of a period come to by the rate; undefined where the car counts by what it cost. */
function drivenByRate(view: TaxView, { from, to }: Span): TaxAmount[] | undefined {
  const { yearStarts } = view.book.studio;
  const year = yearOf(from, yearStarts);
  const { from: yearFrom } = yearSpan(year, yearStarts);
  if (!view.sheet || !isByRate(view.book, yearFrom)) return undefined;
  const rate = mileageRate(view.sheet, year);
  if (!rate) return [];
  const { value, behind, brought } = mileageIn(view, { from, to, yearFrom }, rate);
  const driven = { item: 'expense.mileage', counts: CAR, amount: value ?? NO_MONEY, behind };
  return behind.length === 0 ? [] : [brought ? { ...driven, brought } : driven];
}

/** The sheet's unit and rates for the distance driven in a year; no rates where they are another year's. */
export function mileageRate({ mileage, years }: TaxSheet, year: string): TaxSheet['mileage'] {
  if (!mileage || (years?.includes(year) ?? true)) return mileage;
  return { ...mileage, rates: [] };
}

/** Exactly 1.609344 km: NIST Handbook 44, appendix C. */
export const KM_IN_A_MILE = decimal('1.609344');

/** Journeys dated in the period, paid or not, by date. */
function journeysIn(view: TaxView, period: Span): Spent[] {
  return recordsDated(view.book.spent, period)
    .filter(({ date, distance }) => distance !== undefined && date <= view.asOf)
    .sort(byDate);
}

/** How far was driven up to the end of each journey, in miles or kilometres. */
function* runningDistances(
  journeys: readonly Spent[],
  unit: 'mi' | 'km',
): Generator<readonly [id: string, distance: Decimal]> {
  let [km, miles] = [ZERO, ZERO];
  for (const journey of journeys) {
    km = km.plus(saidIn(journey, 'km'));
    miles = miles.plus(saidIn(journey, 'mi'));
    yield [journey.id, inUnit(km, miles, unit)];
  }
}

function saidIn({ distance = '' }: Spent, unit: string): Decimal {
  const [number = '', said] = distance.split(' ');
  return said === unit ? decimal(number) : ZERO;
}

function inUnit(km: Decimal, miles: Decimal, unit: 'mi' | 'km'): Decimal {
  if (unit === 'km') return km.plus(miles.times(KM_IN_A_MILE));
  return miles.plus(divide(km, KM_IN_A_MILE));
}

/**
 * What a year's distance comes to by the sheet's rates, rounded half up to the minor unit: each rate
 * for the part of the distance up to its end.
 */
function mileageValue(
  distance: Decimal,
  rates: readonly MileageRate[],
  minorDigits: number,
): Money {
  let from = ZERO;
  let value = ZERO;
  for (const { upTo, rate } of rates) {
    const end = upTo?.lt(distance) ? upTo : distance;
    if (end.gt(from)) value = value.plus(end.minus(from).times(rate));
    from = upTo ?? distance;
  }
  return roundedMoney(value, minorDigits);
}

/** Distance and its value over a stretch of a business year, and from the year's start to its end. */
export interface Mileage {
  readonly distance: Decimal;
  readonly distanceToDate: Decimal;
  /** Undefined without a rate. */
  readonly value: Money | undefined;
  readonly valueToDate: Money | undefined;
  readonly behind: readonly string[];
  readonly behindToDate: readonly string[];
  /** What each journey brings to the value: what it grows by, in the order of the journeys. */
  readonly brought: Brought | undefined;
  readonly broughtToDate: Brought | undefined;
}

/**
 * The journeys of a period that lies in the year that starts on `yearFrom`; rates run over the year.
 * Without rates the distance has no value.
 */
export function mileageIn(
  view: TaxView,
  { from, to, yearFrom }: Span & { readonly yearFrom: string },
  { unit, rates }: NonNullable<TaxSheet['mileage']>,
): Mileage {
  const journeys = journeysIn(view, { from: yearFrom, to });
  const run = [...runningDistances(journeys, unit)];
  const earlier = journeys.filter(({ date }) => date < from).length;
  const distanceToDate = run.at(-1)?.[1] ?? ZERO;
  const ids = journeys.map(({ id }) => id);
  const driven = {
    distance: distanceToDate.minus(run[earlier - 1]?.[1] ?? ZERO),
    distanceToDate,
    behind: ids.slice(earlier),
    behindToDate: ids,
  };
  if (rates.length === 0) return { ...driven, ...keyed(VALUES, () => undefined) };
  const valued = (distance: Decimal): Money => mileageValue(distance, rates, digitsOf(view.book));
  const broughtToDate = broughtInTurn(run, valued);
  const brought = new Map([...broughtToDate].slice(earlier));
  return {
    ...driven,
    ...{ brought, broughtToDate },
    value: total(brought.values()),
    valueToDate: total(broughtToDate.values()),
  };
}

const VALUES = ['value', 'valueToDate', 'brought', 'broughtToDate'] as const;
