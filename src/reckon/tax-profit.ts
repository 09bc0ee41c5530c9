/** Profit for tax: income, less the cost of goods sold, less expenses; and every amount that a sheet takes. */
import type { Book, Day } from '../book.ts';
import { addDays } from '../number/date.ts';
import { ZERO, sum, type Decimal } from '../number/decimal.ts';
import { flow } from './flow.ts';
import { goodsBetween, goodsValue, type Goods, type GoodsValue } from './goods.ts';
import type { Period } from './income.ts';
import { expenseAmounts } from './tax-expenses.ts';
import { incomeAmounts, sellingAmounts } from './tax-income.ts';
import type { Amounts } from './tax-sheet.ts';
import { totalAmount, type TaxAmount, type TaxView } from './tax-view.ts';

/** What a period comes to. */
export interface TaxAccount {
  readonly period: Period;
  readonly income: readonly TaxAmount[];
  readonly expenses: readonly TaxAmount[];
  readonly goods: Goods;
  readonly totalIncome: Decimal;
  readonly totalExpenses: Decimal;
  readonly grossProfit: Decimal;
  readonly netProfit: Decimal;
}

/**
 * The account of a period on the view's basis, up to the view's last day. The cost of goods sold goes
 * by stock on both bases; `book` is the book that the view was made of, whose flows are remembered.
 */
export function taxAccount(book: Book, view: TaxView, period: Period): TaxAccount {
  const income = incomeAmounts(view, period);
  const expenses = [...expenseAmounts(view, period), ...sellingAmounts(view, period)];
  const valueOn = (day: Day): GoodsValue =>
    goodsValue(flow(book, day < view.asOf ? day : view.asOf), view.minorDigits);
  const goods = goodsBetween(valueOn(addDays(period.from, -1)), valueOn(period.to));
  const totalIncome = totalAmount(income);
  const totalExpenses = totalAmount(expenses);
  const grossProfit = totalIncome.minus(goods.costOfGoodsSold);
  const netProfit = grossProfit.minus(totalExpenses);
  return { period, income, expenses, goods, totalIncome, totalExpenses, grossProfit, netProfit };
}

/** The amounts by the names that sheets know them by; discounts and returns positive there. */
export function sheetAmounts({ income, expenses, goods }: TaxAccount): Amounts {
  const amounts = new Map<string, Decimal>();
  const add = (name: string, amount: Decimal): void => {
    amounts.set(name, (amounts.get(name) ?? ZERO).plus(amount));
  };
  for (const { counts, amount } of income) {
    add(counts, counts === 'discounts' || counts === 'returns' ? amount.neg() : amount);
  }
  for (const { counts, amount } of expenses) add(counts, amount);
  add('opening-stock', sum(Object.values(goods.opening)));
  add('purchases', goods.purchases);
  add('own-use', goods.ownUse);
  add('closing-stock', sum(Object.values(goods.closing)));
  return amounts;
}
