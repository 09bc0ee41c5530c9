/** The price of energy that is drawn evenly over some hours, part of them in dearer or cheaper bands. */
import type { Day, Firing, Tariff, TariffBand } from '../book.ts';
import {
  ONE,
  ZERO,
  decimal,
  roundTo,
  sum,
  type Decimal,
  type Quotient,
} from '../number/decimal.ts';
import { addDays, minutesOf, weekdayOf } from '../number/date.ts';

const MINUTE = 60;
const DAY = 24 * 60 * MINUTE;
const WEEK = 7 * DAY;

/** A stretch of time in seconds from midnight of the firing's day. */
interface Stretch {
  readonly from: number;
  readonly to: number;
}

interface BandStretch extends Stretch {
  readonly band: TariffBand;
}

/**
 * Price of one unit of energy in money, as a ratio: the mean of the prices over the firing's hours,
 * weighted by time to the second. Without bands, start or hours it is the tariff's price. Where bands overlap, the
 * one that is named first holds.
 */
export function priceOverHours(firing: Firing, tariff: Tariff): Quotient {
  const fired = firedStretch(firing);
  if (!fired || !tariff.bands) return { top: tariff.price, bottom: ONE };
  const { from, to } = fired;
  const weeks = Math.floor((to - from) / WEEK);
  const week = weeks === 0 ? ZERO : costOver(firing.date, tariff, { from, to: from + WEEK });
  const rest = costOver(firing.date, tariff, { from, to: to - weeks * WEEK });
  return { top: week.times(decimal(weeks)).plus(rest), bottom: decimal(to - from) };
}

/** Whether it is known when a firing drew its energy. */
export function isTimed(firing: Firing): boolean {
  return firedStretch(firing) !== undefined;
}

/** Price × seconds. Bands come again every week, so nobody has to go through more than one. */
function costOver(date: Day, tariff: Tariff, time: Stretch): Decimal {
  const stretches = bandStretches(tariff.bands ?? [], date, time);
  const costs = pieces(time, stretches).map((piece) => {
    const band = stretches.find((stretch) => stretch.from <= piece.from && piece.to <= stretch.to);
    return (band?.band.price ?? tariff.price).times(decimal(piece.to - piece.from));
  });
  return sum(costs);
}

function firedStretch(firing: Firing): Stretch | undefined {
  if (firing.started === undefined || !firing.hours) return undefined;
  const from = minutesOf(firing.started) * MINUTE;
  const length = roundTo(firing.hours.times(decimal(60 * MINUTE)), 0).toNumber();
  return length > 0 ? { from, to: from + length } : undefined;
}

/** Every band on every day that the firing touches, and on the day before for bands over midnight. */
function bandStretches(bands: readonly TariffBand[], date: Day, fired: Stretch): BandStretch[] {
  const last = Math.floor(fired.to / DAY);
  const days = Array.from({ length: last + 2 }, (_, index) => index - 1);
  const weekdays = days.map((day) => weekdayOf(addDays(date, day)));
  return bands.flatMap((band) => {
    const { from, length } = hoursOf(band);
    return days.flatMap((day, at) => {
      if (band.days && !band.days.includes(weekdays[at] ?? 'mon')) return [];
      return { band, from: day * DAY + from, to: day * DAY + from + length };
    });
  });
}

/** When a band begins after midnight, and how long it holds. */
function hoursOf(band: TariffBand): { from: number; length: number } {
  const [start = '', end = ''] = band.hours.split('-');
  const from = minutesOf(start) * MINUTE;
  const length = minutesOf(end) * MINUTE - from;
  return { from, length: length > 0 ? length : length + DAY };
}

/** The firing cut at every edge of a band, so that each piece has one price. */
function pieces(fired: Stretch, stretches: readonly Stretch[]): Stretch[] {
  const inside = stretches
    .flatMap((stretch) => [stretch.from, stretch.to])
    .filter((edge) => edge > fired.from && edge < fired.to);
  const edges = [...new Set([fired.from, ...inside, fired.to])].sort((a, b) => a - b);
  return edges.slice(1).map((to, index) => ({ from: edges[index] ?? to, to }));
}
