/** Money as it came in and went out, record by record: what a bank's or a card reader's list is held against. */
import type { Book, Day, Sale } from '../../book.ts';
import { less, opposite, type Money } from '../../number/money.ts';
import { booked } from '../booked.ts';
import { feeOfAdvance } from './advance.ts';
import { invoiceTotal, missingOwed } from './debts.ts';
import { paidOn, unpaidBy } from './paid.ts';
import { saleMoney } from './sale-money.ts';

/** What one record moved; below zero where it went out. */
export interface MovedMoney {
  readonly id: string;
  readonly date: Day;
  /** What was paid, and what of it came after the fees that were kept. */
  readonly gross: Money;
  readonly net: Money;
  readonly channel?: string;
  /** Numbers by which others know it: of its statement or payout, its invoice, its row in a list. */
  readonly numbers: readonly string[];
  /** Who paid, or was paid. */
  readonly who: string;
}

/** All that was paid within the days, in their order; of channels only these where any are named. */
export function moneyPaid(
  book: Book,
  {
    from,
    to,
    channels,
  }: { readonly from: Day; readonly to: Day; readonly channels?: readonly string[] },
): readonly MovedMoney[] {
  const isOf = ({ channel }: MovedMoney): boolean =>
    channels === undefined || (channel !== undefined && channels.includes(channel));
  const all = [...cameIn(book), ...wentOut(book)].filter(
    (each) => each.date >= from && each.date <= to && isOf(each),
  );
  return all.sort((one, other) => (one.date + one.id < other.date + other.id ? -1 : 1));
}

/** What sales that are not paid would bring, by the days of the sales. */
export function moneyAwaited(book: Book, asOf: Day): readonly MovedMoney[] {
  const unpaid = unpaidBy(book.sales, asOf).filter(({ paid }) => paid === 'no');
  return unpaid.map((sale) => saleMoved(book, sale, sale.date));
}

function saleMoved(book: Book, sale: Sale, date: Day): MovedMoney {
  const { card: gross, fee, commission } = saleMoney(book, sale);
  const { id, channel, buyer: who = '', statement, number: invoice, from } = sale;
  const numbers = [id, invoice ?? '', statement ?? '', from?.row ?? ''].filter(Boolean);
  return { id, date, gross, net: less(gross, fee, commission), channel, numbers, who };
}

function* cameIn(book: Book): Generator<MovedMoney> {
  for (const sale of book.sales.values()) {
    const date = paidOn(sale);
    if (date !== undefined) yield saleMoved(book, sale, date);
  }
  for (const advance of book.advances.values()) {
    const { id, date, channel, buyer: who = '', number, from } = advance;
    const gross = booked(book, advance.amount);
    const numbers = [id, number ?? '', from?.row ?? ''].filter(Boolean);
    const net = less(gross, feeOfAdvance(book, advance));
    yield { id, date, gross, net, ...(channel === undefined ? {} : { channel }), numbers, who };
  }
  for (const { by: id, channel, amount, ...owed } of missingOwed(book)) {
    const date = paidOn(owed);
    if (date !== undefined)
      yield { id, date, gross: amount, net: amount, channel, numbers: [id], who: '' };
  }
}

function* wentOut(book: Book): Generator<MovedMoney> {
  for (const spent of book.spent.values()) {
    const date = paidOn(spent);
    const amount = opposite(booked(book, spent.amount));
    if (date !== undefined) yield out(spent, { date, amount, who: spent.to });
  }
  for (const bought of book.bought.values()) {
    const date = paidOn(bought);
    const amount = opposite(invoiceTotal(book, bought));
    const who = bought.supplier;
    if (date !== undefined) yield out(bought, { date, amount, who, invoice: bought.invoice });
  }
}

function out(
  { id, from }: { readonly id: string; readonly from?: { readonly row: string } },
  paid: { date: Day; amount: Money; who: string; invoice?: string | undefined },
): MovedMoney {
  const { date, amount, who, invoice = '' } = paid;
  const numbers = [id, invoice, from?.row ?? ''].filter(Boolean);
  return { id, date, gross: amount, net: amount, numbers, who };
}
