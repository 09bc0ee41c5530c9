/** Ware that is sold, comes back or is counted: which lots it is from and what it had cost. */
import type { Counted, Day, Grade, Lot, Sale, SaleLine } from '../../book.ts';
import { ZERO } from '../../number/decimal.ts';
import { NO_MONEY, total, type Money } from '../../number/money.ts';
import type { Quantity } from '../../number/unit.ts';
import {
  type Cost,
  NO_COST,
  NO_PIECES,
  type Pieces,
  addCosts,
  leftIn,
  negated,
  takeFrom,
} from '../costs/cost.ts';
import {
  carries,
  countFinished,
  lastCost,
  lotForFound,
  putBack,
  putFound,
  takeFinished,
  takenFrom,
} from './finished.ts';
import { STUDIO_PLACE, type LotState } from './lot.ts';
import { placeOf } from './lot-making.ts';
import { noteOpenGlaze, settleCounted } from './open-glaze.ts';
import { isOpening } from '../stock/opening.ts';
import { thereInstead } from './there-instead.ts';
import {
  noteShort,
  noteWare,
  type Selection,
  type SoldPieces,
  type TakenFrom,
  type Ware,
} from './ware.ts';
import { addTo, countIn } from '../../grouping.ts';
import { monthOf } from '../../number/date.ts';

/** The ware behind one sale line. */
export interface SoldLine {
  readonly from: readonly TakenFrom[];
  /** What the ware had cost, with its packing; negative for what came back. */
  readonly cost: Cost;
  /** True where more was sold than finished, or came back than was sold. */
  readonly estimated: boolean;
}

/** Ware that is found has its glaze already. */
const NO_GLAZE: Quantity = { value: ZERO, unit: 'g', text: '0 g' };

/** A line that takes no ware: of a class, of something in words, or from before the book starts. */
export const NOTHING_SOLD: SoldLine = { from: [], cost: NO_COST, estimated: false };

/** One line of a sale of the ware. */
interface Selling {
  readonly sale: Sale;
  readonly index: number;
  readonly line: SaleLine;
  readonly selection: Selection & { readonly grade: Grade };
}

/** One line of a sale. */
function sellLine(
  ware: Ware,
  sale: Sale,
  { index, packing }: { index: number; packing: Money },
): SoldLine {
  const line = sale.lines[index];
  if (line?.product === undefined) return NOTHING_SOLD;
  const { product, lot, glaze, grade = 'first' } = line;
  const place = placeOf(ware, sale.channel);
  const selling = { sale, index, line, selection: { product, lot, glaze, grade, place } };
  return line.returned === 'yes' ? bringBack(ware, selling) : takeSold(ware, selling, packing);
}

function takeSold(ware: Ware, selling: Selling, packing: Money): SoldLine {
  const { line, selection } = selling;
  const { from, count } = takeFinished(ware, selection, line.count);
  for (const taken of from) noteSold(ware, selling, taken);
  const { sale, index } = selling;
  const at = { file: sale.file, path: [sale.id, 'lines', index] };
  noteOpenGlaze(ware, selection, { day: sale.date, at, from });
  const wrapping = packing === NO_MONEY ? NO_COST : { packing };
  const beyond = line.count - count;
  if (beyond > 0) reportUnfinished(ware, selling, count);
  const more = beyond > 0 ? lastCost(ware, selection.product, beyond) : NO_COST;
  const cost = from.reduce((all, taken) => addCosts(all, taken.cost), addCosts(wrapping, more));
  return { from, cost, estimated: beyond > 0 };
}

/** They are kept, for they can come back. */
function noteSold(ware: Ware, { sale, selection }: Selling, taken: TakenFrom): void {
  const { lot, count, cost } = taken;
  keepSold(ware, selection.product, { day: sale.date, taken });
  noteWare(ware, {
    day: sale.date,
    reason: 'sold',
    by: sale.id,
    lot: lot.lot.id,
    count,
    cost,
  });
}

/**
 * What comes back was sold last: it comes back at what it had cost, without its packing, to its own lot.
 * What the book never sold is costed like the load that came out last.
 */
function bringBack(ware: Ware, selling: Selling): SoldLine {
  const { line, selection } = selling;
  const from = fromLastSold(ware, selection, line.count);
  const beyond = line.count - countIn(from);
  const all = beyond > 0 ? [...from, neverSold(ware, selling, beyond)] : from;
  for (const back of all) comeBack(ware, selling, back);
  const cost = all.reduce((sum, back) => addCosts(sum, back.cost), NO_COST);
  return { from: all, cost: negated(cost), estimated: beyond > 0 };
}

