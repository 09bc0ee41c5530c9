/** Mileage in the order of the journeys (rule 25): what the distance to date is worth, less what was booked. */
import type { Book, Day } from '../../src/book.ts';
import { byCodeUnits } from './days.ts';
import { NOTHING, R, exact, least, minus, over, plus, times, type Fraction } from './fraction.ts';
import { minorUnits } from './money.ts';

/** The tax sheet's rates: up to so far in a year this much, and so on. */
export interface MileageRates {
  readonly unit: 'mi' | 'km';
  readonly rates: readonly { readonly upTo?: string; readonly rate: string }[];
}

const KM_IN_MILE = exact('1.609344');

/** Id of the expense → what its journey is worth. */
export function mileage(book: Book, asOf: Day, rates: MileageRates): Map<string, bigint> {
  const journeys = [...book.spent.values()].filter((one) => one.distance && one.date <= asOf);
  journeys.sort((a, b) => byCodeUnits(a.date, b.date) || byCodeUnits(a.id, b.id));
  const driven = new Map<string, Fraction>();
  return new Map(
    journeys.map(({ id, date, distance = '' }) => {
      const year = yearOf(date, book.studio.yearStarts ?? '01-01');
      const before = driven.get(year) ?? NOTHING;
      const after = plus(before, distanceIn(distance, rates.unit));
      driven.set(year, after);
      return [id, worth(book, after, rates) - worth(book, before, rates)];
    }),
  );
}

function yearOf(date: Day, starts: string): string {
  const year = Number(date.slice(0, 4));
  return String(date.slice(5) >= starts ? year : year - 1);
}

function distanceIn(text: string, unit: 'mi' | 'km'): Fraction {
  const [number = '0', written] = text.split(' ');
  if (written === unit) return exact(number);
  return unit === 'km' ? times(exact(number), KM_IN_MILE) : over(exact(number), KM_IN_MILE);
}

function worth(book: Book, distance: Fraction, { rates }: MileageRates): bigint {
  let from = NOTHING;
  let sum = NOTHING;
  for (const { upTo, rate } of rates) {
    const to = upTo === undefined ? distance : least(distance, exact(upTo));
    sum = plus(sum, times(minus(to, from), exact(rate)));
    from = to;
  }
  return R(times(sum, minorUnits(book)));
}
