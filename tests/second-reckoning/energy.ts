/** What a firing's energy cost by the tariff of its day (rule 13): the bands' sum, rounded once. */
import type { Book, Firing, Kiln, Tariff } from '../../src/book.ts';
import type { TariffBand } from '../../src/definitions.ts';
import type { Quantity, Unit } from '../../src/number/unit.ts';
import { byCodeUnits, daysAfter, weekday } from './days.ts';
import { R, exact, count, minus, over, plus, times, NOTHING, type Fraction } from './fraction.ts';
import { priceIn } from './money.ts';
import { inUnit, measureOf, sizeOf } from './units.ts';

export interface EnergyCost {
  readonly cost: bigint;
  readonly known: boolean;
  readonly estimated: boolean;
}

const UNKNOWN: EnergyCost = { cost: 0n, known: false, estimated: false };

/** So much of a unit, exactly. */
interface Amount {
  readonly value: Fraction;
  readonly unit: Unit;
}

export function energyOf(book: Book, firing: Firing): EnergyCost {
  if (firing.fuelUsed && 'material' in firing.fuelUsed) return { ...UNKNOWN, known: true };
  const kiln = book.kilns.get(firing.kiln);
  const tariff = kiln && tariffOf(book, kiln, firing);
  const stated = statedEnergy(firing);
  const amount = stated ?? (kiln && estimate(kiln, firing));
  const quantity = tariff && amount && inTariffUnit(amount, kiln, tariff);
  if (!quantity) return UNKNOWN;
  const cost = R(times(quantity, meanPrice(book, firing, tariff)));
  return { cost, known: true, estimated: stated === undefined };
}

/** The tariff of the kiln's fuel that is in force on the day. */
function tariffOf(book: Book, { fuel }: Kiln, { date }: Firing): Tariff | undefined {
  const begun = [...book.tariffs.values()].filter((one) => one.fuel === fuel && one.from <= date);
  return begun.sort((a, b) => byCodeUnits(a.from, b.from)).at(-1);
}

function statedEnergy({ energy, meter, fuelUsed }: Firing): Amount | undefined {
  if (energy) return amountOf(energy);
  if (meter) return { value: minus(exact(meter.after), exact(meter.before)), unit: 'kWh' };
  return fuelUsed && 'unit' in fuelUsed ? amountOf(fuelUsed) : undefined;
}

function amountOf({ value, unit }: Quantity): Amount {
  return { value: exact(value), unit };
}

/** Power × hours × duty. */
function estimate(kiln: Kiln, { kind, hours }: Firing): Amount | undefined {
  const duty = kiln.duty?.[kind];
  if (!kiln.power || !duty || !hours) return undefined;
  return { value: times(times(exact(kiln.power), exact(duty)), exact(hours)), unit: 'kWh' };
}

/** Gas and energy are turned into each other by the kiln's heat content alone. */
function inTariffUnit(amount: Amount, kiln: Kiln, { per }: Tariff): Fraction | undefined {
  const base = times(amount.value, sizeOf(amount.unit));
  const [from, to] = [measureOf(amount.unit), measureOf(per)];
  if (from === to) return inUnit(base, per);
  const heat = kiln.heatContent;
  if (!heat) return undefined;
  // Joules in a cubic metre.
  const joules = over(times(exact(heat.value), sizeOf(heat.energy)), sizeOf(heat.per));
  if (from === 'gas' && to === 'energy') return inUnit(times(base, joules), per);
  if (from === 'energy' && to === 'gas') return inUnit(over(base, joules), per);
  return undefined;
}

const DAY = 1440;
const WEEK = 7 * DAY;

/** The price of a unit, evenly over the minutes of the firing. */
function meanPrice(book: Book, firing: Firing, tariff: Tariff): Fraction {
  const plain = priceIn(book, tariff.price);
  const { started, hours } = firing;
  if (!tariff.bands || started === undefined || !hours || exact(hours).top === 0n) return plain;
  const prices = weekOfPrices(book, tariff, firing.date);
  const length = times(exact(hours), count(60));
  return over(pricesOver(prices, minutesOf(started), length), length);
}

function minutesOf(time: string): number {
  const [hours = '0', minutes = '0'] = time.split(':');
  return Number(hours) * 60 + Number(minutes);
}

/** The price in each minute of the seven days that begin with a day; of two bands the first counts. */
function weekOfPrices(book: Book, tariff: Tariff, first: string): Fraction[] {
  const prices = Array.from({ length: WEEK }, () => priceIn(book, tariff.price));
  for (const band of [...(tariff.bands ?? [])].reverse()) {
    const price = priceIn(book, band.price);
    for (const minute of minutesIn(band, first)) prices[minute % WEEK] = price;
  }
  return prices;
}

function minutesIn({ hours, days }: TariffBand, first: string): number[] {
  const [from = 0, to = 0] = hours.split('-').map(minutesOf);
  const length = to > from ? to - from : to + DAY - from;
  const begun = Array.from({ length: 7 }, (_, day) => day).filter(
    (day) => days === undefined || days.includes(weekday(daysAfter(first, day))),
  );
  return begun.flatMap((day) => Array.from({ length }, (_, minute) => day * DAY + from + minute));
}

/** The sum of price × minutes from a minute on. */
function pricesOver(prices: readonly Fraction[], start: number, length: Fraction): Fraction {
  const minutes = length.top / length.bottom;
  const weeks = minutes / BigInt(WEEK);
  const rest = Number(minutes % BigInt(WEEK));
  const at = (minute: number): Fraction => prices[(start + minute) % WEEK] ?? NOTHING;
  const some = (many: number): Fraction =>
    Array.from({ length: many }, (_, minute) => at(minute)).reduce(plus, NOTHING);
  const part = minus(length, { top: minutes, bottom: 1n });
  const whole = weeks === 0n ? NOTHING : times({ top: weeks, bottom: 1n }, some(WEEK));
  return plus(plus(whole, some(rest)), times(at(rest), part));
}
