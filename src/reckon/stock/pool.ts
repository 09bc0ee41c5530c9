/** A pool of one material or glaze: its quantity and its value, by moving average or first bought, first used. */
import { decimal } from '../../number/decimal.ts';
import {
  NO_QUANTITY,
  lessOf,
  lesserOf,
  measureIn,
  oppositeOf,
  sumOf,
  type Measure,
} from '../../number/measure.ts';
import { NO_MONEY, add, less, opposite, portionOf, total, type Money } from '../../number/money.ts';

export type Valuing = 'average' | 'first-in';

/** So much of something and what it is worth. */
export interface Worth {
  readonly quantity: Measure;
  readonly value: Money;
}

/** What came in together, as it was when anything but a draw last changed it, and what is left of it. */
interface Layer extends Worth {
  /** What one unit costs, as a ratio; never of what is left. */
  readonly unitCost: Worth;
  /** How much of it is gone, and the value that went with that. */
  gone: Measure;
  goneValue: Money;
}

/**
 * Quantity and value are kept and never the cost of one unit, so nothing leaks (the perpetual methods of
 * OpenStax, Principles of Accounting, vol. 1, section 10.3). What goes costs a running share: of a layer
 * of value V and quantity Q, d has gone with V × d ÷ Q, rounded once. A moving average is the case of one
 * layer that every addition is merged into.
 */
export interface Pool {
  readonly valuing: Valuing;
  readonly layers: Layer[];
  /** All layers less the gap; negative where more was drawn than there was. */
  onHand: Measure;
  /** What was drawn beyond the stock; it is settled by what comes in next. */
  gap: Worth;
  /** How much of the gap was drawn since something last came in. */
  beyond: Measure;
  /** Cost of one unit of what was drawn last, and of what came in last; nothing before anything did. */
  drawnLast: Worth;
  cameLast: Worth;
}

/** What a draw took. */
interface Drawn extends Worth {
  /** How much of it the pool did not have. */
  readonly short: Measure;
}

const NO_WORTH: Worth = { quantity: NO_QUANTITY, value: NO_MONEY };

/** A draw that would leave less than this, a millionth of the base unit, takes all. */
const TRACE = measureIn(decimal('0.000001'), 'g');

/** An empty pool. */
export function emptyPool(valuing: Valuing): Pool {
  const nothing = { layers: [], onHand: NO_QUANTITY, beyond: NO_QUANTITY };
  return { valuing, ...nothing, gap: NO_WORTH, drawnLast: NO_WORTH, cameLast: NO_WORTH };
}

/** The pool's value; negative where more was drawn than there was. */
export function valueOf(pool: Pool): Money {
  return less(total(pool.layers.map(valueLeft)), pool.gap.value);
}

/** Whether a draw has a cost, if only 0: something is there, or came in before. */
export function hasCost({ layers, drawnLast, cameLast }: Pool): boolean {
  return [drawnLast, cameLast, ...layers].some(({ quantity }) => quantity !== NO_QUANTITY);
}

/** Whether anything ever came into the pool or was drawn from it. */
export function isTouched(pool: Pool): boolean {
  return hasCost(pool) || pool.onHand !== NO_QUANTITY || pool.gap.quantity !== NO_QUANTITY;
}

/** What so much costs by a ratio, rounded once. */
export function costAt({ value, quantity }: Worth, wanted: Measure): Money {
  return value === NO_MONEY ? NO_MONEY : portionOf(value, wanted, quantity);
}

/**
 * Puts a quantity of that value in. What fills a gap leaves like a draw, and of what the gap was costed
 * at the same share comes back. Returns how much more that was worth: nothing where there was no gap.
 */
export function putIn(pool: Pool, quantity: Measure, value: Money): Money {
  if (quantity <= NO_QUANTITY) return value;
  const came = { quantity, value };
  pool.onHand = sumOf(pool.onHand, quantity);
  if (pool.gap.quantity === NO_QUANTITY) {
    addLayer(pool, came);
    return NO_MONEY;
  }
  const gone = lesserOf(quantity, pool.gap.quantity);
  const goneValue = portionOf(value, gone, quantity);
  const thought = closeGap(pool, gone);
  pool.drawnLast = came;
  pool.cameLast = came;
  if (gone < quantity) pool.layers.push({ ...came, unitCost: came, gone, goneValue });
  return less(goneValue, thought);
}

