/** What a fair sold when it was held before, by product, glaze and grade, and what of that ran out. */
import type { Book, Day, Fair, Grade, Sale, TakenAlong } from '../../book.ts';
import { addTo, countIn } from '../../grouping.ts';
import { byDate } from '../../text-order.ts';
import { flow } from '../flow.ts';
import { soldSaleOf, type Flows } from '../flows.ts';
import { STUDIO_PLACE, placeKey, type LotState } from '../ware/lot.ts';
import { lotsStanding } from '../ware/ware.ts';
import type { Taking } from './earned.ts';
import { fairFigures, type FairFigures } from './fair.ts';

/** Ware as one packs it. */
export interface StallWare {
  readonly product: string;
  /** The recipes on it: `sea-green + rust`; empty where that isn't known, and for none. */
  readonly glaze: string;
  readonly grade: Grade;
}

/** What one fair sold of it. */
export interface SoldAtFair {
  readonly fair: Fair;
  /** Less what was brought back. */
  readonly count: number;
  readonly ranOut: RanOut | undefined;
}

/** The line with which the last piece went, counted over all lines of the fair's sales in their order. */
export interface RanOut {
  readonly day: Day;
  readonly line: number;
  readonly of: number;
}

/** Ware, and the fairs that sold any of it, the newest first. */
export interface SoldBefore extends StallWare {
  readonly at: readonly SoldAtFair[];
}

/** What was longer ago says little of the next time. */
const TIMES = 3;

/** The last three fairs of the same channel that were over by the day and before this one, the newest first. */
export function fairsBefore(book: Book, { stock: { asOf } }: Flows, fair: Fair): Fair[] {
  const isBefore = ({ channel, date, last = date }: Fair): boolean =>
    channel === fair.channel && last < fair.date && last <= asOf;
  return [...book.fairs.values()].filter(isBefore).sort(byDate).reverse().slice(0, TIMES);
}

/** All that those fairs sold, by product, then glaze, then grade. */
export function soldAtFairs(book: Book, flows: Flows, fairs: readonly Fair[]): SoldBefore[] {
  const found = new Map<string, SoldAtFair[]>();
  for (const figures of fairFigures(book, flows, fairs).reverse())
    for (const [key, sold] of soldAtFair(book, flows, figures)) addTo(found, key, sold);
  return [...found.keys()].sort().map((key) => ({ ...stallWareOf(key), at: found.get(key) ?? [] }));
}

/** One piece of ware after the other, as the sales have them. */
interface StallLine {
  readonly key: string;
  readonly count: number;
  readonly day: Day;
  /** From 1, over all lines of the fair. */
  readonly line: number;
}

const KEY = '\n';

/** Stands for ware of a product, glaze and grade, and sorts by them. */
export function keyOfWare({ product, glaze, grade }: StallWare): string {
  return [product, glaze, grade].join(KEY);
}

function stallWareOf(key: string): StallWare {
  const [product = '', glaze = '', grade] = key.split(KEY);
  return { product, glaze, grade: grade === 'second' ? 'second' : 'first' };
}

function soldAtFair(book: Book, flows: Flows, figures: FairFigures): Map<string, SoldAtFair> {
  const { fair } = figures;
  const lines = stallLines(flows, figures);
  const of = lines.at(-1)?.line ?? 0;
  const isGone = emptied(book, flows, { figures, lines });
  const keys = [...new Set(lines.map(({ key }) => key))];
  return new Map(
    keys.map((key) => {
      const own = lines.filter((each) => each.key === key);
      const last = own.findLast(({ count }) => count > 0);
      const ranOut = last && isGone(key) ? { day: last.day, line: last.line, of } : undefined;
      return [key, { fair, count: countIn(own), ranOut }];
    }),
  );
}

/** In the order of days and ids, and within a sale that of its lines; ware that comes back counts negative. */
function stallLines(flows: Flows, { sales }: FairFigures): StallLine[] {
  let line = 0;
  return sales.flatMap((sale) => {
    const sold = soldSaleOf(flows.ware, sale);
    return sale.lines.flatMap((_, at) => {
      line += 1;
      const day = sale.date;
      const pieces = piecesOnLine(flows, { sale, at, from: sold?.lines[at]?.from ?? [] });
      return pieces.map((each) => ({ ...each, day, line }));
    });
  });
}

