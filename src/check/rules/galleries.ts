/** A gallery keeps the share and sells at the price that were agreed. */
import { recordsNaming } from '../../among.ts';
import type { Book, Day, NamedBook, Sale } from '../../book.ts';
import { addTo } from '../../grouping.ts';
import { inForce, placeInForce } from '../../in-force.ts';
import { decimal, roundTo, type Decimal } from '../../number/decimal.ts';
import {
  less,
  moneyText,
  NO_MONEY,
  opposite,
  portionOf,
  times,
  total,
  type Money,
} from '../../number/money.ts';
import { booked, digitsOf } from '../../reckon/booked.ts';
import { deliveries, type SoldStatement, type TakenThere } from '../../reckon/ware/consignment.ts';
import { lineDues } from '../../reckon/sales/sale-lines.ts';
import { agreedCommission } from '../../reckon/sales/sale-money.ts';
import { findEach, spot, type RuleFinding, type Say } from '../finding.ts';
import { each, over, type EachScene, type Rule, type Unsound } from '../rule.ts';

const commissionDiffers: Rule = {
  name: 'commission-differs',
  severity: 'warning',
  about: "A gallery's statement keeps another commission than was agreed with it.",
  looks: [each('sales', lookAtStatement)],
};

function lookAtStatement(sale: Sale, { book, say }: EachScene): void {
  const { commission } = sale;
  if (commission === undefined) return;
  const defined = book.channels.get(sale.channel);
  const channel = inForce(defined, sale.date);
  const share = channel?.kind === 'consignment' ? channel.commission : undefined;
  if (!defined || !channel || share === undefined) return;
  const agreed = agreedCommission(book, channel, sale);
  const kept = booked(book, commission);
  const more = less(kept, agreed);
  // A gallery may round each line by itself.
  if ((more < 0n ? opposite(more) : more) <= BigInt(sale.lines.length)) return;
  const inWords = (amount: typeof kept): string => moneyText(amount, digitsOf(book));
  say({
    at: spot(sale, 'commission'),
    message: `${channel.id} kept ${inWords(kept)}, but ${percent(share)} of this sale is ${inWords(agreed)}`,
    hint: `ask ${channel.id}; or write ${inWords(agreed)} if the amount is a slip; if it was agreed for this sale, leave it`,
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

const soldBelowSentPrice: Rule = {
  name: 'sold-below-sent-price',
  severity: 'warning',
  about: "A gallery's statement sells ware for less than the price at which it was sent there.",
  looks: [
    over(
      {
        channels: 'all',
        consigned: 'all',
        counted: { where: ({ pieces }) => pieces !== undefined },
        pieces: { where: ({ gone }) => gone !== undefined },
        sales: {
          where: ({ channel }, { channels }) => channels.get(channel)?.kind === 'consignment',
        },
      },
      (book, unsound) => {
        if (isDoubtful(unsound) || !isAnyBelow(book)) return [];
        return findEach(deliveries(book, '9999-12-31').sold, (statement, say) => {
          lookAtPrices(book, statement, say);
        });
      },
    ),
  ],
};

type PricesBook = Pick<Book, 'studio' | 'channels' | 'consigned' | 'sales'>;

/**
 * Whether any line was sold for less than the highest price at which its gallery ever had the product by
 * then: else nobody has to follow the deliveries to say that all is well.
 */
function isAnyBelow(book: PricesBook): boolean {
  const sent = pricesSent(book);
  const galleries = [...book.channels.values()].filter(({ kind }) => kind === 'consignment');
  const ids = new Set(galleries.map(({ id }) => id));
  const sales = ids.size === 0 ? [] : [...recordsNaming(book.sales, ids)];
  return sales.some((sale) => ids.has(sale.channel) && isBelow(book, sale, sent));
}

interface SentPrice {
  readonly date: Day;
  readonly price: Money;
}

/** Gallery and product → the prices at which it was sent there; nothing where none is known. */
function pricesSent(book: PricesBook): ReadonlyMap<string, readonly SentPrice[]> {
  const sent = new Map<string, SentPrice[]>();
  for (const { channel, date, sent: lines = [] } of book.consigned.values())
    for (const { product, price } of lines)
      addTo(sent, `${channel} ${product}`, { date, price: booked(book, price) });
  return sent;
}

function isBelow(
  book: PricesBook,
  sale: Sale,
  sent: ReadonlyMap<string, readonly SentPrice[]>,
): boolean {
  const { channel, date } = sale;
  const dues = lineDues(book, sale);
  return sale.lines.some(({ product = '', count }, index) => {
    const due = dues[index] ?? NO_MONEY;
    const prices = sent.get(`${channel} ${product}`) ?? [];
    return prices.some((each) => each.date <= date && due < times(each.price, count));
  });
}

function lookAtPrices(
  book: Pick<NamedBook, 'studio'>,
  { sale, taken }: SoldStatement,
  say: Say,
): void {
  lineDues(book, sale).forEach((paid, index) => {
    const below = lookAtLine(book, paid, {
      sold: sale.lines[index]?.count,
      taken: taken[index] ?? [],
    });
    if (below) say(findingOf(sale, { index, digits: digitsOf(book), ...below }));
  });
}

/** Which pieces a statement sold can't be told while a delivery or a statement is left out. */
function isDoubtful({ ids, kinds }: Unsound): boolean {
  const feeders = ['consigned', 'sales', 'counted', 'pieces'] as const;
  const unsound = new Set(ids.values());
  return feeders.some((kind) => kinds.has(kind) || unsound.has(kind));
}

interface Below {
  readonly sold: Money;
  readonly sent: Money;
  readonly taken: readonly TakenThere[];
}

/** Prices of one piece, on average over the line; undefined where they agree or one is not known. */
function lookAtLine(
  book: Pick<NamedBook, 'studio'>,
  paid: Money,
  { sold, taken }: { sold: number | undefined; taken: readonly TakenThere[] },
): Below | undefined {
  const known = taken.every(({ delivery }) => delivery.line.price !== undefined);
  const pieces = taken.reduce((count, each) => count + each.count, 0);
  if (!known || pieces === 0 || pieces !== sold) return undefined;
  const sent = total(
    taken.map(({ delivery, count }) => times(booked(book, delivery.line.price), count)),
  );
  if (paid >= sent) return undefined;
  const each = (amount: Money): Money => portionOf(amount, 1n, BigInt(pieces));
  return { sold: each(paid), sent: each(sent), taken };
}

function findingOf(
  sale: Sale,
  { index, digits, sold, sent, taken }: Below & { index: number; digits: number },
): RuleFinding {
  const product = sale.lines[index]?.product ?? '';
  const [paid, asked] = [sold, sent].map((price) => moneyText(price, digits));
  const days = [...new Set(taken.map(({ delivery }) => delivery.sentOn))].join(' and ');
  return {
    at: spot(sale, 'lines', index, 'price'),
    message: `${sale.channel} sold ${product} for ${paid ?? ''} each, but it was sent at ${asked ?? ''} on ${days}`,
    hint: `ask ${sale.channel}, or correct the price; if the price was lowered since, leave it`,
  };
}

/** The rules on galleries. */
export const GALLERY_RULES: readonly Rule[] = [commissionDiffers, soldBelowSentPrice];
