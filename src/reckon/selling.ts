/** Ware that is sold, comes back or is counted: which lots it is from and what it had cost. */
import type { Counted, Lot, Sale, SaleLine } from '../book.ts';
import { ZERO } from '../number/decimal.ts';
import type { Quantity } from '../number/unit.ts';
import { costOfSlice, type Slice } from './batch.ts';
import { NO_COST, addCosts, negated, type Cost } from './cost.ts';
import {
  countFinished,
  latestCost,
  putBack,
  takeFinished,
  type Selection,
  type TakenFrom,
} from './finished.ts';
import { placeOf } from './lot-making.ts';
import { packingCost, type PackedSlice } from './packing.ts';
import { STUDIO_PLACE, pieceShortfall, type Ware } from './ware.ts';

/** The ware behind one sale line. */
export interface SoldLine {
  readonly from: readonly TakenFrom[];
  /** Its part of what the day's packing of that product cost. */
  readonly packing: PackedSlice | undefined;
  /** Cost of what was sold beyond what was finished, as of the latest lot; less what came back. */
  readonly more: Cost;
  /** True where more was sold than finished. */
  readonly estimated: boolean;
}

/** Ware that is found has its glaze already. */
const NO_GLAZE: Quantity = { value: ZERO, unit: 'g', text: '0 g' };

const NOTHING_SOLD: SoldLine = { from: [], packing: undefined, more: NO_COST, estimated: false };

/** What the ware of a sale line had cost, with its packing; negative for what came back. */
export function costOfSold({ from, packing, more }: SoldLine): Cost {
  const wrapped = packing ? addCosts(more, { packing: packingCost(packing) }) : more;
  return from.reduce((cost, { slice }) => addCosts(cost, costOfSlice(slice)), wrapped);
}

/** Takes what a sale line sold off the shelf, or puts what it returned back on. */
export function sellLine(
  ware: Ware,
  sale: Sale,
  { index, packing }: { index: number; packing: PackedSlice | undefined },
): SoldLine {
  const line = sale.lines[index];
  if (line?.product === undefined) return NOTHING_SOLD;
  const selection = selectionOf(ware, sale, { ...line, product: line.product });
  if (line.returned === 'yes') return takeBack(ware, sale, { line, selection });
  const { from, count } = takeFinished(ware, selection, line.count);
  for (const { slice } of from) ware.accounts.sold.push(slice);
  if (packing) ware.accounts.sold.push(packing);
  if (count === line.count) return { from, packing, more: NO_COST, estimated: false };
  reportUnfinished(ware, sale, { index, had: count });
  const more = latestCost(ware, line.product, line.count - count);
  return { from, packing, more, estimated: true };
}

/** Sets finished ware to what was counted; the difference goes to an account of its own. */
export function countPieces(ware: Ware, counted: Counted): void {
  const { differences } = ware.accounts;
  (counted.pieces ?? []).forEach((line, index) => {
    const place = line.place ?? STUDIO_PLACE;
    const selection = { product: line.product, glaze: line.glaze, grade: line.grade, place };
    const difference = line.count - countFinished(ware, selection);
    if (difference < 0) {
      differences.push(...takeFinished(ware, selection, -difference).from.map(sliceOf));
    }
    if (difference > 0) {
      const record = foundLot(counted, { index, product: line.product, glaze: line.glaze });
      const found = putBack(ware, selection, { day: counted.date, count: difference, record });
      differences.push(negated(found));
    }
  });
}

function sliceOf({ slice }: TakenFrom): Slice {
  return slice;
}

function selectionOf(ware: Ware, sale: Sale, line: SaleLine & { product: string }): Selection {
  const { product, lot, glaze, grade = 'first' } = line;
  return { product, lot, glaze, grade, place: placeOf(ware, sale.channel) };
}

/** What a buyer returns goes back on the studio's shelf. */
function takeBack(
  ware: Ware,
  sale: Sale,
  { line, selection }: { line: SaleLine; selection: Selection },
): SoldLine {
  const { product, glaze } = selection;
  const record = foundLot(sale, { index: sale.lines.indexOf(line), product, glaze });
  const shelf = { ...selection, place: STUDIO_PLACE };
  const more = negated(putBack(ware, shelf, { day: sale.date, count: line.count, record }));
  ware.accounts.sold.push(more);
  return { ...NOTHING_SOLD, more };
}

/** A lot for pieces that no lot of the book accounts for: it carries no cost. */
function foundLot(
  record: { id: string; file: string; date: string },
  { index, product, glaze }: { index: number; product: string; glaze: string | undefined },
): Lot {
  const { id, file, date } = record;
  const lot = { id: `${id}/${index}`, file, date, product, made: 0 };
  return glaze === undefined ? lot : { ...lot, glazes: [{ recipe: glaze, each: NO_GLAZE }] };
}

function reportUnfinished(
  ware: Ware,
  sale: Sale,
  { index, had }: { index: number; had: number },
): void {
  const line = sale.lines[index];
  if (!line) return;
  const place = placeOf(ware, sale.channel);
  const at = { file: sale.file, path: [sale.id, 'lines', index, 'count'] };
  const where = { day: sale.date, at, what: line.product ?? '' };
  const because = `${had} ${place === STUDIO_PLACE ? 'in the studio' : `at ${place}`}, ${line.count} sold`;
  const kind = place === STUDIO_PLACE ? 'finished' : 'consigned';
  ware.shortfalls.push(pieceShortfall(kind, where, { wanted: line.count, had, because }));
}