/** Draws a quantity; the shortage carries the unit cost of what was drawn last. */
export function takeOut(pool: Pool, wanted: Measure): Drawn {
  const after = lessOf(pool.onHand, wanted);
  const isAll = after < TRACE && oppositeOf(after) < TRACE;
  const quantity = isAll ? pool.onHand : wanted;
  pool.onHand = isAll ? NO_QUANTITY : after;
  let rest = quantity;
  let value = NO_MONEY;
  for (let layer = pool.layers[0]; layer && rest > NO_QUANTITY; layer = pool.layers[0]) {
    const gone = sumOf(layer.gone, rest);
    const isUsedUp = gone >= layer.quantity;
    value = add(value, isUsedUp ? valueLeft(layer) : takeDown(layer, gone));
    pool.drawnLast = layer.unitCost;
    rest = isUsedUp ? lessOf(gone, layer.quantity) : NO_QUANTITY;
    if (isUsedUp) pool.layers.shift();
  }
  return rest === NO_QUANTITY
    ? { quantity, value, short: rest }
    : { quantity, value: add(value, owe(pool, rest)), short: rest };
}

/**
 * Sets the quantity to what was counted. Less is a draw; more comes in at the cost of what came in last,
 * which it does not change. Returns the difference to the book.
 */
export function countTo(pool: Pool, counted: Measure): Worth {
  const quantity = lessOf(counted, pool.onHand);
  if (quantity < NO_QUANTITY) {
    const drawn = takeOut(pool, oppositeOf(quantity));
    return { quantity: oppositeOf(drawn.quantity), value: opposite(drawn.value) };
  }
  const found = lessOf(quantity, pool.gap.quantity);
  pool.onHand = counted;
  const forgiven = closeGap(pool, pool.gap.quantity);
  const value = costAt(pool.cameLast, found);
  if (found > NO_QUANTITY) addFound(pool, { quantity: found, value });
  return { quantity, value: add(forgiven, value) };
}

function valueLeft({ value, goneValue }: Layer): Money {
  return less(value, goneValue);
}

/** Takes so much of a layer in all; returns what its running share grows by. */
function takeDown(layer: Layer, gone: Measure): Money {
  layer.gone = gone;
  if (layer.value === NO_MONEY) return NO_MONEY;
  const before = layer.goneValue;
  layer.goneValue = portionOf(layer.value, gone, layer.quantity);
  return less(layer.goneValue, before);
}

function owe(pool: Pool, quantity: Measure): Money {
  if (quantity === NO_QUANTITY) return NO_MONEY;
  const before = costAt(pool.drawnLast, pool.beyond);
  pool.beyond = sumOf(pool.beyond, quantity);
  const value = less(costAt(pool.drawnLast, pool.beyond), before);
  pool.gap = { quantity: sumOf(pool.gap.quantity, quantity), value: add(pool.gap.value, value) };
  return value;
}

/** Takes a quantity off the gap and returns what it was costed at. */
function closeGap(pool: Pool, quantity: Measure): Money {
  const { gap } = pool;
  pool.beyond = NO_QUANTITY;
  if (quantity === NO_QUANTITY) return NO_MONEY;
  const value = portionOf(gap.value, quantity, gap.quantity);
  pool.gap = { quantity: lessOf(gap.quantity, quantity), value: less(gap.value, value) };
  return value;
}

function addLayer(pool: Pool, came: Worth): void {
  const layer = withOnly(pool, came);
  pool.layers.push(layerOf(layer, layer));
  pool.cameLast = layer;
  pool.beyond = NO_QUANTITY;
}

function addFound(pool: Pool, found: Worth): void {
  const layer = withOnly(pool, found);
  pool.layers.push(layerOf(layer, pool.cameLast));
}

/** A layer that nothing has left yet. */
function layerOf({ quantity, value }: Worth, unitCost: Worth): Layer {
  return { quantity, value, unitCost, gone: NO_QUANTITY, goneValue: NO_MONEY };
}

/** Together with what is left of the one layer of a moving average, which it takes the place of. */
function withOnly(pool: Pool, came: Worth): Worth {
  const only = pool.valuing === 'average' ? pool.layers.pop() : undefined;
  if (!only) return came;
  const left = lessOf(only.quantity, only.gone);
  return { quantity: sumOf(left, came.quantity), value: add(valueLeft(only), came.value) };
}
