/** How finished ware of some products came, went and moved, record by record, lot by lot where one is named. */
import { recordsNaming } from '../../among.ts';
import type { Book, Consigned, ConsignedLine, Counted, Day, HowGone, Sale } from '../../book.ts';
import { addTo } from '../../grouping.ts';
import type { Flows } from '../flows.ts';
import { outOn } from '../kilns/out-of-kiln.ts';
import { isBeforeStart, isOpening } from '../stock/opening.ts';
import { byTurn, turnAfter, type Turn } from '../timeline.ts';
import { STUDIO_PLACE, type LotState } from '../ware/lot.ts';

/** What a move was. */
export type MoveWay =
  | 'finished'
  | 'there'
  | 'lost'
  | 'sold'
  | 'returned'
  | 'sent'
  | 'back'
  | 'missing-there'
  | 'found'
  | 'not-found'
  | HowGone;

/** Finished pieces of one product that came, went, or went from place to place. */
export interface Move extends Turn {
  readonly way: MoveWay;
  /** Number of the record's line, counted from 0. */
  readonly line: number;
  readonly product: string;
  /** The lot that the record names; absent: any of the product, with that glaze where one is named. */
  readonly lot?: string | undefined;
  readonly glaze?: string | undefined;
  readonly count: number;
  /** Id of the channel; empty for the studio. Absent: they came from outside, or left. */
  readonly from?: string;
  readonly to?: string;
  /** A stocktake counted all of the product there: so many. The count is what that differs by. */
  readonly whole?: number;
  /** Only this may have happened: another count of the same record may be why. */
  readonly isLoose?: boolean;
}

type Timed = Pick<Move, 'day' | 'turn' | 'id'>;

/** Lots of some products, as they stand on the flows' day; with those that only the reckoning has. */
export function lotsOf({ ware }: Flows, products: ReadonlySet<string>): readonly LotState[] {
  return [...ware.lots.values()].filter(({ lot }) => products.has(lot.product));
}

/** Every move of the products up to the day of the flows, in the order in which a book is reckoned. */
export function movesOf(book: Book, flows: Flows, products: ReadonlySet<string>): readonly Move[] {
  const { asOf } = flows.stock;
  const lots = lotsOf(flows, products);
  const moves = [
    ...lots.flatMap(finishing),
    ...lots.flatMap((state) => leaving(book, state)),
    ...[...recordsNaming(book.sales, products)].flatMap((sale) => selling(book, sale)),
    ...[...recordsNaming(book.consigned, products)].flatMap(consigning),
    ...[...recordsNaming(book.counted, products)].flatMap(opening),
    ...[...recordsNaming(book.counted, products)].flatMap((each) => counting(flows, each)),
  ];
  return moves
    .filter(({ day, product }) => day <= asOf && products.has(product))
    .filter(({ day, way }) => way === 'sold' || !isBeforeStart(book, day))
    .sort(byTurn);
}

function finishing({ lot, fired, passes }: LotState): Move[] {
  return passes.flatMap(({ firing, from, to, line }, at): Move[] => {
    const { first = 0, second = 0, lost = 0 } = line;
    const timed = { day: outOn(firing), turn: turnAfter('pieces'), id: firing.id, line: at };
    const common = { ...timed, product: lot.product, lot: lot.id };
    if (from < to && to === fired.length)
      return [{ ...common, way: 'finished', count: first + second, to: STUDIO_PLACE }];
    if (from !== fired.length || lost === 0) return [];
    return [{ ...common, way: 'lost', count: lost, from: STUDIO_PLACE }];
  });
}

function leaving({ channels }: Book, { lot }: LotState): Move[] {
  return (lot.gone ?? []).map(({ date: day, count, how: way, channel = '' }, line) => {
    const isThere = channels.get(channel)?.kind === 'consignment';
    const timed = { day, turn: turnAfter(isThere ? 'consigned' : 'used'), id: lot.id };
    const from = isThere ? channel : STUDIO_PLACE;
    return { ...timed, way, line, product: lot.product, lot: lot.id, count, from };
  });
}

function selling({ channels }: Book, { id, date: day, channel, lines }: Sale): Move[] {
  const place = channels.get(channel)?.kind === 'consignment' ? channel : STUDIO_PLACE;
  return lines.flatMap(({ product, lot, glaze, count, returned }, line): Move[] => {
    if (product === undefined) return [];
    const common = { day, turn: turnAfter('sales'), id, line, product, lot, glaze, count };
    return returned === 'yes'
      ? [{ ...common, way: 'returned', to: place }]
      : [{ ...common, way: 'sold', from: place }];
  });
}

