/** What is paid for a sale agrees with what it comes to. */
import type { Advance, Day, NamedBook, Paid, Sale, Studio } from '../../book.ts';
import {
  NO_MONEY,
  add,
  less,
  lesser,
  moneyText,
  opposite,
  total,
  type Money,
} from '../../number/money.ts';
import type { Spot } from '../../problem.ts';
import { booked, digitsOf } from '../../reckon/booked.ts';
import { chargedFor } from '../../reckon/sales/debts.ts';
import { dueLines, mainSide, type DueLine } from '../../reckon/sales/sale-lines.ts';
import { saleMoney, type SaleMoney } from '../../reckon/sales/sale-money.ts';
import { findEach, keySpot, spot, type Say } from '../finding.ts';
import { each, over, type EachScene, type Rule } from '../rule.ts';

const cardOverSale: Rule = {
  name: 'card-over-sale',
  severity: 'error',
  about:
    'More of a sale is said to be by card than it comes to: lines after discounts, shipping and tax on top, less advances; or more was given back by card than came back.',
  looks: [each('sales', lookAtCard)],
};

function lookAtCard(sale: Sale, { book, say }: EachScene): void {
  if (!sale.card) return;
  const money = saleMoney(book, sale);
  const { card, due } = money;
  const bothInWords = (amount: Money): string => moneyText(amount, digitsOf(book));
  // Then it is the advances that are too large.
  if (due < NO_MONEY && money.advances > NO_MONEY) return;
  if (card > NO_MONEY && card > due)
    say({
      at: spot(sale, 'card'),
      message: `${bothInWords(card)} went by card, but the sale comes to ${bothInWords(due)}`,
      hint: `write ${bothInWords(due)} or less, what of this sale went through the card reader; the rest is cash`,
    });
  const most = givenBack(book, sale, money);
  if (card >= NO_MONEY || opposite(card) <= most) return;
  say({
    at: spot(sale, 'card'),
    message: `${bothInWords(opposite(card))} was given back by card, but ${most > NO_MONEY ? `only ${bothInWords(most)}` : 'nothing'} was given back`,
    hint: `write ${most > NO_MONEY ? `-${bothInWords(most)}` : '0'}, or what of it was given back through the card reader; what was paid by card is above zero`,
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

const discountOverPrice: Rule = {
  name: 'discount-over-price',
  severity: 'warning',
  about: 'A discount, of a line or of a sale, is more than what it is off.',
  looks: [each('sales', lookAtDiscounts)],
};

function hasDiscount({ lines, discount }: Sale): boolean {
  return discount?.amount !== undefined || lines.some((line) => line.discount?.amount);
}

/** A line that is below zero already makes the sale's discount too large by itself. */
function lookAtDiscounts(sale: Sale, { book, say }: EachScene): void {
  if (!hasDiscount(sale)) return;
  const lines = dueLines(book, sale);
  const over = lines.flatMap((line, index) => (line.after < NO_MONEY ? [{ line, index }] : []));
  for (const { line, index } of over) {
    const [off, price] = bothInWords(book, [line.lineDiscount, add(line.after, line.lineDiscount)]);
    say({
      at: spot(sale, 'lines', index, 'discount'),
      message: `the discount of ${off} is more than the ${price} of this line`,
      hint: `write ${price} or less, or correct the price; a line that costs nothing has a discount of 100%`,
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
  const [discount, amount] = bothInWords(book, [off, left]);
  say({
    at: spot(sale, 'discount'),
    message: `the discount of ${discount} is more than the ${amount} of what ${isBack ? 'comes back' : 'is sold'}`,
    hint: `write ${amount} or less, or correct the prices; a sale that costs nothing has a discount of 100%`,
  });
}

function bothInWords(book: NamedBook, [one, other]: readonly [Money, Money]): [string, string] {
  const digits = digitsOf(book);
  return [moneyText(one, digits), moneyText(other, digits)];
}

const paidBeforeSold: Rule = {
  name: 'paid-before-sold',
  severity: 'warning',
  about: 'A sale, or what is owed for missing pieces, is marked as paid before its own date.',
  looks: [
    each('sales', (sale, { say }) => {
      const { paid, date } = sale;
      if (isBefore(paid, date))
        say({
          at: spot(sale, 'paid'),
          message: `this sale of ${date} is marked as paid on ${paid}`,
          hint: `write ${date} or a later day, or correct the other date; if it was paid ahead, leave it as it is`,
        });
    }),
    each('consigned', (consigned, { say }) => {
      const { date, missing = [] } = consigned;
      missing.forEach(({ paid }, index) => {
        if (isBefore(paid, date))
          say({
            at: spot(consigned, 'missing', index, 'paid'),
            message: `what is owed for pieces missing on ${date} is marked as paid on ${paid}`,
            hint: `write ${date} or a later day, or correct the other date`,
          });
      });
    }),
  ],
};

function isBefore(paid: Paid | undefined, date: Day): paid is Day {
  return paid !== undefined && paid !== 'no' && paid < date;
}

const advanceOverdrawn: Rule = {
  name: 'advance-overdrawn',
  severity: 'error',
  about:
    'Sales and refunds use more of a deposit or certificate than was taken, or more than the sale comes to.',
  looks: [
    over({ advances: 'all', sales: { having: 'advances' } }, (book) => {
      const uses = usesIn(book);
      return findEach(book.advances, (advance, say) => {
        lookAtUses({ book, uses: uses.get(advance.id) ?? [] }, advance, say);
      });
    }),
    each('sales', lookAtCharge),
  ],
};

/** What takes from an advance: a sale that uses it, or a refund. */
interface AdvanceUse {
  readonly date: Day;
  readonly at: Spot;
  readonly amount: Money;
}

/** Advance → the sales that use it. */
function usesIn(book: {
  readonly studio: Studio;
  readonly sales: { readonly values: () => Iterable<Sale> };
}): ReadonlyMap<string, readonly AdvanceUse[]> {
  const uses = new Map<string, AdvanceUse[]>();
  for (const sale of book.sales.values())
    sale.advances?.forEach(({ advance, amount: used }, index) => {
      const amount = booked(book, used);
      const use = { date: sale.date, at: spot(sale, 'advances', index, 'amount'), amount };
      uses.set(advance, [...(uses.get(advance) ?? []), use]);
    });
  return uses;
}

interface UsesOfAdvance {
  readonly book: Pick<NamedBook, 'studio'>;
  readonly uses: readonly AdvanceUse[];
}

function lookAtUses({ book, uses: bySales }: UsesOfAdvance, advance: Advance, say: Say): void {
  const refunds = (advance.refunded ?? []).map(({ date, amount }, index) => ({
    date,
    at: spot(advance, 'refunded', index, 'amount'),
    amount: booked(book, amount),
  }));
  const uses = [...refunds, ...bySales].sort(byDate);
  const taken = booked(book, advance.amount);
  let used = NO_MONEY;
  for (const { at, date, amount } of uses) {
    used = add(used, amount);
    if (used <= taken) continue;
    say({
      at,
      message: `${shown(book, used)} of ${advance.id} is used by ${date}, but ${shown(book, taken)} was taken`,
      hint: `${atMostLeft(book, less(taken, less(used, amount)))}name another advance`,
      related: [{ at: keySpot(advance), message: `the ${advance.for}` }],
    });
    return;
  }
}

function atMostLeft(book: Pick<NamedBook, 'studio'>, left: Money): string {
  return left > NO_MONEY ? `write ${shown(book, left)} or less, or ` : 'nothing of it is left: ';
}

function byDate(one: AdvanceUse, other: AdvanceUse): number {
  if (one.date === other.date) return 0;
  return one.date < other.date ? -1 : 1;
}

function lookAtCharge(sale: Sale, { book, say }: EachScene): void {
  const { advances } = sale;
  if (advances === undefined || advances.length === 0) return;
  const used = total(advances.map(({ amount }) => booked(book, amount)));
  const charged = chargedFor(book, sale);
  if (used <= charged) return;
  say({
    at: spot(sale, 'advances'),
    message: `${shown(book, used)} was paid beforehand, but the sale comes to ${shown(book, charged)}`,
    hint: `write amounts of ${shown(book, charged)} in all, what the sale uses of the advance; the rest stays open, or is refunded there`,
  });
}

function shown(book: Pick<NamedBook, 'studio'>, amount: Money): string {
  return moneyText(amount, digitsOf(book));
}

/** The rules on sales. */
export const SALE_RULES: readonly Rule[] = [
  cardOverSale,
  discountOverPrice,
  paidBeforeSold,
  advanceOverdrawn,
];
