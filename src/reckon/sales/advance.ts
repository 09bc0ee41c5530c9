/** Advances: deposits and gift certificates, what they bring in, and what is still to be given for them. */
import { recordsHaving } from '../../among.ts';
import type { Advance, Book, Day } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { NO_MONEY, addUnder, less, opposite, total, type Money } from '../../number/money.ts';
import { booked } from '../booked.ts';
import { NOTHING_EARNED, type Basis, type IncomeFact } from './income-fact.ts';
import { paidOn } from './paid.ts';
import { channelFee } from './sale-money.ts';
import { byDate } from '../../text-order.ts';

/** An advance of which something is left at the end of a day. */
export interface OpenAdvance {
  readonly advance: Advance;
  /** What sales used of it up to the day, and what was paid back. */
  readonly used: Money;
  readonly refunded: Money;
  /** The rest, in money; below zero where more was used than taken. */
  readonly left: Money;
}

/**
 * Deposits and certificates that are not wholly used or refunded by the end of the day, the oldest
 * first. A sale uses an advance on its date, whether or not the rest of it is paid.
 */
export function advancesOpen(book: Book, asOf: Day): OpenAdvance[] {
  const used = usedUpTo(book, asOf);
  return [...book.advances.values()]
    .filter(({ date }) => date <= asOf)
    .map((advance) => openAdvance(book, advance, { used: used.get(advance.id) ?? NO_MONEY, asOf }))
    .filter(({ left }) => left !== NO_MONEY)
    .sort((a, b) => byDate(a.advance, b.advance));
}

/** What a card reader or a site took of an advance; by its channel's fees where it does not say. */
export function feeOfAdvance(book: Book, advance: Advance): Money {
  const channel = inForce(book.channels.get(advance.channel ?? ''), advance.date);
  if (advance.fee) return booked(book, advance.fee);
  return channelFee(book, channel, booked(book, advance.amount));
}

/** On which basis, up to which day. */
interface AdvancesAsked {
  readonly basis: Basis;
  readonly asOf: Day;
}

/**
 * The lines of income that advances make. On the cash basis: what came in on its date, what was paid
 * back as returns, and less what sales used, on the day that they are paid. On the accrual basis only
 * fees, on the date of the advance.
 */
export function advanceFacts(book: Book, { basis, asOf }: AdvancesAsked): IncomeFact[] {
  const isCash = basis === 'cash';
  return [
    ...[...book.advances.values()].flatMap((advance) => {
      const fees = feeOfAdvance(book, advance);
      const gross = isCash ? booked(book, advance.amount) : NO_MONEY;
      const taken = { ...factOfAdvance(advance), fees, gross };
      return [
        ...(isCash || fees !== NO_MONEY ? [taken] : []),
        ...(isCash ? refundsOf(book, advance) : []),
      ];
    }),
    ...(isCash ? usesOf(book, asOf) : []),
  ].filter(({ day }) => day <= asOf);
}

function factOfAdvance({ id, date, for: what, channel, buyer }: Advance): IncomeFact {
  return { ...NOTHING_EARNED, day: date, kind: 'advance', item: what, channel, buyer, by: id };
}

function refundsOf(book: Book, advance: Advance): IncomeFact[] {
  const head = factOfAdvance(advance);
  return (advance.refunded ?? []).map(({ date, amount }) => ({
    ...head,
    day: date,
    returns: booked(book, amount),
  }));
}

/** What sales used counts with the advance's own kind and channel, so that it leaves where it came in. */
function usesOf(book: Book, asOf: Day): IncomeFact[] {
  return [...recordsHaving(book.sales, 'advances')].flatMap((sale) => {
    const day = paidOn(sale);
    // A sale that was paid ahead is no income before its own date has come.
    if (day === undefined || sale.advances === undefined || sale.date > asOf) return [];
    return sale.advances.flatMap(({ advance: id, amount }) => {
      const advance = book.advances.get(id);
      if (!advance) return [];
      return [
        { ...factOfAdvance(advance), day, gross: opposite(booked(book, amount)), by: sale.id },
      ];
    });
  });
}

function usedUpTo(book: Book, asOf: Day): Map<string, Money> {
  const used = new Map<string, Money>();
  const sales = [...recordsHaving(book.sales, 'advances')].filter(({ date }) => date <= asOf);
  for (const { advance, amount } of sales.flatMap(({ advances = [] }) => advances))
    addUnder(used, advance, booked(book, amount));
  return used;
}

function openAdvance(
  book: Book,
  advance: Advance,
  { used, asOf }: { used: Money; asOf: Day },
): OpenAdvance {
  const back = (advance.refunded ?? []).filter(({ date }) => date <= asOf);
  const refunded = total(back.map(({ amount }) => booked(book, amount)));
  return { advance, used, refunded, left: less(booked(book, advance.amount), used, refunded) };
}
