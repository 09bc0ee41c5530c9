/** Pieces that share a cost: they are taken off in slices, and what a slice costs is reckoned when asked. */
import { NO_COST, addCosts, costPortion, lessCosts, type Cost } from './cost.ts';

/** So many pieces with their cost together, and how many of them are taken already. */
export interface Batch {
  readonly count: number;
  readonly cost: Cost;
  taken: number;
}

/** Pieces taken off a batch one after the other: those from the given one on. */
export interface Slice {
  readonly batch: Batch;
  readonly from: number;
  readonly count: number;
}

/** A batch of pieces, none of them taken. */
export function batchOf(count: number, cost: Cost): Batch {
  return { count, cost, taken: 0 };
}

/** How many pieces are left in a batch. */
export function leftIn(batch: Batch): number {
  return batch.count - batch.taken;
}

/** Takes the next pieces off, at the most what is left. */
export function takeSlice(batch: Batch, wanted: number): Slice {
  const count = Math.max(0, Math.min(wanted, leftIn(batch)));
  const slice = { batch, from: batch.taken, count };
  batch.taken += count;
  return slice;
}

/** The pieces that are left, as a slice that stays in the batch. */
export function restOf(batch: Batch): Slice {
  return { batch, from: batch.taken, count: leftIn(batch) };
}

/**
 * Cost of a slice: the step between two running portions of the batch's cost. So the slices of a batch
 * add up to its cost exactly, however it is cut.
 */
export function costOfSlice({ batch, from, count }: Slice): Cost {
  if (count === 0) return NO_COST;
  const upTo = costPortion(batch.cost, from + count, batch.count);
  return from === 0 ? upTo : lessCosts(upTo, costPortion(batch.cost, from, batch.count));
}

/** What so many pieces of a batch cost, whether it still has them or not: none for an empty batch. */
export function costLike(batch: Batch, count: number): Cost {
  return batch.count === 0 ? NO_COST : costPortion(batch.cost, count, batch.count);
}

/** The costs of several slices together. */
export function costOfSlices(slices: readonly Slice[]): Cost {
  return slices.map(costOfSlice).reduce(addCosts, NO_COST);
}
