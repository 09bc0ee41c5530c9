/** Profit for tax: income, less the cost of goods sold, less expenses; and every amount that a sheet takes. */
import type { Day } from '../../book.ts';
import { type Span, addDays } from '../../number/date.ts';
import { addUnder, less, opposite, total, type Money } from '../../number/money.ts';
import { flow } from '../flow.ts';
import { expenseAmounts } from './tax-expenses.ts';
import { incomeAmounts, sellingAmounts } from './tax-income.ts';
import type { Amounts } from './tax-sheet.ts';
import { totalAmount, type TaxAmount, type TaxView } from './tax-view.ts';
import { type Goods, type MaterialValue, goodsBetween, materialValue } from '../stock/where.ts';

/** What a period comes to. */
export interface TaxAccount {
  readonly period: Span;
  readonly income: readonly TaxAmount[];
  readonly expenses: readonly TaxAmount[];
  readonly goods: Goods;
  readonly totalIncome: Money;
  readonly totalExpenses: Money;
  readonly grossProfit: Money;
  readonly netProfit: Money;
}

/**
 * The account of a period on the view's basis, up to the view's last day. The cost of goods sold goes
 * by stock on both bases.
 */
export function taxAccount(view: TaxView, period: Span): TaxAccount {
  const income = incomeAmounts(view, period);
  const expenses = [...expenseAmounts(view, period), ...sellingAmounts(view, period)];
  const valueOn = (day: Day): MaterialValue =>
    materialValue(flow(view.book, day < view.asOf ? day : view.asOf));
  const goods = goodsBetween(valueOn(addDays(period.from, -1)), valueOn(period.to));
  const totalIncome = totalAmount(income);
  const totalExpenses = totalAmount(expenses);
  const grossProfit = less(totalIncome, goods.costOfGoodsSold);
  const netProfit = less(grossProfit, totalExpenses);
  return { period, income, expenses, goods, totalIncome, totalExpenses, grossProfit, netProfit };
}

/** The amounts by the names that sheets know them by; discounts and returns positive there. */
export function sheetAmounts({ income, expenses, goods }: TaxAccount): Amounts {
  const amounts = new Map<string, Money>();
  const count = (name: string, amount: Money): void => {
    addUnder(amounts, name, amount);
  };
  for (const { counts, amount } of income) {
    count(counts, counts === 'discounts' || counts === 'returns' ? opposite(amount) : amount);
  }
  for (const { counts, amount } of expenses) count(counts, amount);
  count('opening-stock', total(Object.values(goods.opening)));
  count('purchases', goods.purchases);
  count('own-use', goods.ownUse);
  count('closing-stock', total(Object.values(goods.closing)));
  return amounts;
}
