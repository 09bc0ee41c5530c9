/** Exact decimals: sums and products as they are, and every division with one stated rounding. */
import { Decimal as Library } from 'decimal.js';

/**
 * An exact decimal number that never changes. It has no division: `divide`, `portion` and `portions`
 * round in one known way. Operands are Decimals too, so that no float slips in. Text never shows an
 * exponent; round with `roundTo` before `toFixed`, which would keep the minus of a −0.001 rounded to
 * zero. `toNumber` is for widths and drawings only.
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

function read(value: string | number): Decimal {
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
  return memo.get(value) ?? remember(value, read(value));
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

/**
 * A total shared out by weight; the shares add up to the total exactly. Each share is the step
 * between two running portions, so it is off by less than one unit of the 24th decimal. Weights
 * that add up to zero share equally; no weights, no shares.
 */
export function portions(total: Decimal, weights: readonly Decimal[]): Decimal[] {
  if (total.isZero()) return weights.map(() => total);
  const none = sum(weights).isZero();
  const shared = none ? weights.map(() => ONE) : weights;
  const whole = sum(shared);
  let weight = ZERO;
  let given = ZERO;
  return shared.map((each) => {
    weight = weight.plus(each);
    const due = portion(total, weight, whole);
    const share = due.minus(given);
    given = due;
    return share;
  });
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
 * Values as they are shown with so many decimals: they add up exactly to the rounded sum, and each
 * is less than one unit of the last decimal away from its own value. Every value is cut down to the
 * unit below, and the units that are then missing go to the largest remainders, ties to the first
 * (the method of largest remainders, A. Hamilton 1792). A negative sum mirrors a positive one.
 */
export function shownParts(values: readonly Decimal[], places: number): Decimal[] {
  const total = roundTo(sum(values), places);
  if (total.lt(ZERO)) return shownParts(values.map(opposite), places).map(opposite);
  const parts = values.map((value, index) => cutDown(value, { places, index }));
  const missing = total.minus(sum(parts.map((part) => part.cut)));
  const units = missing.times(decimal(`1${'0'.repeat(places)}`)).toNumber();
  const byRest = parts.toSorted((a, b) => b.rest.cmp(a.rest));
  const raised = new Set(byRest.slice(0, units).map((part) => part.index));
  const unit = unitOf(places);
  return parts.map(({ cut, index }) => (raised.has(index) ? cut.plus(unit) : cut));
}

function opposite(value: Decimal): Decimal {
  return value.isZero() ? value : value.neg();
}

function unitOf(places: number): Decimal {
  return places === 0 ? ONE : decimal(`0.${'0'.repeat(places - 1)}1`);
}

interface CutPart {
  readonly index: number;
  readonly cut: Decimal;
  readonly rest: Decimal;
}

function cutDown(value: Decimal, at: { places: number; index: number }): CutPart {
  const cut = outside(inside(value).toDecimalPlaces(at.places, Library.ROUND_FLOOR));
  return { index: at.index, cut, rest: value.minus(cut) };
}

/**
 * The square root, rounded half up to 24 decimals. Throws a RangeError for a negative value.
 */
export function root(value: Decimal): Decimal {
  if (value.lt(ZERO)) throw new RangeError('square root of a negative number');
  return rounded(new Wide(inside(value)).sqrt(), DIVISION_PLACES);
}
