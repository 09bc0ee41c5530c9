/** Prices and fees that are far from the book's own. */
import type { Channel, Lot, NamedBook, Product, Sale, SaleLine, StudioClass } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { ZERO, decimal, type Decimal } from '../../number/decimal.ts';
import { minorDigits } from '../../number/money.ts';
import { eachStating } from '../finding.ts';
import { usual, type Rule } from '../rule.ts';
import { isAbove, moneyAsTold, sizeAsNumber } from './amounts.ts';
import type { Figure, GatherScene } from './figure.ts';
import { BY_TIMES } from './measures.ts';

/** An amount of money whose size is the amount itself. */
interface Priced extends Omit<Figure, 'size' | 'text'> {
  readonly amount: Decimal | undefined;
}

function notePrice({ book, note }: GatherScene, priced: Priced): void {
  const { amount, like, sort, day, path, isShown } = priced;
  if (!isAbove(amount)) return;
  const text = (): string => moneyAsTold(book, amount);
  note({ like, sort, size: sizeAsNumber(amount), day, path, text, isShown });
}

const PRICE = { measure: BY_TIMES, what: 'a price of' };

const priceSlip: Rule = {
  name: 'price-slip',
  severity: 'warning',
  isDoubt: true,
  about:
    'A price is far from what the product, in that grade, or the class has on record and was sold at, wholesale or not.',
  looks: [
    usual('products', PRICE, gatherPrices),
    usual('classes', PRICE, gatherFees),
    usual('pieces', PRICE, gatherOwnPrice),
    usual('sales', PRICE, gatherSold),
  ],
};

function gatherPrices(product: Product, scene: GatherScene): void {
  const { id } = product;
  eachStating(product, (stated, above) => {
    const day = 'from' in stated ? stated.from : '';
    const { price, wholesale, second } = stated;
    // A list price may be changed for all that is to come; it only shows what is usual.
    const listPrice = { day, isShown: true } as const;
    notePrice(scene, { like: id, amount: price, ...listPrice, path: [...above, 'price'] });
    notePrice(scene, {
      like: id,
      sort: 'wholesale',
      amount: wholesale,
      ...listPrice,
      path: [...above, 'wholesale'],
    });
    notePrice(scene, {
      like: secondOf(id),
      amount: second,
      ...listPrice,
      path: [...above, 'second'],
    });
  });
}

function gatherFees(taught: StudioClass, scene: GatherScene): void {
  eachStating(taught, (stated, above) => {
    const day = 'from' in stated ? stated.from : '';
    notePrice(scene, { like: taught.id, amount: stated.fee, day, path: [...above, 'fee'] });
  });
}

function gatherOwnPrice({ id, price, date }: Lot, scene: GatherScene): void {
  notePrice(scene, { like: id, amount: price, day: date, path: ['price'] });
}

function gatherSold(sale: Sale, scene: GatherScene): void {
  const isWholesale = scene.book.channels.get(sale.channel)?.kind === 'wholesale';
  const sort = isWholesale ? 'wholesale' : undefined;
  sale.lines.forEach((line, index) => {
    const like = soldAs(line, scene.book);
    if (like === undefined) return;
    const path = ['lines', index, 'price'];
    notePrice(scene, { like, sort, amount: line.price, day: sale.date, path });
  });
}

/** What a line is a sale of; a lot with a price of its own is alike with nothing else. */
function soldAs(line: SaleLine, book: NamedBook): string | undefined {
  const { product, lot, grade } = line;
  if (product === undefined) return line.class;
  const hasOwn = lot !== undefined && book.pieces.get(lot)?.price !== undefined;
  const thing = hasOwn ? lot : product;
  return grade === 'second' ? secondOf(thing) : thing;
}

function secondOf(id: string): string {
  return `${id}, second`;
}

const FEE = { measure: BY_TIMES, what: 'a fee of', joint: 'through' };

const IN_PERCENT = decimal(100);

const feeSlip: Rule = {
  name: 'fee-slip',
  severity: 'warning',
  isDoubt: true,
  about:
    "A fee is a far larger or smaller share of its sale than that channel's fees are otherwise.",
  looks: [usual('channels', FEE, gatherTerms), usual('sales', FEE, gatherFee)],
};

function gatherTerms(channel: Channel, { note }: GatherScene): void {
  eachStating(channel, ({ feePercent, ...stated }, above) => {
    if (!isAbove(feePercent)) return;
    const size = feePercent.toNumber();
    const day = 'from' in stated ? stated.from : '';
    const text = (): string => `${feePercent.times(IN_PERCENT).toFixed()}%`;
    note({ like: channel.id, size, day, path: [...above, 'fee-percent'], text });
  });
}

/** The share that the fee has of what was charged, less what is taken of each sale however large it is. */
function gatherFee(sale: Sale, { book, note }: GatherScene): void {
  const { channel: like, date: day, fee } = sale;
  if (!isAbove(fee)) return;
  const { feePercent, feeEach } = inForce(book.channels.get(like), day) ?? {};
  const each = isAbove(feePercent) ? sizeAsNumber(feeEach ?? ZERO) / sizeAsNumber(feePercent) : 0;
  const charged = chargedIn(sale);
  const size = sizeAsNumber(fee) / (charged + each);
  const digits = minorDigits(book.studio.currency);
  const text = (): string => `${moneyAsTold(book, fee)} of ${charged.toFixed(digits)}`;
  note({ like, size, day, path: ['fee'], text });
}

/** What went through the card; else the lines as they are priced, with shipping and tax. */
function chargedIn({ card, lines, shipping = ZERO, tax = ZERO }: Sale): number {
  if (card !== undefined) return Math.abs(sizeAsNumber(card));
  const priced = lines.reduce((all, { count, price }) => all + count * sizeAsNumber(price), 0);
  return Math.abs(priced + sizeAsNumber(shipping) + sizeAsNumber(tax));
}

/** The rules on prices and fees. */
export const PRICE_DOUBTS: readonly Rule[] = [priceSlip, feeSlip];
