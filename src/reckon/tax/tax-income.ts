/** Income for tax: by channel and by what was sold, with discounts, returns, fees and commission apart. */
import { grouped } from '../../grouping.ts';
import { NO_MONEY, less, opposite, total, type Money } from '../../number/money.ts';
import type { IncomeFact } from '../sales/income-fact.ts';
import type { Span } from '../../number/date.ts';
import { isFiringForOthers, isOutsideTrade } from './taxed.ts';
import { INCOME_AMOUNTS } from './tax-sheet.ts';
import { broughtBy } from '../brought.ts';
import { factsIn, gathered, type TaxAmount, type TaxView } from './tax-view.ts';

/** Which amount it is, and what it counts as. */
type TaxKind = Pick<TaxAmount, 'item' | 'counts'>;

/**
 * Income of a period on the view's basis, sales tax never among it. Gross, less discounts and returns,
 * which are negative; what is kept by shops and galleries is no part of it (`sellingAmounts`).
 * What is paid for lost stock is gross income where the loss is in the cost of goods sold, as it is here
 * (IRS Publication 547, loss of inventory; HMRC BIM40115, from memory). It is no sale, so it goes with
 * other income: common practice.
 */
export function incomeAmounts(view: TaxView, period: Span): TaxAmount[] {
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
  const sum = (of: (fact: IncomeFact) => Money): AmountOfRecords => amountOfFacts(facts, of);
  // What is paid back of an advance was no sale, so it is no return.
  if (first.kind === 'advance')
    return [
      { ...advanceAmount(view, first), ...sum(({ gross, returns }) => less(gross, returns)) },
    ];
  return [
    { ...amountOfSales(view, first), ...sum(({ gross }) => gross) },
    { ...kindItself('discounts'), ...sum(({ discounts }) => opposite(discounts)) },
    { ...kindItself('returns'), ...sum(({ returns }) => opposite(returns)) },
  ];
}

type AmountOfRecords = Pick<TaxAmount, 'amount' | 'behind' | 'brought'>;

function amountOfFacts(
  facts: readonly IncomeFact[],
  of: (fact: IncomeFact) => Money,
): AmountOfRecords {
  const own = facts.filter((fact) => of(fact) !== NO_MONEY);
  const brought = broughtBy(own.map((fact) => [fact.by, of(fact)]));
  return { amount: total(own.map(of)), behind: [...brought.keys()].sort(), brought };
}

function kindItself(item: string): TaxKind {
  return { item, counts: item };
}

function amountOfSales({ book }: TaxView, { kind, item, channel = '' }: IncomeFact): TaxKind {
  if (kind === 'missing') return { item: 'missing-pieces', counts: 'other-income' };
  if (kind === 'class') return kindItself('classes');
  if (kind === 'shipping') return kindItself(kind);
  if (kind === 'other') return kindInWords(item);
  const isGallery = book.channels.get(channel)?.kind === 'consignment';
  const counts = isGallery ? 'consignment' : 'sales';
  return { item: `${counts}.${channel}`, counts };
}

/** Receipts in words are the trade's own, unless the words say otherwise. */
function kindInWords(words: string): TaxKind {
  if (isFiringForOthers(words)) return kindItself('firing');
  if (isOutsideTrade(words)) return { item: 'outside-trade', counts: 'other-income' };
  return { item: 'other-income', counts: 'work' };
}

/** What a sale uses of an advance is taken off its income: it was counted when it came in. */
function advanceAmount({ book }: TaxView, { by }: IncomeFact): TaxKind {
  return { item: book.sales.has(by) ? 'advances.used' : 'advances.taken', counts: 'advances' };
}

function byAmount(a: TaxAmount, b: TaxAmount): number {
  const rank = ({ counts }: TaxAmount): number =>
    INCOME_AMOUNTS.findIndex((each) => each === counts);
  return rank(a) - rank(b) || (a.item < b.item ? -1 : 1);
}

/** Fees and commission that others kept of the period's sales: expenses, never taken off income. */
export function sellingAmounts(view: TaxView, period: Span): TaxAmount[] {
  const facts = factsIn(view, period);
  const kept = (counts: string, of: (fact: IncomeFact) => Money): readonly TaxAmount[] => {
    const kept = amountOfFacts(facts, of);
    return kept.behind.length === 0 ? [] : [{ item: `expense.${counts}`, counts, ...kept }];
  };
  return [
    ...kept('card-fees', ({ fees, commission }) => less(fees, commission)),
    ...kept('gallery-commissions', ({ commission }) => commission),
  ];
}
