/** A pool of one material or glaze: its quantity and its value, by moving average or first bought, first used. */
import { ZERO, decimal, type Decimal } from '../number/decimal.ts';
import { NO_MONEY, add, less, opposite, portionBy, total, type Money } from '../number/money.ts';

export type Valuing = 'average' | 'first-in';

/** So much of something and what it is worth. */
export interface Worth {
  readonly quantity: Decimal;
  readonly value: Money;
}

/** What came in together, as it was when anything but a draw last changed it, and what is left of it. */
interface Layer extends Worth {
  /** What one unit costs, as a ratio; never of what is left. */
  readonly unitCost: Worth;
  left: Decimal;
  /** The value that went with what is gone. */
  gone: Money;
}

/**
 * Quantity and value are kept and never the cost of one unit, so nothing leaks (the perpetual methods of
 * OpenStax, Principles of Accounting, vol. 1, section 10.3). Quantities are in the base unit. What goes
 * costs a running share: of a layer of value V and quantity Q, d has gone with V × d ÷ Q, rounded once.
 * A moving average is the case of one layer that every addition is merged into.
 */
export interface Pool {
  readonly valuing: Valuing;
  readonly layers: Layer[];
  /** All layers less the gap; negative where more was drawn than there was. */
  onHand: Decimal;
  /** What was drawn beyond the stock; it is settled by what comes in next. */
  gap: Worth;
  /** How much of the gap was drawn since something last came in. */
  beyond: Decimal;
  /** Cost of one unit of what was drawn last, and of what came in last; nothing before anything did. */
  drawnLast: Worth;
  cameLast: Worth;
}

/** What a draw took. */
export interface Drawn extends Worth {
  /** How much of it the pool did not have. */
  readonly short: Decimal;
}

const NONE: Worth = { quantity: ZERO, value: NO_MONEY };

/** A draw that would leave less than this of the base unit takes all. */
const TRACE = decimal('0.000001');

/** An empty pool. */
export function emptyPool(valuing: Valuing): Pool {
  const nothing = { layers: [], onHand: ZERO, beyond: ZERO };
  return { valuing, ...nothing, gap: NONE, drawnLast: NONE, cameLast: NONE };
}

/** What is in the pool, in the base unit; negative where more was drawn than there was. */
export function quantityOf(pool: Pool): Decimal {
  return pool.onHand;
}

/** The pool's value; negative where more was drawn than there was. */
export function valueOf(pool: Pool): Money {
  return less(total(pool.layers.map(valueLeft)), pool.gap.value);
}

/** What so much of what came in last costs, as a ratio: value ÷ quantity. Nothing before anything came. */
export function unitCostOf(pool: Pool): Worth {
  return pool.cameLast;
}

/** What so much costs by a ratio, rounded once. */
export function costAt({ value, quantity }: Worth, wanted: Decimal): Money {
  return value === NO_MONEY ? NO_MONEY : portionBy(value, wanted, quantity);
}

/**
 * Puts a quantity of that value in. What fills a gap leaves like a draw, and of what the gap was costed
 * at the same share comes back. Returns how much more that was worth: nothing where there was no gap.
 */
export function putIn(pool: Pool, quantity: Decimal, value: Money): Money {
  if (!quantity.gt(ZERO)) return value;
  const came = { quantity, value };
  pool.onHand = pool.onHand.plus(quantity);
  if (pool.gap.quantity.isZero()) {
    addLayer(pool, came);
    return NO_MONEY;
  }
  const covered = smaller(quantity, pool.gap.quantity);
  const gone = portionBy(value, covered, quantity);
  const thought = closeGap(pool, covered);
  pool.drawnLast = came;
  pool.cameLast = came;
  const left = quantity.minus(covered);
  if (!left.isZero()) pool.layers.push({ ...came, unitCost: came, left, gone });
  return less(gone, thought);
}

