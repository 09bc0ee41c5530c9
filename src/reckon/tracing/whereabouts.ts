/**
 * Where pieces of lots are and went: at least so many by what records name, at the most so many by what
 * nothing rules out. A line that names no lot may have taken pieces of any lot that was there then.
 */
import type { Book } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import type { Flows } from '../flows.ts';
import type { LotState } from '../ware/lot.ts';
import { lotsOf, movesOf, type Move } from './moves.ts';

/** A count that is not known: at least and at the most. */
export interface Bounds {
  readonly least: number;
  readonly most: number;
}

/** Pieces of one lot that one move may have been of. */
export interface MovedOf extends Bounds {
  readonly lot: string;
}

/** A move with the lots that it may have been of. */
export interface TracedMove {
  readonly move: Move;
  readonly of: readonly MovedOf[];
}

/** Finished pieces of one lot at one place. */
export interface PlacedBounds extends Bounds {
  readonly lot: string;
  /** Empty for the studio. */
  readonly place: string;
}

/** Pieces of one product and glaze at one place. */
export interface ShelfGoods {
  readonly product: string;
  readonly glaze: string;
  readonly place: string;
}

/** Where the finished pieces of some products went, and where they are. */
export interface Whereabouts {
  readonly moves: readonly TracedMove[];
  readonly places: readonly PlacedBounds[];
  /** At the most so many are there of a product and its glaze, whatever the lot. */
  readonly most: (goods: ShelfGoods) => number;
}

/** Goes through all that is on record of the products, up to the day of the flows. */
export function whereabouts(book: Book, flows: Flows, products: ReadonlySet<string>): Whereabouts {
  const shelves = emptyShelves(lotsOf(flows, products));
  const moves = movesOf(book, flows, products).map((each) => {
    const move = differing(shelves, each);
    return { move, of: carryOut(shelves, move) };
  });
  return { moves, places: placesIn(shelves), most: (goods) => mostAt(shelves, goods) };
}

interface ShelfBounds {
  readonly lots: ReadonlyMap<string, LotState>;
  readonly byProduct: ReadonlyMap<string, readonly LotState[]>;
  /** Lot → place → how many of it are there. */
  readonly there: Map<string, Map<string, Bounds>>;
  /** Lot → how many good pieces came out. */
  readonly good: Map<string, number>;
  /** Product and place, and with the glaze → at the most so many of any lot. */
  readonly room: Map<string, number>;
}

function emptyShelves(lots: readonly LotState[]): ShelfBounds {
  return {
    lots: new Map(lots.map((state) => [state.lot.id, state])),
    byProduct: grouped(lots, ({ lot }) => lot.product),
    there: new Map(),
    good: new Map(),
    room: new Map(),
  };
}

/** Where a stocktake counted all of a product somewhere, what moved is what that differs by. */
function differing({ room }: ShelfBounds, move: Move): Move {
  const { whole, product, from, to } = move;
  if (whole === undefined) return move;
  const more = whole - (room.get(roomKey(product, from ?? to ?? '')) ?? 0);
  return { ...move, count: Math.max(0, from === undefined ? more : -more) };
}

function carryOut(shelves: ShelfBounds, move: Move): readonly MovedOf[] {
  const of = lotsMoved(shelves, move);
  const isNamed = move.lot !== undefined;
  if (move.way === 'finished' || move.way === 'there')
    for (const { lot } of of) shelves.good.set(lot, (shelves.good.get(lot) ?? 0) + move.count);
  for (const { lot, most } of of) {
    if (move.from !== undefined) takeOff(shelves, { lot, place: move.from, count: most, isNamed });
    if (move.to !== undefined) putOn(shelves, { lot, place: move.to, count: most, isNamed });
  }
  changeRoom(shelves, move);
  return of;
}

/** The lots that a move may have been of: the one that is named, else all that have some there. */
function lotsMoved(shelves: ShelfBounds, { lot, glaze, product, count, from }: Move): MovedOf[] {
  if (lot !== undefined) return [{ lot, least: count, most: count }];
  return (shelves.byProduct.get(product) ?? [])
    .filter((state) => glaze === undefined || state.glaze.split(' + ').includes(glaze))
    .map((state) => {
      const id = state.lot.id;
      const there =
        from === undefined ? (shelves.good.get(id) ?? 0) : boundsAt(shelves, state, from).most;
      return { lot: id, least: 0, most: Math.min(count, there) };
    })
    .filter(({ most }) => most > 0);
}

