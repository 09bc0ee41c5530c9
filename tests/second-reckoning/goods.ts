/** The cost of goods for tax, by what the second reckoning comes to on the eve of a period and at its end. */
import type { Book, Day, Lot } from '../../src/book.ts';
import { addAll, type Component } from './costs.ts';
import { moneyIn } from './money.ts';
import { productOn } from './on-day.ts';
import { reckonAgain } from './reckon-again.ts';
import type { SecondReckoning } from './result.ts';

/** What a period has in it of materials, and ware that was kept, at its cost and at its price. */
export interface GoodsAgain {
  readonly opening: bigint;
  readonly purchases: bigint;
  readonly closing: bigint;
  readonly paid: bigint;
  readonly kept: bigint;
  readonly keptAtPrice: bigint;
}

interface Period {
  readonly eve: Day;
  readonly from: Day;
  readonly to: Day;
}

export function goodsAgain(book: Book, period: Period): GoodsAgain {
  const [before, after] = [reckonAgain(book, period.eve), reckonAgain(book, period.to)];
  const isIn = (day: Day | undefined): boolean =>
    day !== undefined && day >= period.from && day <= period.to;
  const bills = [...book.bought.values()];
  const landed = (id: string): bigint =>
    (after.landed.get(id) ?? []).reduce((sum, line) => sum + line.landed, 0n);
  const dated = bills.filter(({ date }) => isIn(date));
  const settled = bills.filter(
    ({ date, paid = date }) => date <= period.to && isIn(paid === 'no' ? undefined : paid),
  );
  const kept = after.went.filter(({ account, day }) => account === 'kept' && isIn(day));
  return {
    opening: standing(before),
    purchases: sum(dated.map(({ id }) => landed(id))),
    closing: standing(after),
    paid: sum(settled.map(({ id }) => landed(id))),
    kept: sum(MATERIALS.map((one) => addAll(kept.map(({ cost }) => cost))[one])),
    keptAtPrice: sum([...book.pieces.values()].flatMap((lot) => keptOf(book, lot, isIn))),
  };
}

/** What of a cost was bought as material: energy, wear and work were not. */
const MATERIALS: readonly Component[] = [
  'clay',
  'glaze',
  'fuel',
  'supplies',
  'packing',
  'material',
];

function standing({ pools, lots }: SecondReckoning): bigint {
  const piles = [...lots.values()].flatMap(({ stages, inKilns, finished }) => [
    ...[...stages, ...inKilns, finished].map(({ cost }) => cost),
  ]);
  const inWare = addAll(piles);
  const inPools = [...pools.values()].map(({ value }) => value);
  return sum([...inPools, ...MATERIALS.map((one) => inWare[one])]);
}

function keptOf(book: Book, lot: Lot, isIn: (day: Day) => boolean): bigint[] {
  const gone = (lot.gone ?? []).filter(({ how, date }) => how === 'kept' && isIn(date));
  return gone.map(({ date, grade, count }) => {
    const { price, second } = productOn(book, lot.product, date) ?? {};
    const ofGrade = grade === 'second' && second !== undefined ? second : price;
    const each = lot.price ?? ofGrade;
    return each === undefined ? 0n : BigInt(count) * moneyIn(book, each);
  });
}

function sum(amounts: readonly bigint[]): bigint {
  return amounts.reduce((all, one) => all + one, 0n);
}
