/** What one sale earns, line by line, with what the ware in it had cost and the work behind it. */
import type { Book, Day } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { ZERO, decimal, sum, type Decimal } from '../../number/decimal.ts';
import { NO_MONEY, add, less, opposite, type Money } from '../../number/money.ts';
import { totalOf } from '../costs/cost.ts';
import type { EarnedLine, SoldSale } from './earned.ts';
import { NOTHING_EARNED, type IncomeFact, type IncomeMoney } from './income-fact.ts';
import { isBeforeStart } from '../stock/opening.ts';
import type { Flows } from '../flows.ts';
import { countIn } from '../../grouping.ts';

/** What a line earns; shipping has no line. */
interface SoldFact {
  readonly fact: IncomeFact;
  readonly line: EarnedLine | undefined;
}

/** The whole of a sale on one day, each line by itself and what was paid for shipping. */
export function soldFacts(
  flows: Flows,
  sale: SoldSale,
  { book, day }: { book: Book; day: Day },
): SoldFact[] {
  const { id: by, channel, buyer, shipping } = sale;
  const isBefore = isBeforeStart(book, sale.date);
  const lines = sale.lines.map((line): SoldFact => {
    const minutes = isBefore ? undefined : minutesSold({ book, flows, sale }, line);
    return { line, fact: factOf(line, { sale, day, isBefore, minutes }) };
  });
  if (shipping === NO_MONEY) return lines;
  const kind = 'shipping';
  const fact = {
    ...NOTHING_EARNED,
    ...earnedBy(shipping),
    day,
    kind,
    item: kind,
    channel,
  } as const;
  return [...lines, { line: undefined, fact: { ...fact, buyer, by } }];
}

/** What was given back of shipping is a return. */
function earnedBy(shipping: Money): Pick<IncomeMoney, 'gross' | 'returns'> {
  return shipping < NO_MONEY
    ? { gross: NO_MONEY, returns: opposite(shipping) }
    : { gross: shipping, returns: NO_MONEY };
}

interface SoldIn {
  readonly book: Book;
  readonly flows: Flows;
  readonly sale: SoldSale;
}

interface Sold {
  readonly sale: SoldSale;
  readonly day: Day;
  /** Whether the book had not started: what ware cost then is not known. */
  readonly isBefore: boolean;
  readonly minutes: Decimal | undefined;
}

// Field by field: there are many of them, and copying others' fields takes several times as long.
function factOf(line: EarnedLine, { sale, day, isBefore, minutes }: Sold): IncomeFact {
  const { kind, item, returned, gross, discounts, net, commission } = line;
  const fees = add(line.fee, commission);
  const cost = totalOf(line.cost);
  const margin = less(returned ? opposite(net) : net, fees, cost);
  return {
    count: returned ? -line.count : line.count,
    gross: returned ? NO_MONEY : gross,
    discounts: returned ? NO_MONEY : discounts,
    returns: returned ? net : NO_MONEY,
    fees,
    commission,
    cost,
    estimated: line.estimated,
    unknown: isBefore && kind === 'product',
    minutes: minutes ?? ZERO,
    timedMargin: minutes ? add(margin, line.cost.labour ?? NO_MONEY) : NO_MONEY,
    day,
    kind,
    item,
    channel: sale.channel,
    buyer: sale.buyer,
    by: sale.id,
  };
}

/** Minutes of work behind the pieces of a line, by the lots that they are from; undefined if any is unknown. */
function minutesSold(context: SoldIn, line: EarnedLine): Decimal | undefined {
  const { kind, count, returned, from } = line;
  if (kind !== 'product') return undefined;
  const { minutesOf } = context.flows.ware;
  const known = from.map((taking) => minutesOf(taking.lot)?.times(decimal(taking.count)));
  const others = count - countIn(from);
  const each = others === 0 ? ZERO : minutesUnfinished(context, line.item);
  const minutes = sumKnown([...known, each?.times(decimal(others))]);
  return returned ? minutes?.neg() : minutes;
}

/** Minutes of a piece that was sold before any was finished: those of the lot that came out last. */
function minutesUnfinished(
  { book, flows, sale: { date } }: SoldIn,
  product: string,
): Decimal | undefined {
  const { lots, minutesOf } = flows.ware;
  const out = [...lots.values()].filter(
    ({ lot, finishedOn }) =>
      lot.product === product && finishedOn !== undefined && finishedOn <= date,
  );
  const last = out.sort((a, b) => ((a.finishedOn ?? '') < (b.finishedOn ?? '') ? -1 : 1)).at(-1);
  return last ? minutesOf(last.lot.id) : inForce(book.products.get(product), date)?.minutes;
}

function sumKnown(amounts: readonly (Decimal | undefined)[]): Decimal | undefined {
  const known = amounts.filter((amount) => amount !== undefined);
  return known.length === amounts.length ? sum(known) : undefined;
}
