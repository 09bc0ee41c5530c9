/** What a preparer would ask after: what is not said, not paid, or on no line of the sheet. */
import { earlierDay } from '../../number/date.js';
import { factsDuring } from '../../among.ts';
import { grouped } from '../../grouping.ts';
import { total, type Money } from '../../number/money.ts';
import { booked } from '../booked.ts';
import { broughtBy, type Brought } from '../brought.ts';
import { chargedFor, owedByOthers, owedByStudio, type Debt } from '../sales/debts.ts';
import { countsOn } from '../sales/earned.ts';
import type { Span } from '../../number/date.ts';
import { spentIn } from './tax-expenses.ts';
import { channelOf } from './taxed.ts';
import { amountOfCategory, lineFor, type TaxSheet } from './tax-sheet.ts';
import { countsIn, type TaxView } from './tax-view.ts';
import { byDate } from '../../text-order.ts';

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
  /** What each record brings to it, by date. */
  readonly brought: Brought;
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
    ...spentOnNoLine(view, period, sheet),
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
  const byChannel = grouped(sales.sort(byDate), ({ channel }) => channel);
  return [...byChannel.keys()].sort().flatMap((of) => {
    const own = byChannel.get(of) ?? [];
    const charged = own.map((sale) => ({ by: sale.id, amount: chargedFor(book, sale) }));
    return gapOf({ reason: 'no-tax-place', of }, charged);
  });
}

function unpaid({ book, flows, asOf }: TaxView, { to }: Span): Gap[] {
  const day = earlierDay(to, asOf);
  const owed = owedByOthers(book, flows, day);
  const owedFor = grouped(owed, ({ by, channel = '' }): GapReason => {
    if (book.consigned.has(by)) return 'unpaid-missing';
    const isConsigned = book.channels.get(channel)?.kind === 'consignment';
    return isConsigned ? 'unpaid-consignment' : 'unpaid-sales';
  });
  const reasons = ['unpaid-consignment', 'unpaid-missing', 'unpaid-sales'] as const;
  return [
    ...reasons.flatMap((reason) => gapOf({ reason, of: '' }, owedFor.get(reason) ?? [])),
    ...gapOf({ reason: 'unpaid-bills', of: '' }, owedByStudio(book, day)),
  ];
}

function gapOf(
  gap: Pick<Gap, 'reason' | 'of'>,
  records: readonly Pick<Debt, 'by' | 'amount'>[],
): Gap[] {
  if (records.length === 0) return [];
  const amount = total(records.map((each) => each.amount));
  return [{ ...gap, amount, brought: broughtBy(records.map(({ by, amount: own }) => [by, own])) }];
}

function spentOnNoLine(view: TaxView, period: Span, sheet: TaxSheet): Gap[] {
  const { book } = view;
  const spent = grouped(spentIn(view, period), (each) => each.for);
  const gap = (reason: GapReason, of: string): Gap[] =>
    gapOf(
      { reason, of },
      (spent.get(of) ?? []).map(({ id, amount }) => ({ by: id, amount: booked(book, amount) })),
    );
  const names = [...spent.keys()].filter(
    (name) => !lineFor(sheet, amountOfCategory(name), book.studio.categories),
  );
  return [
    ...names.sort().flatMap((name) => gap('no-line', name)),
    ...gap('other-expenses', 'other'),
  ];
}
