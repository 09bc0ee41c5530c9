/** Lots as they are made, and what is lost outside a firing (rules 9, 11). */
import type { Book, Lot as LotRecord } from '../../src/book.ts';
import type { LotLoss } from '../../src/events.ts';
import { FREE, type Cost } from './costs.ts';
import { R, count, exact, over, times } from './fraction.ts';
import { newLot } from './lots.ts';
import { priceIn } from './money.ts';
import { leftIn, lose } from './pile.ts';
import { causeOf, drawFrom, fitting, goTo, type State } from './state.ts';
import { labourRateOn, productOn } from './on-day.ts';

/** Clay is drawn once for the whole lot, and the work on it is its labour. */
export function make(state: State, record: LotRecord): void {
  const making: Cost = {
    ...FREE,
    clay: clayOf(state, record),
    labour: makingLabour(state.book, record),
  };
  state.lots.set(record.id, newLot(state.book, record, making));
}

function clayOf(state: State, record: LotRecord): bigint {
  const usual = productOn(state.book, record.product, record.date)?.clay;
  const material = record.clay?.material ?? usual?.material;
  const each = record.clay?.each ?? usual?.each;
  const fits = material !== undefined && each ? fitting(state, material, each) : undefined;
  if (material === undefined || !fits) return 0n;
  const quantity = times(fits, count(record.made));
  return drawFrom(state, material, { ...causeOf(record, 'clay'), quantity });
}

/** R(made × minutes × rate ÷ 60); minutes of the lot stand over those of a piece. */
export function makingLabour(book: Book, record: LotRecord): bigint {
  const each = exact(productOn(book, record.product, record.date)?.minutes);
  const minutes = record.minutes ? exact(record.minutes) : times(each, count(record.made));
  return R(over(times(minutes, priceIn(book, labourRateOn(book, record.date))), count(60)));
}

/** Takes from the earliest stage on; what is left of each bears what they cost. */
export function loseSome(state: State, id: string, loss: LotLoss): void {
  const lot = state.lots.get(id);
  if (!lot) return;
  let open = loss.count;
  lot.stages = lot.stages.map((stage) => {
    const some = Math.min(open, leftIn(stage));
    if (some === 0) return stage;
    open -= some;
    const { pile, lost } = lose(stage, some);
    goTo(state, 'lost', { day: loss.date, record: id, what: id, cost: lost });
    return pile;
  });
  if (open > 0) state.shortfalls.push({ of: id, record: id });
}
