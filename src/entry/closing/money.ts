/** The money of a fair day: what its records say came in, and how much of that by card. */
import { recordsDuring } from '../../among.ts';
import type { Book, Sale } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { NO_MONEY, total, type Money } from '../../number/money.ts';
import { booked } from '../../reckon/booked.ts';
import { paidOn } from '../../reckon/paid.ts';
import { saleMoney } from '../../reckon/sale-money.ts';
import { salesAt, type FairDay } from './count.ts';

/** What the records of a fair day say came in. */
export interface DayTakings {
  /** Sales that were paid that day, after advances used, and deposits and certificates taken. */
  readonly all: Money;
  /** What of it went by card; a sale through a card reader that does not say counts as all by card. */
  readonly card: Money;
  /** The sales that do not say, of a channel with a card reader. */
  readonly unsaid: readonly Sale[];
}

/** Sums them. */
export function takingsOf(book: Book, at: FairDay): DayTakings {
  const sales = salesAt(book, at).filter((sale) => paidOn(sale) === sale.date);
  const taken = [...recordsDuring(book.advances, { from: at.day, to: at.day })]
    .filter(({ channel, date }) => channel === at.fair.channel && date === at.day)
    .map(({ amount }) => booked(book, amount));
  const isRead = hasReader(book, at);
  const money = sales.map((sale) => ({ sale, ...saleMoney(book, sale) }));
  const said = money.filter(({ sale }) => isRead || sale.card !== undefined);
  return {
    all: total([...money.map(({ due }) => due), ...taken]),
    card: total(said.map(({ card }) => card)),
    unsaid: said.flatMap(({ sale, card }) =>
      sale.card === undefined && card !== NO_MONEY ? [sale] : [],
    ),
  };
}

/** Whether the fair's channel has, on that day, a card reader or site that takes a fee. */
export function hasReader({ channels }: Book, { fair, day }: FairDay): boolean {
  const channel = inForce(channels.get(fair.channel), day);
  return (channel?.feePercent ?? channel?.feeEach) !== undefined;
}
