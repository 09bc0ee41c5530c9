/** Exact decimals: sums and products as they are, and every division with one stated rounding. */
import { Decimal as Library } from 'decimal.js';

/**
 * An exact decimal number that never changes. It has no division: `divide` and `portion` round in one
 * known way. Operands are Decimals too, so that no float slips in. Text never shows an
 * exponent; round with `roundTo` before `toFixed`, which would keep the minus of a −0.001 rounded to
 * zero. `toNumber` is for widths, drawings, and what asks
 * whether a figure is many times another.
 */
export interface Decimal {
  plus(other: Decimal): Decimal;
  minus(other: Decimal): Decimal;
  times(other: Decimal): Decimal;
  abs(): Decimal;
  neg(): Decimal;
  cmp(other: Decimal): number;
  eq(other: Decimal): boolean;
  lt(other: Decimal): boolean;
  lte(other: Decimal): boolean;
  gt(other: Decimal): boolean;
  gte(other: Decimal): boolean;
  isZero(): boolean;
  /** True below zero (and for a negative zero): `lt(ZERO)` asks strictly. */
  isNegative(): boolean;
  /** True for zero too: `gt(ZERO)` asks strictly. */
  isPositive(): boolean;
  isInteger(): boolean;
  decimalPlaces(): number;
  toFixed(places?: number): string;
  toString(): string;
  toNumber(): number;
}

const PLAIN_TEXT = { defaults: true, toExpNeg: -9e15, toExpPos: 9e15 } as const;

/** 40 digits hold sums in the billions beside the 24 decimals that a division leaves. */
const Ledger = Library.clone({ ...PLAIN_TEXT, precision: 40, rounding: Library.ROUND_HALF_UP });

/** Holds a product of two such numbers whole, and cuts off: only the last step rounds. */
const Wide = Library.clone({ ...PLAIN_TEXT, precision: 90, rounding: Library.ROUND_DOWN });

const DIVISION_PLACES = 24;
const GUARD = new Wide(`1e${DIVISION_PLACES + 1}`);
const UNGUARD = new Wide(`1e-${DIVISION_PLACES + 1}`);

/** The library's view of a Decimal. */
function inside(value: Decimal): Library {
  return value as unknown as Library;
}

/** A finished number of the library as a Decimal; zero never keeps a minus. */
function outside(value: Library): Decimal {
  // Numbers never change, so one of the right precision needs no copy.
  const isFinished = value.constructor === Ledger && !value.isZero();
  const finished = isFinished ? value : new Ledger(value.isZero() ? 0 : value);
  return finished as unknown as Decimal;
}

function rounded(value: Library, places: number): Decimal {
  return outside(value.toDecimalPlaces(places, Library.ROUND_HALF_UP));
}

export const ZERO: Decimal = outside(new Ledger(0));
export const ONE: Decimal = outside(new Ledger(1));

const PLAIN_NUMBER = /^[+-]?(?:\d+(?:\.\d+)?|\.\d+)$/;
const MEMO_SIZE = 65_536;
const MEMO_LONGEST_TEXT = 40;
const memo = new Map<string | number, Decimal>();

function readDecimal(value: string | number): Decimal {
  const plain = typeof value === 'number' ? Number.isSafeInteger(value) : PLAIN_NUMBER.test(value);
  if (!plain) throw new RangeError(`not a plain decimal number: ${value}`);
  return outside(new Ledger(value));
}

function remember(value: string | number, made: Decimal): Decimal {
  if (typeof value === 'string' && value.length > MEMO_LONGEST_TEXT) return made;
  if (memo.size >= MEMO_SIZE) memo.clear();
  memo.set(value, made);
  return made;
}

/**
 * The decimal that a text writes out (`12`, `-0.50`), every digit kept, or a whole number (a count).
 * Throws a RangeError for anything else, a float or an exponent among them: texts from a file are
 * checked before they come here.
 */
export function decimal(value: string | number): Decimal {
  return memo.get(value) ?? remember(value, readDecimal(value));
}

/** Whether a value is one of these decimals. */
export function isDecimal(value: unknown): value is Decimal {
  return value instanceof Ledger;
}

/** numerator ÷ divisor with one guard digit beyond the 24 decimals, then rounded once. */
function quotient(numerator: Library, divisor: Decimal): Decimal {
  if (divisor.isZero()) throw new RangeError('division by zero');
  const cut = numerator.times(GUARD).divToInt(inside(divisor));
  return rounded(cut.times(UNGUARD), DIVISION_PLACES);
}

/** a ÷ b, rounded half up to 24 decimals. Throws a RangeError when b is zero: ask before. */
export function divide(a: Decimal, b: Decimal): Decimal {
  return quotient(new Wide(inside(a)), b);
}

/**
 * total × part ÷ whole, rounded once, half up to 24 decimals. The whole of the total is returned as
 * it is, so that taking everything leaves nothing. Throws a RangeError when the whole is zero.
 */
export function portion(total: Decimal, part: Decimal, whole: Decimal): Decimal {
  if (!whole.isZero() && (total.isZero() || part.eq(whole))) return total;
  return quotient(new Wide(inside(total)).times(inside(part)), whole);
}

/** top ÷ bottom that is not divided yet, so that a product of several is rounded only once. */
export interface Quotient {
  readonly top: Decimal;
  readonly bottom: Decimal;
}

/** The product of two quotients. */
export function timesQuotient(one: Quotient, other: Quotient): Quotient {
  return { top: one.top.times(other.top), bottom: one.bottom.times(other.bottom) };
}

/** The sum, exact within 40 digits; zero for none. */
export function sum(values: Iterable<Decimal>): Decimal {
  let total = ZERO;
  for (const value of values) total = total.plus(value);
  return total;
}

/** Rounded to so many decimals, a half away from zero: 2.5 → 3, −2.5 → −3. Never a negative zero. */
export function roundTo(value: Decimal, places: number): Decimal {
  return rounded(inside(value), places);
}

/**
 * The numbers as integers of one size, so that shares of them can be taken exactly: 1.5 and 0.25 are
 * 150 and 25.
 */
export function integersOf(values: readonly Decimal[]): bigint[] {
  const places = values.reduce((most, value) => Math.max(most, value.decimalPlaces()), 0);
  return values.map((value) => integerOf(value, places));
}

/** So many units of the last of some decimals as text, the other way round: 1234 of 2 are `12.34`. */
export function textOf(units: bigint, places: number): string {
  if (places === 0) return String(units);
  const size = String(units < 0n ? -units : units).padStart(places + 1, '0');
  const point = size.length - places;
  return `${units < 0n ? '-' : ''}${size.slice(0, point)}.${size.slice(point)}`;
}

/** value × 10 to the places, rounded half up to a whole number. */
export function integerOf(value: Decimal, places: number): bigint {
  return BigInt(value.toFixed(places).replace('.', ''));
}

/**
 * The square root, rounded half up to 24 decimals. Throws a RangeError for a negative value.
 */
export function root(value: Decimal): Decimal {
  if (value.lt(ZERO)) throw new RangeError('square root of a negative number');
  return rounded(new Wide(inside(value)).sqrt(), DIVISION_PLACES);
}
