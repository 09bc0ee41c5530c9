/** No more can be used of a deposit or a certificate than was taken. */
import type { Advance, Day, NamedBook, Sale, Studio } from '../../book.ts';
import { NO_MONEY, add, moneyText, total, type Money } from '../../number/money.ts';
import { booked, digitsOf } from '../../reckon/booked.ts';
import { chargedFor } from '../../reckon/debts.ts';
import type { Spot } from '../../problem.ts';
import { findEach, keySpot, spot, type Say } from '../finding.ts';
import { each, over, type Rule } from '../rule.ts';

export const advanceOverdrawn: Rule = {
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
    each('sales', (sale, { book, say }) => {
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

/** Advance → the sales that use it. */
function usesIn(book: {
  readonly studio: Studio;
  readonly sales: { readonly values: () => Iterable<Sale> };
}): ReadonlyMap<string, readonly Use[]> {
  const uses = new Map<string, Use[]>();
  for (const sale of book.sales.values())
    sale.advances?.forEach(({ advance, amount: used }, index) => {
      const amount = booked(book, used);
      const use = { date: sale.date, at: spot(sale, 'advances', index, 'amount'), amount };
      uses.set(advance, [...(uses.get(advance) ?? []), use]);
    });
  return uses;
}

interface Used {
  readonly book: Pick<NamedBook, 'studio'>;
  readonly uses: readonly Use[];
}

function lookAtUses({ book, uses: bySales }: Used, advance: Advance, say: Say): void {
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

function lookAtCharge(book: NamedBook, sale: Sale, say: Say): void {
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

function shown(book: Pick<NamedBook, 'studio'>, amount: Money): string {
  return moneyText(amount, digitsOf(book));
}
