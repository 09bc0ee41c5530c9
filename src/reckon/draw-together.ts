/** One record draws each pool once, for all its lines together; what that cost is shared by quantity. */
import { sum, type Decimal } from '../number/decimal.ts';
import { NO_MONEY, add, shareOutBy, type Money } from '../number/money.ts';
import { drawBase, quantityFor, type Draw, type Store } from './stock.ts';

/** What one line of a record wants of a pool. */
export type Part = Pick<Draw, 'pool' | 'quantity' | 'unit' | 'at'>;

/** Of which record, on which day and why; the same for all its lines. */
export type DrawHead = Pick<Draw, 'day' | 'reason' | 'by'>;

/** What is wanted of one pool: how much for each line, in the base unit, and where that is first said. */
interface Wanted {
  readonly at: Draw['at'];
  readonly lines: Map<number, Decimal>;
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
  for (const [pool, wanted] of byPool(store, lines)) {
    const quantities = [...wanted.lines.values()];
    const value = drawBase(store, { ...head, pool, at: wanted.at }, sum(quantities));
    const shares = shareOutBy(value, quantities).values();
    for (const line of wanted.lines.keys())
      costs[line] = add(costs[line] ?? NO_MONEY, shares.next().value ?? NO_MONEY);
  }
  return costs;
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
  const wanted = pools.get(part.pool) ?? { at: part.at, lines: new Map<number, Decimal>() };
  pools.set(part.pool, wanted);
  const known = wanted.lines.get(line);
  wanted.lines.set(line, known ? known.plus(quantity) : quantity);
}
