/** What took from a bin or a bucket: mixes, lots for their clay and glaze, firings, and other uses. */
import type { Book, Day, Firing, LoadLine, Lot, Mixed } from '../../book.ts';
import { addTo } from '../../grouping.ts';
import { inForce } from '../../in-force.ts';
import { measureOf, type Measure } from '../../number/measure.ts';
import { cachedFor } from '../../once.ts';
import { byDate } from '../../text-order.ts';
import { versionOn, weighOut } from '../stock/recipe.ts';
import { GLAZING, firingsOf, glazingOf } from '../ware/stages.ts';

/** One record's use of one material or recipe. */
export interface MaterialUse {
  readonly what: 'mix' | 'clay' | 'glaze' | 'supplies' | 'used';
  /** Id of the record; of a lot for its clay and glaze. */
  readonly by: string;
  readonly pool: string;
  /** Between these days it was taken. */
  readonly from: Day;
  readonly to: Day;
  /** The bag, purchase or mix that the record names. */
  readonly named: string | undefined;
  /** How much, where the record says so. */
  readonly quantity: Measure | undefined;
  /** Of a lot: how many of its pieces got some, and from which stage on a piece has it. */
  readonly pieces: number;
  readonly stage: number;
}

/** A lot's part in a firing. */
export interface LotFiring {
  readonly firing: Firing;
  readonly line: LoadLine;
}

/** Lot → its firings, the first one first. */
export const lotFirings = cachedFor(
  (book: Pick<Book, 'firings'>): ReadonlyMap<string, readonly LotFiring[]> => {
    const found = new Map<string, LotFiring[]>();
    const inOrder = [...book.firings.values()].sort(byDate);
    const lines = inOrder.flatMap((firing) => firing.load.map((line) => ({ firing, line })));
    for (const each of lines) if (each.line.lot !== undefined) addTo(found, each.line.lot, each);
    return found;
  },
);

/** Every use of a book. */
export const usesOf = cachedFor((book: Book): readonly MaterialUse[] => [
  ...[...book.mixed.values()].flatMap((mixed) => usesOfMix(book, mixed)),
  ...[...book.pieces.values()].flatMap((lot) => [
    ...clayTaken(book, lot),
    ...glazesTaken(book, lot),
  ]),
  ...[...book.firings.values()].flatMap(suppliesUsed),
  ...[...book.used.values()].map(({ id, date, material, quantity }) =>
    use('used', { by: id, pool: material, day: date, quantity: measureOf(quantity) }),
  ),
]);

interface MaterialTaken {
  readonly by: string;
  readonly pool: string;
  readonly day: Day;
  readonly named?: string | undefined;
  readonly quantity?: Measure | undefined;
}

function use(
  what: MaterialUse['what'],
  { by, pool, day, named, quantity }: MaterialTaken,
): MaterialUse {
  return { what, by, pool, from: day, to: day, named, quantity, pieces: 0, stage: 0 };
}

function usesOfMix({ recipes }: Book, mixed: Mixed): MaterialUse[] {
  const { id: by, date: day, lots = {} } = mixed;
  const recipe = recipes.get(mixed.recipe);
  const version = recipe && versionOn(recipe, day);
  const parts = (version && weighOut(mixed, version)?.parts) ?? [];
  return parts.map(({ material: pool, weight: quantity }) =>
    use('mix', { by, pool, day, named: lots[pool], quantity }),
  );
}

function clayTaken({ products }: Book, lot: Lot): MaterialUse[] {
  const {
    material: pool,
    each,
    lot: named,
  } = {
    ...inForce(products.get(lot.product), lot.date)?.clay,
    ...lot.clay,
  } as NonNullable<Lot['clay']>;
  if (pool === undefined) return [];
  const quantity = each && measureOf(each, lot.made);
  const taken = use('clay', { by: lot.id, pool, day: lot.date, named, quantity });
  return [{ ...taken, pieces: lot.made }];
}

/**
 * The glazes of the pieces that went into a glaze firing. They were put on between the first bisque
 * firing, or the making, and the last firing that melts a glaze: a refire may have had a new coat.
 */
function glazesTaken(book: Book, lot: Lot): MaterialUse[] {
  const product = inForce(book.products.get(lot.product), lot.date);
  const glazing = glazingOf(product);
  const own = lotFirings(book).get(lot.id) ?? [];
  const glazed = own.filter(({ firing: { kind } }) => kind === glazing || GLAZING.includes(kind));
  const last = glazed.at(-1)?.firing.date;
  if (last === undefined) return [];
  const first = own.find(({ firing }) => firing.kind === 'bisque')?.firing.date ?? lot.date;
  const went = glazed.filter(({ line }) => line.refire !== 'yes');
  const pieces = went.reduce((all, { line }) => all + line.in, 0);
  const stage = firingsOf(product).findIndex((kind) => kind === glazing) + 1;
  const recipes = new Set((lot.glazes ?? product?.glazes ?? []).map(({ recipe }) => recipe));
  return [...recipes].map((pool) => ({
    ...use('glaze', { by: lot.id, pool, day: last, named: lot.mixes?.[pool] }),
    from: first < last ? first : last,
    pieces: Math.min(lot.made, pieces),
    stage,
  }));
}

function suppliesUsed({ id: by, date: day, supplies = [] }: Firing): MaterialUse[] {
  return supplies.map(({ material: pool }) => use('supplies', { by, pool, day }));
}
