/** Figures that add up, whatever they are: counts, quantities, money. */
import { isDecimal, type Decimal } from './decimal.ts';
import { add, type Money } from './money.ts';

export type Summable = number | Decimal | Money;

export function isSummable(value: unknown): value is Summable {
  return typeof value === 'number' || typeof value === 'bigint' || isDecimal(value);
}

export function isNothing(value: Summable): boolean {
  return isDecimal(value) ? value.isZero() : Number(value) === 0;
}

/** The sum of two of one kind. */
export function summed(one: Summable, other: Summable): Summable {
  if (typeof one === 'bigint' && typeof other === 'bigint') return add(one, other);
  if (isDecimal(one) && isDecimal(other)) return one.plus(other);
  return Number(one) + Number(other);
}
