/** A pool of material (rules 1, 2, 5, 6, 7): lists of draws, kept since something last came in. */
import {
  NOTHING,
  R,
  compare,
  fraction,
  least,
  minus,
  over,
  plus,
  shareOf,
  size,
  sumOf,
  times,
  type Fraction,
} from './fraction.ts';

export type Valuing = 'average' | 'first-in';

/** What came in at once: what there was of it then, and each draw since. */
interface Layer {
  readonly quantity: Fraction;
  readonly value: bigint;
  readonly draws: Fraction[];
  /** Money for one base unit, in minor units. */
  readonly unit: Fraction;
}

/** What was drawn beyond the stock: before something last came in, and since. */
interface Gap {
  readonly before: Fraction;
  readonly costBefore: bigint;
  readonly since: Fraction;
}

export interface Pool {
  readonly valuing: Valuing;
  /** The oldest first; of an average pool there is one. */
  layers: Layer[];
  gap: Gap;
  /** Unit cost of what came in last, by rule 2. */
  unitIn: Fraction;
  /** Unit cost of what was drawn last, which is what a gap costs. */
  unitDrawn: Fraction;
}

/** What a step moved: into the pool above zero, out of it below. */
export interface Moved {
  readonly quantity: Fraction;
  readonly value: bigint;
}

const NO_GAP: Gap = { before: NOTHING, costBefore: 0n, since: NOTHING };
const MILLIONTH = fraction(1n, 1_000_000n);

export function newPool(valuing: Valuing): Pool {
  return { valuing, layers: [], gap: NO_GAP, unitIn: NOTHING, unitDrawn: NOTHING };
}

/** What is there, below zero where more was drawn. */
export function quantityIn(pool: Pool): Fraction {
  return minus(sumOf(pool.layers.map(leftOf)), gapOf(pool));
}

/** What it is worth: whole minor units. */
export function valueIn(pool: Pool): bigint {
  return pool.layers.reduce((sum, layer) => sum + valueLeft(layer), 0n) - gapCost(pool);
}

function leftOf({ quantity, draws }: Layer): Fraction {
  return minus(quantity, sumOf(draws));
}

/** R(V₀ × d ÷ Q₀) has gone with d; all of the value with all of the quantity. */
function valueLeft(layer: Layer): bigint {
  if (layer.draws.length === 0) return layer.value;
  if (leftOf(layer).top === 0n) return 0n;
  return layer.value - shareOf(layer.value, sumOf(layer.draws), layer.quantity);
}

function gapOf({ gap }: Pool): Fraction {
  return plus(gap.before, gap.since);
}

function gapCost({ gap, unitDrawn }: Pool): bigint {
  return gap.costBefore + R(times(unitDrawn, gap.since));
}

/** Takes so much out, and gives what that cost. */
export function draw(pool: Pool, wanted: Fraction): Moved {
  const there = quantityIn(pool);
  const left = minus(there, wanted);
  const all = gapOf(pool).top === 0n && compare({ ...left, top: size(left.top) }, MILLIONTH) < 0;
  const quantity = all ? there : wanted;
  const before = valueIn(pool);
  const beyond = drawLayers(pool, quantity);
  pool.gap = { ...pool.gap, since: plus(pool.gap.since, beyond) };
  return { quantity: minus(NOTHING, quantity), value: valueIn(pool) - before };
}

/** Takes from the oldest layers on, and gives what they didn't have. */
function drawLayers(pool: Pool, quantity: Fraction): Fraction {
  let open = quantity;
  for (const layer of pool.layers) {
    const part = least(open, leftOf(layer));
    if (open.top === 0n && leftOf(layer).top !== 0n) break;
    layer.draws.push(part);
    if (pool.valuing === 'first-in') pool.unitDrawn = layer.unit;
    open = minus(open, part);
  }
  pool.layers = pool.layers.filter((layer) => layer.draws.length === 0 || leftOf(layer).top !== 0n);
  return open;
}

/** What came in, and by how much what it filled of a gap was costed too low. */
export interface Arrived extends Moved {
  /** The stocktakes' difference of what filled the gap; it goes out of the pool. */
  readonly settled: bigint;
}

/** Something comes in: bought, reclaimed or mixed. */
export function arrive(pool: Pool, { quantity, value }: Moved): Arrived {
  const gap = gapOf(pool);
  if (gap.top > 0n) return fill(pool, { quantity, value });
  if (pool.valuing === 'average') rebase(pool, { quantity, value });
  else addLayer(pool, { quantity, value });
  return { quantity, value, settled: 0n };
}

function rebase(pool: Pool, { quantity, value }: Moved): void {
  const whole = { quantity: plus(quantityIn(pool), quantity), value: valueIn(pool) + value };
  pool.layers = [];
  addLayer(pool, whole);
  pool.unitDrawn = pool.unitIn;
}

function addLayer(pool: Pool, { quantity, value }: Moved): void {
  pool.unitIn = unitOf({ quantity, value });
  pool.layers.push({ quantity, value, draws: [], unit: pool.unitIn });
}

function unitOf({ quantity, value }: Moved): Fraction {
  return quantity.top === 0n ? NOTHING : over(fraction(value), quantity);
}

/** What fills a gap leaves like a draw; of what the gap was costed at the same share comes back. */
function fill(pool: Pool, { quantity, value }: Moved): Arrived {
  const gap = gapOf(pool);
  const cost = gapCost(pool);
  const filled = least(quantity, gap);
  const back = shareOf(cost, filled, gap);
  addLayer(pool, { quantity, value });
  pool.unitDrawn = pool.unitIn;
  pool.gap = NO_GAP;
  drawLayers(pool, filled);
  pool.gap = { before: minus(gap, filled), costBefore: cost - back, since: NOTHING };
  const leaves = quantity.top === 0n ? value : shareOf(value, filled, quantity);
  return { quantity, value, settled: leaves - back };
}

/** A stocktake: what it moved, all of it the stocktake's difference. */
export function recount(pool: Pool, counted: Fraction): Moved {
  const there = quantityIn(pool);
  const quantity = minus(counted, there);
  if (there.top >= 0n && compare(counted, there) < 0) return draw(pool, minus(there, counted));
  const before = valueIn(pool);
  const found = { quantity, value: R(times(pool.unitIn, quantity)) };
  if (there.top < 0n) startAnew(pool, counted);
  else if (quantity.top > 0n) find(pool, found);
  return { quantity, value: valueIn(pool) - before };
}

/** The gap and its cost go, and what was counted comes in. */
function startAnew(pool: Pool, counted: Fraction): void {
  const value = R(times(pool.unitIn, counted));
  pool.gap = NO_GAP;
  const layer = { quantity: counted, value, draws: [], unit: pool.unitIn };
  pool.layers = counted.top === 0n ? [] : [layer];
}

/** What is found re-bases an average pool and is the newest layer under first-in; no unit cost changes. */
function find(pool: Pool, { quantity, value }: Moved): void {
  const unit = pool.unitIn;
  if (pool.valuing === 'first-in') pool.layers.push({ quantity, value, draws: [], unit });
  else {
    const whole = { quantity: plus(quantityIn(pool), quantity), value: valueIn(pool) + value };
    pool.layers = [{ ...whole, draws: [], unit }];
  }
}
