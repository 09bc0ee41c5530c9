/** What a preparer would ask after: what is not said, not paid, or on no line of the sheet. */
import { factsDuring } from '../among.ts';
import type { Spent } from '../book.ts';
import { grouped } from '../grouping.ts';
import { total, type Money } from '../number/money.ts';
import { booked } from './booked.ts';
import { chargedFor, owedByOthers, owedByStudio, type Debt } from './debts.ts';
import { countsOn } from './earned.ts';
import type { Span } from '../number/date.ts';
import { spentIn } from './tax-expenses.ts';
import { channelOf } from './taxed.ts';
import { amountOfCategory, lineFor, type TaxSheet } from './tax-sheet.ts';
import { countsIn, type TaxView } from './tax-view.ts';
import { byDate } from '../text-order.ts';

/** Why records are listed. */
export type GapReason =
  | 'no-tax-place'
  | 'unpaid-consignment'
  | 'unpaid-missing'
  | 'unpaid-sales'
  | 'unpaid-bills'
  | 'no-line'
  | 'other-expenses';

/** Records that lack something. */
export interface Gap {
  readonly reason: GapReason;
  /** Channel or category that they have in common; empty for none. */
  readonly of: string;
  readonly amount: Money;
  readonly behind: readonly string[];
}

/**
 * Sales of the period that say no place of sales tax, by channel (not of galleries, which sell
 * themselves, nor where nothing is taxed); sales, missing pieces and bills unpaid at its end; expenses of it on no line of the sheet, by category;
 * and expenses of the category `other`.
 */
export function taxGaps(view: TaxView, period: Span, sheet: TaxSheet): Gap[] {
  return [
    ...placeless(view, period),
    ...unpaid(view, period),
    ...lineless(view, period, sheet),
    ...expensesOf(view, period, ['other']).map((gap): Gap => ({
      ...gap,
      reason: 'other-expenses',
    })),
  ];
}

function placeless(view: TaxView, period: Span): Gap[] {
  if (view.book.studio.salesTax === 'none') return [];
  const { book, flows } = view;
  const placeless = [...factsDuring(flows.ware.sales, period)].filter(
    (sale) => sale.place === '' && countsIn(view, period, countsOn(sale, view.basis)),
  );
  const sales = placeless
    .flatMap(({ id }) => book.sales.get(id) ?? [])
    .filter((sale) => {
      const { kind, taxed } = channelOf(book, sale) ?? {};
      return kind !== 'consignment' && taxed !== 'no';
    });
  sales.sort(byDate);
  return [...new Set(sales.map(({ channel }) => channel))].sort().map((of) => {
    const own = sales.filter(({ channel }) => channel === of);
    const amount = total(own.map((sale) => chargedFor(book, sale)));
    return { reason: 'no-tax-place', of, amount, behind: own.map(({ id }) => id) };
  });
}

function unpaid({ book, flows, asOf }: TaxView, { to }: Span): Gap[] {
  const day = to < asOf ? to : asOf;
  const owed = owedByOthers(book, flows, day);
  const owedFor = grouped(owed, ({ by, channel = '' }): GapReason => {
    if (book.consigned.has(by)) return 'unpaid-missing';
    const isConsigned = book.channels.get(channel)?.kind === 'consignment';
    return isConsigned ? 'unpaid-consignment' : 'unpaid-sales';
  });
  const reasons = ['unpaid-consignment', 'unpaid-missing', 'unpaid-sales'] as const;
  return [
    ...reasons.flatMap((reason) => gapOf(reason, owedFor.get(reason) ?? [])),
    ...gapOf('unpaid-bills', owedByStudio(book, day)),
  ];
}

function gapOf(reason: GapReason, debts: readonly Debt[]): Gap[] {
  if (debts.length === 0) return [];
  const amount = total(debts.map((debt) => debt.amount));
  return [{ reason, of: '', amount, behind: debts.map(({ by }) => by) }];
}

function lineless(view: TaxView, period: Span, sheet: TaxSheet): Gap[] {
  const { categories } = view.book.studio;
  const spent = spentIn(view, period);
  const names = [...new Set(spent.map((each) => each.for))].sort();
  return expensesOf(
    view,
    period,
    names.filter((name) => !lineFor(sheet, amountOfCategory(name), categories)),
  );
}

function expensesOf(view: TaxView, period: Span, names: readonly string[]): Gap[] {
  const spent = spentIn(view, period);
  return names.flatMap((of) => {
    const own = spent.filter((each: Spent) => each.for === of);
    if (own.length === 0) return [];
    const amount = total(own.map((each) => booked(view.book, each.amount)));
    return [{ reason: 'no-line', of, amount, behind: own.map(({ id }) => id) } as const];
  });
}
