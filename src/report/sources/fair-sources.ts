/** What records bring to the figures of fairs. */
import type { Book } from '../../book.ts';
import { keyed } from '../../grouping.ts';
import { booked } from '../../reckon/booked.ts';
import { fairExpenseOf, type FairExpense, type FairFigures } from '../../reckon/sales/fair.ts';
import { incomeTotal, netOf } from '../../reckon/sales/income-fact.ts';
import type { IncomeRow } from '../../reckon/sales/income.ts';
import { broughtByParts, broughtByRecord, type BroughtByColumn } from '../brought.ts';

/** By sale what was earned, by expense what was spent, and by lot what broke. */
export function broughtToFairs(book: Book, fairs: readonly FairFigures[]): BroughtByColumn {
  const earned =
    (key: 'count' | 'gross' | 'discounts' | 'returns' | 'fees' | 'cost') =>
    ({ facts }: FairFigures) =>
      facts.map((fact) => [fact.by, fact[key]] as const);
  const spentOn =
    (what: FairExpense) =>
    ({ spent }: FairFigures) =>
      spent
        .filter((each) => fairExpenseOf(each) === what)
        .map(({ id, amount }) => [id, booked(book, amount)] as const);
  return broughtByParts(fairs, {
    ...keyed(['count', 'gross', 'discounts', 'returns', 'fees', 'cost'], earned),
    ...keyed(['booth', 'travel', 'other'], spentOn),
    broken: ({ gone }) => gone.map(({ lot, cost }) => [lot.id, cost] as const),
  });
}

/** Sale by sale; the rows below are of one record each. */
export function broughtToSold(sold: readonly IncomeRow[]): BroughtByColumn {
  return broughtByRecord(() => sold.map(({ facts }) => facts), {
    keys: ['count', 'net', 'fees', 'cost'],
    idOf: (fact) => fact.by,
    cellsOf: (facts) => {
      const all = incomeTotal(facts);
      return { ...all, net: netOf(all) };
    },
  });
}
