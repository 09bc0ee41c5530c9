/** The steps that lots went through, with what each took: the ground of what a piece of them costs. */
import type { Book, Day } from '../../book.ts';
import { addTo, countIn } from '../../grouping.ts';
import { ZERO, decimal, sum, type Decimal } from '../../number/decimal.ts';
import { NO_MONEY, add, decimalOf } from '../../number/money.ts';
import { madeOnce } from '../../once.ts';
import { digitsOf } from '../booked.ts';
import { type Cost, leftIn } from './cost.ts';
import { minutesOfLot } from '../ware/lot-making.ts';
import { outOn } from '../kilns/out-of-kiln.ts';
import {
  NO_OVERHEAD,
  overheadOfLine,
  overheadOfMaking,
  tendedMinutes,
  type Overhead,
} from './overhead.ts';
import type { Span } from '../../number/date.ts';
import { PIECE_PARTS, minutesOfPiece, type PartCosts, type Step } from './piece-cost.ts';
import type { LotPass, LotState } from '../ware/lot.ts';
import { lotsDuring } from '../ware/ware.ts';
import type { Flows } from '../flows.ts';

/**
 * Lots by product that came out in the span: their first finished pieces did, or where nothing of them
 * is left, the last of them was lost in it. So each lot belongs to one day. What was there when the
 * book began is left out: nobody knows what its making took. In the order of their ids.
 */
export function lotsOut(
  book: Book,
  flows: Flows,
  { from, to }: Span,
): ReadonlyMap<string, readonly LotState[]> {
  const found = new Map<string, LotState[]>();
  const states = [...lotsDuring(flows.ware.lots, { from, to })].filter(
    ({ lot, wasThere }) => book.pieces.has(lot.id) && !wasThere,
  );
  for (const state of states.sort((a, b) => (a.lot.id < b.lot.id ? -1 : 1))) {
    const day = dayOut(state);
    if (day === undefined || day < from || day > to) continue;
    addTo(found, state.lot.product, state);
  }
  return found;
}

/** Good pieces that came out of a lot's last firing, less those lost when fired again. */
export function goodOf({ lot, fired, passes, lostOutside }: LotState): number {
  const last = passes.filter(({ to }) => to === fired.length);
  const out = last.map((pass) =>
    pass.from < pass.to ? pass.line.in - lostIn(pass) : -lostIn(pass),
  );
  const made = fired.length === 0 ? lot.made - countIn(lostOutside) : 0;
  return out.reduce((all, count) => all + count, made);
}

/**
 * The steps of some lots of one product together: the making with its clay and minutes, then each
 * firing with its shares and its glaze. What was fired again, or as a test, counts in the step that it
 * had come out of: its cost and its losses there, its pieces not again. Steps that none went through
 * are left out.
 */
export function stepsOf(book: Book, overhead: Overhead, lots: readonly LotState[]): Step[] {
  const last = Math.max(0, ...lots.map(({ fired }) => fired.length));
  const steps = Array.from({ length: last + 1 }, (_, at) =>
    added(lots.map((state) => stepOf(book, overhead, { state, at }))),
  );
  return steps.filter((step) => step.in.gt(ZERO));
}

/**
 * Minutes of work behind one good piece of a lot, as `costOfPiece` has them: its making and its share of
 * the tended hours, with what the lost ones took. Where nobody made the lot, those of its product.
 */
export function minutesOfGood(book: Book, state: LotState): Decimal | undefined {
  if (state.lot.made === 0 || state.wasThere) return state.product?.minutes;
  return minutesOfPiece(stepsOf(book, NO_OVERHEAD, [state]));
}

/** Several goings through one step together. */
function added(parts: readonly Step[]): Step {
  const [only, ...more] = parts;
  if (only && more.length === 0) return only;
  const minutes = parts.map((part) => part.minutes);
  const known = minutes.filter((each) => each !== undefined);
  return stepWith(
    {
      in: sum(parts.map((part) => part.in)),
      lost: sum(parts.map((part) => part.lost)),
      minutes: known.length === minutes.length ? sum(known) : undefined,
    },
    () =>
      Object.fromEntries(
        PIECE_PARTS.map((part) => [part, sum(parts.map(({ costs }) => costs[part] ?? ZERO))]),
      ),
  );
}

/** Its costs are added up only where somebody asks for them: many ask for the minutes alone. */
function stepWith(step: Omit<Step, 'costs'>, costs: () => PartCosts): Step {
  const known = madeOnce(costs);
  return {
    ...step,
    get costs() {
      return known();
    },
  };
}

interface At {
  readonly state: LotState;
  readonly at: number;
}

function stepOf(book: Book, overhead: Overhead, { state, at }: At): Step {
  const passes = state.passes.filter(({ to }) => to === at);
  const fired = passes.map((pass) => passStep(book, overhead, pass));
  const elsewhere = countIn(state.lostOutside.filter(({ stage }) => stage === at));
  const outside = { in: ZERO, lost: decimal(elsewhere), costs: {}, minutes: ZERO };
  return added([
    ...(at === 0 ? [makingStep(book, overhead, state)] : []),
    ...(elsewhere === 0 ? [] : [outside]),
    ...fired,
  ]);
}

/** The making's cost is what the lot began with in the flow. */
function makingStep(book: Book, overhead: Overhead, { lot, making }: LotState): Step {
  const minutes = minutesOfLot({ book }, lot);
  return stepWith({ in: decimal(lot.made), lost: ZERO, minutes }, () => ({
    ...partCosts(book, making),
    overhead: overheadOfMaking(overhead, minutes),
  }));
}

function passStep(book: Book, overhead: Overhead, pass: LotPass): Step {
  const counts = {
    in: pass.from < pass.to ? decimal(pass.line.in) : ZERO,
    lost: decimal(lostIn(pass)),
  };
  return stepWith({ ...counts, minutes: tendedMinutes(book, pass) }, () => ({
    ...partCosts(book, pass.added),
    overhead: overheadOfLine(book, overhead, pass),
  }));
}

/** What was booked, as decimals that can be divided. Fuel is energy that was bought before. */
function partCosts(book: Book, { fuel = NO_MONEY, energy = NO_MONEY, ...others }: Cost): PartCosts {
  const digits = digitsOf(book);
  const parts = Object.entries({ ...others, energy: add(energy, fuel) });
  return Object.fromEntries(
    parts.map(([part, amount = NO_MONEY]) => [part, decimalOf(amount, digits)]),
  );
}

function lostIn({ line }: LotPass): number {
  return line.lost ?? 0;
}

function dayOut(state: LotState): Day | undefined {
  const { fired, passes, stages, inKiln, lostOutside } = state;
  const finished = passes.filter((pass) => pass.to === fired.length && lostIn(pass) < pass.line.in);
  if (finished[0]) return outOn(finished[0].firing);
  if (inKiln.length > 0 || stages.some((batch) => leftIn(batch) > 0)) return undefined;
  return [...passes.map(({ firing }) => outOn(firing)), ...lostOutside.map(({ day }) => day)]
    .sort()
    .at(-1);
}
