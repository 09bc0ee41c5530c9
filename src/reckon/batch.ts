/** Pieces that share a cost: what goes of them bears a running share, component by component. */
import { NO_COST, addCosts, costPortion, lessCosts, type Cost } from './cost.ts';

/** So many pieces with their cost together. */
export interface Pieces {
  readonly count: number;
  readonly cost: Cost;
}

/** Pieces as they were when anything but a taking last changed them, and what was taken since. */
export interface Batch extends Pieces {
  gone: Pieces;
}

/** No pieces at all. */
export const NO_PIECES: Pieces = { count: 0, cost: NO_COST };

/** A batch of pieces, none of them taken. */
export function batchOf(count: number, cost: Cost): Batch {
  return { count, cost, gone: NO_PIECES };
}

/** How many pieces are left in a batch. */
export function leftIn({ count, gone }: Batch): number {
  return count - gone.count;
}

/** The pieces that are left, with what they cost. */
export function restOf(batch: Batch): Pieces {
  return { count: leftIn(batch), cost: lessCosts(batch.cost, batch.gone.cost) };
}

/**
 * Takes the next pieces off, at the most what is left. When d of n pieces are gone, cost × d ÷ n has
 * gone with them, rounded once for each component; a taking bears what that grows by.
 */
export function takeFrom(batch: Batch, wanted: number): Pieces {
  const count = Math.max(0, Math.min(wanted, leftIn(batch)));
  if (count === 0) return NO_PIECES;
  const before = batch.gone;
  const upTo = before.count + count;
  batch.gone = { count: upTo, cost: costPortion(batch.cost, upTo, batch.count) };
  return { count, cost: lessCosts(batch.gone.cost, before.cost) };
}

/** What is left of a batch together with more pieces. */
export function joined(batch: Batch, more: Pieces): Batch {
  const rest = restOf(batch);
  return batchOf(rest.count + more.count, addCosts(rest.cost, more.cost));
}

/** What so many pieces of a batch cost, whether it still has them or not: nothing for an empty one. */
export function costLike({ count, cost }: Pieces, wanted: number): Cost {
  return count === 0 ? NO_COST : costPortion(cost, wanted, count);
}
