/** What went through card readers and shops, gross, as those who process it report it for a year. */
import { recordsDuring } from '../../among.ts';
import type { Advance, Book, Channel, Day, Sale } from '../../book.ts';
import { addTo, keyed } from '../../grouping.ts';
import { inForce } from '../../in-force.ts';
import type { Span } from '../../number/date.ts';
import { NO_MONEY, add, less, opposite, total, type Money } from '../../number/money.ts';
import { booked } from '../booked.ts';
import { feeOfAdvance } from '../sales/advance.ts';
import { paidOn } from '../sales/paid.ts';
import { netOfLines, saleMoney } from '../sales/sale-money.ts';
import { broughtBy, type Brought } from '../brought.ts';
import { countsIn, type TaxView } from './tax-view.ts';

/** What gross is made of; sales are after discounts and returns, without tax. */
export const CHARGED = ['sales', 'shipping', 'tax', 'taken', 'used', 'otherwise'] as const;

/** What gross is and what is kept of it, beside that. */
const FIGURES = [...CHARGED, 'gross', 'refunds', 'fees'] as const;

type ProcessedFigure = (typeof FIGURES)[number];

/**
 * A reader or a shop in a period. Gross = sales + shipping + tax + advances taken − advances used − what was
 * paid otherwise + refunds; what is paid out = gross − refunds − fees.
 */
export interface Processed extends Readonly<Record<ProcessedFigure, Brought>> {
  readonly channel: string;
}

interface Payment extends Readonly<Record<ProcessedFigure, Money>> {
  readonly id: string;
}

const NOTHING = keyed(FIGURES, () => NO_MONEY);

/**
 * Channels that take a fee for a card or a site, with what was paid through them in the period, on the day
 * of payment whatever the basis. Gross is what buyers were charged, tax and shipping with it, before fees
 * and refunds (instructions for Form 1099-K, from memory).
 */
export function processedIn(view: TaxView, period: Span): Processed[] {
  const { book, asOf } = view;
  const channels = new Map<string, Payment[]>();
  for (const sale of recordsDuring(book.sales, period))
    if (sale.date <= asOf && countsIn(view, period, paidOn(sale)) && isProcessed(book, sale))
      addTo(channels, sale.channel, paymentOf(book, sale));
  for (const advance of recordsDuring(book.advances, period))
    for (const payment of advancePayments(view, period, advance))
      addTo(channels, advance.channel ?? '', payment);
  return [...channels.keys()].sort().map((channel) => ({
    channel,
    ...keyed(FIGURES, (figure) =>
      broughtBy((channels.get(channel) ?? []).map((each) => [each.id, each[figure]])),
    ),
  }));
}

function isProcessed(book: Book, { channel, date, card, fee }: Sale): boolean {
  const own = inForce(book.channels.get(channel), date);
  return own?.kind !== 'consignment' && (takesFee(own) || card !== undefined || fee !== undefined);
}

function takesFee(channel: Channel | undefined): boolean {
  return channel?.feePercent !== undefined || channel?.feeEach !== undefined;
}

function paymentOf(book: Book, sale: Sale): Payment {
  const { lines, shipping, tax, advances, due, card, fee, commission } = saleMoney(book, sale);
  return {
    id: sale.id,
    sales: netOfLines(lines),
    shipping,
    tax,
    taken: NO_MONEY,
    used: opposite(advances),
    otherwise: less(card, due),
    gross: card > NO_MONEY ? card : NO_MONEY,
    refunds: card < NO_MONEY ? opposite(card) : NO_MONEY,
    fees: add(fee, commission),
  };
}

/** What was taken in advance through the channel, and what was given back of it. */
function advancePayments(view: TaxView, period: Span, advance: Advance): Payment[] {
  const { book } = view;
  const { id, channel = '', date, refunded = [] } = advance;
  const isIn = (day: Day): boolean => countsIn(view, period, day);
  if (!takesFee(inForce(book.channels.get(channel), date))) return [];
  const gross = booked(book, advance.amount);
  const back = refunded.filter((each) => isIn(each.date));
  const refunds = total(back.map(({ amount }) => booked(book, amount)));
  return [
    ...(isIn(date)
      ? [{ ...NOTHING, id, taken: gross, gross, fees: feeOfAdvance(book, advance) }]
      : []),
    ...(refunds === NO_MONEY ? [] : [{ ...NOTHING, id, taken: opposite(refunds), refunds }]),
  ];
}
