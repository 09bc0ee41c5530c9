/** Income for tax: by channel and by what was sold, with discounts, returns, fees and commission apart. */
import { grouped } from '../grouping.ts';
import { NO_MONEY, less, opposite, total, type Money } from '../number/money.ts';
import type { IncomeFact, Period } from './income.ts';
import { isFiringForOthers } from './taxed.ts';
import { INCOME_AMOUNTS } from './tax-sheet.ts';
import { factsIn, gathered, type TaxAmount, type TaxView } from './tax-view.ts';

/** What a kind of item counts as, and what people call it, where the channel makes no difference. */
const OTHERS: Readonly<Record<string, readonly [counts: string, name: string]>> = {
  class: ['classes', 'Classes'],
  shipping: ['shipping', 'Shipping charged'],
};

/**
 * What is paid for lost stock is gross income where the loss is in the cost of goods sold, as it is here
 * (IRS Publication 547, loss of inventory; HMRC BIM40115, from memory). It is no sale, so it goes with
 * other income: common practice.
 */
const FOR_MISSING = {
  item: 'missing-pieces',
  name: 'From galleries for missing pieces',
  counts: 'other-income',
} as const;

/**
 * Income of a period on the view's basis, sales tax never among it. Gross, less discounts and returns,
 * which are negative; what is kept by shops and galleries is no part of it (`sellingAmounts`).
 */
export function incomeAmounts(view: TaxView, period: Period): TaxAmount[] {
  const groups = grouped(factsIn(view, period), headKey);
  const amounts = [...groups.values()].flatMap((facts) => amountsOf(view, facts));
  return gathered(amounts.filter(({ amount }) => amount !== NO_MONEY)).sort(byAmount);
}

/** Lines of income with the same key are put under one name. */
function headKey({ kind, channel = '', item, by }: IncomeFact): string {
  const words = kind === 'other' ? item : '';
  return `${kind} ${channel} ${kind === 'advance' ? by : words}`;
}

function amountsOf(view: TaxView, facts: readonly IncomeFact[]): TaxAmount[] {
  const [first] = facts;
  if (!first) return [];
  const sum = (of: (fact: IncomeFact) => Money): Pick<TaxAmount, 'amount' | 'behind'> => {
    const own = facts.filter((fact) => of(fact) !== NO_MONEY);
    return { amount: total(own.map(of)), behind: own.map(({ by }) => by) };
  };
  // What is paid back of an advance was no sale, so it is no return.
  if (first.kind === 'advance')
    return [
      { ...headOfAdvance(view, first), ...sum(({ gross, returns }) => less(gross, returns)) },
    ];
  return [
    { ...incomeHead(view, first), ...sum(({ gross }) => gross) },
    row(
      'discounts',
      'Discounts',
      sum(({ discounts }) => opposite(discounts)),
    ),
    row(
      'returns',
      'Returns',
      sum(({ returns }) => opposite(returns)),
    ),
  ];
}

function row(
  counts: string,
  name: string,
  { amount, behind }: Pick<TaxAmount, 'amount' | 'behind'>,
): TaxAmount {
  return { item: counts, name, counts, amount, behind };
}

function incomeHead(
  { book }: TaxView,
  { kind, item, channel = '' }: IncomeFact,
): Pick<TaxAmount, 'item' | 'name' | 'counts'> {
  if (kind === 'missing') return FOR_MISSING;
  const other = kind === 'other' ? otherIncome(item) : OTHERS[kind];
  if (other) return { item: other[0], name: other[1], counts: other[0] };
  const { name = channel, kind: channelKind } = book.channels.get(channel) ?? {};
  if (channelKind !== 'consignment') {
    return { item: `sales.${channel}`, name: `Sales, ${name}`, counts: 'sales' };
  }
  return {
    item: `consignment.${channel}`,
    name: `Sales, ${name}, before commission`,
    counts: 'consignment',
  };
}

/** What a sale uses of an advance is taken off its income: it was counted when it came in. */
function headOfAdvance(
  { book }: TaxView,
  { by }: IncomeFact,
): Pick<TaxAmount, 'item' | 'name' | 'counts'> {
  const [item, name] = book.sales.has(by)
    ? ['advances.used', 'Less deposits and certificates used']
    : ['advances.taken', 'Deposits and certificates taken'];
  return { item, name, counts: 'advances' };
}

function otherIncome(item: string): readonly [string, string] {
  return isFiringForOthers(item)
    ? ['firing', 'Firing for others']
    : ['other-income', 'Other income'];
}

function byAmount(a: TaxAmount, b: TaxAmount): number {
  const rank = ({ counts }: TaxAmount): number =>
    INCOME_AMOUNTS.findIndex((each) => each === counts);
  return rank(a) - rank(b) || (a.item < b.item ? -1 : 1);
}

/** Fees and commission that others kept of the period's sales: expenses, never taken off income. */
export function sellingAmounts(view: TaxView, period: Period): TaxAmount[] {
  const facts = factsIn(view, period);
  const kept = (
    counts: string,
    name: string,
    of: (fact: IncomeFact) => Money,
  ): readonly TaxAmount[] => {
    const own = facts.filter((fact) => of(fact) !== NO_MONEY);
    if (own.length === 0) return [];
    const behind = [...new Set(own.map(({ by }) => by))].sort();
    return [{ item: `expense.${counts}`, name, counts, amount: total(own.map(of)), behind }];
  };
  return [
    ...kept('card-fees', 'Card and shop fees', ({ fees, commission }) => less(fees, commission)),
    ...kept('gallery-commissions', 'Commission of galleries', ({ commission }) => commission),
  ];
}
