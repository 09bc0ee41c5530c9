/** How many pieces to start, so that enough good ones come of them and of what is under way. */
import {
  atLeast,
  exactly,
  through,
  sumOfCounts,
  type Chances,
  type UncertainShare,
} from '../../number/beta-binomial.ts';

/** One step that pieces have before them. */
export interface StepAhead {
  /** Pieces under way that have this step next. */
  readonly waiting: number;
  readonly share: UncertainShare;
  /** Pieces that are in a kiln once more, and join those that come through the step. */
  readonly refired: number;
  readonly refiredShare: UncertainShare;
}

/** What is to come of new work and work under way. */
export interface ToCome {
  /** Good pieces that are wanted. */
  readonly needed: number;
  /** From the making on. */
  readonly steps: readonly StepAhead[];
  /** As a fraction of 1. */
  readonly assurance: number;
}

/** So many to start, and what that gives. */
export interface Start {
  readonly count: number;
  /** The chance that enough come through, as a fraction of 1. */
  readonly chance: number;
}

/**
 * The chances of 0, 1, 2 … good pieces of so many that are started. All pieces that go through a step share
 * one draw of its share, the new ones and those under way.
 */
export function goodOfStarted(count: number, steps: readonly StepAhead[]): Chances {
  return steps.reduce<Chances>((coming, { waiting, share, refired, refiredShare }) => {
    const passed = through(sumOfCounts(coming, exactly(waiting)), share);
    return refired === 0 ? passed : sumOfCounts(passed, through(exactly(refired), refiredShare));
  }, exactly(count));
}

/** Beyond so many more than are wanted nobody starts pieces to be sure. */
function mostFor(needed: number): number {
  return needed * 2 + 10;
}

/**
 * The fewest to start for the assurance. Where no number is enough, as when whole loads are lost too often,
 * as many as come to what is wanted on average: the chance says how sure that is.
 */
export function toStart(goal: ToCome): Start {
  const chanceOf = (count: number): number =>
    atLeast(goodOfStarted(count, goal.steps), goal.needed);
  const most = mostFor(goal.needed);
  if (chanceOf(most) < goal.assurance) return onAverage(goal, chanceOf);
  const count = fewest(most, (some) => chanceOf(some) >= goal.assurance);
  return { count, chance: chanceOf(count) };
}

/** A mean that adding up leaves a hair below a whole number. */
const NEARLY = 1e-9;

function onAverage({ needed, steps }: ToCome, chanceOf: (count: number) => number): Start {
  const meanOf = (count: number): number =>
    goodOfStarted(count, steps).reduce((sum, chance, good) => sum + chance * good, 0);
  const most = mostFor(needed);
  const count =
    meanOf(most) < needed ? most : fewest(most, (some) => meanOf(some) >= needed - NEARLY);
  return { count, chance: chanceOf(count) };
}

/** The least number from 0 on that is enough; what is enough stays so for more, and `most` is. */
function fewest(most: number, isEnough: (count: number) => boolean): number {
  let [low, high] = [0, most];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (isEnough(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}
