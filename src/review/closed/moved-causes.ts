/** Which of the changes moved a closed or finished quarter. */
import { grouped } from '../../grouping.ts';
import type { RecordChange } from '../changes.ts';
import { daysOf, isEvent } from '../days.ts';
import { sizeOfMove } from '../figures.ts';
import type { MovedPeriod } from './moved-periods.ts';
import { reachesFigures } from '../reach.ts';

/** Quarters that moved, all of them closed or none, and the change that is likeliest to have moved them. */
export interface PeriodCause {
  readonly isClosed: boolean;
  /** The one that moved furthest first. */
  readonly moved: readonly MovedPeriod[];
  readonly change: RecordChange;
}

/** The causes of what moved, those of closed quarters first, then those that moved one furthest. */
export function periodCauses(
  periods: readonly MovedPeriod[],
  changes: readonly RecordChange[],
): PeriodCause[] {
  const moving = changes.filter(reachesFigures);
  const causeOf = (moved: MovedPeriod): RecordChange | undefined =>
    moving.toSorted((one, other) => rankIn(moved, one) - rankIn(moved, other))[0];
  return [true, false].flatMap((isClosed) => {
    const own = periods.filter((each) => each.isClosed === isClosed).toSorted(byWeight);
    return [...grouped(own, causeOf)].flatMap(([change, moved]) =>
      change ? [{ isClosed, moved, change }] : [],
    );
  });
}

function byWeight(one: MovedPeriod, other: MovedPeriod): number {
  return weightOf(other) - weightOf(one);
}

/** Profit first: of a quarter whose profit stays the same less is wrong. */
function weightOf({ figure }: MovedPeriod): number {
  const size = sizeOfMove(figure);
  return figure.row === 'net-profit' ? size + PROFIT_FIRST : size;
}

const PROFIT_FIRST = 1e12;

/** An event of the quarter, then what has no day, then what was before it, then all else. */
function rankIn(
  { period: { from, to } }: MovedPeriod,
  { kind, before, after }: RecordChange,
): number {
  if (!isEvent(kind)) return 1;
  const days = [...daysOf(before), ...daysOf(after)];
  if (days.some((day) => day >= from && day <= to)) return 0;
  return days.some((day) => day < from) ? 2 : 3;
}
