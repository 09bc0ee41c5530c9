/** All lots as they stand, of which some may be had without the rest. */
import type { Days } from '../among.ts';
import { leftIn } from './batch.ts';
import type { KeptLot } from './months/lots.ts';
import type { LotState } from './ware.ts';

/** Lots by id, in the order in which they were made; some may be had without the rest. */
export interface LotsThere extends ReadonlyMap<string, LotState> {
  /** Those of which pieces may be anywhere. */
  readonly standing?: () => Iterable<LotState>;
  /** Those of which something may have happened among the days. */
  readonly during?: (days: Days) => Iterable<LotState>;
}

/** The same, and lots can be put into it. */
export interface Lots extends LotsThere {
  readonly set: (id: string, state: LotState) => unknown;
  /** A lot as it was kept with an earlier month, as long as nobody has looked at it. */
  readonly asKept?: (id: string) => KeptLot | undefined;
}

/** Lots of which pieces may be anywhere: whoever asks still leaves out what is not meant. */
export function lotsStanding(lots: LotsThere): Iterable<LotState> {
  return lots.standing?.() ?? lots.values();
}

/** Lots of which something may have happened among the days: whoever asks leaves out what is not meant. */
export function lotsDuring(lots: LotsThere, days: Days): Iterable<LotState> {
  return lots.during?.(days) ?? lots.values();
}

/** Whether pieces of a lot are anywhere. */
export function isStanding({ stages, inKiln, shelf, places }: LotState): boolean {
  if (inKiln.length > 0 || leftIn(shelf) > 0) return true;
  return (
    stages.some((batch) => leftIn(batch) > 0) || [...places.values()].some((count) => count !== 0)
  );
}
