/** Money as tests write and read it, with the decimals of its currency: two, unless others are given. */
import { decimal } from '../../src/number/decimal.ts';
import { inBaseUnits, measureIn, type Measure } from '../../src/number/measure.ts';
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

/** So many grams, millilitres or pieces. */
export function measure(quantity: string | number): Measure {
  return measureIn(decimal(quantity), 'g');
}

/** How many grams, millilitres or pieces that are. */
export function measured(quantity: Measure): string {
  return inBaseUnits(quantity).toString();
}
