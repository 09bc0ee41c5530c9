/** What happens to a lot outside the kiln: it is made, some of it is lost, some of it leaves unsold. */
import type { Day, Lot, LotGone } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { decimal, divide, type Decimal } from '../../number/decimal.ts';
import { NO_MONEY, type Money } from '../../number/money.ts';
import { rounded } from '../booked.ts';
import { type Cost, NO_COST, addCosts, batchOf, leftIn, restOf } from '../costs/cost.ts';
import { takeFinished } from './finished.ts';
import { STUDIO_PLACE, countAt, historyOf, type LotState } from './lot.ts';
import { thereInstead } from './there-instead.ts';
import { noteShort, noteWare, noteWorked, startLot, type Account, type Ware } from './ware.ts';

/** Where the cost of finished ware goes that left without a sale, by how it left. */
export const GONE_TO: Readonly<Record<LotGone['how'], Account>> = {
  gift: 'given',
  kept: 'kept',
  'given-away': 'given',
  broken: 'lost',
  missing: 'lost',
};

/** A lot begins with the value of its clay and the cost of the time that its making took. */
export function makeLot(ware: Ware, lot: Lot, clay: Money): void {
  const cost = ware.isValued ? { clay, labour: makingLabour(ware, lot) } : NO_COST;
  const { id, date, made } = lot;
  startLot(ware, lot, { count: made, cost });
  noteWare(ware, { day: date, reason: 'made', by: id, lot: id, count: made, cost });
}

/** Minutes of work on the whole lot: its own, else the product's for one piece × made. */
export function minutesOfLot(ware: Pick<Ware, 'book'>, lot: Lot): Decimal | undefined {
  if (lot.minutes) return lot.minutes;
  const product = inForce(ware.book.products.get(lot.product), lot.date);
  return product?.minutes?.times(decimal(lot.made));
}

/**
 * Pieces lost outside firings, from the earliest stage on at which some stand; those that are left
 * there bear their cost. More than there are is a shortfall; finished ware is never lost so, but gone.
 */
export function loseFromLot(ware: Ware, lot: Lot, index: number): void {
  const loss = lot.lost?.[index];
  const state = ware.lots.get(lot.id);
  if (!loss || !state) return;
  const standing = state.stages.reduce((all, batch) => all + leftIn(batch), 0);
  if (standing < loss.count) reportLostBeyond(ware, state, { index, standing });
  let left = loss.count;
  for (const stage of state.stages.keys()) {
    left -= loseAt(ware, state, { stage, day: loss.date, wanted: left });
  }
}

/** Loses pieces of one stage; returns how many there were to lose. */
function loseAt(
  ware: Ware,
  state: LotState,
  { stage, day, wanted }: { stage: number; day: Day; wanted: number },
): number {
  const rest = restOf(state.stages[stage] ?? batchOf(0, NO_COST));
  const count = Math.min(wanted, rest.count);
  if (count === 0) return 0;
  const left = rest.count - count;
  state.stages[stage] = batchOf(left, left === 0 ? NO_COST : rest.cost);
  noteWorked(ware, state);
  state.lostOutside.push({ day, stage, count });
  state.steps.push({ stage, change: -count, by: 'lost', day });
  const { id } = state.lot;
  const cost = left === 0 ? rest.cost : NO_COST;
  noteWare(ware, { day, reason: 'lost', by: id, lot: id, count, cost });
  return count;
}

function reportLostBeyond(
  ware: Ware,
  state: LotState,
  { index, standing }: { index: number; standing: number },
): void {
  const { lot, stages } = state;
  const { date: day, count: wanted } = lot.lost?.[index] ?? { date: lot.date, count: 0 };
  const filled = [...stages.keys()].filter((stage) => countAt(state, stage) > 0);
  const at = { file: lot.file, path: [lot.id, 'lost', index, 'count'] };
  const history = historyOf(state, filled.length > 1 ? undefined : (filled[0] ?? 0));
  noteShort(ware, { kind: 'stage', day, at, what: lot.id, wanted, had: standing, history });
}

/** Finished pieces that left without a sale, from the studio or from the gallery that is named. */
export function leaveLot(ware: Ware, lot: Lot, index: number): void {
  const gone = lot.gone?.[index];
  if (!gone) return;
  const place = placeOf(ware, gone.channel);
  const selection = { product: lot.product, lot: lot.id, grade: gone.grade, place };
  const taken = takeFinished(ware, selection, gone.count);
  const cost = taken.from.reduce((all, each) => addCosts(all, each.cost), NO_COST);
  const { id } = lot;
  const reason = GONE_TO[gone.how];
  noteWare(ware, { day: gone.date, reason, by: id, lot: id, count: taken.count, cost });
  noteGone(ware, lot, { index, cost });
  if (taken.count === gone.count) return;
  const at = { file: lot.file, path: [lot.id, 'gone', index, 'count'] };
  const counts = { wanted: gone.count, had: taken.count };
  const instead = thereInstead(ware, selection);
  const pieces = { kind: 'finished', what: lot.id, meant: selection, instead } as const;
  noteShort(ware, { ...pieces, day: gone.date, at, ...counts });
}

function noteGone(ware: Ware, lot: Lot, { index, cost }: { index: number; cost: Cost }): void {
  const state = ware.lots.get(lot.id);
  if (!state) return;
  state.gone[index] = cost;
  ware.touched.add(state);
}

/** Where a channel keeps its ware: a gallery with goods on consignment at its own place, else the studio. */
export function placeOf(ware: Pick<Ware, 'book'>, channel: string | undefined): string {
  const isGallery =
    channel !== undefined && ware.book.channels.get(channel)?.kind === 'consignment';
  return isGallery ? channel : STUDIO_PLACE;
}

/** Made × minutes × the rate of an hour ÷ 60, rounded once for the lot. */
function makingLabour(ware: Ware, lot: Lot): Money {
  const minutes = minutesOfLot(ware, lot);
  const rate = inForce(ware.book.studio, lot.date).labourRate;
  return minutes && rate ? rounded(ware.book, divide(minutes.times(rate), decimal(60))) : NO_MONEY;
}
