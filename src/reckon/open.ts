/** What is not settled yet, so that nobody has to look through all that ever was for it. */
import type { Day, Firing, FiringKind } from '../book.ts';
import type { SoldSale } from './earned.ts';
import { outcomeBy } from './out-of-kiln.ts';

/** Sales that are owed, firings that are in the kiln, and what each kiln has fired so far. */
export interface Open {
  /** Sale → the later day on which it is paid; undefined while it is owed. */
  readonly sales: Map<string, Day | undefined>;
  /** Firings of which pieces have no outcome yet. */
  readonly firings: Set<string>;
  /** Kinds of firing that any kiln had → the kilns. */
  readonly fired: Map<FiringKind, Set<string>>;
}

/** Nothing has happened. */
export function nothingOpen(): Open {
  return { sales: new Map(), firings: new Set(), fired: new Map() };
}

/** Notes a sale that is not paid on its day. */
export function noteOwed({ sales }: Open, { id, date, paid }: SoldSale): void {
  if (paid === undefined || paid > date) sales.set(id, paid);
}

/** Notes how a firing stands on a day: that of its own, and that on which it is unloaded. */
export function noteInKiln({ firings, fired }: Open, firing: Firing, day: Day): void {
  const { id, kind, kiln } = firing;
  fired.set(kind, (fired.get(kind) ?? new Set()).add(kiln));
  if (countStillIn(firing, day) > 0) firings.add(id);
  else firings.delete(id);
}

/** The pieces in a firing that have no outcome by the end of a day. */
export function countStillIn(firing: Firing, asOf: Day): number {
  const still = firing.load.filter((line) => outcomeBy(asOf, firing, line) === undefined);
  return still.reduce((count, line) => count + line.in, 0);
}

/** The same at the end of a day, without the sales that were paid by then. */
export function openBy({ sales, firings, fired }: Open, day: Day): Open {
  const owed = [...sales].filter(([, paid]) => paid === undefined || paid > day);
  return { sales: new Map(owed), firings, fired };
}
