/** One record draws each pool once, for all its lines together; what that cost is shared by quantity. */
import { NO_QUANTITY, sumOf, type Measure } from '../number/measure.ts';
import { NO_MONEY, add, shareOut, type Money } from '../number/money.ts';
import { draw, fits, type Draw, type Store } from './stock.ts';

/** What one line of a record wants of a pool. */
export type Part = Pick<Draw, 'pool' | 'quantity' | 'unit' | 'at'>;

/** Of which record, on which day and why; the same for all its lines. */
export type DrawHead = Pick<Draw, 'day' | 'reason' | 'by'>;

/** What is wanted of one pool: how much for each of some lines. */
interface Wanted {
  /** Where it is first said, and in which unit. */
  readonly first: Part;
  readonly lines: number[];
  readonly quantities: Measure[];
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
  for (const wanted of byPool(store, lines)) share(costs, wanted, drawWanted(store, head, wanted));
  return costs;
}

function drawWanted(
  store: Store,
  { day, reason, by }: DrawHead,
  { first: { pool, unit, at }, quantities }: Wanted,
): Money {
  const quantity = quantities.reduce(sumOf, NO_QUANTITY);
  return draw(store, { pool, quantity, unit, day, reason, by, at });
}

function share(costs: Money[], { lines, quantities }: Wanted, value: Money): void {
  if (value === NO_MONEY) return;
  const shares = shareOut(value, quantities);
  lines.forEach((line, at) => {
    costs[line] = add(costs[line] ?? NO_MONEY, shares[at] ?? NO_MONEY);
  });
}

/** There are few pools in a record, so they are looked for one by one. */
function byPool(store: Store, lines: readonly (readonly Part[])[]): Wanted[] {
  const found: Wanted[] = [];
  lines.forEach((parts, line) => {
    for (const part of parts) want(store, found, { part, line });
  });
  return found;
}

function want(store: Store, found: Wanted[], { part, line }: { part: Part; line: number }): void {
  const stock = store.pools.get(part.pool);
  if (!stock || !fits(stock, part)) return;
  const known = found.find(({ first }) => first.pool === part.pool);
  if (!known) found.push({ first: part, lines: [line], quantities: [part.quantity] });
  else addPart(known, part, line);
}

function addPart({ lines, quantities }: Wanted, { quantity }: Part, line: number): void {
  const last = quantities.length - 1;
  if (lines[last] === line) quantities[last] = sumOf(quantities[last] ?? NO_QUANTITY, quantity);
  else {
    lines.push(line);
    quantities.push(quantity);
  }
}
