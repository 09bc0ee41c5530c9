/** The cost of goods for tax: by stock, or on the cash basis as the law of the sheet has it. */
import { earlierDay } from '../../number/date.js';
import { recordsDuring } from '../../among.ts';
import type { Bought, Day } from '../../book.ts';
import { addDays, type Span } from '../../number/date.ts';
import { NO_MONEY, add, less, total, type Money } from '../../number/money.ts';
import { broughtBy, type Brought } from '../brought.ts';
import { invoiceTotal } from '../sales/debts.ts';
import { paidOn } from '../sales/paid.ts';
import type { Goods } from '../stock/where.ts';
import type { GoodsOnCash } from './tax-law.ts';
import { countsIn, type TaxView } from './tax-view.ts';
import { usedUnpaid, type UsedUnpaid } from './unpaid-goods.ts';

/** The cost of goods of a period, and how it comes about. */
export interface GoodsCost {
  /** How it goes where it is not by stock alone. */
  readonly way: GoodsOnCash | undefined;
  readonly cost: Money;
  /** What was paid for goods in the period; reckoned only where the cost goes by it. */
  readonly paid: Money;
  readonly paidFor: Brought;
  /** Used, and not paid for: on the eve of the period, and at its end; only where the cost goes by it. */
  readonly before: UsedUnpaid;
  readonly unpaid: UsedUnpaid;
}

const NONE: UsedUnpaid = { amount: NO_MONEY, brought: new Map() };

/**
 * - by stock: opening stock + purchases − own use − closing stock
 * - `paid`: what was paid for goods, less ware for one's own use at cost, which is disallowed
 * - `used-and-paid`: by stock, less what was used unpaid by the end, and with what had been so before
 * Sources are in the tax sheets.
 */
export function goodsCost(view: TaxView, period: Span, goods: Goods): GoodsCost {
  const way = wayOf(view);
  const none = { way, paid: NO_MONEY, paidFor: NONE.brought, before: NONE, unpaid: NONE };
  if (way === 'paid') {
    const bills = boughtPaidIn(view, period);
    const paidFor = broughtBy(bills.map((bill) => [bill.id, invoiceTotal(view.book, bill)]));
    const paid = total(paidFor.values());
    return { ...none, paid, paidFor, cost: less(paid, goods.ownUse) };
  }
  if (way === 'used-and-paid') {
    const unpaidAt = (day: Day): UsedUnpaid => usedUnpaid(view.book, earlierDay(day, view.asOf));
    const [before, unpaid] = [unpaidAt(addDays(period.from, -1)), unpaidAt(period.to)];
    const cost = less(add(goods.costOfGoodsSold, before.amount), unpaid.amount);
    return { ...none, before, unpaid, cost };
  }
  const ownUse = isAtPrice(view) ? goods.ownUse : NO_MONEY;
  return { ...none, cost: add(goods.costOfGoodsSold, ownUse) };
}

/** How the view's basis and sheet take goods; undefined for by stock. */
function wayOf({ basis, sheet }: TaxView): GoodsOnCash | undefined {
  return basis === 'cash' ? sheet?.goods?.cash : undefined;
}

/** Whether goods for one's own use count at their price, and not as a cost taken off. */
export function isAtPrice({ basis, sheet }: TaxView): boolean {
  return basis === 'accrual' && sheet?.goods?.ownUse === 'price';
}

function boughtPaidIn(view: TaxView, period: Span): Bought[] {
  return [...recordsDuring(view.book.bought, period)].filter(
    (bill) => bill.date <= view.asOf && countsIn(view, period, paidOn(bill)),
  );
}
