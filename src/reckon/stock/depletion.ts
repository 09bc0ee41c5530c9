/** How long the stock will last: usage over the last days, days left, and when to order. */
import { factsDuring } from '../../among.ts';
import type { Book, Day, Material } from '../../book.ts';
import { ZERO, decimal, divide, portion, roundTo, type Decimal } from '../../number/decimal.ts';
import { addDays, daysBetween } from '../../number/date.ts';
import type { Money } from '../../number/money.ts';
import { NO_QUANTITY, inUnit, lessOf, type Measure } from '../../number/measure.ts';
import { convert, type Unit } from '../../number/unit.ts';
import { valueOf } from './pool.ts';
import type { StockPool } from './stock.ts';
import type { StockFlow } from '../flows.ts';

/** How things stand with one material, the most urgent first. */
export const STOCK_STATES = ['out', 'order-now', 'low', 'ok', 'idle'] as const;

type StockState = (typeof STOCK_STATES)[number];

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
  /** On hand ÷ used per day, 0 of what is out; undefined when nothing is used. */
  readonly daysLeft: Decimal | undefined;
  readonly runsOut: Day | undefined;
  readonly orderBy: Day | undefined;
  readonly state: StockState;
  /** To be ordered now: it runs out within its lead days, or is out and still wanted. */
  readonly isToOrder: boolean;
}

/** Days that usage is measured over, when nothing else is asked for. */
export const USAGE_WINDOW = 90;

/**
 * Depletion of every material, the most urgent first. Usage = what went out in the last `window` days ÷ those days, or
 * ÷ the days since the material's first record where that is fewer (at least one). Runs out = as-of +
 * whole days left; order by = runs out − lead days (the material's, else the studio's, else none).
 */
export function depletion(book: Book, stock: StockFlow, window: number): Depletion[] {
  const { asOf } = stock;
  const drawnOf = drawnSince(stock, addDays(asOf, -window));
  return [...stock.pools.values()]
    .flatMap((pool) => {
      if (!pool.material) return [];
      const drawn = drawnOf.get(pool.id) ?? NO_QUANTITY;
      return [outlook(book, pool, { material: pool.material, drawn, window, asOf })];
    })
    .sort(mostUrgentFirst);
}

function mostUrgentFirst(one: Depletion, other: Depletion): number {
  const rank = STOCK_STATES.indexOf(one.state) - STOCK_STATES.indexOf(other.state);
  if (rank !== 0) return rank;
  const sooner = (one.daysLeft && other.daysLeft && one.daysLeft.cmp(other.daysLeft)) ?? 0;
  const unused = Number(one.daysLeft === undefined) - Number(other.daysLeft === undefined);
  return unused || sooner || (one.id < other.id ? -1 : 1);
}

interface Outlook {
  readonly material: Material;
  /** What went out of it lately. */
  readonly drawn: Measure;
  readonly window: number;
  readonly asOf: Day;
}

function outlook(book: Book, stock: StockPool, asked: Outlook): Depletion {
  const { material, drawn, window, asOf } = asked;
  const onHand = inUnit(stock.pool.onHand, stock.unit);
  const days = decimal(Math.max(1, Math.min(window, daysBetween(stock.since ?? asOf, asOf))));
  const used = inUnit(drawn, stock.unit);
  const usedPerDay = roundTo(divide(used, days), RATIO_PLACES);
  const there = onHand.gt(ZERO) ? onHand : ZERO;
  const daysLeft = used.isZero() ? undefined : roundTo(portion(there, days, used), RATIO_PLACES);
  const runsOut = daysLeft && addDays(asOf, Math.floor(daysLeft.toNumber()));
  const lead = material.leadDays ?? book.studio.leadDays ?? 0;
  const orderBy = runsOut && addDays(runsOut, -lead);
  const state = stockState(material, { onHand, orderBy, asOf });
  const { id, name, unit } = material;
  const value = valueOf(stock.pool);
  const isToOrder = state === 'order-now' || (state === 'out' && isWanted(stock, material, used));
  const ahead = { daysLeft, runsOut, orderBy, state, isToOrder };
  return { id, name, unit, onHand, value, used, usedPerDay, ...ahead };
}

/**
 * What nothing was ever recorded of is not missed yet, and what is not used any more and has no mark to
 * be ordered at was given up.
 */
function isWanted({ since }: StockPool, { reorderAt }: Material, used: Decimal): boolean {
  return since !== undefined && (used.gt(ZERO) || reorderAt !== undefined);
}

const RATIO_PLACES = 12;

/** What went out of pools after a day, by pool. Stocktake differences and settlements are not usage. */
function drawnSince({ movements }: StockFlow, since: Day): ReadonlyMap<string, Measure> {
  const drawn = new Map<string, Measure>();
  for (const { pool, day, reason, quantity } of factsDuring(movements, { from: since }))
    if (day > since && reason !== 'counted' && quantity < NO_QUANTITY)
      drawn.set(pool, lessOf(drawn.get(pool) ?? NO_QUANTITY, quantity));
  return drawn;
}

function stockState(
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
