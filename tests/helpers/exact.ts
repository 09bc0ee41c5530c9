/** An independent reference for exact numbers: fractions of native BigInt, rounded by hand. */
import fc from 'fast-check';

/** numerator ÷ denominator; the denominator is above zero. */
export interface Fraction {
  readonly top: bigint;
  readonly bottom: bigint;
}

/** The fraction that a plain decimal text stands for. */
export function fraction(text: string): Fraction {
  const [whole = '', decimals = ''] = text.split('.');
  return { top: BigInt(whole + decimals), bottom: 10n ** BigInt(decimals.length) };
}

export function over(a: Fraction, b: Fraction): Fraction {
  const sign = b.top < 0n ? -1n : 1n;
  return { top: a.top * b.bottom * sign, bottom: a.bottom * b.top * sign };
}

export function by(a: Fraction, b: Fraction): Fraction {
  return { top: a.top * b.top, bottom: a.bottom * b.bottom };
}

/** The fraction's text with so many decimals, a half rounded away from zero; zero has no minus. */
export function halfUp({ top, bottom }: Fraction, places: number): string {
  const size = top < 0n ? -top : top;
  const units = (2n * size * 10n ** BigInt(places) + bottom) / (2n * bottom);
  return withPoint(top < 0n ? -units : units, places);
}

/** So many units of the last decimal, as text. */
export function withPoint(units: bigint, places: number): string {
  const digits = String(units < 0n ? -units : units).padStart(places + 1, '0');
  const split = digits.length - places;
  const text = places === 0 ? digits : `${digits.slice(0, split)}.${digits.slice(split)}`;
  return units < 0n ? `-${text}` : text;
}

/** Texts of decimals with up to so many digits, of them up to so many behind the point. */
export function decimalTexts(digits: number, places: number): fc.Arbitrary<string> {
  const most = 10n ** BigInt(digits) - 1n;
  return fc
    .tuple(fc.bigInt({ min: -most, max: most }), fc.nat({ max: places }))
    .map(([units, decimals]) => withPoint(units, decimals));
}
