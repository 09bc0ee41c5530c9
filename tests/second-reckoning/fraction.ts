/** Exact fractions of native BigInt, and the one rounding of money: half up of the magnitude. */

/** top ÷ bottom in lowest terms; the bottom is above zero. */
export interface Fraction {
  readonly top: bigint;
  readonly bottom: bigint;
}

/** What writes itself as a plain decimal: the decimals of a book do. */
export interface Plain {
  toFixed(): string;
}

export const NOTHING: Fraction = { top: 0n, bottom: 1n };

/** A fraction in lowest terms. */
export function fraction(top: bigint, bottom = 1n): Fraction {
  if (bottom === 0n) throw new Error('a fraction over zero');
  const sign = bottom < 0n ? -1n : 1n;
  const common = commonFactor(size(top), size(bottom)) * sign;
  return { top: top / common, bottom: bottom / common };
}

function commonFactor(a: bigint, b: bigint): bigint {
  return b === 0n ? a : commonFactor(b, a % b);
}

/** The magnitude of a whole number. */
export function size(value: bigint): bigint {
  return value < 0n ? -value : value;
}

/** The fraction that a decimal or its text stands for; zero where there is none. */
export function exact(value: Plain | string | undefined): Fraction {
  if (value === undefined) return NOTHING;
  const text = typeof value === 'string' ? value : value.toFixed();
  const [whole = '', decimals = ''] = text.split('.');
  return fraction(BigInt(whole + decimals), 10n ** BigInt(decimals.length));
}

/** A whole count as a fraction. */
export function count(value: number): Fraction {
  return fraction(BigInt(value));
}

export function plus(a: Fraction, b: Fraction): Fraction {
  return fraction(a.top * b.bottom + b.top * a.bottom, a.bottom * b.bottom);
}

export function minus(a: Fraction, b: Fraction): Fraction {
  return plus(a, { top: -b.top, bottom: b.bottom });
}

export function times(a: Fraction, b: Fraction): Fraction {
  return fraction(a.top * b.top, a.bottom * b.bottom);
}

export function over(a: Fraction, b: Fraction): Fraction {
  return fraction(a.top * b.bottom, a.bottom * b.top);
}

export function sumOf(all: readonly Fraction[]): Fraction {
  return all.reduce(plus, NOTHING);
}

/** Below zero where the first is less, above where it is more. */
export function compare(a: Fraction, b: Fraction): number {
  const difference = a.top * b.bottom - b.top * a.bottom;
  return difference < 0n ? -1 : Number(difference > 0n);
}

export function least(a: Fraction, b: Fraction): Fraction {
  return compare(a, b) <= 0 ? a : b;
}

/** R(x): half up of the magnitude, then the sign. */
export function R(value: Fraction): bigint {
  const rounded = (2n * size(value.top) + value.bottom) / (2n * value.bottom);
  return value.top < 0n ? -rounded : rounded;
}

/** Half up to so many decimals. */
export function toPlaces(value: Fraction, places: number): Fraction {
  const scale = 10n ** BigInt(places);
  return fraction(R(times(value, fraction(scale))), scale);
}

/** R(amount × part ÷ whole). */
export function shareOf(amount: bigint, part: Fraction, whole: Fraction): bigint {
  return R(over(times(fraction(amount), part), whole));
}
