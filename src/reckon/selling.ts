/** Ware that is sold, comes back or is counted: which lots it is from and what it had cost. */
import type { Counted, Lot, Sale, SaleLine } from '../book.ts';
import { type Decimal } from '../number/decimal.ts';
import { NO_COST, addCosts, negated, type Cost } from './cost.ts';
import {
  costOfPieces,
  countFinished,
  putBack,
  takeFinished,
  type Selection,
  type TakenFrom,
} from './finished.ts';
import { placeOf } from './lot-making.ts';
import { STUDIO_PLACE, bookTo, pieceShortfall, type Ware } from './ware.ts';

/** The ware behind one sale line. */
export interface SoldLine {
  /** Cost with packing; negative for what came back. */
  readonly cost: Cost;
  /** True where more was sold than finished: the cost of those is that of the product's latest lot. */
  readonly estimated: boolean;
  readonly from: readonly TakenFrom[];
}

const NOTHING_SOLD: SoldLine = { cost: NO_COST, estimated: false, from: [] };

/** Takes what a sale line sold off the shelf, or puts what it returned back on. */
export function sellLine(
  ware: Ware,
  sale: Sale,
  { index, packing }: { index: number; packing: Decimal },
): SoldLine {
  const line = sale.lines[index];
  if (line?.product === undefined) return NOTHING_SOLD;
  const selection = selectionOf(ware, sale, { ...line, product: line.product });
  if (line.returned === 'yes') return takeBack(ware, sale, { line, selection });
  const taken = takeFinished(ware, selection, line.count);
  const drawn = addCosts(taken.cost, { packing });
  bookTo(ware, 'sold', drawn);
  const missing = line.count - taken.count;
  if (missing === 0) return { cost: drawn, estimated: false, from: taken.from };
  reportUnfinished(ware, sale, { index, had: taken.count });
  const guess = costOfPieces(ware.latest.get(line.product)?.unitCost ?? NO_COST, missing);
  return { cost: addCosts(drawn, guess), estimated: true, from: taken.from };
}

/** Sets finished ware to what was counted; the difference goes to an account of its own. */
export function countPieces(ware: Ware, counted: Counted): void {
  (counted.pieces ?? []).forEach((line, index) => {
    const place = line.place ?? STUDIO_PLACE;
    const selection = { product: line.product, glaze: line.glaze, grade: line.grade, place };
    const difference = line.count - countFinished(ware, selection);
    if (difference < 0) {
      bookTo(ware, 'differences', takeFinished(ware, selection, -difference).cost);
    }
    if (difference > 0) {
      const record = foundLot(counted, { index, product: line.product });
      const found = putBack(ware, selection, { day: counted.date, count: difference, record });
      bookTo(ware, 'differences', negated(found));
    }
  });
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
  const record = foundLot(sale, { index: sale.lines.indexOf(line), product: selection.product });
  const shelf = { ...selection, place: STUDIO_PLACE };
  const cost = negated(putBack(ware, shelf, { day: sale.date, count: line.count, record }));
  bookTo(ware, 'sold', cost);
  return { cost, estimated: false, from: [] };
}

/** A lot for pieces that no lot of the book accounts for: it carries no cost. */
function foundLot(
  record: { id: string; file: string; date: string },
  { index, product }: { index: number; product: string },
): Lot {
  const { id, file, date } = record;
  return { id: `${id}/${index}`, file, date, product, made: 0 };
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
