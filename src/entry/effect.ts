/** What a change of the book does to stock, to pieces and to money, in a few lines. */
import type { Book, Day, Grade, Kind } from '../book.ts';
import { NOUN } from '../check/finding.ts';
import { setApart } from '../in-words.ts';
import { stageName } from '../check/shortage-words.ts';
import { roundTo } from '../number/decimal.ts';
import { inUnit, type Measure } from '../number/measure.ts';
import { NO_MONEY, moneyText, type Money } from '../number/money.ts';
import type { Unit } from '../number/unit.ts';
import { digitsOf } from '../reckon/booked.ts';
import { chargedFor, invoiceTotal } from '../reckon/sales/debts.ts';
import { countsFlow } from '../reckon/flow.ts';
import { STUDIO_PLACE, countAt, type LotState } from '../reckon/ware/lot.ts';
import { saleMoney } from '../reckon/sales/sale-money.ts';
import { lotsStanding } from '../reckon/ware/ware.ts';
import { taxWords } from './sale-tax.ts';

/** A book before and after a change, and what is held by the one and by the other. */
interface EffectSides {
  readonly before: Book;
  readonly after: Book;
  readonly held: Holdings;
  readonly holds: Holdings;
}

/** A record that was added, changed or removed. */
export interface TouchedRecord {
  readonly kind: Kind;
  readonly id: string;
}

/** More lines than these say nothing any more. */
const MOST_LINES = 12;

/**
 * What comes into closed business or goes out of it, the money of the sales and purchases that
 * changed, how the tax of sales comes about, then every pile of pieces and every pool of stock that changed:
 * `glaze bucket sea-green 3.1 kg → 2.4 kg`. Quantities are rounded half up to three decimals, money to the currency's minor
 * unit.
 */
export function effectLines(
  sides: EffectSides,
  touched: readonly TouchedRecord[],
): readonly string[] {
  const { held, holds } = sides;
  const lines = [
    ...touched.flatMap((record) => closedLine(sides, record)),
    ...touched.flatMap((record) => moneyLine(sides, record)),
    ...touched.flatMap((record) => taxLine(sides, record)),
    ...pieceLines(held, holds),
    ...stockLines(sides.after, held, holds),
  ];
  const left = lines.length - MOST_LINES;
  return left > 0 ? [...lines.slice(0, MOST_LINES), `and ${left} more changes`] : lines;
}

/** What is changed in a record that stays may well be later business, such as a payment. */
function closedLine({ before, after }: EffectSides, { kind, id }: TouchedRecord): string[] {
  const { closedThrough = '' } = after.studio;
  const [was, is] = [before[kind].get(id), after[kind].get(id)];
  const { date } = (was ?? is ?? {}) as { readonly date?: Day };
  if ((was && is) || date === undefined || date > closedThrough) return [];
  return [`${date} is closed: the settings say closed-through ${closedThrough}`];
}

function moneyLine({ before, after }: EffectSides, record: TouchedRecord): string[] {
  const [was, is] = [moneyOf(before, record), moneyOf(after, record)];
  if (is === undefined || is === was) return [];
  const noun = `${NOUN[record.kind]} ${record.id}`;
  return [was === undefined ? `${noun} ${is}` : `${noun} ${was} → ${is}`];
}

function taxLine(sides: EffectSides, { kind, id }: TouchedRecord): string[] {
  const words = kind === 'sales' ? taxWords(sides, id) : undefined;
  return words === undefined ? [] : [words];
}

function moneyOf(book: Book, { kind, id }: TouchedRecord): string | undefined {
  const inWords = (amount: Money): string => setApart(moneyText(amount, digitsOf(book)));
  const { currency } = book.studio;
  if (kind === 'bought') {
    const bought = book.bought.get(id);
    return bought && `${inWords(invoiceTotal(book, bought))} ${currency}`;
  }
  const sale = kind === 'sales' ? book.sales.get(id) : undefined;
  if (!sale) return undefined;
  const { fee, commission } = saleMoney(book, sale);
  const costs = [
    ['fee', fee],
    ['commission', commission],
  ] as const;
  const kept = costs.flatMap(([what, amount]) =>
    amount === NO_MONEY ? [] : [`${what} ${inWords(amount)}`],
  );
  return [`${inWords(chargedFor(book, sale))} ${currency}`, ...kept].join(', ');
}

