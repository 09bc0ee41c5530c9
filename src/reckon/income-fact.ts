/** Single lines of income: what they hold, and what they come to together. */
import type { Day, Studio } from '../book.ts';
import { ZERO, sum, type Decimal } from '../number/decimal.ts';

/** Money of one line, or of many; net = gross − discounts − returns, margin = net − fees − cost. */
export interface IncomeMoney {
  /** Pieces or places sold, less those that came back. */
  readonly count: number;
  readonly gross: Decimal;
  readonly discounts: Decimal;
  readonly returns: Decimal;
  readonly fees: Decimal;
  readonly cost: Decimal;
  /** True where part of the cost is a guess. */
  readonly estimated: boolean;
  /** Minutes of work on the ware whose minutes are known. */
  readonly minutes: Decimal;
  /** Margin of that ware alone; classes, shipping and the like have no minutes. */
  readonly timedMargin: Decimal;
}

/**
 * What is sold: a product, a class, something else in words, shipping, or kiln room for others; or
 * money taken in advance.
 */
export type ItemKind = 'product' | 'class' | 'other' | 'shipping' | 'outside' | 'advance';

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

/** From and to, both within. */
export interface Period {
  readonly from: Day;
  readonly to: Day;
}

/** Nothing earned, nothing spent. */
export const NO_MONEY: IncomeMoney = {
  count: 0,
  gross: ZERO,
  discounts: ZERO,
  returns: ZERO,
  fees: ZERO,
  cost: ZERO,
  estimated: false,
  minutes: ZERO,
  timedMargin: ZERO,
};

/** All facts together. */
export function incomeTotal(facts: readonly IncomeMoney[]): IncomeMoney {
  const all = (amount: (fact: IncomeMoney) => Decimal): Decimal => sum(facts.map(amount));
  return {
    count: facts.reduce((count, fact) => count + fact.count, 0),
    gross: all((fact) => fact.gross),
    discounts: all((fact) => fact.discounts),
    returns: all((fact) => fact.returns),
    fees: all((fact) => fact.fees),
    cost: all((fact) => fact.cost),
    estimated: facts.some((fact) => fact.estimated),
    minutes: all((fact) => fact.minutes),
    timedMargin: all((fact) => fact.timedMargin),
  };
}

/** Gross − discounts − returns. */
export function netOf({ gross, discounts, returns }: IncomeMoney): Decimal {
  return gross.minus(discounts).minus(returns);
}

/** Net after fees, commission and cost. */
export function marginOf(money: IncomeMoney): Decimal {
  return netOf(money).minus(money.fees).minus(money.cost);
}

/** Whether a day is in the period, its two ends with it. */
export function isWithin(day: Day, { from, to }: Period): boolean {
  return day >= from && day <= to;
}
