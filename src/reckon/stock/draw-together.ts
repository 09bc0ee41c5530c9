/** One record draws each pool once, for all its lines together; what that cost is shared by quantity. */
import type { Spot } from '../../problem.ts';
import { sumOf, measureOf } from '../../number/measure.ts';
import type { Quantity } from '../../number/unit.ts';
import { NO_MONEY, add, shareOut, type Money } from '../../number/money.ts';
import { drawFrom, poolFor, type Draw, type StockPool, type Store } from './stock.ts';

/** What one line of a record wants of a pool. */
export interface DrawPart extends Pick<Draw, 'pool' | 'quantity' | 'unit'> {
  readonly line: number;
}

/** A quantity for each of so many pieces, as one line wants it. */
export function partOf(
  pool: string,
  each: Quantity,
  { line, count = 1 }: { readonly line: number; readonly count?: number },
): DrawPart {
  return { pool, quantity: measureOf(each, count), unit: each.unit, line };
}

/** Of which record, on which day and why; how many lines it has, and where in the book each stands. */
export interface DrawHead extends Pick<Draw, 'day' | 'reason' | 'by'> {
  readonly lines: number;
  readonly at: (line: number) => Spot;
}

/** What is wanted of one pool: a part for each line that wants any, the first of them first. */
interface PoolWanted {
  readonly stock: StockPool;
  readonly parts: [DrawPart, ...DrawPart[]];
}

/**
 * Draws what the lines of a record want, each pool in one draw, and returns what each line's share cost,
 * by largest remainder over the quantities. The parts come in the order of the lines; one that measures
 * another thing than its pool draws nothing.
 */
export function drawTogether(store: Store, head: DrawHead, parts: readonly DrawPart[]): Money[] {
  const costs = new Array<Money>(head.lines).fill(NO_MONEY);
  for (const wanted of wantedOf(store, parts)) share(costs, wanted, drawAll(store, head, wanted));
  return costs;
}

function wantedOf(store: Store, parts: readonly DrawPart[]): PoolWanted[] {
  const found: PoolWanted[] = [];
  for (const part of parts) {
    const stock = poolFor(store, part);
    if (!stock) continue;
    const known = found.find((wanted) => wanted.stock === stock);
    if (known) addPart(known, part);
    else found.push({ stock, parts: [part] });
  }
  return found;
}

/** What one line wants twice is one part. */
function addPart({ parts }: PoolWanted, part: DrawPart): void {
  const last = parts.at(-1) ?? parts[0];
  if (last.line !== part.line) parts.push(part);
  else parts[parts.length - 1] = { ...last, quantity: sumOf(last.quantity, part.quantity) };
}

function drawAll(
  store: Store,
  { day, reason, by, at }: DrawHead,
  { stock, parts }: PoolWanted,
): Money {
  const [{ pool, unit, line, quantity: first }, ...more] = parts;
  const quantity = more.reduce((all, each) => sumOf(all, each.quantity), first);
  return drawFrom(store, stock, { pool, quantity, unit, day, reason, by, at: () => at(line) });
}

function share(costs: Money[], { parts }: PoolWanted, value: Money): void {
  if (value === NO_MONEY) return;
  const shares = shareOut(
    value,
    parts.map(({ quantity }) => quantity),
  );
  parts.forEach(({ line }, at) => {
    costs[line] = add(costs[line] ?? NO_MONEY, shares[at] ?? NO_MONEY);
  });
}
