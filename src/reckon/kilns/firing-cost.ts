/** What a firing cost: energy, wear, supplies and labour, and each load line's share by kiln space. */
import type {
  Book,
  Day,
  Firing,
  FiringKind,
  LoadLine,
  NamedBook,
  Product,
  Tariff,
  WearPart,
} from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { ONE, ZERO, decimal, divide, integersOf, type Decimal } from '../../number/decimal.ts';
import { NO_MONEY, roundedMoney, total, type Money } from '../../number/money.ts';
import { digitsOf, rounded } from '../booked.ts';
import { shareCost, totalOf, type Cost } from '../costs/cost.ts';
import { energyCost, energyOf, tariffWithoutBands, type EnergyUse } from './energy.ts';
import type { FiringDraws } from './firing-draws.ts';

/** The cost of one firing. */
export interface FiringCost {
  readonly firing: Firing;
  /** Pieces in, with those of classes and customers. */
  readonly pieces: number;
  readonly energy: EnergyUse | undefined;
  /** Bought energy or fuel by the tariff; undefined where it isn't known. */
  readonly energyCost: Money | undefined;
  /** Fuel drawn from stock, at its stock cost. */
  readonly fuelCost: Money;
  /** Whichever of the two it was; undefined where what it cost isn't known. */
  readonly energyOrFuelCost: Money | undefined;
  /** The tariff whose plain price was taken for want of a start or hours, though it has bands. */
  readonly withoutBands: Tariff | undefined;
  readonly wearCost: Money;
  readonly suppliesCost: Money;
  readonly labourCost: Money;
  readonly total: Money;
  /** What each load line bears, by the space that it takes; in the load's order. */
  readonly shares: readonly Cost[];
}

/**
 * Cost of one firing: energy by the tariff of its day (or fuel at stock cost), wear of every part
 * fitted that day, supplies at stock cost, and tended hours at the studio's labour rate. Each is rounded
 * once, and shared over the load by kiln space, by largest remainder.
 */
export function firingCost(book: Book, drawn: FiringDraws, firing: Firing): FiringCost {
  const kiln = book.kilns.get(firing.kiln);
  const energy = energyOf(firing, kiln);
  const bought = energy && !isFromStock(firing) ? energyCost(book, firing, energy) : undefined;
  const { fuel = NO_MONEY, supplies } = drawn;
  const wear = wearOf(kiln?.wear ?? [], firing.date, digitsOf(book));
  const { labourRate = ZERO } = inForce(book.studio, firing.date);
  const labour = rounded(book, (firing.tended ?? ZERO).times(labourRate));
  const whole = { energy: bought ?? NO_MONEY, fuel, wear, supplies, labour };
  return {
    firing,
    pieces: firing.load.reduce((count, line) => count + line.in, 0),
    energy,
    energyCost: bought,
    fuelCost: fuel,
    energyOrFuelCost: bought ?? drawn.fuel,
    withoutBands: bought === undefined ? undefined : tariffWithoutBands(book, firing),
    wearCost: wear,
    suppliesCost: supplies,
    labourCost: labour,
    total: totalOf(whole),
    shares: sharesOf(book, firing, whole),
  };
}

/**
 * Wear of one firing: cost ÷ firings that the part lasts, each rounded by itself and so the same at
 * every firing, over the parts fitted that day (the units-of-production method: OpenStax, Principles of
 * Accounting, vol. 1, section 11.3, without a salvage value). A part wears from the day it is fitted to
 * the day before it is replaced.
 */
export function wearOf(parts: readonly WearPart[], day: Day, digits: number): Money {
  const fitted = parts.filter(
    (part) =>
      (part.fitted === undefined || part.fitted <= day) &&
      (part.replaced === undefined || day < part.replaced),
  );
  const lasting = fitted.filter((part) => part.firings.gt(ZERO));
  return total(lasting.map((part) => roundedMoney(divide(part.cost, part.firings), digits)));
}

/** By pieces in × space of one. */
function sharesOf(book: Book, firing: Firing, whole: Cost): Cost[] {
  return shareCost(whole, integersOf(firing.load.map((line) => spaceOf(book, firing, line))));
}

/** Kiln space of one load line: pieces in × the line's, else the product's space of one, else 1. */
export function spaceOf(book: NamedBook, { kind }: Pick<Firing, 'kind'>, line: LoadLine): Decimal {
  const lot = line.lot === undefined ? undefined : book.pieces.get(line.lot);
  const product = lot && inForce(book.products.get(lot.product), lot.date);
  return (line.space ?? spaceOfOne(product, kind)).times(decimal(line.in));
}

/** Kiln space of one piece in a kind of firing: in a bisque ware may be stacked. */
export function spaceOfOne(product: Product | undefined, kind: FiringKind): Decimal {
  const { space = ONE, bisqueSpace = space } = product ?? {};
  return kind === 'bisque' ? bisqueSpace : space;
}

function isFromStock(firing: Firing): boolean {
  return firing.fuelUsed !== undefined && 'material' in firing.fuelUsed;
}
