/** A gallery keeps the share that was agreed. */
import type { NamedBook, Sale } from '../../book.ts';
import { inForce, placeInForce } from '../../in-force.ts';
import { decimal, roundTo, type Decimal } from '../../number/decimal.ts';
import { less, moneyText, opposite } from '../../number/money.ts';
import { booked, digitsOf } from '../../reckon/booked.ts';
import { agreedCommission } from '../../reckon/sale-money.ts';
import { spot, type Say } from '../finding.ts';
import { each, type Rule } from '../rule.ts';

export const commissionDiffers: Rule = {
  name: 'commission-differs',
  severity: 'warning',
  about: "A gallery's statement keeps another commission than was agreed with it.",
  looks: [
    each('sales', (sale, { book, say }) => {
      if (sale.commission !== undefined) lookAtStatement(book, sale, say);
    }),
  ],
};

function lookAtStatement(book: NamedBook, sale: Sale, say: Say): void {
  const { commission } = sale;
  const defined = book.channels.get(sale.channel);
  const channel = inForce(defined, sale.date);
  const share = channel?.kind === 'consignment' ? channel.commission : undefined;
  if (!defined || !channel || share === undefined || commission === undefined) return;
  const agreed = agreedCommission(book, channel, sale);
  const kept = booked(book, commission);
  const more = less(kept, agreed);
  // A gallery may round each line by itself.
  if ((more < 0n ? opposite(more) : more) <= BigInt(sale.lines.length)) return;
  const inWords = (amount: typeof kept): string => moneyText(amount, digitsOf(book));
  say({
    at: spot(sale, 'commission'),
    message: `${channel.id} kept ${inWords(kept)}, but ${percent(share)} of this sale is ${inWords(agreed)}`,
    hint: `ask ${channel.id}, or correct the amount; if it was agreed for this sale, leave it`,
    related: [
      {
        at: spot(channel, ...placeInForce(defined, 'commission', sale.date)),
        message: 'what was agreed',
      },
    ],
  });
}

function percent(share: Decimal): string {
  return `${roundTo(share.times(decimal(100)), 2).toFixed()}%`;
}
