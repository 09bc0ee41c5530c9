/** The figures of a day's end: what was put down, what stands where, what to order, who owes whom. */
import type { Book, Day } from '../book.ts';
import { ZERO } from '../number/decimal.ts';
import { advancesOpen, type OpenAdvance } from './advance.ts';
import { owedByOthers, owedByStudio, type Debt } from './debts.ts';
import { STOCK_STATES, USAGE_WINDOW, depletion, type Depletion } from './depletion.ts';
import { classesOwed, type ClassOwed } from './enrolment.ts';
import type { Flows } from './flow.ts';
import { kilnRoom, type KilnRoom } from './kiln-room.ts';
import { beginsAfter, isEmpty, putDownOn, type PutDown } from './put-down.ts';
import {
  firingsInKiln,
  readyWare,
  waitingWare,
  type InKiln,
  type Ready,
  type Waiting,
} from './standing.ts';
import { taxOwed, type TaxOwed } from './sales-tax.ts';
import type { StockFlow } from './stock-flow.ts';
import { taxView } from './tax-view.ts';
import { STUDIO_PLACE } from './ware.ts';

/** How the studio stands at the end of a day. */
export interface DayFigures {
  readonly day: Day;
  /** Whether the book has no event at all. */
  readonly isEmpty: boolean;
  /** The day of its first event, where that is still to come. */
  readonly begins: () => Day | undefined;
  readonly putDown: readonly PutDown[];
  readonly waiting: readonly Waiting[];
  readonly inKiln: readonly InKiln[];
  /** Finished ware in the studio. */
  readonly ready: readonly Ready[];
  /** Finished ware elsewhere, by product and place. */
  readonly atGalleries: readonly Ready[];
  readonly kilns: readonly KilnRoom[];
  /** Out, or to be ordered by today, the most urgent first. */
  readonly toOrder: readonly Depletion[];
  /** Below its reorder mark, but not pressing. */
  readonly low: readonly Depletion[];
  readonly owedByOthers: readonly Debt[];
  readonly owedByStudio: readonly Debt[];
  /** Sales tax to pay over, by place, where the settings have rates of places. */
  readonly taxOwed: readonly TaxOwed[];
  /** What others paid ahead: deposits and certificates, and lessons that are still to come. */
  readonly advancesOpen: readonly OpenAdvance[];
  readonly classesOwed: readonly ClassOwed[];
}

/** Everything up to and with the day that the flows were run to. */
export function dayFigures(book: Book, flows: Flows): DayFigures {
  const day = flows.stock.asOf;
  const { taxes } = book.studio;
  const waiting = waitingWare(book, flows.ware);
  const ready = readyWare(book, flows.ware);
  const stock = depletion(book, flows.stock, USAGE_WINDOW).sort(mostUrgentFirst);
  return {
    day,
    isEmpty: isEmpty(book),
    begins: () => beginsAfter(book, day),
    putDown: putDownOn(book, day),
    waiting,
    inKiln: firingsInKiln(book, flows),
    ready: ready.filter(({ place }) => place === STUDIO_PLACE),
    atGalleries: ready.filter(({ place }) => place !== STUDIO_PLACE),
    kilns: kilnRoom(book, flows.open, waiting),
    toOrder: stock.filter((each) => hasMoved(flows.stock, each.id) && isPressing(book, each)),
    low: stock.filter(({ state }) => state === 'low'),
    owedByOthers: owedByOthers(book, flows, day),
    owedByStudio: owedByStudio(book, day),
    taxOwed: taxes === undefined ? [] : taxOwed(taxView(book, flows)),
    advancesOpen: advancesOpen(book, day),
    classesOwed: classesOwed(book, flows),
  };
}

/** Whether anything ever went into a pool or out of it. */
function hasMoved({ pools }: StockFlow, id: string): boolean {
  return pools.get(id)?.since !== undefined;
}

/** What is out but not used any more, and has no mark to be ordered at, was given up. */
function isPressing(book: Book, { id, state, used }: Depletion): boolean {
  if (state === 'order-now') return true;
  const isKept = used.gt(ZERO) || book.materials.get(id)?.reorderAt !== undefined;
  return state === 'out' && isKept;
}

function mostUrgentFirst(one: Depletion, other: Depletion): number {
  const rank = STOCK_STATES.indexOf(one.state) - STOCK_STATES.indexOf(other.state);
  if (rank !== 0) return rank;
  if (one.daysLeft && other.daysLeft) return one.daysLeft.cmp(other.daysLeft);
  return Number(one.daysLeft === undefined) - Number(other.daysLeft === undefined);
}
