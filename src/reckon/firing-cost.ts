/** What a firing cost: energy, wear, supplies and labour, and each load line's share by kiln space. */
import type { Book, Day, Firing, LoadLine, WearPart } from '../book.ts';
import { ONE, ZERO, decimal, divide, portions, sum, type Decimal } from '../number/decimal.ts';
import { energyCost, energyOf, type EnergyUse } from './energy.ts';
import type { StockFlow } from './stock-flow.ts';

/** The cost of one firing; every figure in money, exact. */
export interface FiringCost {
  readonly firing: Firing;
  /** Pieces in, with those of classes and customers. */
  readonly pieces: number;
  readonly energy: EnergyUse | undefined;
  /** Bought energy or fuel by the tariff; undefined where it isn't known. */
  readonly energyCost: Decimal | undefined;
  /** Fuel drawn from stock, at its stock cost. */
  readonly fuelCost: Decimal;
  readonly wearCost: Decimal;
  readonly suppliesCost: Decimal;
  readonly labourCost: Decimal;
  readonly total: Decimal;
  /** Total ÷ pieces in; undefined for an empty kiln. */
  readonly perPiece: Decimal | undefined;
}

/** The part of a firing's cost that one load line bears. */
export interface FiringShare {
  readonly energy: Decimal;
  readonly fuel: Decimal;
  readonly wear: Decimal;
  readonly supplies: Decimal;
  readonly labour: Decimal;
}

/**
 * Cost of one firing: energy by the tariff of its day (or fuel at stock cost), wear of every part
 * fitted that day, supplies at stock cost, and tended hours at the studio's labour rate.
 */
export function firingCost(book: Book, stock: StockFlow, firing: Firing): FiringCost {
  const energy = energyOf(firing, book.kilns.get(firing.kiln));
  const fuelCost = stock.fuel.get(firing.id) ?? ZERO;
  const bought = energy && !isFromStock(firing) ? energyCost(book, firing, energy) : undefined;
  const wearCost = wearOf(book.kilns.get(firing.kiln)?.wear ?? [], firing.date);
  const suppliesCost = stock.supplies.get(firing.id) ?? ZERO;
  const labourCost = (firing.tended ?? ZERO).times(book.studio.labourRate ?? ZERO);
  const total = sum([bought ?? ZERO, fuelCost, wearCost, suppliesCost, labourCost]);
  const pieces = firing.load.reduce((count, line) => count + line.in, 0);
  const perPiece = pieces === 0 ? undefined : divide(total, decimal(pieces));
  const costs = { energyCost: bought, fuelCost, wearCost, suppliesCost, labourCost };
  return { firing, pieces, energy, ...costs, total, perPiece };
}

/**
 * Wear of one firing: cost ÷ firings that the part lasts, over the parts fitted that day (the
 * units-of-production method: OpenStax, Principles of Accounting, vol. 1, section 11.3, without a
 * salvage value). A part wears from the day it is fitted to the day before it is replaced.
 */
export function wearOf(parts: readonly WearPart[], day: Day): Decimal {
  const fitted = parts.filter(
    (part) =>
      (part.fitted === undefined || part.fitted <= day) &&
      (part.replaced === undefined || day < part.replaced),
  );
  const lasting = fitted.filter((part) => part.firings.gt(ZERO));
  return sum(lasting.map((part) => divide(part.cost, part.firings)));
}

/** Each load line's share of the cost by the space that it takes: pieces in × space of one. */
export function firingShares(book: Book, cost: FiringCost): FiringShare[] {
  const spaces = cost.firing.load.map((line) => spaceOf(book, line));
  const energy = portions(cost.energyCost ?? ZERO, spaces);
  const fuel = portions(cost.fuelCost, spaces);
  const wear = portions(cost.wearCost, spaces);
  const supplies = portions(cost.suppliesCost, spaces);
  const labour = portions(cost.labourCost, spaces);
  return spaces.map((_, index) => ({
    energy: energy[index] ?? ZERO,
    fuel: fuel[index] ?? ZERO,
    wear: wear[index] ?? ZERO,
    supplies: supplies[index] ?? ZERO,
    labour: labour[index] ?? ZERO,
  }));
}

/** Kiln space of one load line: pieces in × the line's, else the product's space of one, else 1. */
export function spaceOf(book: Book, line: LoadLine): Decimal {
  const lot = line.lot === undefined ? undefined : book.pieces.get(line.lot);
  const product = lot && book.products.get(lot.product);
  return (line.space ?? product?.space ?? ONE).times(decimal(line.in));
}

function isFromStock(firing: Firing): boolean {
  return firing.fuelUsed !== undefined && 'material' in firing.fuelUsed;
}
