/** Single lines of income: what they hold, and what they come to together. */
import type { Day, Studio } from '../../book.ts';
import { ZERO, sum, type Decimal } from '../../number/decimal.ts';
import { NO_MONEY, less, total, type Money } from '../../number/money.ts';

/** Money of one line, or of many; net = gross − discounts − returns, margin = net − fees − cost. */
export interface IncomeMoney {
  /** Pieces or places sold, less those that came back. */
  readonly count: number;
  readonly gross: Money;
  readonly discounts: Money;
  readonly returns: Money;
  /** Fees and commission. */
  readonly fees: Money;
  /** The commission in the fees. */
  readonly commission: Money;
  readonly cost: Money;
  /** True where part of the cost is a guess. */
  readonly estimated: boolean;
  /** True where part of the cost is not known, and so not in it: from before the book starts. */
  readonly unknown: boolean;
  /** Minutes of work behind the ware whose minutes are known: its making, its tending, that on lost pieces. */
  readonly minutes: Decimal;
  /** What that ware alone leaves before own work is paid; classes, shipping and the like have no minutes. */
  readonly timedMargin: Money;
}

/**
 * What is sold: a product, a class, something else in words, shipping, or kiln room for others; money
 * taken in advance; or what a gallery owes for missing pieces.
 */
export type ItemKind =
  'product' | 'class' | 'other' | 'shipping' | 'outside' | 'advance' | 'missing';

/** One line of income or of its cost. */
export interface IncomeFact extends IncomeMoney {
  readonly day: Day;
  readonly kind: ItemKind;
  readonly item: string;
  readonly channel: string | undefined;
  readonly buyer: string | undefined;
  /** Id of the record behind it. */
  readonly by: string;
}

/** Whether income counts when it is paid, or when it is earned. */
export type Basis = NonNullable<Studio['basis']>;

/** Nothing earned, nothing spent. */
export const NOTHING_EARNED: IncomeMoney = {
  count: 0,
  gross: NO_MONEY,
  discounts: NO_MONEY,
  returns: NO_MONEY,
  fees: NO_MONEY,
  commission: NO_MONEY,
  cost: NO_MONEY,
  estimated: false,
  unknown: false,
  minutes: ZERO,
  timedMargin: NO_MONEY,
};

/** All facts together. */
export function incomeTotal(facts: readonly IncomeMoney[]): IncomeMoney {
  const all = (amount: (fact: IncomeMoney) => Money): Money => total(facts.map(amount));
  return {
    count: facts.reduce((count, fact) => count + fact.count, 0),
    gross: all((fact) => fact.gross),
    discounts: all((fact) => fact.discounts),
    returns: all((fact) => fact.returns),
    fees: all((fact) => fact.fees),
    commission: all((fact) => fact.commission),
    cost: all((fact) => fact.cost),
    estimated: facts.some((fact) => fact.estimated),
    unknown: facts.some((fact) => fact.unknown),
    minutes: sum(facts.map((fact) => fact.minutes)),
    timedMargin: all((fact) => fact.timedMargin),
  };
}

/** Gross − discounts − returns. */
export function netOf({ gross, discounts, returns }: IncomeMoney): Money {
  return less(gross, discounts, returns);
}

/** Net after fees, commission and cost. */
export function marginOf(money: IncomeMoney): Money {
  return less(netOf(money), money.fees, money.cost);
}
