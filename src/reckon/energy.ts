/** What a firing's energy or fuel was and what it cost by the tariff of that day. */
import type { Book, Day, Firing, Fuel, Kiln, NamedBook, Tariff } from '../book.ts';
import { ONE, divide, timesQuotient, type Decimal, type Quotient } from '../number/decimal.ts';
import type { Money } from '../number/money.ts';
import { ratioIn, type Quantity, type Unit } from '../number/unit.ts';
import { isTimed, priceOverHours } from './bands.ts';
import { rounded } from './booked.ts';

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
