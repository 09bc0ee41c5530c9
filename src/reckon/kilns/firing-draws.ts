/** What a firing draws from stock: supplies, fuel, and the glaze on the pieces that go in. */
import type { Book, Day, Firing, GlazeUse, LoadLine, Lot, Product } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import type { Spot } from '../../problem.ts';
import { total, type Money } from '../../number/money.ts';
import { drawTogether, partOf } from '../stock/draw-together.ts';
import { isOpening, openedLots } from '../stock/opening.ts';
import { firingsOf, glazingOf, stageOf } from '../ware/stages.ts';
import { hasCost } from '../stock/pool.ts';
import { drawFrom, poolFor, type Draw, type Store, drawOf } from '../stock/stock.ts';
import { countIn } from '../../grouping.ts';

/** Lot → how many of its pieces have had their glaze, and how many were lost before it. */
export interface GlazedLots {
  readonly get: (lot: string) => GlazedLot | undefined;
  readonly set: (lot: string, glazed: GlazedLot) => unknown;
}

/** Pieces of one lot. */
export interface GlazedLot {
  readonly glazed: number;
  readonly lost: number;
}

/** Value of what a firing drew. */
export interface FiringDraws {
  readonly supplies: Money;
  /** Undefined where no fuel is from stock, or none of it ever came in. */
  readonly fuel: Money | undefined;
  /** By the load's order. */
  readonly glaze: readonly Money[];
}

/** Draws a firing's supplies, then its fuel from stock, then the glaze. */
export function drawFiring(store: Store, firing: Firing, glazed: GlazedLots): FiringDraws {
  const supplies = drawSupplies(store, firing);
  const fuel = drawFuel(store, firing);
  return { supplies, fuel, glaze: drawGlazes(store, firing, glazed) };
}

function drawSupplies(store: Store, firing: Firing): Money {
  const parts = (firing.supplies ?? []).map(({ material, quantity }, line) =>
    partOf(material, quantity, { line }),
  );
  const at = (line: number): Spot => spotOf(firing, ['supplies', line]);
  const head = { ...drawHead(firing, 'supplies'), lines: parts.length, at };
  return total(drawTogether(store, head, parts));
}

function spotOf({ file, id }: Firing, path: Spot['path']): Spot {
  return { file, path: [id, ...path] };
}

function drawHead(
  { id, date }: Firing,
  reason: 'supplies' | 'glaze',
): Pick<Draw, 'day' | 'reason' | 'by'> {
  return { day: date, reason, by: id };
}

function drawFuel(store: Store, firing: Firing): Money | undefined {
  const fuel = firing.fuelUsed;
  if (!fuel || !('material' in fuel)) return undefined;
  const wanted = drawOf(firing, fuel, { reason: 'fuel', path: ['fuel-used'] });
  const stock = poolFor(store, wanted);
  if (!stock) return undefined;
  const isKnown = hasCost(stock.pool);
  const cost = drawFrom(store, stock, wanted);
  return isKnown ? cost : undefined;
}

/** What each load line's glaze cost, all lines together in one draw of each glaze. */
function drawGlazes(store: Store, firing: Firing, glazed: GlazedLots): Money[] {
  const wanted = firing.load.flatMap((loaded, line) => {
    const { glazes, count } = toGlaze(store, firing, { line: loaded, glazed });
    return glazes.map(({ recipe, each }) => partOf(recipe, each, { line, count }));
  });
  const at = (line: number): Spot => spotOf(firing, ['load', line]);
  const head = { ...drawHead(firing, 'glaze'), lines: firing.load.length, at };
  return drawTogether(store, head, wanted);
}

/** The glazes of a load line and how many of its pieces get them now: each piece only once. */
function toGlaze(
  store: Store,
  firing: Firing,
  { line, glazed }: { line: LoadLine; glazed: GlazedLots },
): { glazes: readonly GlazeUse[]; count: number } {
  const lot = line.lot === undefined ? undefined : store.book.pieces.get(line.lot);
  const product = lot && inForce(store.book.products.get(lot.product), lot.date);
  if (!lot || line.refire === 'yes') return NOTHING_TO_GLAZE;
  const soFar = glazed.get(lot.id) ?? { glazed: 0, lost: 0 };
  if (firing.kind !== glazingOf(product)) {
    const lost = isBeforeGlazing(product, firing) ? (line.lost ?? 0) : 0;
    glazed.set(lot.id, { ...soFar, lost: soFar.lost + lost });
    return NOTHING_TO_GLAZE;
  }
  const count = isGlazedTwice(product)
    ? Math.min(line.in, unglazed(store, lot, { ...soFar, day: firing.date }))
    : line.in;
  glazed.set(lot.id, { ...soFar, glazed: soFar.glazed + count });
  return { glazes: lot.glazes ?? product?.glazes ?? [], count };
}

const NOTHING_TO_GLAZE = { glazes: [], count: 0 };

function isBeforeGlazing(product: Product | undefined, firing: Firing): boolean {
  const fired = firingsOf(product);
  const at = fired.indexOf(firing.kind);
  return at !== -1 && at < fired.findIndex((kind) => kind === glazingOf(product));
}

/** Pieces of a lot that are still to get their glaze. */
function unglazed(
  { book }: Store,
  lot: Lot,
  soFar: { glazed: number; lost: number; day: Day },
): number {
  const since = openedLots(book).get(lot.id) ?? '';
  const broken = (lot.lost ?? []).filter(({ date }) => date >= since && date <= soFar.day);
  const lost = soFar.lost + countIn(broken);
  const made = since === '' ? lot.made : openedUnglazed(book, lot);
  return Math.max(0, made - lost - soFar.glazed);
}

/** Pieces of a lot that were there when the book began, and not glazed yet. */
function openedUnglazed(book: Book, { id, product: made }: Lot): number {
  const product = book.products.get(made);
  const fired = firingsOf(product);
  const before = fired.findIndex((kind) => kind === glazingOf(product));
  const lines = [...book.counted.values()].flatMap(({ pieces = [] }) => pieces.filter(isOpening));
  const open = lines.filter(
    ({ lot, stage = 'finished' }) =>
      lot === id && (stageOf(fired, stage) ?? fired.length) <= before,
  );
  return countIn(open);
}

/** Where the same kind comes twice in the sequence, the second time draws no glaze. */
function isGlazedTwice(product: Product | undefined): boolean {
  const glazing = glazingOf(product);
  return firingsOf(product).filter((kind) => kind === glazing).length > 1;
}
