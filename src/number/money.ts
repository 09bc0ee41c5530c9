/** Money in whole minor units of its currency: cents of a dollar, yen, fils of a dinar. */
import { ONE, decimal, integerOf, integersOf, textOf, type Decimal } from './decimal.ts';

declare const minorUnits: unique symbol;

/**
 * An amount of money: so many minor units of the studio's currency. The compiler keeps it apart from
 * every other number; compare with `<`, `>` and `===`, add with `add`, `less` and `total`. What becomes
 * of a division is decided here: `shareOut` keeps the whole, `portionOf` rounds once.
 */
export type Money = bigint & { readonly [minorUnits]: 'money' };

export const NO_MONEY = 0n as Money;

/** The sum. */
export function add(one: Money, other: Money): Money {
  return (one + other) as Money;
}

/** The first amount less all others. */
export function less(whole: Money, part: Money, ...more: readonly Money[]): Money {
  let rest: bigint = whole - part;
  for (const other of more) rest -= other;
  return rest as Money;
}

/** The sum of all; nothing for none. */
export function total(amounts: Iterable<Money>): Money {
  let all = 0n;
  for (const amount of amounts) all += amount;
  return all as Money;
}

/** Adds an amount to what is there under a key. */
export function addUnder<K>(sums: Map<K, Money>, key: K, amount: Money): void {
  sums.set(key, add(sums.get(key) ?? NO_MONEY, amount));
}

/** The amount with the other sign. */
export function opposite(amount: Money): Money {
  return (0n - amount) as Money;
}

/** The lesser of two. */
export function lesser(one: Money, other: Money): Money {
  return one < other ? one : other;
}

/** So many times the amount: a count of pieces × the price of one. */
export function times(amount: Money, count: number): Money {
  return (amount * BigInt(count)) as Money;
}

/** A decimal of money as whole minor units, a half away from zero. */
export function roundedMoney(amount: Decimal, digits: number): Money {
  return integerOf(amount, digits) as Money;
}

/** The amount as a decimal of the currency's unit: 1234 cents are 12.34. */
export function decimalOf(amount: Money, digits: number): Decimal {
  return decimal(moneyText(amount, digits));
}

/** The amount with all decimals of its currency: `12.30`, `-0.05`, `1200` yen. */
export function moneyText(amount: Money, digits: number): string {
  return textOf(amount, digits);
}

/** An amount as a record has it: with all decimals of its currency, and with more where more were written. */
export function writtenMoney(amount: Decimal, digits: number): string {
  return amount.toFixed(Math.max(digits, amount.decimalPlaces()));
}

/** Rounded once to a whole number, a half away from zero: 5 ÷ 2 is 3, −5 ÷ 2 is −3. */
function wholeQuotient(numerator: bigint, divisor: bigint): bigint {
  if (divisor < 0n) return wholeQuotient(-numerator, -divisor);
  const half = divisor / 2n;
  return (numerator < 0n ? numerator - half : numerator + half) / divisor;
}

/**
 * amount × part ÷ whole, rounded once to whole minor units, a half away from zero. Throws a RangeError
 * when the whole is zero, unless the amount is: ask before.
 */
export function portionOf(amount: Money, part: bigint, whole: bigint): Money {
  if (amount === NO_MONEY || part === whole) return amount;
  return wholeQuotient(amount * part, whole) as Money;
}

/** The same by decimals: so much of a quantity. */
export function portionBy(amount: Money, part: Decimal, whole: Decimal): Money {
  if (amount === NO_MONEY) return amount;
  const [top = 0n, bottom = 1n] = integersOf([part, whole]);
  return portionOf(amount, top, bottom);
}

/** A percentage is one object that amounts are multiplied by again and again. */
const factors = new WeakMap<Decimal, readonly bigint[]>();

/** amount × a factor (a percentage, hours), rounded once to whole minor units. */
export function fractionOf(amount: Money, factor: Decimal): Money {
  const ratio = factors.get(factor) ?? integersOf([factor, ONE]);
  factors.set(factor, ratio);
  const [top = 0n, bottom = 1n] = ratio;
  return portionOf(amount, top, bottom);
}

/**
 * An amount in whole minor units by weights, which add up to it: every share is cut down to a unit,
 * and the units that are then missing go to the largest remainders, compared exactly, ties to the
 * first (the method of largest remainders, A. Hamilton 1792). A weight of zero gets nothing; where all
 * are zero each counts the same. A negative amount is shared like a positive one. No weights, no shares.
 */
export function shareOut(amount: Money, weights: readonly bigint[]): Money[] {
  if (amount < 0n) return shareOut(opposite(amount), weights).map(opposite);
  if (amount === NO_MONEY || weights.length < 2) return weights.map(() => amount);
  const whole = wholeOf(weights);
  if (whole === 0n) return shareOutEqually(amount, weights.length);
  if (whole < 0n)
    return shareOut(
      amount,
      weights.map((weight) => -weight),
    );
  const shares = weights.map((weight) => cutDown(amount * weight, whole));
  const missing = Number(amount - wholeOf(shares.map(({ units }) => units)));
  for (const share of byRest(shares).slice(0, missing)) share.units += 1n;
  return shares.map(({ units }) => units as Money);
}

interface Share {
  units: bigint;
  readonly rest: bigint;
}

function cutDown(numerator: bigint, whole: bigint): Share {
  const units = numerator / whole;
  const rest = numerator - units * whole;
  return rest < 0n ? { units: units - 1n, rest: rest + whole } : { units, rest };
}

function byRest(shares: readonly Share[]): Share[] {
  return shares.toSorted((a, b) => (a.rest === b.rest ? 0 : a.rest > b.rest ? -1 : 1));
}

function wholeOf(numbers: readonly bigint[]): bigint {
  return numbers.reduce((all, each) => all + each, 0n);
}

/** The same in equal parts, the larger ones first. */
export function shareOutEqually(amount: Money, count: number): Money[] {
  return shareOut(
    amount,
    Array.from({ length: count }, () => 1n),
  );
}

/**
 * Currencies of two minor digits. ISO 4217 list one (currency and fund codes) with amendments up to
 * 179 of May 2025; metals, units of account without minor unit and test codes are left out. BGN is
 * kept: it was in use through 2025, and a studio's older years are still read.
 */
const TWO_DIGITS =
  'AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD ' +
  'CDF CHE CHF CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP ' +
  'GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD ' +
  'MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP ' +
  'PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT ' +
  'TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XAD XCD XCG YER ZAR ZMW ZWG';

const NO_DIGITS = 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF';
const THREE_DIGITS = 'BHD IQD JOD KWD LYD OMR TND';
const FOUR_DIGITS = 'CLF UYW';

function digitsOf(codes: string, digits: number): [string, number][] {
  return codes.split(' ').map((code) => [code, digits]);
}

const MINOR_DIGITS: ReadonlyMap<string, number> = new Map([
  ...digitsOf(NO_DIGITS, 0),
  ...digitsOf(TWO_DIGITS, 2),
  ...digitsOf(THREE_DIGITS, 3),
  ...digitsOf(FOUR_DIGITS, 4),
]);

/** The codes of all currencies that the table knows, in the order of the alphabet. */
export const CURRENCIES: readonly string[] = [...MINOR_DIGITS.keys()].sort();

/**
 * The decimals of a currency's amounts by ISO 4217 (USD 2, JPY 0, KWD 3). Undefined for a code that
 * is no current currency with a minor unit; codes are three capital letters.
 */
export function minorDigits(currency: string): number | undefined {
  return MINOR_DIGITS.get(currency);
}
