/** No more goes through the card reader than the sale comes to, nor comes back through it than is given back. */
import type { NamedBook, Sale } from '../../book.ts';
import {
  NO_MONEY,
  add,
  lesser,
  moneyText,
  opposite,
  total,
  type Money,
} from '../../number/money.ts';
import { booked, digitsOf } from '../../reckon/booked.ts';
import { saleMoney, type SaleMoney } from '../../reckon/sale-money.ts';
import { spot, type Say } from '../finding.ts';
import { each, type Rule } from '../rule.ts';

export const cardOverSale: Rule = {
  name: 'card-over-sale',
  severity: 'error',
  about:
    'More of a sale is said to be by card than it comes to: lines after discounts, shipping and tax on top, less advances; or more was given back by card than came back.',
  looks: [
    each('sales', (sale, { book, say }) => {
      if (sale.card) lookAtCard(book, sale, say);
    }),
  ],
};

function lookAtCard(book: NamedBook, sale: Sale, say: Say): void {
  const money = saleMoney(book, sale);
  const { card, due } = money;
  const inWords = (amount: Money): string => moneyText(amount, digitsOf(book));
  // Then it is the advances that are too large.
  if (due < NO_MONEY && money.advances > NO_MONEY) return;
  if (card > NO_MONEY && card > due)
    say({
      at: spot(sale, 'card'),
      message: `${inWords(card)} went by card, but the sale comes to ${inWords(due)}`,
      hint: 'write what of this sale went through the card reader; the rest is cash',
    });
  const most = givenBack(book, sale, money);
  if (card >= NO_MONEY || opposite(card) <= most) return;
  say({
    at: spot(sale, 'card'),
    message: `${inWords(opposite(card))} was given back by card, but ${most > NO_MONEY ? `only ${inWords(most)}` : 'nothing'} was given back`,
    hint: 'write what was given back through the card reader; what was paid by card is above zero',
  });
}

/** At the most: what comes back, with the shipping and tax that are below zero. */
function givenBack(book: NamedBook, sale: Sale, { lines, due }: SaleMoney): Money {
  const back = lines
    .filter(({ returned }) => returned)
    .map(({ net, taxIncluded }) => add(net, taxIncluded));
  const stated = [sale.shipping, sale.tax].map((amount) =>
    opposite(lesser(NO_MONEY, booked(book, amount))),
  );
  const most = total([...back, ...stated]);
  return opposite(lesser(due, opposite(most)));
}
