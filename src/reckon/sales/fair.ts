/** What a fair brought in and what it cost, whenever that was paid. */
import {
  recordsDated,
  recordsDuring,
  recordsHaving,
  recordsNaming,
  type Days,
} from '../../among.ts';
import type { Book, Day, Fair, Lot, LotGone, Sale, Spent } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import { divide, type Decimal } from '../../number/decimal.ts';
import { decimalOf, less, total, type Money } from '../../number/money.ts';
import { booked, digitsOf } from '../booked.ts';
import { totalOf } from '../costs/cost.ts';
import { incomeTotal, netOf, type IncomeFact, type IncomeMoney } from './income-fact.ts';
import { isPaidOver } from './paid.ts';
import { soldFacts } from './sold-facts.ts';
import { type Flows, soldSaleOf } from '../flows.ts';
import { byDate } from '../../text-order.ts';

/** Finished pieces that broke or went missing at a fair, with what they had cost. */
export interface GoneAtFair {
  readonly lot: Lot;
  readonly gone: LotGone;
  readonly cost: Money;
}

/** One fair: profit = net − fees − cost − spent − gone. */
export interface FairFigures {
  readonly fair: Fair;
  readonly sales: readonly Sale[];
  /** Every line that was sold there. */
  readonly facts: readonly IncomeFact[];
  readonly money: IncomeMoney;
  /** What was spent for it, however long before. */
  readonly spent: readonly Spent[];
  readonly booth: Money;
  readonly travel: Money;
  readonly other: Money;
  readonly gone: readonly GoneAtFair[];
  readonly goneCost: Money;
  readonly profit: Money;
  /** Profit ÷ hours at the stall; undefined where the hours are not known, or none. */
  readonly perHour: Decimal | undefined;
}

/**
 * The fair that a sale belongs to: the one that it names, else the one of its channel that is held on
 * its day; of two, the one that began last.
 */
export function fairOfSale(fairs: readonly Fair[], sale: Sale): string | undefined {
  if (sale.fair !== undefined) return sale.fair;
  const held = fairs.filter(
    ({ channel, date, last = date }) =>
      channel === sale.channel && date <= sale.date && sale.date <= last,
  );
  return held.reduce<Fair | undefined>(
    (found, fair) => (found === undefined || fair.date > found.date ? fair : found),
    undefined,
  )?.id;
}

/** Fairs with all that is dated up to the day, by date, then id; every one of the book where none are named. */
export function fairFigures(
  book: Book,
  flows: Flows,
  asked: Iterable<Fair> = book.fairs.values(),
): FairFigures[] {
  const { asOf } = flows.stock;
  const fairs = [...asked].sort(byDate);
  const upTo = <T extends Dated>(records: Iterable<T>): T[] =>
    [...records].filter(({ date }) => date <= asOf).sort(byDate);
  const sales = salesOfFairs(book, fairs, upTo);
  const expenses = [...recordsHaving(book.spent, 'fair')].filter((each) => !isPaidOver(book, each));
  const spent = grouped(upTo(expenses), (each) => each.fair);
  const gone = grouped(goneUpTo(book, flows), (each) => each.gone.fair);
  return fairs.map((fair) =>
    figuresOfFair(book, flows, {
      fair,
      sales: sales.get(fair.id) ?? [],
      spent: spent.get(fair.id) ?? [],
      gone: gone.get(fair.id) ?? [],
    }),
  );
}

/** Fair → its sales: those that name it, and those of its channel on its days. */
function salesOfFairs(
  book: Book,
  fairs: readonly Fair[],
  upTo: (sales: Iterable<Sale>) => Sale[],
): ReadonlyMap<string | undefined, readonly Sale[]> {
  const all = [...book.fairs.values()];
  const ids = new Set(fairs.map(({ id }) => id));
  const from = fairs.map(({ date }) => date).sort()[0];
  const to = fairs
    .map(({ date, last = date }) => last)
    .sort()
    .at(-1);
  if (from === undefined || to === undefined) return new Map();
  const named = [...recordsNaming(book.sales, ids)].filter(({ fair }) => fair !== undefined);
  const others = [...recordsDuring(book.sales, { from, to })].filter(
    ({ fair }) => fair === undefined,
  );
  return grouped(upTo([...named, ...others]), (sale) => fairOfSale(all, sale));
}

/** Sales through channels of kind fair in a stretch of days that belong to no fair of the book. */
export function salesAtNoFair(book: Book, days: Days): Sale[] {
  const fairs = [...book.fairs.values()];
  return recordsDated(book.sales, days).filter(
    (sale) =>
      book.channels.get(sale.channel)?.kind === 'fair' && fairOfSale(fairs, sale) === undefined,
  );
}

interface Dated {
  readonly date: Day;
  readonly id: string;
}

function goneUpTo(book: Book, { stock, ware }: Flows): GoneAtFair[] {
  return [...recordsHaving(book.pieces, 'fair')].sort(byDate).flatMap((lot) =>
    (lot.gone ?? []).flatMap((gone, index) => {
      if (gone.fair === undefined || gone.date > stock.asOf) return [];
      return [{ lot, gone, cost: totalOf(ware.lots.get(lot.id)?.gone[index] ?? {}) }];
    }),
  );
}

type FairParts = Pick<FairFigures, 'fair' | 'sales' | 'spent' | 'gone'>;

/** What money spent for a fair was for. */
export type FairExpense = 'booth' | 'travel' | 'other';

/** The figure of its fair that an expense goes into. */
export function fairExpenseOf({ for: category }: Spent): FairExpense {
  if (category === 'booth') return 'booth';
  return category === 'travel' || category === 'car' ? 'travel' : 'other';
}

function figuresOfFair(book: Book, flows: Flows, parts: FairParts): FairFigures {
  const facts = parts.sales.flatMap((sale) => {
    const sold = soldSaleOf(flows.ware, sale);
    return sold ? soldFacts(flows, sold, { book, day: sale.date }).map(({ fact }) => fact) : [];
  });
  const money = incomeTotal(facts);
  const spentOn = (what: FairExpense): Money => {
    const own = parts.spent.filter((each) => fairExpenseOf(each) === what);
    return total(own.map(({ amount }) => booked(book, amount)));
  };
  const [booth, travel, other] = [spentOn('booth'), spentOn('travel'), spentOn('other')];
  const goneCost = total(parts.gone.map(({ cost }) => cost));
  const profit = less(netOf(money), money.fees, money.cost, booth, travel, other, goneCost);
  const { hours } = parts.fair;
  const perHour =
    !hours || hours.isZero() ? undefined : divide(decimalOf(profit, digitsOf(book)), hours);
  return { ...parts, facts, money, booth, travel, other, goneCost, profit, perHour };
}