function fromLastSold(ware: Ware, selection: Selling['selection'], wanted: number): TakenFrom[] {
  const { product, lot: named, glaze, grade } = selection;
  const back: TakenFrom[] = [];
  let left = wanted;
  for (const sold of lastSold(ware, product)) {
    if (left === 0) break;
    const { lot } = sold;
    if (named !== undefined && lot.lot.id !== named) continue;
    if (leftIn(sold) === 0 || !carries(lot, glaze)) continue;
    const taken = takeFrom(sold, left);
    ware.returned.set(sold.key, sold.gone);
    left -= taken.count;
    back.push(takenFrom(lot, grade, taken));
  }
  return back;
}

function neverSold(ware: Ware, { sale, index, selection }: Selling, count: number): TakenFrom {
  const { product, glaze, grade } = selection;
  const record = foundLot(sale, { index, product, glaze });
  const lot = lotForFound(ware, selection, record);
  return takenFrom(lot, grade, { count, cost: lastCost(ware, product, count) });
}

function comeBack(ware: Ware, { sale, selection }: Selling, back: TakenFrom): void {
  const { lot, grade, count, cost } = back;
  putBack(ware, lot, { day: sale.date, grade, place: selection.place, count, cost });
  noteWare(ware, {
    day: sale.date,
    reason: 'sold',
    by: sale.id,
    lot: lot.lot.id,
    count: -count,
    cost: negated(cost),
  });
}

/** Sets finished ware to what was counted; the difference goes to an account of its own. */
export function countPieces(ware: Ware, counted: Counted): void {
  (counted.pieces ?? []).forEach((line, index) => {
    if (isOpening(line)) return;
    const { product, glaze, grade, place = STUDIO_PLACE } = line;
    const selection = { product, glaze, grade, place };
    const difference = line.count - countFinished(ware, selection);
    const { from } = takeFinished(ware, selection, Math.max(0, -difference));
    for (const { lot, count, cost } of from) noteCounted(ware, counted, { lot, count, cost });
    const at = { file: counted.file, path: [counted.id, 'pieces', index] };
    noteOpenGlaze(ware, selection, { day: counted.date, at, from });
    settleCounted(ware, selection);
    if (difference <= 0) return;
    const record = foundLot(counted, { index, product, glaze });
    const found = putFound(ware, selection, { day: counted.date, count: difference, record });
    noteCounted(ware, counted, {
      lot: found.lot,
      count: -found.count,
      cost: negated(found.cost),
    });
  });
}

function noteCounted(
  ware: Ware,
  { id, date }: Counted,
  { lot, count, cost }: Pieces & { lot: LotState },
): void {
  noteWare(ware, { day: date, reason: 'differences', by: id, lot: lot.lot.id, count, cost });
}

/** A lot for pieces that no lot of the book accounts for: it carries no cost. */
export function foundLot(
  record: { id: string; file: string; date: string },
  { index, product, glaze }: { index: number; product: string; glaze: string | undefined },
): Lot {
  const { id, file, date } = record;
  const lot = { id: `${id}/${index}`, file, date, product, made: 0 };
  return glaze === undefined ? lot : { ...lot, glazes: [{ recipe: glaze, each: NO_GLAZE }] };
}

function reportUnfinished(
  ware: Ware,
  { sale, index, line, selection }: Selling,
  had: number,
): void {
  noteShort(ware, {
    kind: selection.place === STUDIO_PLACE ? 'finished' : 'consigned',
    day: sale.date,
    at: { file: sale.file, path: [sale.id, 'lines', index, 'count'] },
    what: selection.product,
    wanted: line.count,
    had,
    meant: selection,
    instead: thereInstead(ware, selection),
  });
}

/** Keeps pieces of a product that a sale took. */
function keepSold(
  ware: Ware,
  product: string,
  { day, taken }: { readonly day: Day; readonly taken: TakenFrom },
): void {
  const { lot, count, cost } = taken;
  const key = soldKey(monthOf(day), ware.soldNow.length);
  ware.soldNow.push({ product, fact: ware.facts.length });
  addTo(ware.sold, product, { lot, count, cost, gone: NO_PIECES, key });
}

/** What tells pieces that were sold from all others. */
export function soldKey(month: string, at: number): string {
  return `${month} ${at}`;
}

/** All that was sold of a product, the last first. */
function* lastSold(ware: Ware, product: string): Generator<SoldPieces> {
  yield* (ware.sold.get(product) ?? []).toReversed();
  for (const month of ware.soldEarlier(product)) yield* month.toReversed();
}

/** Takes what a sale sold off the shelves, with the packing that its lines took, and puts back what came back. */
export function sell(ware: Ware, sale: Sale, packing: readonly Money[]): SoldLine[] {
  notePacking(ware, sale, total(packing));
  return sale.lines.map((_, index) =>
    sellLine(ware, sale, { index, packing: packing[index] ?? NO_MONEY }),
  );
}

function notePacking(ware: Ware, { id, date }: Sale, packing: Money): void {
  if (packing === NO_MONEY) return;
  noteWare(ware, { day: date, reason: 'sold', by: id, lot: '', count: 0, cost: { packing } });
}
