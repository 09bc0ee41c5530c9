/** What one sale earns, line by line, and what the ware in it had cost. */
import type { Book, Day, Sale } from '../book.ts';
import { inForce } from '../in-force.ts';
import { ZERO, decimal, sum, type Decimal } from '../number/decimal.ts';
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
import { minutesOfGood } from './lot-steps.ts';
import { isBeforeStart } from './opening.ts';
import { saleMoney, type LineMoney } from './sale-money.ts';
import type { SoldLine } from './selling.ts';
import { soldLinesOf } from './ware-flow.ts';

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
  const sold = soldLinesOf(flows.ware, sale);
  const common = { day, channel: sale.channel, buyer: sale.buyer, by: sale.id };
  const lines = money.lines.map((line, index) => {
    const earned = timed({ book, flows, sale }, line, sold[index]);
    const unknown = line.line.product !== undefined && isBeforeStart(book, sale.date);
    return { line, fact: { ...common, ...itemOf(line), ...earned, unknown } };
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

interface Context {
  readonly book: Book;
  readonly flows: Flows;
  readonly sale: Sale;
}

/** Money of a line, with the minutes of work on it where they are known, and what it leaves before that work is paid. */
function timed(context: Context, line: LineMoney, sold: SoldLine | undefined): IncomeMoney {
  const money = lineMoney(line, sold);
  const minutes = minutesSold(context, line, sold);
  const labour = sold?.cost.labour ?? NO_MONEY;
  return minutes ? { ...money, minutes, timedMargin: add(marginOf(money), labour) } : money;
}

function lineMoney(money: LineMoney, sold: SoldLine | undefined): IncomeMoney {
  const { line, returned, gross, discounts, net, fee, commission } = money;
  const cost = sold ? totalOf(sold.cost) : NO_MONEY;
  const common = { ...NOTHING_EARNED, fees: add(fee, commission), commission, cost };
  const estimated = sold?.estimated ?? false;
  if (returned) return { ...common, count: -line.count, returns: net, estimated };
  return { ...common, count: line.count, gross, discounts, estimated };
}

/** Minutes of work behind the pieces of a line, by the lots that they are from; undefined if any is unknown. */
function minutesSold(
  { book, flows, sale }: Context,
  money: LineMoney,
  sold: SoldLine | undefined,
): Decimal | undefined {
  const { line, returned } = money;
  if (line.product === undefined || isBeforeStart(book, sale.date)) return undefined;
  const from = sold?.from ?? [];
  const known = from.map(({ lot, count }) => minutesOfGood(book, lot)?.times(decimal(count)));
  const others = line.count - from.reduce((all, { count }) => all + count, 0);
  const each = others === 0 ? ZERO : minutesUnfinished(book, flows, { ...line, day: sale.date });
  const minutes = sumKnown([...known, each?.times(decimal(others))]);
  return returned ? minutes?.neg() : minutes;
}

/** Minutes of a piece that was sold before any was finished: those of the lot that came out last. */
function minutesUnfinished(
  book: Book,
  { ware }: Flows,
  { product = '', day }: { product?: string; day: Day },
): Decimal | undefined {
  const out = [...ware.lots.values()].filter(
    ({ lot, finishedOn }) =>
      lot.product === product && finishedOn !== undefined && finishedOn <= day,
  );
  const last = out.sort((a, b) => ((a.finishedOn ?? '') < (b.finishedOn ?? '') ? -1 : 1)).at(-1);
  return last ? minutesOfGood(book, last) : inForce(book.products.get(product), day)?.minutes;
}

function sumKnown(amounts: readonly (Decimal | undefined)[]): Decimal | undefined {
  const known = amounts.filter((amount) => amount !== undefined);
  return known.length === amounts.length ? sum(known) : undefined;
}
