/** One record draws each pool once, for all its lines together; what that cost is shared by quantity. */
import { sum, type Decimal } from '../number/decimal.ts';
import { NO_MONEY, add, shareOutBy, type Money } from '../number/money.ts';
import { drawBase, quantityFor, type Draw, type Store } from './stock.ts';

/** What one line of a record wants of a pool. */
export type Part = Pick<Draw, 'pool' | 'quantity' | 'unit' | 'at'>;

/** Of which record, on which day and why; the same for all its lines. */
export type DrawHead = Pick<Draw, 'day' | 'reason' | 'by'>;

/** What is wanted of one pool: how much for each of some lines, in the base unit. */
interface Wanted {
  /** Where it is first said. */
  readonly at: Draw['at'];
  readonly lines: number[];
  readonly quantities: Decimal[];
}

/**
 * Draws what the lines of a record want, each pool in one draw, and returns what each line's share cost,
 * by largest remainder over the quantities. A part that measures another thing than its pool draws
 * nothing.
 */
export function drawTogether(
  store: Store,
  head: DrawHead,
  lines: readonly (readonly Part[])[],
): Money[] {
  const costs = lines.map(() => NO_MONEY);
  for (const [pool, { at, lines: own, quantities }] of byPool(store, lines)) {
    const value = drawBase(store, { ...head, pool, at }, sumOf(quantities));
    const shares = shareOutBy(value, quantities);
    own.forEach((line, index) => {
      costs[line] = add(costs[line] ?? NO_MONEY, shares[index] ?? NO_MONEY);
    });
  }
  return costs;
}

function sumOf(quantities: readonly Decimal[]): Decimal {
  const [only, another] = quantities;
  return only && !another ? only : sum(quantities);
}

function byPool(store: Store, lines: readonly (readonly Part[])[]): Map<string, Wanted> {
  const pools = new Map<string, Wanted>();
  lines.forEach((parts, line) => {
    for (const part of parts) want(store, pools, { part, line });
  });
  return pools;
}

function want(
  store: Store,
  pools: Map<string, Wanted>,
  { part, line }: { part: Part; line: number },
): void {
  const quantity = quantityFor(store.pools.get(part.pool), part);
  if (!quantity) return;
  const { lines, quantities } = wantedOf(pools, part);
  const last = quantities.length - 1;
  if (lines[last] === line) quantities[last] = quantities[last]?.plus(quantity) ?? quantity;
  else {
    lines.push(line);
    quantities.push(quantity);
  }
}

function wantedOf(pools: Map<string, Wanted>, { pool, at }: Part): Wanted {
  const wanted = pools.get(pool) ?? { at, lines: [], quantities: [] };
  pools.set(pool, wanted);
  return wanted;
}