function consigning({ id, date: day, channel, ...lines }: Consigned): Move[] {
  const timed = { day, turn: turnAfter('consigned') - 0.25, id };
  const { sent = [], back = [], missing = [] } = lines;
  const there = (each: ConsignedLine, line: number) => ({ ...timed, ...goods(each), line });
  return [
    ...sent.map((each, line): Move => ({
      ...there(each, line),
      way: 'sent',
      from: STUDIO_PLACE,
      to: channel,
    })),
    ...back.map((each, line): Move => ({
      ...there(each, line),
      way: 'back',
      from: channel,
      to: STUDIO_PLACE,
    })),
    ...missing.map((each, line): Move => ({
      ...there(each, line),
      way: 'missing-there',
      from: channel,
    })),
  ];
}

function goods({ product, lot, glaze, count }: ConsignedLine): Omit<ConsignedLine, 'price'> {
  return {
    product,
    count,
    ...(lot === undefined ? {} : { lot }),
    ...(glaze === undefined ? {} : { glaze }),
  };
}

const BEFORE_ALL = -1;

function opening({ id, date: day, pieces = [] }: Counted): Move[] {
  return pieces.flatMap(({ cost, stage = 'finished', place, ...line }, at): Move[] => {
    if (!isOpening({ cost }) || stage !== 'finished') return [];
    const lot = line.lot ?? `${id}/${at}`;
    const timed: Timed = { day, turn: BEFORE_ALL, id };
    const { product, count } = line;
    return [{ ...timed, way: 'there', line: at, product, lot, count, to: place ?? STUDIO_PLACE }];
  });
}

/** What a stocktake counted of a product. */
interface CountedLine {
  readonly place: string;
  readonly glaze: string | undefined;
  /** How many of the product there, where the line is of all of them. */
  readonly whole: number | undefined;
}

/**
 * What a stocktake found beyond the book, and what it didn't find. Where it counted a product at several
 * places, which of them the difference is of is not on record.
 */
function counting(flows: Flows, { id, date: day, pieces = [] }: Counted): Move[] {
  const byProduct = new Map<string, CountedLine[]>();
  for (const line of pieces.filter((each) => !isOpening(each))) {
    const { product, place = STUDIO_PLACE, glaze, grade, count } = line;
    const isWhole = glaze === undefined && grade === undefined;
    addTo(byProduct, product, { place, glaze, whole: isWhole ? count : undefined });
  }
  return [...byProduct].flatMap(([product, lines]) => {
    const common = { day, turn: turnAfter('counted'), id, line: 0, product };
    if (lines.every(({ whole }) => whole !== undefined))
      return lines.flatMap(({ place, whole }) =>
        countingAll({ ...common, whole: whole ?? 0 }, place),
      );
    const { found, taken } = differencesIn(flows, { id, day, product });
    const [glaze, ...glazes] = [...new Set(lines.map((line) => line.glaze))];
    const [place = STUDIO_PLACE, ...places] = [...new Set(lines.map((line) => line.place))];
    const ofGlaze = { ...common, glaze: glazes.length === 0 ? glaze : undefined };
    return [place, ...places].flatMap((each): Move[] => [
      { ...ofGlaze, way: 'found', count: found, to: each },
      { ...ofGlaze, way: 'not-found', count: taken, from: each, isLoose: places.length > 0 },
    ]);
  });
}

type CountedAll = Omit<Move, 'way' | 'count'>;

function countingAll(common: CountedAll, place: string): Move[] {
  return [
    { ...common, way: 'found', count: 0, to: place },
    { ...common, way: 'not-found', count: 0, from: place },
  ];
}

/** By how many pieces of a product a stocktake differed from the book. */
function differencesIn(
  { ware }: Flows,
  { id, day, product }: { id: string; day: Day; product: string },
): { readonly found: number; readonly taken: number } {
  const days = { from: day, to: day };
  const facts = [...(ware.facts.during?.(days) ?? ware.facts)].filter(
    ({ by, reason, lot }) =>
      by === id && reason === 'differences' && ware.lots.get(lot)?.lot.product === product,
  );
  const sum = (sign: 1 | -1): number =>
    facts.reduce((all, { count }) => all + Math.max(0, sign * count), 0);
  return { found: sum(-1), taken: sum(1) };
}
