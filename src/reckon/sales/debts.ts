/** Who owes whom: sales and missing pieces that aren't paid yet, and bills that the studio has not paid. */
import { factsDuring, recordsHaving } from '../../among.ts';
import type { Book, Bought, Day, NamedBook, Paid, Sale } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import { addDays } from '../../number/date.ts';
import { type Money, NO_MONEY, less, total } from '../../number/money.ts';
import { booked } from '../booked.ts';
import { isPaidOver, isUnpaid, paidOn, unpaidBy } from './paid.ts';
import { type SaleMoney, netOfLines, saleMoney } from './sale-money.ts';
import { type Basis, type IncomeFact, NOTHING_EARNED } from './income-fact.ts';
import type { Flows } from '../flows.ts';

/** One unpaid record; the amount is in money. */
export interface Debt {
  /** Id of the record. */
  readonly by: string;
  /** Who owes it, or is owed: the buyer, else the channel's name; the supplier; who got the money. */
  readonly who: string;
  readonly amount: Money;
  /** Date of the record. */
  readonly since: Day;
  /** Where the money is to come in; a bill has none. */
  readonly channel?: string;
}

/**
 * What is to come in from sales and for missing pieces up to a day, and is not paid by its end; no later
 * day than that of the flows. The oldest first.
 */
export function owedByOthers(book: Book, flows: Flows, asOf: Day): Debt[] {
  const unpaid = unpaidSales(book, flows, asOf).map((sale) => debtOf(book, sale));
  return [...unpaid, ...debtsForMissing(book, asOf)].sort(oldestFirst);
}

/** Of those that are paid by the flows' day some were not paid by an earlier one. */
function unpaidSales(book: Book, { stock, ware, open }: Flows, asOf: Day): Sale[] {
  const ids = new Set(open.sales.keys());
  const since = addDays(asOf, 1);
  const paidSince = asOf < stock.asOf ? factsDuring(ware.sales, { from: since }) : [];
  for (const { id, paid = '' } of paidSince) if (paid >= since) ids.add(id);
  return [...ids].flatMap((id) => book.sales.get(id) ?? []).filter((sale) => isUnpaid(sale, asOf));
}

/**
 * What the studio has not paid by the end of the day: purchases and expenses. The oldest first. Sales
 * tax is owed until it is paid over, whatever bill there is for it (`taxOwed`).
 */
export function owedByStudio(book: Book, asOf: Day): Debt[] {
  const bought = unpaidBy(book.bought, asOf).map((each) => ({
    ...each,
    who: each.supplier,
    amount: invoiceTotal(book, each),
  }));
  const spent = unpaidBy(book.spent, asOf)
    .filter((each) => !isPaidOver(book, each))
    .map((each) => ({ ...each, who: each.to, amount: booked(book, each.amount) }));
  return [...bought, ...spent]
    .map(({ id, who, amount, date }) => ({ by: id, who, amount, since: date }))
    .sort(oldestFirst);
}

/** What a buyer is charged: the lines after discounts, returns taken off, with shipping and tax. */
export function chargedFor(book: NamedBook, sale: Sale): Money {
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

function debtOf(book: Book, sale: Sale): Debt {
  const { id, channel, date, buyer = channelName(book, channel) } = sale;
  return { by: id, who: buyer, amount: dueFor(book, sale), since: date, channel };
}

/** One debt for each record, of all its lines that are not paid. */
function debtsForMissing(book: Book, asOf: Day): Debt[] {
  const unpaid = missingOwed(book).filter((owed) => isUnpaid(owed, asOf));
  return [...grouped(unpaid, ({ by }) => by)].flatMap(([by, lines]) =>
    lines.slice(0, 1).map(({ channel, date }) => {
      const amount = total(lines.map((line) => line.amount));
      return { by, who: channelName(book, channel), amount, since: date, channel };
    }),
  );
}

function channelName({ channels }: Book, channel: string): string {
  return channels.get(channel)?.name ?? channel;
}

function chargedIn({ lines, shipping, tax }: SaleMoney): Money {
  return total([netOfLines(lines), shipping, tax]);
}

function oldestFirst(one: Debt, other: Debt): number {
  const [a, b] = [one.since + one.by, other.since + other.by];
  return a < b ? -1 : 1;
}

/** One line of a consignment for which something is owed, or was. */
interface MissingOwed {
  /** Id of the consignment. */
  readonly by: string;
  readonly channel: string;
  readonly date: Day;
  readonly amount: Money;
  /** Unlike a sale, a line that says nothing is not paid. */
  readonly paid: Paid;
}

/** All lines for which something is or was owed, in the order of the book. */
export function missingOwed(book: Book): MissingOwed[] {
  const consigned = [...recordsHaving(book.consigned, 'owed')];
  return consigned.flatMap(({ id: by, channel, date, missing = [] }) =>
    missing.flatMap(({ owed, paid = 'no' }) => {
      const amount = booked(book, owed);
      return amount === NO_MONEY ? [] : [{ by, channel, date, amount, paid }];
    }),
  );
}

/**
 * The lines of income that they make: on the date of the consignment on the accrual basis, on the day
 * of the payment on the cash basis. They have no cost, for what the pieces cost was lost already.
 */
export function missingFacts(
  book: Book,
  { basis, asOf }: { readonly basis: Basis; readonly asOf: Day },
): IncomeFact[] {
  return missingOwed(book).flatMap((owed) => {
    const { by, channel, date, amount: gross } = owed;
    const day = basis === 'accrual' ? date : paidOn(owed);
    // What was paid ahead is no income before the record's own date has come.
    if (day === undefined || date > asOf) return [];
    const head = {
      day,
      kind: 'missing',
      item: 'missing',
      buyer: undefined,
    } as const;
    return [{ ...NOTHING_EARNED, ...head, channel, by, gross }];
  });
}
