/** One record draws each pool once, for all its lines together; what that cost is shared by quantity. */
import { NO_QUANTITY, sumOf, type Measure } from '../number/measure.ts';
import { NO_MONEY, add, shareOut, type Money } from '../number/money.ts';
import { draw, fits, type Draw, type Store } from './stock.ts';

/** What one line of a record wants of a pool. */
export type Part = Pick<Draw, 'pool' | 'quantity' | 'unit' | 'at'>;

/** Of which record, on which day and why; the same for all its lines. */
export type DrawHead = Pick<Draw, 'day' | 'reason' | 'by'>;

/** What is wanted of one pool; `more` are the quantities of other lines than the first. */
interface Wanted {
  readonly first: Part;
  readonly line: number;
  quantity: Measure;
  more: Map<number, Measure> | undefined;
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
  const found: Wanted[] = [];
  lines.forEach((parts, line) => {
    for (const part of parts) want(store, found, { part, line });
  });
  for (const wanted of found) share(costs, wanted, drawAll(store, head, wanted));
  return costs;
}

function want(store: Store, found: Wanted[], { part, line }: { part: Part; line: number }): void {
  const stock = store.pools.get(part.pool);
  if (!stock || !fits(stock, part)) return;
  const known = found.find(({ first }) => first.pool === part.pool);
  if (!known) found.push({ first: part, line, quantity: part.quantity, more: undefined });
  else if (known.line === line) known.quantity = sumOf(known.quantity, part.quantity);
  else {
    known.more ??= new Map<number, Measure>();
    known.more.set(line, sumOf(known.more.get(line) ?? NO_QUANTITY, part.quantity));
  }
}

function drawAll(store: Store, { day, reason, by }: DrawHead, wanted: Wanted): Money {
  const { pool, unit, at } = wanted.first;
  let { quantity } = wanted;
  for (const more of wanted.more?.values() ?? []) quantity = sumOf(quantity, more);
  return draw(store, { pool, quantity, unit, day, reason, by, at });
}

function share(costs: Money[], { line, quantity, more }: Wanted, value: Money): void {
  if (value === NO_MONEY) return;
  if (!more) {
    costs[line] = add(costs[line] ?? NO_MONEY, value);
    return;
  }
  const lines = [line, ...more.keys()];
  shareOut(value, [quantity, ...more.values()]).forEach((part, at) => {
    const own = lines[at] ?? line;
    costs[own] = add(costs[own] ?? NO_MONEY, part);
  });
}