interface SoldFrom {
  readonly sale: Sale;
  readonly at: number;
  readonly from: readonly Taking[];
}

/** What a line took from lots, and of what no lot is known what the line itself says. */
function piecesOnLine(
  { ware }: Flows,
  { sale, at, from }: SoldFrom,
): Pick<StallLine, 'key' | 'count'>[] {
  const { product, glaze = '', grade = 'first', count = 0, returned } = sale.lines[at] ?? {};
  if (product === undefined) return [];
  const sign = returned === 'yes' ? -1 : 1;
  const known = from.map((taking) => ({
    key: keyOfWare({ product, glaze: ware.lots.get(taking.lot)?.glaze ?? '', grade: taking.grade }),
    count: sign * taking.count,
  }));
  const rest = count - countIn(from);
  const key = keyOfWare({ product, glaze, grade });
  return rest > 0 ? [...known, { key, count: sign * rest }] : known;
}

/** Whether nothing of a sort of ware was left on the stall. */
type IsGone = (key: string) => boolean;

/**
 * By the fair's list: all of it was sold or broke. Without a list it is known only where the studio had none
 * left at the fair's end.
 */
function emptied(
  book: Book,
  flows: Flows,
  { figures, lines }: { readonly figures: FairFigures; readonly lines: readonly StallLine[] },
): IsGone {
  const { take, date, last = date } = figures.fair;
  if (take) return soldOut(take, [...lines, ...brokenThere(flows, figures)]);
  const left = readyInStudio(flow(book, last));
  return (key) => (left.get(key) ?? 0) <= 0;
}

type GoneFromStall = Pick<StallLine, 'key' | 'count'>;

function soldOut(take: readonly TakenAlong[], gone: readonly GoneFromStall[]): IsGone {
  return (key) => {
    const named = take.filter((each) => isWareMeant(key, each));
    const { product, grade } = stallWareOf(key);
    // Where the list has ware of any glaze, all of the product is one heap.
    const isHeap = named.some((each) => each.glaze === undefined);
    const taken = isHeap
      ? take.filter((each) => isWareMeant(key, { ...each, glaze: undefined }))
      : named;
    const meant = isHeap ? [{ product, grade }] : taken;
    const left = gone.filter((each) => meant.some((one) => isWareMeant(each.key, one)));
    return taken.length > 0 && countIn(left) >= countIn(taken);
  };
}

interface StallWareMeant {
  readonly product: string;
  readonly glaze?: string | undefined;
  readonly grade?: Grade | undefined;
}

/** Whether ware of a key is of the product, glaze and grade that are meant; without a grade firsts are. */
export function isWareMeant(
  key: string,
  { product, glaze, grade = 'first' }: StallWareMeant,
): boolean {
  const ware = stallWareOf(key);
  if (ware.product !== product || ware.grade !== grade) return false;
  return glaze === undefined || ware.glaze.split(' + ').includes(glaze);
}

function brokenThere({ ware }: Flows, { gone }: FairFigures): GoneFromStall[] {
  return gone.map(({ lot: { id, product }, gone: { count, grade = 'first' } }) => {
    const glaze = ware.lots.get(id)?.glaze ?? '';
    return { key: keyOfWare({ product, glaze, grade }), count };
  });
}

/** Finished pieces in the studio, by product, glaze and grade. */
export function readyInStudio({ ware }: Flows): ReadonlyMap<string, number> {
  const ready = new Map<string, number>();
  for (const state of lotsStanding(ware.lots))
    for (const [key, count] of readyOf(state)) ready.set(key, (ready.get(key) ?? 0) + count);
  return ready;
}

function readyOf({ lot: { product }, glaze, places }: LotState): [string, number][] {
  return (['first', 'second'] as const).map((grade) => {
    const count = places.get(placeKey(grade, STUDIO_PLACE)) ?? 0;
    return [keyOfWare({ product, glaze, grade }), count];
  });
}
