/** Who owes whom: sales that aren't paid yet, and bills that the studio has not paid. */
import type { Book, Bought, Day, Paid, Sale } from '../book.ts';
import { add, less, opposite, total, type Money } from '../number/money.ts';
import { booked } from './booked.ts';
import { saleMoney, type SaleMoney } from './sale-money.ts';

/** One unpaid record; the amount is in money. */
export interface Debt {
  /** Id of the record. */
  readonly by: string;
  /** Who owes it, or is owed: the buyer, else the channel's name; the supplier; who got the money. */
  readonly who: string;
  readonly amount: Money;
  /** Date of the record. */
  readonly since: Day;
}

/**
 * What is to come in from sales up to the day that are not paid by its end. The oldest first.
 */
export function owedByOthers(book: Book, asOf: Day): Debt[] {
  const unpaid = [...book.sales.values()].filter((sale) => isUnpaid(sale, asOf));
  return unpaid.map((sale) => debtOf(book, sale)).sort(oldestFirst);
}

/** What the studio has not paid by the end of the day: purchases and expenses. The oldest first. */
export function owedByStudio(book: Book, asOf: Day): Debt[] {
  const bought = [...book.bought.values()]
    .filter((each) => isUnpaid(each, asOf))
    .map((each) => ({ ...each, who: each.supplier, amount: invoiceTotal(book, each) }));
  const spent = [...book.spent.values()]
    .filter((each) => isUnpaid(each, asOf))
    .map((each) => ({ ...each, who: each.to, amount: booked(book, each.amount) }));
  return [...bought, ...spent]
    .map(({ id, who, amount, date }) => ({ by: id, who, amount, since: date }))
    .sort(oldestFirst);
}

/** What a buyer is charged: the lines after discounts, returns taken off, with shipping and tax. */
export function chargedFor(book: Book, sale: Sale): Money {
  return chargedIn(saleMoney(book, sale));
}

/**
 * What comes in for a sale: what the buyer is charged, less what was paid beforehand, and less the fee
 * and commission that are kept.
 */
export function dueFor(book: Book, sale: Sale): Money {
  const money = saleMoney(book, sale);
  return less(chargedIn(money), money.advances, money.fee, money.commission);
}

/** What an invoice comes to: its lines with freight and tax, less the discount. */
export function invoiceTotal(
  book: Pick<Book, 'studio'>,
  { lines, freight, tax, discount }: Bought,
): Money {
  const costs = lines.map((line) => booked(book, line.cost));
  const whole = total([...costs, booked(book, freight), booked(book, tax)]);
  return less(whole, booked(book, discount));
}

interface Payable {
  readonly date: Day;
  readonly paid?: Paid;
}

function isUnpaid({ date, paid }: Payable, asOf: Day): boolean {
  return date <= asOf && paid !== undefined && (paid === 'no' || paid > asOf);
}

function debtOf(book: Book, sale: Sale): Debt {
  const who = sale.buyer ?? book.channels.get(sale.channel)?.name ?? sale.channel;
  return { by: sale.id, who, amount: dueFor(book, sale), since: sale.date };
}

function chargedIn({ lines, shipping, tax }: SaleMoney): Money {
  const nets = lines.map(({ net, returned }) => (returned ? opposite(net) : net));
  return add(total(nets), add(shipping, tax));
}

function oldestFirst(one: Debt, other: Debt): number {
  const [a, b] = [one.since + one.by, other.since + other.by];
  return a < b ? -1 : 1;
}
