/** A pool of one material or glaze: its quantity and its value, by moving average or first bought, first used. */
import { ZERO, divide, portion, roundTo, type Decimal } from '../number/decimal.ts';

export type Valuing = 'average' | 'first-in';

interface Layer {
  quantity: Decimal;
  value: Decimal;
}

/** A layer with the cost of one unit of it, reckoned once for all that is drawn until more is added. */
interface StockLayer extends Layer {
  unitCost: Decimal;
}

/**
 * Quantity and value are both kept and a unit cost never is, so no rounding of a unit cost can leak
 * (as in the perpetual methods of OpenStax, Principles of Accounting, vol. 1, section 10.3).
 * A moving average is the case of one layer that every addition is merged into.
 */
export interface Pool {
  readonly valuing: Valuing;
  readonly layers: StockLayer[];
  /** What was drawn beyond the stock, at the last known unit cost; it is settled by what comes in next. */
  readonly owed: Layer;
  lastUnitCost: Decimal;
}

/** An empty pool. */
export function emptyPool(valuing: Valuing): Pool {
  const owed = { quantity: ZERO, value: ZERO };
  return { valuing, layers: [], owed, lastUnitCost: ZERO };
}

/** What is in the pool; negative where more was drawn than there was. */
export function quantityOf(pool: Pool): Decimal {
  return pool.layers.reduce((sum, layer) => sum.plus(layer.quantity), pool.owed.quantity.neg());
}

/** The pool's value in money; negative where more was drawn than there was. */
export function valueOf(pool: Pool): Decimal {
  return pool.layers.reduce((sum, layer) => sum.plus(layer.value), pool.owed.value.neg());
}

/** Cost of one unit now: of the newest layer, or the last known one when the pool is empty. */
export function unitCostOf(pool: Pool): Decimal {
  const newest = pool.layers.at(-1);
  return newest?.unitCost ?? pool.lastUnitCost;
}

/**
 * Puts a quantity of that value in. Returns how much more than thought had been drawn in money, when a
 * shortage is settled by it: zero otherwise.
 */
export function putIn(pool: Pool, quantity: Decimal, value: Decimal): Decimal {
  if (!quantity.isPositive() || quantity.isZero()) return value;
  const covered = smaller(quantity, pool.owed.quantity);
  const coveredValue = portion(value, covered, quantity);
  const thought = forgive(pool, covered);
  addLayer(pool, quantity.minus(covered), value.minus(coveredValue));
  if (covered.eq(quantity)) pool.lastUnitCost = divide(value, quantity);
  return coveredValue.minus(thought);
}

/**
 * Draws a quantity. Returns its value and how much of it the pool did not have; the shortage carries
 * the last known unit cost.
 */
export function takeOut(pool: Pool, quantity: Decimal): { value: Decimal; short: Decimal } {
  let left = quantity;
  let value = ZERO;
  for (let layer = pool.layers[0]; layer && left.gt(ZERO); layer = pool.layers[0]) {
    const taken = smaller(left, layer.quantity);
    value = added(value, takeFromFirst(pool, layer, taken));
    left = left.minus(taken);
  }
  return { value: added(value, owe(pool, left)), short: left };
}

/** Sets the quantity to what was counted. Returns the difference to the book in quantity and value. */
export function countTo(pool: Pool, counted: Decimal): Layer {
  const difference = counted.minus(quantityOf(pool));
  if (difference.lt(ZERO)) {
    return { quantity: difference, value: takeOut(pool, difference.neg()).value.neg() };
  }
  const unitCost = unitCostOf(pool);
  const covered = smaller(difference, pool.owed.quantity);
  const forgiven = forgive(pool, covered);
  const found = difference.minus(covered);
  const foundValue = roundTo(found.times(unitCost), 24);
  addLayer(pool, found, foundValue);
  return { quantity: difference, value: forgiven.plus(foundValue) };
}

function takeFromFirst(pool: Pool, layer: StockLayer, taken: Decimal): Decimal {
  if (taken.eq(layer.quantity)) {
    pool.lastUnitCost = layer.unitCost;
    pool.layers.shift();
    return layer.value;
  }
  const value = costAt(layer.unitCost, taken);
  layer.quantity = layer.quantity.minus(taken);
  if (!value.isZero()) layer.value = layer.value.minus(value);
  return value;
}

function owe(pool: Pool, quantity: Decimal): Decimal {
  if (quantity.isZero()) return ZERO;
  const value = costAt(pool.lastUnitCost, quantity);
  pool.owed.quantity = pool.owed.quantity.plus(quantity);
  pool.owed.value = pool.owed.value.plus(value);
  return value;
}

/** Takes a quantity off what is owed and returns the value that it was thought to have. */
function forgive(pool: Pool, quantity: Decimal): Decimal {
  if (quantity.isZero()) return ZERO;
  const { owed } = pool;
  const value = portion(owed.value, quantity, owed.quantity);
  owed.quantity = owed.quantity.minus(quantity);
  owed.value = owed.value.minus(value);
  return value;
}

function addLayer(pool: Pool, quantity: Decimal, value: Decimal): void {
  if (quantity.isZero()) return;
  const only = pool.layers[0];
  if (pool.valuing === 'first-in' || !only) {
    pool.layers.push({ quantity, value, unitCost: unitCost(value, quantity) });
    return;
  }
  only.quantity = only.quantity.plus(quantity);
  only.value = only.value.plus(value);
  only.unitCost = unitCost(only.value, only.quantity);
}

function unitCost(value: Decimal, quantity: Decimal): Decimal {
  return value.isZero() ? ZERO : divide(value, quantity);
}

/** What so much costs, rounded to 24 decimals; goods without cost are common enough to ask first. */
function costAt(unit: Decimal, quantity: Decimal): Decimal {
  return unit.isZero() ? ZERO : roundTo(quantity.times(unit), 24);
}

/** A sum, for values of which one is often nothing. */
function added(a: Decimal, b: Decimal): Decimal {
  if (b.isZero()) return a;
  return a.isZero() ? b : a.plus(b);
}

function smaller(a: Decimal, b: Decimal): Decimal {
  return a.lt(b) ? a : b;
}
