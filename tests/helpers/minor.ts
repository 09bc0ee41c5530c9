/** Money as tests write and read it, with the decimals of its currency: two, unless others are given. */
import { moneyText, type Money } from '../../src/number/money.ts';

/** The amount that a text writes out with all its decimals: `money('12.30')` are 1230 cents. */
export function money(text: string): Money {
  return BigInt(text.replace('.', '')) as Money;
}

/** An amount as text; what isn't there stays so. */
export function told(amount: Money, digits?: number): string;
export function told(amount: Money | undefined, digits?: number): string | undefined;
export function told(amount: Money | undefined, digits = 2): string | undefined {
  return amount === undefined ? undefined : moneyText(amount, digits);
}
