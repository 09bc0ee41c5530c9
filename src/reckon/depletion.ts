/** How long the stock will last: usage over the last days, days left, and when to order. */
import type { Book, Day, Material } from '../book.ts';
import { grouped } from '../grouping.ts';
import { ZERO, decimal, divide, type Decimal } from '../number/decimal.ts';
import { addDays, daysBetween } from '../number/date.ts';
import type { Money } from '../number/money.ts';
import { NO_QUANTITY, inUnit, lessOf, type Measure } from '../number/measure.ts';
import { convert, type Unit } from '../number/unit.ts';
import { valueOf } from './pool.ts';
import type { StockFlow } from './stock-flow.ts';
import type { Movement, StockPool } from './stock.ts';

/** How things stand with one material, the most urgent first. */
export const STOCK_STATES = ['out', 'order-now', 'low', 'ok', 'idle'] as const;

export type StockState = (typeof STOCK_STATES)[number];

/** One material's stock and outlook, in its stock unit. */
export interface Depletion {
  readonly id: string;
  readonly name: string;
  readonly unit: Unit;
  readonly onHand: Decimal;
  readonly value: Money;
  /** Everything that went out in the window, also what stocktakes did not find out about. */
  readonly used: Decimal;
  readonly usedPerDay: Decimal;
  /** On hand ÷ used per day; undefined when nothing is used. */
  readonly daysLeft: Decimal | undefined;
  readonly runsOut: Day | undefined;
  readonly orderBy: Day | undefined;
  readonly state: StockState;
}

/** Days that usage is measured over, when nothing else is asked for. */
export const USAGE_WINDOW = 90;

/**
 * Depletion of every material, by id. Usage = what went out in the last `window` days ÷ those days, or
 * ÷ the days since the material's first record where that is fewer (at least one). Runs out = as-of +
 * whole days left; order by = runs out − lead days (the material's, else the studio's, else none).
 */
export function depletion(book: Book, stock: StockFlow, window: number): Depletion[] {
  const movements = grouped(stock.movements, ({ pool }) => pool);
  return [...stock.pools.values()]
    .flatMap((pool) =>
      pool.material
        ? [outlook(book, pool, { material: pool.material, movements, window, asOf: stock.asOf })]
        : [],
    )
    .sort((a, b) => (a.id < b.id ? -1 : 1));
}

interface Outlook {
  readonly material: Material;
  readonly movements: ReadonlyMap<string, readonly Movement[]>;
  readonly window: number;
  readonly asOf: Day;
}

function outlook(book: Book, stock: StockPool, asked: Outlook): Depletion {
  const { material, asOf } = asked;
  const history = asked.movements.get(stock.id) ?? [];
  const onHand = inUnit(stock.pool.onHand, stock.unit);
  const { drawn, days } = usage(history, asked);
  const used = inUnit(drawn, stock.unit);
  const usedPerDay = divide(used, decimal(days));
  const daysLeft = usedPerDay.isZero() ? undefined : divide(onHand, usedPerDay);
  const runsOut = daysLeft && addDays(asOf, wholeDays(daysLeft));
  const lead = material.leadDays ?? book.studio.leadDays ?? 0;
  const orderBy = runsOut && addDays(runsOut, -lead);
  const state = stateOf(material, { onHand, orderBy, asOf });
  const { id, name, unit } = material;
  const value = valueOf(stock.pool);
  return { id, name, unit, onHand, value, used, usedPerDay, daysLeft, runsOut, orderBy, state };
}

/** Stocktake differences and settlements are not usage. */
function usage(
  history: readonly Movement[],
  { window, asOf }: Outlook,
): { drawn: Measure; days: number } {
  const since = addDays(asOf, -window);
  const first = history[0]?.day ?? asOf;
  let drawn = NO_QUANTITY;
  for (const { day, reason, quantity } of history) {
    if (day > since && reason !== 'counted' && quantity < NO_QUANTITY)
      drawn = lessOf(drawn, quantity);
  }
  return { drawn, days: Math.max(1, Math.min(window, daysBetween(first, asOf))) };
}

function stateOf(
  material: Material,
  { onHand, orderBy, asOf }: { onHand: Decimal; orderBy: Day | undefined; asOf: Day },
): StockState {
  if (!onHand.gt(ZERO)) return 'out';
  if (orderBy !== undefined && orderBy <= asOf) return 'order-now';
  if (isBelowReorder(material, onHand)) return 'low';
  return orderBy === undefined ? 'idle' : 'ok';
}

function isBelowReorder(material: Material, onHand: Decimal): boolean {
  const { reorderAt, unit } = material;
  const level = reorderAt && convert(reorderAt.value, reorderAt.unit, unit);
  return level !== undefined && onHand.lt(level);
}

/** Whole days, cut down; none when the stock is below zero. */
function wholeDays(days: Decimal): number {
  return Math.max(0, Math.floor(days.toNumber()));
}
