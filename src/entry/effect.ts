/** What a change of the book does to stock, to pieces and to money, in a few lines. */
import type { Book, Day, Kind } from '../book.ts';
import { NOUN } from '../check/finding.ts';
import { roundTo, sum, type Decimal } from '../number/decimal.ts';
import { minorDigits } from '../number/money.ts';
import { convert, type Unit } from '../number/unit.ts';
import { countsFlow, type Flows } from '../reckon/flow.ts';
import { landedCosts } from '../reckon/landed.ts';
import { quantityOf } from '../reckon/pool.ts';
import { saleMoney } from '../reckon/sale-money.ts';
import type { StockPool } from '../reckon/stock.ts';
import { STUDIO_PLACE, countAt, stageName, type LotState } from '../reckon/ware.ts';

/** A book before and after a change, and the day that both are looked at. */
export interface Sides {
  readonly before: Book;
  readonly after: Book;
  readonly asOf: Day;
}

/** A record that was added, changed or removed. */
export interface TouchedRecord {
  readonly kind: Kind;
  readonly id: string;
}

/** More lines than these say nothing any more. */
const MOST_LINES = 12;

/**
 * The money of the sales and purchases that changed, then every pool of stock and every pile of
 * pieces that changed: `glaze bucket sea-green 3.1 kg → 2.4 kg`. Quantities are rounded half up to
 * three decimals, money to the currency's minor unit.
 */
export function effectLines(sides: Sides, touched: readonly TouchedRecord[]): readonly string[] {
  const before = countsFlow(sides.before, sides.asOf);
  const after = countsFlow(sides.after, sides.asOf);
  const lines = [
    ...touched.flatMap((record) => moneyLine(sides, record)),
    ...stockLines(sides.after, before, after),
    ...pieceLines(before, after),
  ];
  const left = lines.length - MOST_LINES;
  return left > 0 ? [...lines.slice(0, MOST_LINES), `and ${left} more changes`] : lines;
}

function moneyLine({ before, after }: Sides, record: TouchedRecord): string[] {
  const [was, is] = [moneyOf(before, record), moneyOf(after, record)];
  if (is === undefined || is === was) return [];
  const noun = `${NOUN[record.kind]} ${record.id}`;
  return [was === undefined ? `${noun} ${is}` : `${noun} ${was} → ${is}`];
}

function moneyOf(book: Book, { kind, id }: TouchedRecord): string | undefined {
  const digits = minorDigits(book.studio.currency) ?? 2;
  const inWords = (amount: Decimal): string => roundTo(amount, digits).toFixed(digits);
  const { currency } = book.studio;
  if (kind === 'bought') {
    const bought = book.bought.get(id);
    return bought && `${inWords(sum(landedCosts(bought, digits)))} ${currency}`;
  }
  const sale = kind === 'sales' ? book.sales.get(id) : undefined;
  if (!sale) return undefined;
  const { lines, shipping, tax, fee, commission } = saleMoney(book, sale, digits);
  const takings = lines.map(({ amount, saleDiscount, returned }) => {
    const taken = amount.minus(saleDiscount);
    return returned ? taken.neg() : taken;
  });
  const costs = [
    ['fee', fee],
    ['commission', commission],
  ] as const;
  const less = costs.flatMap(([what, amount]) =>
    amount.isZero() ? [] : [`${what} ${inWords(amount)}`],
  );
  const total = `${inWords(sum([...takings, shipping, tax]))} ${currency}`;
  return less.length === 0 ? total : `${total}, ${less.join(', ')}`;
}

function stockLines(book: Book, before: Flows, after: Flows): string[] {
  return [...after.stock.pools.values()].flatMap((stock) => {
    const was = before.stock.pools.get(stock.id);
    const is = quantityOf(stock.pool);
    const then = was?.unit === stock.unit ? quantityOf(was.pool) : undefined;
    if (then === undefined ? is.isZero() : then.eq(is)) return [];
    const unit = shownUnit(book, stock, is);
    const inUnit = (quantity: Decimal): string => shown(quantity, stock.unit, unit);
    return [`${poolName(stock)} ${then === undefined ? 'new' : inUnit(then)} → ${inUnit(is)}`];
  });
}

function poolName({ id, recipe }: StockPool): string {
  if (!recipe) return id;
  return recipe.kind === 'clay' ? `mixed clay ${id}` : `${recipe.kind} bucket ${id}`;
}

const KILO = 1000;

// A bucket is kept in grams, which a potter reads in the studio's unit, or in kilograms from one up.
function shownUnit({ studio }: Book, { unit, recipe }: StockPool, quantity: Decimal): Unit {
  if (!recipe) return unit;
  return studio.weightUnit ?? (quantity.abs().toNumber() >= KILO ? 'kg' : unit);
}

function shown(quantity: Decimal, from: Unit, to: Unit): string {
  const text = roundTo(convert(quantity, from, to) ?? quantity, 3).toString();
  return to === 'each' ? text : `${text} ${to}`;
}

function pieceLines(before: Flows, after: Flows): string[] {
  const [was, is] = [pilesOf(before), pilesOf(after)];
  return [...new Set([...is.keys(), ...was.keys()])].flatMap((pile) => {
    const [then, now] = [was.get(pile) ?? 0, is.get(pile) ?? 0];
    return then === now ? [] : [`${pile} ${then} → ${now}`];
  });
}

/** Product and stage or place → how many stand there. */
function pilesOf({ ware }: Flows): Map<string, number> {
  const piles = new Map<string, number>();
  for (const state of ware.lots.values())
    for (const { name, count } of standing(state)) piles.set(name, (piles.get(name) ?? 0) + count);
  return piles;
}

function standing(state: LotState): { readonly name: string; readonly count: number }[] {
  const { product } = state.lot;
  const underway = state.fired.map((_, stage) => ({
    name: `${product} ${stageName(state.fired, stage)}`,
    count: countAt(state, stage),
  }));
  const inKiln = state.inKiln.map(({ count }) => ({ name: `${product} in the kiln`, count }));
  const finished = [...state.places].map(([key, count]) => {
    const [grade = '', place = ''] = key.split(' ');
    const where = place === STUDIO_PLACE ? 'in the studio' : `at ${place}`;
    return { name: `${product} ${grade === 'second' ? 'seconds ' : ''}${where}`, count };
  });
  return [...underway, ...inKiln, ...finished];
}
