/** Money's smallest units: how many decimals an amount of each currency may have. */

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

/** How many decimals a number's text has as written: `1.10` has 2, `12` none. */
export function decimalsOf(text: string): number {
  const point = text.indexOf('.');
  return point < 0 ? 0 : text.length - point - 1;
}