/** Draws a quantity; the shortage carries the unit cost of what was drawn last. */
export function takeOut(pool: Pool, wanted: Decimal): Drawn {
  const after = pool.onHand.minus(wanted);
  const isAll = after.lt(TRACE) && after.abs().lt(TRACE);
  const quantity = isAll ? pool.onHand : wanted;
  pool.onHand = isAll ? ZERO : after;
  let rest = quantity;
  let value = NO_MONEY;
  for (let layer = pool.layers[0]; layer && !rest.isZero(); layer = pool.layers[0]) {
    const left = layer.left.minus(rest);
    const isUsedUp = left.isNegative() || left.isZero();
    value = add(value, isUsedUp ? valueLeft(layer) : takeDown(layer, left));
    pool.drawnLast = layer.unitCost;
    rest = left.isNegative() ? left.neg() : ZERO;
    if (isUsedUp) pool.layers.shift();
  }
  return { quantity, value: add(value, owe(pool, rest)), short: rest };
}

/**
 * Sets the quantity to what was counted. Less is a draw; more comes in at the cost of what came in last,
 * which it does not change. Returns the difference to the book.
 */
export function countTo(pool: Pool, counted: Decimal): Worth {
  const quantity = counted.minus(pool.onHand);
  if (quantity.lt(ZERO)) {
    const drawn = takeOut(pool, quantity.neg());
    return { quantity: drawn.quantity.neg(), value: opposite(drawn.value) };
  }
  const found = quantity.minus(pool.gap.quantity);
  pool.onHand = counted;
  const forgiven = closeGap(pool, pool.gap.quantity);
  const value = costAt(pool.cameLast, found);
  if (found.gt(ZERO)) addFound(pool, { quantity: found, value });
  return { quantity, value: add(forgiven, value) };
}

function valueLeft({ value, gone }: Layer): Money {
  return less(value, gone);
}

/** Takes a layer down to what is left; returns what its running share grows by. */
function takeDown(layer: Layer, left: Decimal): Money {
  layer.left = left;
  if (layer.value === NO_MONEY) return NO_MONEY;
  const before = layer.gone;
  layer.gone = portionBy(layer.value, layer.quantity.minus(left), layer.quantity);
  return less(layer.gone, before);
}

function owe(pool: Pool, quantity: Decimal): Money {
  if (quantity.isZero()) return NO_MONEY;
  const before = costAt(pool.drawnLast, pool.beyond);
  pool.beyond = pool.beyond.plus(quantity);
  const value = less(costAt(pool.drawnLast, pool.beyond), before);
  pool.gap = { quantity: pool.gap.quantity.plus(quantity), value: add(pool.gap.value, value) };
  return value;
}

/** Takes a quantity off the gap and returns what it was costed at. */
function closeGap(pool: Pool, quantity: Decimal): Money {
  const { gap } = pool;
  pool.beyond = ZERO;
  if (quantity.isZero()) return NO_MONEY;
  const value = portionBy(gap.value, quantity, gap.quantity);
  pool.gap = { quantity: gap.quantity.minus(quantity), value: less(gap.value, value) };
  return value;
}

function addLayer(pool: Pool, came: Worth): void {
  const layer = withOnly(pool, came);
  pool.layers.push({ ...layer, unitCost: layer, left: layer.quantity, gone: NO_MONEY });
  pool.cameLast = layer;
  pool.beyond = ZERO;
}

function addFound(pool: Pool, found: Worth): void {
  const layer = withOnly(pool, found);
  pool.layers.push({ ...layer, unitCost: pool.cameLast, left: layer.quantity, gone: NO_MONEY });
}

/** Together with what is left of the one layer of a moving average, which it takes the place of. */
function withOnly(pool: Pool, came: Worth): Worth {
  const only = pool.valuing === 'average' ? pool.layers.pop() : undefined;
  if (!only) return came;
  return { quantity: only.left.plus(came.quantity), value: add(valueLeft(only), came.value) };
}

function smaller(a: Decimal, b: Decimal): Decimal {
  return a.lt(b) ? a : b;
}
