/** Profit for tax: income, less the cost of goods sold, less expenses; and every amount that a sheet takes. */
import { earlierDay } from '../../number/date.js';
import type { Day } from '../../book.ts';
import { type Span, addDays } from '../../number/date.ts';
import { NO_MONEY, addUnder, less, opposite, total, type Money } from '../../number/money.ts';
import { flow } from '../flow.ts';
import { expenseAmounts } from './tax-expenses.ts';
import { incomeAmounts, sellingAmounts } from './tax-income.ts';
import { goodsCost, isAtPrice, type GoodsCost } from './goods-cost.ts';
import { keptAtPrice, type WareForOneself } from './own-use.ts';
import { NET_PROFIT, lineAmounts, type Amounts, type TaxSheet } from './tax-sheet.ts';
import { totalAmount, type TaxAmount, type TaxView } from './tax-view.ts';
import { type Goods, type MaterialValue, goodsBetween, materialValue } from '../stock/where.ts';

/** What a period comes to. */
export interface TaxAccount {
  readonly period: Span;
  readonly income: readonly TaxAmount[];
  readonly expenses: readonly TaxAmount[];
  readonly goods: Goods;
  /** What is deducted for goods, on the basis and by the law of the sheet. */
  readonly goodsCost: GoodsCost;
  /** Ware for one's own use at its price, where the law of the sheet counts it so. */
  readonly kept: WareForOneself | undefined;
  readonly totalIncome: Money;
  readonly totalExpenses: Money;
  readonly grossProfit: Money;
  readonly netProfit: Money;
}

/** The account of a period on the view's basis and by the law of its sheet, up to the view's last day. */
export function taxAccount(view: TaxView, period: Span): TaxAccount {
  const income = incomeAmounts(view, period);
  const expenses = [...expenseAmounts(view, period), ...sellingAmounts(view, period)];
  const valueOn = (day: Day): MaterialValue =>
    materialValue(flow(view.book, earlierDay(day, view.asOf)));
  const goods = goodsBetween(valueOn(addDays(period.from, -1)), valueOn(period.to));
  const deducted = goodsCost(view, period, goods);
  const counting = { from: period.from, to: earlierDay(period.to, view.asOf) };
  const totalIncome = totalAmount(income);
  const totalExpenses = totalAmount(expenses);
  const grossProfit = less(totalIncome, deducted.cost);
  return {
    period,
    income,
    expenses,
    goods,
    goodsCost: deducted,
    kept: isAtPrice(view) ? keptAtPrice(view.book, counting) : undefined,
    totalIncome,
    totalExpenses,
    grossProfit,
    netProfit: less(grossProfit, totalExpenses),
  };
}

/** The profit as the sheet has it: without what may not be deducted, and what is on no line. */
export function profitOnSheet(
  account: TaxAccount,
  sheet: TaxSheet,
  categories: Readonly<Record<string, string>> | undefined,
): Money {
  const lines = lineAmounts(sheet, sheetAmounts(account), categories);
  return lines.get(NET_PROFIT) ?? NO_MONEY;
}

/** The amounts by the names that sheets know them by; discounts and returns positive there. */
export function sheetAmounts(account: TaxAccount): Amounts {
  const { income, expenses } = account;
  const amounts = new Map<string, Money>();
  const count = (name: string, amount: Money): void => {
    addUnder(amounts, name, amount);
  };
  for (const { counts, amount } of income) {
    count(counts, counts === 'discounts' || counts === 'returns' ? opposite(amount) : amount);
  }
  for (const { counts, amount } of expenses) count(counts, amount);
  for (const [name, amount] of goodsAmounts(account)) count(name, amount);
  return amounts;
}

/** The amounts of goods that a line may take. */
function goodsAmounts({ goods, goodsCost: { way, ...cost }, kept }: TaxAccount): [string, Money][] {
  const { ownUse, purchases } = goods;
  if (way === 'paid')
    return [
      ['purchases', cost.paid],
      ['own-use', ownUse],
    ];
  return [
    ['opening-stock', total(Object.values(goods.opening))],
    ['purchases', purchases],
    kept ? ['own-use-price', kept.amount] : ['own-use', ownUse],
    ['used-unpaid-before', cost.before.amount],
    ['used-unpaid', cost.unpaid.amount],
    ['closing-stock', total(Object.values(goods.closing))],
  ];
}
