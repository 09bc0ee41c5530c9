/** What moved in stock in a month, in columns that can be kept. */
import type { Measure } from '../../number/measure.ts';
import type { Movement, MovementReason } from '../stock.ts';
import {
  amountAt,
  columnsOf,
  moneyColumn,
  textAt,
  textsToKeep,
  type MoneyColumn,
} from './columns.ts';

const TEXTS = ['day', 'pool', 'reason', 'by'] as const;

/** Movements as they are kept. */
export interface KeptMovements {
  readonly texts: readonly string[];
  readonly day: Uint32Array;
  readonly pool: Uint32Array;
  readonly reason: Uint32Array;
  readonly by: Uint32Array;
  readonly use: Uint32Array;
  readonly quantity: readonly Measure[];
  readonly value: MoneyColumn;
}

/** Movements to be kept. */
export function keptMovements(movements: readonly Movement[]): KeptMovements {
  const { all: texts, column } = textsToKeep();
  return {
    ...columnsOf(TEXTS, (key) => column(movements.map((each) => each[key]))),
    use: column(movements.map((each) => each.for)),
    quantity: movements.map(({ quantity }) => quantity),
    value: moneyColumn(movements.map(({ value }) => value)),
    texts,
  };
}

/** The movements as they were. */
export function movementsKept(kept: KeptMovements): Movement[] {
  const { texts, day, pool, reason, by, use, quantity, value } = kept;
  return quantity.map((each, at) => ({
    day: textAt(texts, day, at),
    pool: textAt(texts, pool, at),
    reason: textAt(texts, reason, at) as MovementReason,
    by: textAt(texts, by, at),
    quantity: each,
    value: amountAt(value, at),
    for: textAt(texts, use, at) || undefined,
  }));
}
