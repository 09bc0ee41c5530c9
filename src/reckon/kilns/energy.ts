/** What a firing's energy or fuel was and what it cost by the tariff of that day. */
import type { Book, Day, Firing, Fuel, Kiln, NamedBook, Tariff, TariffBand } from '../../book.ts';
import {
  type Decimal,
  ONE,
  type Quotient,
  ZERO,
  decimal,
  divide,
  roundTo,
  sum,
  timesQuotient,
} from '../../number/decimal.ts';
import type { Money } from '../../number/money.ts';
import { type Quantity, type Unit, ratioIn } from '../../number/unit.ts';
import { rounded } from '../booked.ts';
import { addDays, minutesOf, weekdayOf } from '../../number/date.ts';

/** Energy or fuel of one firing. */
export interface EnergyUse {
  readonly value: Decimal;
  readonly unit: Unit;
  /** True where it was not measured but reckoned from power, hours and duty. */
  readonly estimated: boolean;
}

/**
 * Energy of a firing: as stated, else the meter's difference, else the fuel drawn, else rated power ×
 * hours × duty of that kind of firing, in kWh and marked estimated. Undefined where none is known.
 */
export function energyOf(firing: Firing, kiln: Kiln | undefined): EnergyUse | undefined {
  const measured = firing.energy ?? metered(firing) ?? fuelOf(firing);
  if (measured) return { value: measured.value, unit: measured.unit, estimated: false };
  const duty = kiln?.duty?.[firing.kind];
  if (!kiln?.power || !firing.hours || !duty) return undefined;
  const value = kiln.power.times(firing.hours).times(duty);
  return { value, unit: 'kWh', estimated: true };
}

/** The tariff for that fuel in force on that day: the last one that began on it or before. */
export function tariffOn(book: Pick<Book, 'tariffs'>, fuel: Fuel, day: Day): Tariff | undefined {
  const begun = [...book.tariffs.values()].filter(
    (tariff) => tariff.fuel === fuel && tariff.from <= day,
  );
  return begun.reduce<Tariff | undefined>(
    (latest, tariff) => (latest && isLater(latest, tariff) ? latest : tariff),
    undefined,
  );
}

/**
 * Cost of the energy, rounded once: energy in the tariff's unit × its price; where the tariff has
 * bands and the firing a start and hours, the energy is spread evenly over the hours. Undefined where
 * there is no tariff or the units don't convert.
 */
export function energyCost(
  book: NamedBook & Pick<Book, 'tariffs'>,
  firing: Firing,
  use: EnergyUse,
): Money | undefined {
  const kiln = book.kilns.get(firing.kiln);
  const tariff = kiln && tariffOn(book, kiln.fuel, firing.date);
  if (!tariff) return undefined;
  const quantity = inTariffUnit(use, tariff, kiln);
  const cost = quantity && timesQuotient(quantity, priceOverHours(firing, tariff));
  return cost && rounded(book, divide(cost.top, cost.bottom));
}

/** The tariff of a firing where it has bands, but the firing no start or hours to go by them. */
export function tariffWithoutBands(book: Book, firing: Firing): Tariff | undefined {
  const kiln = book.kilns.get(firing.kiln);
  const tariff = kiln && tariffOn(book, kiln.fuel, firing.date);
  return tariff?.bands?.length && !isTimed(firing) ? tariff : undefined;
}

function isLater(one: Tariff, other: Tariff): boolean {
  return one.from === other.from ? one.id > other.id : one.from > other.from;
}

function metered(firing: Firing): Pick<Quantity, 'value' | 'unit'> | undefined {
  const { meter } = firing;
  return meter && { value: meter.after.minus(meter.before), unit: 'kWh' };
}

function fuelOf(firing: Firing): Quantity | undefined {
  const { fuelUsed } = firing;
  if (!fuelUsed) return undefined;
  return 'material' in fuelUsed ? fuelUsed.quantity : fuelUsed;
}

function inTariffUnit(use: EnergyUse, tariff: Tariff, kiln: Kiln): Quotient | undefined {
  const { heatContent } = kiln;
  const straight = ratioIn(use.value, use.unit, tariff.per);
  if (straight || !heatContent) return straight;
  const { value: heat, energy, per } = heatContent;
  const gas = ratioIn(use.value, use.unit, per);
  if (gas) return through(gas, { top: heat, bottom: ONE }, ratioIn(ONE, energy, tariff.per));
  const burnt = ratioIn(use.value, use.unit, energy);
  return burnt && through(burnt, { top: ONE, bottom: heat }, ratioIn(ONE, per, tariff.per));
}

function through(
  amount: Quotient,
  heat: Quotient,
  unit: Quotient | undefined,
): Quotient | undefined {
  return unit && timesQuotient(timesQuotient(amount, heat), unit);
}

const MINUTE = 60;
const SECONDS_A_DAY = 24 * 60 * MINUTE;
const WEEK = 7 * SECONDS_A_DAY;

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
function priceOverHours(firing: Firing, tariff: Tariff): Quotient {
  const fired = firedStretch(firing);
  if (!fired || !tariff.bands) return { top: tariff.price, bottom: ONE };
  const { from, to } = fired;
  const weeks = Math.floor((to - from) / WEEK);
  const week = weeks === 0 ? ZERO : costOver(firing.date, tariff, { from, to: from + WEEK });
  const rest = costOver(firing.date, tariff, { from, to: to - weeks * WEEK });
  return { top: week.times(decimal(weeks)).plus(rest), bottom: decimal(to - from) };
}

/** Whether it is known when a firing drew its energy. */
function isTimed(firing: Firing): boolean {
  return firedStretch(firing) !== undefined;
}

/** Price × seconds. Bands come again every week, so nobody has to go through more than one. */
function costOver(date: Day, tariff: Tariff, time: Stretch): Decimal {
  const stretches = bandStretches(tariff.bands ?? [], date, time);
  const costs = cutAtEdges(time, stretches).map((piece) => {
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
  const last = Math.floor(fired.to / SECONDS_A_DAY);
  const days = Array.from({ length: last + 2 }, (_, index) => index - 1);
  const weekdays = days.map((day) => weekdayOf(addDays(date, day)));
  return bands.flatMap((band) => {
    const { from, length } = hoursOf(band);
    return days.flatMap((day, at) => {
      if (band.days && !band.days.includes(weekdays[at] ?? 'mon')) return [];
      return { band, from: day * SECONDS_A_DAY + from, to: day * SECONDS_A_DAY + from + length };
    });
  });
}

/** When a band begins after midnight, and how long it holds. */
function hoursOf(band: TariffBand): { from: number; length: number } {
  const [start = '', end = ''] = band.hours.split('-');
  const from = minutesOf(start) * MINUTE;
  const length = minutesOf(end) * MINUTE - from;
  return { from, length: length > 0 ? length : length + SECONDS_A_DAY };
}

/** The firing cut at every edge of a band, so that each piece has one price. */
function cutAtEdges(fired: Stretch, stretches: readonly Stretch[]): Stretch[] {
  const inside = stretches
    .flatMap((stretch) => [stretch.from, stretch.to])
    .filter((edge) => edge > fired.from && edge < fired.to);
  const edges = [...new Set([fired.from, ...inside, fired.to])].sort((a, b) => a - b);
  return edges.slice(1).map((to, index) => ({ from: edges[index] ?? to, to }));
}
