/** No more can be used of a deposit or a certificate than was taken. */
import type { Advance, Book, Day, Sale } from '../../book.ts';
import { NO_MONEY, add, moneyText, total, type Money } from '../../number/money.ts';
import { booked, digitsOf } from '../../reckon/booked.ts';
import { chargedFor } from '../../reckon/debts.ts';
import type { Spot } from '../../problem.ts';
import { findEach, keySpot, once, spot, type Say } from '../finding.ts';
import type { Rule } from '../rule.ts';

export const advanceOverdrawn: Rule = {
  name: 'advance-overdrawn',
  severity: 'error',
  about:
    'Sales and refunds use more of a deposit or certificate than was taken, or more than the sale comes to.',
  find: (book) => [
    ...findEach(book.advances, (advance, say) => {
      lookAtUses(book, advance, say);
    }),
    ...findEach(book.sales, (sale, say) => {
      lookAtCharge(book, sale, say);
    }),
  ],
};

/** What takes from an advance: a sale that uses it, or a refund. */
interface Use {
  readonly date: Day;
  readonly at: Spot;
  readonly amount: Money;
}

const usesOf = once((book: Book) => {
  const uses = new Map<string, Use[]>();
  for (const sale of book.sales.values())
    sale.advances?.forEach(({ advance, amount: used }, index) => {
      const amount = booked(book, used);
      const use = { date: sale.date, at: spot(sale, 'advances', index, 'amount'), amount };
      uses.set(advance, [...(uses.get(advance) ?? []), use]);
    });
  return uses;
});

function lookAtUses(book: Book, advance: Advance, say: Say): void {
  const refunds = (advance.refunded ?? []).map(({ date, amount }, index) => ({
    date,
    at: spot(advance, 'refunded', index, 'amount'),
    amount: booked(book, amount),
  }));
  const uses = [...refunds, ...(usesOf(book).get(advance.id) ?? [])].sort(byDate);
  const taken = booked(book, advance.amount);
  let used = NO_MONEY;
  for (const { at, date, amount } of uses) {
    used = add(used, amount);
    if (used <= taken) continue;
    say({
      at,
      message: `${shown(book, used)} of ${advance.id} is used by ${date}, but ${shown(book, taken)} was taken`,
      hint: 'correct the amount, or name another advance',
      related: [{ at: keySpot(advance), message: `the ${advance.for}` }],
    });
    return;
  }
}

function byDate(one: Use, other: Use): number {
  if (one.date === other.date) return 0;
  return one.date < other.date ? -1 : 1;
}

function lookAtCharge(book: Book, sale: Sale, say: Say): void {
  const { advances } = sale;
  if (advances === undefined || advances.length === 0) return;
  const used = total(advances.map(({ amount }) => booked(book, amount)));
  const charged = chargedFor(book, sale);
  if (used <= charged) return;
  say({
    at: spot(sale, 'advances'),
    message: `${shown(book, used)} was paid beforehand, but the sale comes to ${shown(book, charged)}`,
    hint: 'write what the sale uses of the advance; the rest stays open, or is refunded there',
  });
}

function shown(book: Book, amount: Money): string {
  return moneyText(amount, digitsOf(book));
}
