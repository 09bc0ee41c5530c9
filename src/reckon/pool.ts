/** A pool of one material or glaze: its quantity and its value, by moving average or first bought, first used. */
import { ZERO, decimal, type Decimal } from '../number/decimal.ts';
import { NO_MONEY, add, less, opposite, portionBy, total, type Money } from '../number/money.ts';

export type Valuing = 'average' | 'first-in';

/** So much of something and what it is worth. */
export interface Worth {
  readonly quantity: Decimal;
  readonly value: Money;
}

/** What came in together, as it was when anything but a draw last changed it, and what went of it since. */
interface Layer extends Worth {
  /** What one unit costs, as a ratio; never of what is left. */
  readonly unitCost: Worth;
  gone: Worth;
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
export const TRACE = decimal('0.000001');

/** An empty pool. */
export function emptyPool(valuing: Valuing): Pool {
  return { valuing, layers: [], gap: NONE, beyond: ZERO, drawnLast: NONE, cameLast: NONE };
}

/** What is in the pool, in the base unit; negative where more was drawn than there was. */
export function quantityOf(pool: Pool): Decimal {
  return pool.layers.reduce((sum, layer) => sum.plus(leftIn(layer)), pool.gap.quantity.neg());
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
  const covered = smaller(quantity, pool.gap.quantity);
  const gone = { quantity: covered, value: portionBy(value, covered, quantity) };
  const thought = closeGap(pool, covered);
  const came = { quantity, value };
  if (covered.isZero()) addLayer(pool, came);
  else {
    pool.drawnLast = came;
    pool.cameLast = came;
    if (covered.lt(quantity)) pool.layers.push({ ...came, unitCost: came, gone });
  }
  return less(gone.value, thought);
}

/** Draws a quantity; the shortage carries the unit cost of what was drawn last. */
export function takeOut(pool: Pool, wanted: Decimal): Drawn {
  const quantity = withoutTrace(pool, wanted);
  let rest = quantity;
  let value = NO_MONEY;
  for (let layer = pool.layers[0]; layer && rest.gt(ZERO); layer = pool.layers[0]) {
    const taken = smaller(rest, leftIn(layer));
    value = add(value, takeFrom(layer, taken));
    pool.drawnLast = layer.unitCost;
    rest = rest.minus(taken);
    if (leftIn(layer).isZero()) pool.layers.shift();
  }
  return { quantity, value: add(value, owe(pool, rest)), short: rest };
}

/**
 * Sets the quantity to what was counted. Less is a draw; more comes in at the cost of what came in last,
 * which it does not change. Returns the difference to the book.
 */
export function countTo(pool: Pool, counted: Decimal): Worth {
  const quantity = counted.minus(quantityOf(pool));
  if (quantity.lt(ZERO)) {
    const drawn = takeOut(pool, quantity.neg());
    return { quantity: drawn.quantity.neg(), value: opposite(drawn.value) };
  }
  const found = quantity.minus(pool.gap.quantity);
  const forgiven = closeGap(pool, pool.gap.quantity);
  const value = costAt(pool.cameLast, found);
  if (found.gt(ZERO)) addFound(pool, { quantity: found, value });
  return { quantity, value: add(forgiven, value) };
}

function leftIn({ quantity, gone }: Layer): Decimal {
  return gone.quantity.isZero() ? quantity : quantity.minus(gone.quantity);
}

function valueLeft({ value, gone }: Layer): Money {
  return less(value, gone.value);
}

/** What is drawn: all there is where no more than a trace would be left or lacking. */
function withoutTrace(pool: Pool, wanted: Decimal): Decimal {
  const onHand = quantityOf(pool);
  return onHand.minus(wanted).abs().lt(TRACE) ? onHand : wanted;
}

/** Takes so much off a layer; returns what the running share grows by. */
function takeFrom(layer: Layer, taken: Decimal): Money {
  const quantity = layer.gone.quantity.plus(taken);
  const value = portionBy(layer.value, quantity, layer.quantity);
  const grown = less(value, layer.gone.value);
  layer.gone = { quantity, value };
  return grown;
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
  const layer = pool.valuing === 'average' ? merged(pool, came) : came;
  pool.layers.push({ ...layer, unitCost: layer, gone: NONE });
  pool.cameLast = layer;
}

function addFound(pool: Pool, found: Worth): void {
  const layer = pool.valuing === 'average' ? merged(pool, found) : found;
  pool.layers.push({ ...layer, unitCost: pool.cameLast, gone: NONE });
}

/** With what is left of the one layer of a moving average, which it takes the place of. */
function merged(pool: Pool, came: Worth): Worth {
  const only = pool.layers.pop();
  if (!only) return came;
  return {
    quantity: leftIn(only).plus(came.quantity),
    value: add(valueLeft(only), came.value),
  };
}

function smaller(a: Decimal, b: Decimal): Decimal {
  return a.lt(b) ? a : b;
}