interface Shift {
  readonly lot: string;
  readonly place: string;
  readonly count: number;
  readonly isNamed: boolean;
}

function takeOff(shelves: ShelfBounds, { lot, place, count, isNamed }: Shift): void {
  const { least, most } = known(shelves, lot, place);
  keep(shelves, {
    lot,
    place,
    least: Math.max(0, least - count),
    most: isNamed ? Math.max(0, most - count) : most,
  });
}

function putOn(shelves: ShelfBounds, { lot, place, count, isNamed }: Shift): void {
  const { least, most } = known(shelves, lot, place);
  const good = shelves.good.get(lot) ?? 0;
  keep(shelves, {
    lot,
    place,
    least: isNamed ? Math.min(good, least + count) : least,
    most: Math.min(good, most + count),
  });
}

function known({ there }: ShelfBounds, lot: string, place: string): Bounds {
  return there.get(lot)?.get(place) ?? NONE;
}

const NONE: Bounds = { least: 0, most: 0 };

function keep({ there }: ShelfBounds, { lot, place, ...bounds }: PlacedBounds): void {
  const places = there.get(lot) ?? new Map<string, Bounds>();
  there.set(lot, places.set(place, bounds));
}

/** So many of a lot are at a place; never more than there are of all lots together. */
function boundsAt(shelves: ShelfBounds, { lot, glaze }: LotState, place: string): Bounds {
  const { least, most } = known(shelves, lot.id, place);
  return { least, most: Math.min(most, mostAt(shelves, { product: lot.product, glaze, place })) };
}

function mostAt({ room }: ShelfBounds, { product, glaze, place }: ShelfGoods): number {
  const all = room.get(roomKey(product, place)) ?? 0;
  return Math.min(all, room.get(roomKey(product, place, glaze)) ?? 0);
}

function roomKey(product: string, place: string, glaze?: string): string {
  return [product, place, ...(glaze === undefined ? [] : [glaze])].join('\n');
}

/** How many there can be of a product, and of each of its glazes, after a move. */
function changeRoom(shelves: ShelfBounds, move: Move): void {
  const { product, count, from, to, isLoose = false } = move;
  const glazes = glazesIn(shelves, move);
  const isOfOne = glazes.length === 1;
  // A count of one glaze may differ only since an earlier line didn't say which glaze it took.
  const isGuess = move.way === 'not-found' && move.glaze !== undefined && !isOnly(shelves, product);
  if (from !== undefined && !isLoose) {
    if (!isGuess) lessRoom(shelves, roomKey(product, from), count);
    if (isOfOne) lessRoom(shelves, roomKey(product, from, glazes[0]), count);
  }
  if (to === undefined) return;
  moreRoom(shelves, roomKey(product, to), count);
  for (const glaze of glazes) moreRoom(shelves, roomKey(product, to, glaze), count);
}

function lessRoom({ room }: ShelfBounds, key: string, count: number): void {
  room.set(key, Math.max(0, (room.get(key) ?? 0) - count));
}

function moreRoom({ room }: ShelfBounds, key: string, count: number): void {
  room.set(key, (room.get(key) ?? 0) + count);
}

/** The glazes, as lots have them, that the pieces of a move may have. */
function glazesIn(shelves: ShelfBounds, { lot, glaze, product }: Move): readonly string[] {
  const named = lot === undefined ? undefined : shelves.lots.get(lot)?.glaze;
  if (named !== undefined) return [named];
  const all = glazesOfProduct(shelves, product);
  return glaze === undefined ? all : all.filter((each) => each.split(' + ').includes(glaze));
}

function glazesOfProduct({ byProduct }: ShelfBounds, product: string): readonly string[] {
  return [...new Set((byProduct.get(product) ?? []).map((state) => state.glaze))];
}

function isOnly(shelves: ShelfBounds, product: string): boolean {
  return glazesOfProduct(shelves, product).length < 2;
}

function placesIn(shelves: ShelfBounds): PlacedBounds[] {
  return [...shelves.there].flatMap(([lot, places]) => {
    const state = shelves.lots.get(lot);
    return [...places.keys()].flatMap((place) => {
      const bounds = state ? boundsAt(shelves, state, place) : known(shelves, lot, place);
      return bounds.most > 0 ? [{ lot, place, ...bounds }] : [];
    });
  });
}
