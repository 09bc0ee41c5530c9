/** Why the profit on the cash basis is not that on the accrual basis: item by item, to the last cent. */
import type { Book, Spent } from '../../book.ts';
import { NO_MONEY, addUnder, less, opposite, total, type Money } from '../../number/money.ts';
import { booked } from '../booked.ts';
import { broughtBy, type Brought } from '../brought.ts';
import type { Basis, IncomeFact, ItemKind } from '../sales/income-fact.ts';
import { spentIn } from './tax-expenses.ts';
import type { TaxAccount } from './tax-profit.ts';
import { broughtIn, factsIn, type TaxView } from './tax-view.ts';

/** Ways in which the two bases differ; each amount is accrual less cash. */
export const BASIS_ITEMS = [
  'sales-unpaid',
  'sales-paid',
  'missing-pieces',
  'classes',
  'advances-taken',
  'advances-used',
  'bills-unpaid',
  'bills-paid',
  'goods',
] as const;

export type BasisItem = (typeof BASIS_ITEMS)[number];

/** One way with its records. */
export interface BasisDifference {
  readonly item: BasisItem;
  readonly amount: Money;
  /** What each record brings to it; of goods that is as their costs are. */
  readonly brought?: Brought;
}

/**
 * What makes the accrual profit of a period out of its cash profit:
 * - `sales-unpaid`: dated in it and not paid in it; `sales-paid`: paid in it and dated outside
 * - `missing-pieces`: what galleries owe for pieces missing in it, less what was paid for such in it
 * - `classes`: taught in it, less what was paid for classes in it
 * - `advances-taken`: deposits and certificates taken less those given back; `advances-used`: those
 *   that sales paid in it used up
 * - `bills-unpaid`: expenses dated in it and not paid in it; `bills-paid`: paid in it, dated outside
 * - `goods`: what the cash basis deducts for goods, less what the accrual basis does
 */
export function basisDifferences(
  view: TaxView,
  accounts: Readonly<Record<Basis, TaxAccount>>,
): BasisDifference[] {
  const { period } = accounts.cash;
  const cash: TaxView = { ...view, basis: 'cash' };
  const accrual: TaxView = { ...view, basis: 'accrual' };
  const changes = [
    ...incomeChanges(view.book, factsIn(cash, period), factsIn(accrual, period)),
    ...billChanges(view.book, spentIn(cash, period), spentIn(accrual, period)),
  ];
  return BASIS_ITEMS.map((item) => {
    if (item === 'goods') return goodsDifference(accounts);
    const own = changes.filter((change) => change.item === item && change.amount !== NO_MONEY);
    return {
      item,
      amount: total(own.map(({ amount }) => amount)),
      brought: broughtBy(own.map(({ by, amount }) => [by, amount])),
    };
  });
}

function goodsDifference({ cash, accrual }: Readonly<Record<Basis, TaxAccount>>): BasisDifference {
  return { item: 'goods', amount: less(cash.goodsCost.cost, accrual.goodsCost.cost) };
}

interface BasisChange {
  readonly item: BasisItem;
  readonly by: string;
  readonly amount: Money;
}

/** By record: what only one of the bases counts, and what both count with another amount. */
function incomeChanges(
  book: Book,
  cash: readonly IncomeFact[],
  accrual: readonly IncomeFact[],
): BasisChange[] {
  const both = (isMeant: (kind: ItemKind) => boolean): [IncomeFact[], IncomeFact[]] => [
    cash.filter(({ kind }) => isMeant(kind)),
    accrual.filter(({ kind }) => isMeant(kind)),
  ];
  return [
    ...changesOf('classes', ...both((kind) => kind === 'class')),
    ...changesOf('missing-pieces', ...both((kind) => kind === 'missing')),
    ...advanceChanges(book, ...both((kind) => kind === 'advance')),
    ...saleChanges(...both((kind) => !['class', 'missing', 'advance'].includes(kind))),
  ];
}

/** Advances count on the cash basis only, but for their fees. */
function advanceChanges(
  { sales }: Book,
  cash: readonly IncomeFact[],
  accrual: readonly IncomeFact[],
): BasisChange[] {
  return changesOf('advances-taken', cash, accrual).map((change) =>
    sales.has(change.by) ? { ...change, item: 'advances-used' } : change,
  );
}

function saleChanges(cash: readonly IncomeFact[], accrual: readonly IncomeFact[]): BasisChange[] {
  const dated = amountsBy(accrual);
  return changesOf('sales-paid', cash, accrual).map((change) =>
    dated.has(change.by) ? { ...change, item: 'sales-unpaid' } : change,
  );
}

function changesOf(
  item: BasisItem,
  cash: readonly IncomeFact[],
  accrual: readonly IncomeFact[],
): BasisChange[] {
  const paid = amountsBy(cash);
  const dated = amountsBy(accrual);
  return [...new Set([...dated.keys(), ...paid.keys()])].map((by) => ({
    item,
    by,
    amount: less(dated.get(by) ?? NO_MONEY, paid.get(by) ?? NO_MONEY),
  }));
}

function amountsBy(facts: readonly IncomeFact[]): Map<string, Money> {
  const amounts = new Map<string, Money>();
  for (const fact of facts) addUnder(amounts, fact.by, broughtIn(fact));
  return amounts;
}

function billChanges(book: Book, cash: readonly Spent[], accrual: readonly Spent[]): BasisChange[] {
  const [paid, dated] = [cash, accrual].map((bills) => new Set(bills.map(({ id }) => id)));
  const change = (
    item: BasisItem,
    { id, amount }: Spent,
    sign: (of: Money) => Money,
  ): BasisChange => ({
    item,
    by: id,
    amount: sign(booked(book, amount)),
  });
  return [
    ...accrual
      .filter(({ id }) => !paid?.has(id))
      .map((bill) => change('bills-unpaid', bill, opposite)),
    ...cash
      .filter(({ id }) => !dated?.has(id))
      .map((bill) => change('bills-paid', bill, (amount) => amount)),
  ];
}
