/** What one sale earns, line by line, and what the ware in it had cost. */
import type { Book, Day, Lot, Sale } from '../book.ts';
import { ZERO, decimal, divide, sum, type Decimal } from '../number/decimal.ts';
import { NO_MONEY, add, opposite, type Money } from '../number/money.ts';
import { totalOf } from './cost.ts';
import type { Flows } from './flow.ts';
import {
  NOTHING_EARNED,
  marginOf,
  type IncomeFact,
  type IncomeMoney,
  type ItemKind,
} from './income-fact.ts';
import { minutesOfLot } from './lot-making.ts';
import { saleMoney, type LineMoney } from './sale-money.ts';
import type { SoldLine } from './selling.ts';
import { soldLines } from './ware-flow.ts';

/** What a line earns; shipping has no line. */
export interface SoldFact {
  readonly fact: IncomeFact;
  readonly line: LineMoney | undefined;
}

/** The whole of a sale on one day, each line by itself and what was paid for shipping. */
export function soldFacts(
  flows: Flows,
  sale: Sale,
  { book, day }: { book: Book; day: Day },
): SoldFact[] {
  const money = saleMoney(book, sale);
  const sold = soldLines(flows.ware).get(sale.id) ?? [];
  const common = { day, channel: sale.channel, buyer: sale.buyer, by: sale.id };
  const lines = money.lines.map((line, index) => {
    const earned = timed(lineMoney(line, sold[index]), minutesSold(book, line, sold[index]));
    return { line, fact: { ...common, ...itemOf(line), ...earned } };
  });
  if (money.shipping === NO_MONEY) return lines;
  const shipping = { ...NOTHING_EARNED, ...earnedBy(money.shipping) };
  const fact = { ...common, kind: 'shipping' as const, item: 'shipping', ...shipping };
  return [...lines, { line: undefined, fact }];
}

/** What was given back of shipping is a return. */
function earnedBy(shipping: Money): Pick<IncomeMoney, 'gross' | 'returns'> {
  return shipping < NO_MONEY
    ? { gross: NO_MONEY, returns: opposite(shipping) }
    : { gross: shipping, returns: NO_MONEY };
}

function itemOf({ line }: LineMoney): { kind: ItemKind; item: string } {
  if (line.product !== undefined) return { kind: 'product', item: line.product };
  if (line.class !== undefined) return { kind: 'class', item: line.class };
  return { kind: 'other', item: line.for ?? 'other' };
}

function timed(money: IncomeMoney, minutes: Decimal | undefined): IncomeMoney {
  return minutes ? { ...money, minutes, timedMargin: marginOf(money) } : money;
}

function lineMoney(money: LineMoney, sold: SoldLine | undefined): IncomeMoney {
  const { line, returned, gross, discounts, net, fee, commission } = money;
  const cost = sold ? totalOf(sold.cost) : NO_MONEY;
  const common = { ...NOTHING_EARNED, fees: add(fee, commission), commission, cost };
  const estimated = sold?.estimated ?? false;
  if (returned) return { ...common, count: -line.count, returns: net, estimated };
  return { ...common, count: line.count, gross, discounts, estimated };
}

/** Minutes of work on the pieces of a line, by the lots that they are from; undefined if any is unknown. */
function minutesSold(
  book: Book,
  money: LineMoney,
  sold: SoldLine | undefined,
): Decimal | undefined {
  const { line, returned } = money;
  if (line.product === undefined) return undefined;
  const from = sold?.from ?? [];
  const known = from.map(({ lot, count }) => minutesOfPieces(book, lot.lot, count));
  const others = line.count - from.reduce((all, { count }) => all + count, 0);
  const each = book.products.get(line.product)?.minutes;
  const minutes = sumKnown([...known, others === 0 ? ZERO : each?.times(decimal(others))]);
  return returned ? minutes?.neg() : minutes;
}

/** Those of a lot that nobody made, of ware that was never in the book, are the product's. */
function minutesOfPieces(book: Book, lot: Lot, count: number): Decimal | undefined {
  if (lot.made === 0) return book.products.get(lot.product)?.minutes?.times(decimal(count));
  const minutes = minutesOfLot({ book }, lot);
  if (!minutes) return undefined;
  return divide(minutes.times(decimal(count)), decimal(lot.made));
}

function sumKnown(amounts: readonly (Decimal | undefined)[]): Decimal | undefined {
  const known = amounts.filter((amount) => amount !== undefined);
  return known.length === amounts.length ? sum(known) : undefined;
}
