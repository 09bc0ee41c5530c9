/** What is wanted of each sort of ware, what there is for it, and how much has to be started. */
import type { Book, Day } from '../../book.ts';
import { addTo, countIn, grouped } from '../../grouping.ts';
import { dayNumber } from '../../number/date.ts';
import { meanShare } from '../../number/beta-binomial.ts';
import type { Flows } from '../flows.ts';
import { shareAtHand } from '../ware/at-hand.ts';
import type { Demand } from './demands.ts';
import type { PiecesDue, WaitingPieces } from './schedule.ts';
import { toStart, type Start, type StepAhead } from './to-start.ts';
import { byProduct, type UnderWay } from './under-way.ts';
import type { WareSort } from './ware-sort.ts';
import { firingStep, type Yields } from './yields.ts';

/** A demand, and how much of it is ready. */
export interface DemandMet extends Demand {
  readonly ready: number;
}

/** One sort of ware that is wanted. */
export interface WareGoal {
  readonly sort: WareSort;
  /** In the order in which they are met. */
  readonly demands: readonly DemandMet[];
  readonly wanted: number;
  readonly ready: number;
  /** Work under way that meets it, before any of it is lost. */
  readonly underWay: number;
  /** For all that is wanted. */
  readonly start: Start;
  /** How many of them for which due day. */
  readonly toMake: readonly PiecesDue[];
  /** The work under way, by the due days that it is for. */
  readonly waiting: readonly WaitingPieces[];
}

/** What goals are reckoned from. */
export interface GoalGrounds {
  readonly book: Book;
  readonly flows: Flows;
  readonly underWay: readonly UnderWay[];
  readonly yields: Yields;
  readonly sortOf: (product: string, glaze: string | undefined) => WareSort;
  /** As a fraction of 1. */
  readonly assurance: number;
}

/** The goals, and the work under way that nobody waits for. */
export interface WareGoals {
  readonly goals: readonly WareGoal[];
  readonly spare: readonly WaitingPieces[];
}

/** The goals of all demands, which are in the order in which they are met. Seconds are met by what is ready alone. */
export function goalsOf(grounds: GoalGrounds, demands: readonly Demand[]): WareGoals {
  const { flows, underWay, sortOf } = grounds;
  const met = shareAtHand(flows.ware, demands);
  const withReady = demands.map((demand, at) => ({ ...demand, ready: met[at]?.ready ?? 0 }));
  const firsts = withReady.filter(({ grade }) => grade === 'first');
  const bySort = grouped(firsts, ({ product, glaze }) => sortOf(product, glaze));
  const found = shareUnderWay([...bySort.keys()], underWay);
  const goals = [...bySort].map(([sort, some]) =>
    goalOf(grounds, sort, { demands: some, underWay: found.get(sort) ?? [] }),
  );
  const spare = found.get(undefined) ?? [];
  return { goals, spare: spare.map((each) => waitingFor(each, each.count, undefined)) };
}

/** Each lot goes to the sort that names its glaze, else to that for which any will do, else to none. */
function shareUnderWay(
  sorts: readonly WareSort[],
  underWay: readonly UnderWay[],
): Map<WareSort | undefined, UnderWay[]> {
  const shared = new Map<WareSort | undefined, UnderWay[]>();
  for (const [product, lots] of byProduct(underWay)) {
    const some = sorts.filter((sort) => sort.product === product);
    const any = some.find(({ glaze }) => glaze === undefined);
    for (const each of lots)
      addTo(shared, some.find(({ glaze }) => each.glazes.includes(glaze ?? '')) ?? any, each);
  }
  return shared;
}

interface ForSort {
  readonly demands: readonly DemandMet[];
  readonly underWay: readonly UnderWay[];
}

function goalOf(grounds: GoalGrounds, sort: WareSort, { demands, underWay }: ForSort): WareGoal {
  const steps = stepsAhead(grounds, sort, underWay);
  const needs = needsByDue(demands);
  const { assurance } = grounds;
  const starts = needs.map(({ needed }) => toStart({ needed, steps, assurance }));
  const toMake = needs.map(({ due }, at) => {
    const count = (starts[at]?.count ?? 0) - (starts[at - 1]?.count ?? 0);
    return { sort, due, count };
  });
  return {
    sort,
    demands,
    wanted: countIn(demands),
    ready: demands.reduce((sum, { ready }) => sum + ready, 0),
    underWay: countIn(underWay),
    start: starts.at(-1) ?? { count: 0, chance: 1 },
    toMake: toMake.filter(({ count }) => count > 0),
    waiting: allotted(grounds, underWay, needs),
  };
}

/** How much is needed by a due day, all earlier ones counted in; undefined where there is none. */
interface Need {
  readonly due: number | undefined;
  readonly needed: number;
}

function needsByDue(demands: readonly DemandMet[]): Need[] {
  let needed = 0;
  return [...grouped(demands, ({ due }) => due)].map(([due, some]) => {
    needed += some.reduce((sum, { count, ready }) => sum + count - ready, 0);
    return { due: dueNumber(due), needed };
  });
}

function dueNumber(due: Day | undefined): number | undefined {
  return due === undefined ? undefined : dayNumber(due);
}

/** The steps that pieces of a sort go through, each with what is under way before it. */
function stepsAhead(
  { yields }: GoalGrounds,
  { product, fired }: WareSort,
  underWay: readonly UnderWay[],
): StepAhead[] {
  const counts = (isMeant: (each: UnderWay) => boolean): number =>
    countIn(underWay.filter(isMeant));
  const making = {
    waiting: counts(({ stage, inKiln }) => stage === 0 && inKiln === 'no'),
    share: yields(product, 'making').share,
    refired: 0,
    refiredShare: yields(product, 'making').share,
  };
  const firings = fired.map((kind, at) => ({
    waiting: counts(({ stage, inKiln }) =>
      inKiln === 'firing' ? stage === at + 1 : inKiln === 'no' && stage === at && at > 0,
    ),
    share: yields(product, firingStep(kind)).share,
    refired: counts(({ stage, inKiln }) => inKiln === 'refire' && stage === at + 1),
    refiredShare: yields(product, firingStep(kind, true)).share,
  }));
  return [making, ...firings];
}

/** Gives the work that is furthest to the earliest due day, as much as comes to what is needed on average. */
function allotted(
  { yields }: GoalGrounds,
  underWay: readonly UnderWay[],
  needs: readonly Need[],
): WaitingPieces[] {
  let coming = 0;
  const inTurn = underWay.toSorted(
    (one, other) => other.stage - one.stage || one.ready - other.ready,
  );
  return inTurn.flatMap((each) => {
    const share = shareLeft(yields, each);
    let left = each.count;
    const wanted = needs.map(({ due, needed }) => {
      const count = Math.min(left, Math.ceil(Math.max(0, needed - coming) / share));
      coming += count * share;
      left -= count;
      return waitingFor(each, count, due);
    });
    return [...wanted, waitingFor(each, left, undefined)].filter(({ count }) => count > 0);
  });
}

/** How much of work under way comes through what is before it, on average. */
function shareLeft(yields: Yields, { sort, stage, inKiln }: UnderWay): number {
  const from = inKiln === 'no' ? stage : stage - 1;
  return sort.fired
    .slice(Math.max(0, from))
    .reduce((all, kind) => all * meanShare(yields(sort.product, firingStep(kind)).share), 1);
}

function waitingFor(each: UnderWay, count: number, due: number | undefined): WaitingPieces {
  const { sort, stage, ready } = each;
  return { sort, count, due, stage, ready };
}
