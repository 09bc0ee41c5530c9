/** Cost of goods sold: what stood at the start and was bought, less what was taken and what stands at the end. */
import { ZERO, roundTo, shownParts, sum, type Decimal } from '../number/decimal.ts';
import { materialOf } from './cost.ts';
import type { Flows } from './flow.ts';
import { accountCost } from './ware.ts';
import { STANDING, materialValue, type Standing } from './where.ts';

/** Ways that material leaves by which are part of the cost of goods sold. */
export const CONSUMED = [
  'sold',
  'lost',
  'given away',
  'classes and others',
  'stocktake differences',
] as const;

export type Consumed = (typeof CONSUMED)[number];

/** Material value up to a day, in whole minor units: bought = standing + own use + consumed. */
export interface GoodsValue {
  readonly bought: Decimal;
  readonly standing: Readonly<Record<Standing, Decimal>>;
  /** Finished ware that the potter kept. */
  readonly ownUse: Decimal;
  readonly consumed: Readonly<Record<Consumed, Decimal>>;
}

/** The same for a period; opening + purchases − own use − closing = cost of goods sold = all consumed. */
export interface Goods {
  readonly opening: Readonly<Record<Standing, Decimal>>;
  readonly purchases: Decimal;
  readonly ownUse: Decimal;
  readonly closing: Readonly<Record<Standing, Decimal>>;
  readonly consumed: Readonly<Record<Consumed, Decimal>>;
  readonly costOfGoodsSold: Decimal;
}

/** The flows of a day never change, nor does the currency of their book. */
const known = new WeakMap<Flows, GoodsValue>();

/**
 * Material value at the end of the flows' day. Every figure is rounded to the minor unit once, by
 * largest remainder, so that the periods of a year add up to it and nothing goes missing.
 */
export function goodsValue(flows: Flows, minorDigits: number): GoodsValue {
  const goods = known.get(flows) ?? reckoned(flows, minorDigits);
  known.set(flows, goods);
  return goods;
}

function reckoned(flows: Flows, minorDigits: number): GoodsValue {
  const value = materialValue(flows);
  const kept = materialOf(accountCost(flows.ware.accounts.kept));
  const { 'given away and kept': gone, ...others } = value.leaving;
  const consumed: Record<Consumed, Decimal> = { ...others, 'given away': gone.minus(kept) };
  const exact = [
    ...STANDING.map((place) => value.standing[place]),
    kept,
    ...CONSUMED.map((way) => consumed[way]),
  ];
  const rounded = shownParts(exact, minorDigits);
  const after = STANDING.length + 1;
  return {
    bought: roundTo(value.bought, minorDigits),
    standing: recordOf(STANDING, rounded),
    ownUse: rounded[STANDING.length] ?? ZERO,
    consumed: recordOf(CONSUMED, rounded.slice(after)),
  };
}

/** The period between two days' ends. */
export function goodsBetween(eve: GoodsValue, end: GoodsValue): Goods {
  const consumed = CONSUMED.map((way) => end.consumed[way].minus(eve.consumed[way]));
  return {
    opening: eve.standing,
    purchases: end.bought.minus(eve.bought),
    ownUse: end.ownUse.minus(eve.ownUse),
    closing: end.standing,
    consumed: recordOf(CONSUMED, consumed),
    costOfGoodsSold: sum(consumed),
  };
}

function recordOf<K extends string>(
  keys: readonly K[],
  values: readonly Decimal[],
): Record<K, Decimal> {
  return Object.fromEntries(keys.map((key, index) => [key, values[index] ?? ZERO])) as Record<
    K,
    Decimal
  >;
}
