/** Numbers in other notations than plain digits, and what they would be in plain digits. */

const PLAIN = /^(?!-0(?:\.0*)?$)-?(?:0|[1-9]\d{0,11})(?:\.\d{1,20})?$/;
const WHOLE = /^-?(?:0|[1-9]\d{0,11})(?:\.0*)?$/;
const OTHER_BASE = /^[+-]?0[xob][\da-f]+$/i;
const EXPONENT = /^[+-]?(?:\d[\d_]*\.?\d*|\.\d+)e[+-]?\d+$/i;
const LOOSE = /^[+-]?(?:\d[\d_]*(?:\.[\d_]*)?|\.\d[\d_]*)$/;

/** Whether a text is digits with a point, at most 12 before it and 20 after it. */
export function isPlain(text: string): boolean {
  return PLAIN.test(text);
}

/** Whether some reader of YAML might take the text for a number: `1e3`, `0x1F`, `+5`, `1_000`, `.inf`. */
export function isNumeral(text: string): boolean {
  return (
    OTHER_BASE.test(text) ||
    EXPONENT.test(text) ||
    LOOSE.test(text) ||
    /^[+-]?\.(?:inf|nan)$/i.test(text)
  );
}

/** The plain digits of a number in another notation; undefined where there are none. */
export function plainDigits(text: string): string | undefined {
  const wide = OTHER_BASE.test(text) || EXPONENT.test(text);
  const digits = wide ? String(Number(text.replaceAll('_', ''))) : loosePlain(text);
  return digits !== undefined && isPlain(digits) ? digits : undefined;
}

function loosePlain(text: string): string | undefined {
  if (!LOOSE.test(text)) return undefined;
  return text
    .replace(/[+_]/g, '')
    .replace(/^(-?)0+(?=\d)/, '$1')
    .replace(/^(-?)\./, '$10.')
    .replace(/\.$/, '')
    .replace(/^-(?=[0.]+$)/, '');
}

/** The digits of a whole number that is written with a point: `3` of `3.0`. */
export function wholeDigits(text: string): string | undefined {
  return WHOLE.test(text) ? text.replace(/\..*$/, '') : undefined;
}

/**
 * The plain digits that an amount in everyday writing most likely means, without currency signs and
 * marks: `1250.00` of `$1,250.00`, `12.50` of `12,50 EUR`. Two answers where it may mean either, as
 * `1,250`; none where it is no number.
 */
export function everydayDigits(text: string): readonly string[] {
  const bare = text.replace(/^[^\d.,-]+|[^\d.,]+$/gu, '').replace(/[\s_'’]/gu, '');
  if (/^\d{1,3},\d{3}$/.test(bare)) return [bare.replace(',', ''), bare.replace(',', '.')];
  const point = Math.max(bare.lastIndexOf('.'), bare.lastIndexOf(','));
  const repeated = point >= 0 && bare.indexOf(bare[point] ?? '') !== point;
  const whole = point < 0 || repeated ? bare : bare.slice(0, point);
  const rest = point < 0 || repeated ? '' : `.${bare.slice(point + 1)}`;
  const digits = loosePlain(whole.replace(/[.,]/g, '') + rest);
  return digits !== undefined && isPlain(digits) ? [digits] : [];
}
