/** One record draws each pool once, for all its lines together; what that cost is shared by quantity. */
import type { Spot } from '../problem.ts';
import { sumOf, type Measure } from '../number/measure.ts';
import { NO_MONEY, add, shareOut, type Money } from '../number/money.ts';
import { drawFrom, poolFor, type Draw, type StockPool, type Store } from './stock.ts';

/** What one line of a record wants of a pool. */
export type Part = Pick<Draw, 'pool' | 'quantity' | 'unit'>;

/** Of which record, on which day and why; and where in the record a line asks for its parts. */
export interface DrawHead extends Pick<Draw, 'day' | 'reason' | 'by'> {
  readonly at: (line: number, part: number) => Spot;
}

/** What is wanted of one pool, by the lines that want it. */
interface Wanted {
  readonly stock: StockPool;
  readonly pool: string;
  readonly unit: Part['unit'];
  /** Which part of its line was the first to want it. */
  readonly part: number;
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
  for (const wanted of wantedOf(store, lines)) share(costs, wanted, drawAll(store, head, wanted));
  return costs;
}

function wantedOf(store: Store, lines: readonly (readonly Part[])[]): Wanted[] {
  const found: Wanted[] = [];
  lines.forEach((parts, line) => {
    parts.forEach((wanted, part) => {
      const stock = poolFor(store, wanted);
      if (stock) want(found, wanted, { stock, line, part });
    });
  });
  return found;
}

function want(
  found: Wanted[],
  { pool, quantity, unit }: Part,
  { stock, line, part }: Pick<Wanted, 'stock' | 'part'> & { line: number },
): void {
  const known = found.find((each) => each.stock === stock);
  if (!known) {
    found.push({ stock, pool, unit, part, lines: [line], quantities: [quantity] });
    return;
  }
  const last = known.lines.length - 1;
  const before = known.lines[last] === line ? known.quantities[last] : undefined;
  if (before !== undefined) known.quantities[last] = sumOf(before, quantity);
  else {
    known.lines.push(line);
    known.quantities.push(quantity);
  }
}

function drawAll(store: Store, { day, reason, by, at }: DrawHead, wanted: Wanted): Money {
  const { stock, pool, unit, part, lines, quantities } = wanted;
  const quantity = quantities.reduce(sumOf);
  const first = (): Spot => at(lines[0] ?? 0, part);
  return drawFrom(store, stock, { pool, quantity, unit, day, reason, by, at: first });
}

function share(costs: Money[], { lines, quantities }: Wanted, value: Money): void {
  if (value === NO_MONEY) return;
  shareOut(value, quantities).forEach((part, at) => {
    const line = lines[at] ?? 0;
    costs[line] = add(costs[line] ?? NO_MONEY, part);
  });
}
