/** A discount takes off no more than what it is off. */
import type { NamedBook, Sale } from '../../book.ts';
import { NO_MONEY, add, moneyText, total, type Money } from '../../number/money.ts';
import { digitsOf } from '../../reckon/booked.ts';
import { dueLines, mainSide, type DueLine } from '../../reckon/sale-lines.ts';
import { spot, type Say } from '../finding.ts';
import { each, type Rule } from '../rule.ts';

export const discountOverPrice: Rule = {
  name: 'discount-over-price',
  severity: 'warning',
  about: 'A discount, of a line or of a sale, is more than what it is off.',
  looks: [
    each('sales', (sale, { book, say }) => {
      if (hasDiscount(sale)) lookAtDiscounts(book, sale, say);
    }),
  ],
};

function hasDiscount({ lines, discount }: Sale): boolean {
  return discount?.amount !== undefined || lines.some((line) => line.discount?.amount);
}

/** A line that is below zero already makes the sale's discount too large by itself. */
function lookAtDiscounts(book: NamedBook, sale: Sale, say: Say): void {
  const lines = dueLines(book, sale);
  const over = lines.flatMap((line, index) => (line.after < NO_MONEY ? [{ line, index }] : []));
  for (const { line, index } of over) {
    const [off, price] = inWords(book, [line.lineDiscount, add(line.after, line.lineDiscount)]);
    say({
      at: spot(sale, 'lines', index, 'discount'),
      message: `the discount of ${off} is more than the ${price} of this line`,
      hint: 'correct the discount or the price; a line that costs nothing has a discount of 100%',
    });
  }
  if (over.length === 0) lookAtWhole(book, sale, { lines, say });
}

function lookAtWhole(
  book: NamedBook,
  sale: Sale,
  { lines, say }: { lines: readonly DueLine[]; say: Say },
): void {
  const isBack = mainSide(lines);
  const own = lines.filter(({ returned }) => returned === isBack);
  const off = total(own.map(({ saleDiscount }) => saleDiscount));
  const left = total(own.map(({ after }) => after));
  if (off <= left) return;
  const [discount, amount] = inWords(book, [off, left]);
  say({
    at: spot(sale, 'discount'),
    message: `the discount of ${discount} is more than the ${amount} of what ${isBack ? 'comes back' : 'is sold'}`,
    hint: 'correct the discount or the prices; a sale that costs nothing has a discount of 100%',
  });
}

function inWords(book: NamedBook, [one, other]: readonly [Money, Money]): [string, string] {
  const digits = digitsOf(book);
  return [moneyText(one, digits), moneyText(other, digits)];
}