function stockLines(book: Book, held: Holdings, holds: Holdings): string[] {
  const known = new Map(held.stock.map((each) => [each.id, each]));
  return holds.stock.flatMap(({ id, unit, quantity: is }) => {
    const was = known.get(id);
    const then = was?.unit === unit ? was.quantity : undefined;
    if ((then ?? 0n) === is) return [];
    const to = shownUnit(book, { id, unit }, is);
    const before = then === undefined ? 'new' : quantityText(then, to);
    return [`${poolName(book, id)} ${before} → ${quantityText(is, to)}`];
  });
}

function poolName({ recipes }: Book, id: string): string {
  const recipe = recipes.get(id);
  if (!recipe) return id;
  return recipe.kind === 'clay' ? `mixed clay ${id}` : `${recipe.kind} bucket ${id}`;
}

// A bucket is kept in grams, which a potter reads in the studio's unit, or in kilograms from one up.
function shownUnit(
  { studio, recipes }: Book,
  { id, unit }: { readonly id: string; readonly unit: Unit },
  quantity: Measure,
): Unit {
  if (!recipes.has(id)) return unit;
  return studio.weightUnit ?? (Math.abs(inUnit(quantity, 'kg').toNumber()) >= 1 ? 'kg' : unit);
}

function quantityText(quantity: Measure, to: Unit): string {
  const text = setApart(roundTo(inUnit(quantity, to), 3).toFixed());
  return to === 'each' ? text : `${text} ${to}`;
}

function pieceLines(held: Holdings, holds: Holdings): string[] {
  const [was, is] = [held.pieces, holds.pieces];
  return [...new Set([...is.keys(), ...was.keys()])].flatMap((pile) => {
    const [then, now] = [was.get(pile) ?? 0, is.get(pile) ?? 0];
    return then === now ? [] : [`${pile} ${setApart(String(then))} → ${setApart(String(now))}`];
  });
}

/** So much of a material or of a recipe's mix, and the unit that it is told in. */
interface HeldStock {
  readonly id: string;
  readonly unit: Unit;
  readonly quantity: Measure;
}

/** So many pieces under one name: `mug bisqueware`, `mug seconds at west-window`. */
type HeldPieces = readonly [name: string, count: number];

export interface Holdings {
  readonly stock: readonly HeldStock[];
  readonly pieces: ReadonlyMap<string, number>;
}

/** All that is there at the end of the day. */
export function holdingsOf(book: Book, asOf: Day): Holdings {
  const { stock, ware } = countsFlow(book, asOf);
  const pieces = new Map<string, number>();
  for (const state of lotsStanding(ware.lots))
    for (const [name, count] of piles(state)) pieces.set(name, (pieces.get(name) ?? 0) + count);
  return {
    stock: [...stock.pools.values()].map(({ id, unit, pool }) => ({
      id,
      unit,
      quantity: pool.onHand,
    })),
    pieces,
  };
}

function piles(state: LotState): HeldPieces[] {
  const { product } = state.lot;
  const underway = state.fired.map((_, stage): HeldPieces => [
    `${product} ${stageName(state.fired, stage)}`,
    countAt(state, stage),
  ]);
  const inKiln = state.inKiln.map(({ count }): HeldPieces => [`${product} in the kiln`, count]);
  const finished = [...state.places].map(([key, count]): HeldPieces => {
    const [grade = '', place = ''] = key.split(' ');
    const where = place === STUDIO_PLACE ? 'in the studio' : `at ${place}`;
    return [finishedName(product, grade === 'second' ? grade : 'first', where), count];
  });
  return [...underway, ...inKiln, ...finished];
}

function finishedName(product: string, grade: Grade, where: string): string {
  return `${product} ${grade === 'second' ? 'seconds ' : ''}${where}`;
}
