/** Numbers in other notations than plain digits, and what they would be in plain digits. */

import { isDay, isTime } from '../../number/date.ts';

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

const YEAR_FIRST = /^(\d{4})[-/. ](\d{1,2})[-/. ](\d{1,2})(?:[T ].*)?$/;
const YEAR_LAST = /^(\d{1,2})[-/. ]+(\d{1,2})[-/. ]+(?:20)?(\d{2})$/;
const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

/** Whether a text has year, month and day in their places and with all their digits. */
export function isIsoLike(text: string): boolean {
  return /^\d{4}-\d\d-\d\d$/.test(text);
}

/** The days that a text may mean: `2026/3/8` and `8 March 2026` mean one, `8/3/2026` and `2026-02-30` two. */
export function likelyDays(text: string): readonly string[] {
  const [, year = '', month = '', day = ''] = YEAR_FIRST.exec(text) ?? [];
  const [, one = '', other = '', short = ''] = YEAR_LAST.exec(text) ?? [];
  const written = [
    iso(year, month, day),
    iso(`20${short}`, one, other),
    iso(`20${short}`, other, one),
    ...inMonthWords(text),
  ].filter((answer) => answer !== text && isDay(answer));
  const likely = written.length > 0 || !isIsoLike(text) ? written : beside(year, month, day);
  return [...new Set(likely)];
}

/** `8 March 2026`, `March 8, 2026`, `8 Mar 26`. */
function inMonthWords(text: string): readonly string[] {
  const [, word = ''] =
    /([a-z]{3})[a-z]*/i.exec(text.replace(/(?<=\d)(?:st|nd|rd|th)\b/i, '')) ?? [];
  const month = String(MONTHS.indexOf(word.toLowerCase()) + 1);
  const [day = '', year = '', ...more] = text.match(/\d+/g) ?? [];
  return more.length > 0 ? [] : [iso(year.length === 2 ? `20${year}` : year, month, day)];
}

/** The days next to one that the calendar has not; month and day the other way round where that is one. */
function beside(year: string, month: string, day: string): readonly string[] {
  const swapped = iso(year, day, month);
  if (isDay(swapped)) return [swapped];
  const over = Number(day) - lastOf(year, month);
  const last = iso(year, month, String(lastOf(year, month)));
  const next = iso(year, String(Number(month) + 1), String(over));
  return [last, next].filter(isDay);
}

function lastOf(year: string, month: string): number {
  return (
    ['31', '30', '29', '28'].map(Number).find((day) => isDay(iso(year, month, String(day)))) ?? 0
  );
}

function iso(year: string, month: string, day: string): string {
  return `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
}

const CLOCK = /^(\d{1,2})(?:[:.h](\d{2}))?\s*([ap]\.?m\.?)?$/i;

/** The time of day that a text most likely means: `06:30` of `6.30`, `18:30` of `6:30 pm`. */
export function likelyTime(text: string): string | undefined {
  const [, hour, minutes = '00', half] = CLOCK.exec(text.trim()) ?? [];
  if (hour === undefined) return undefined;
  const time = `${String(hourOf(Number(hour), half)).padStart(2, '0')}:${minutes}`;
  return isTime(time) ? time : undefined;
}

function hourOf(hour: number, half: string | undefined): number {
  if (half === undefined) return hour === 24 ? 0 : hour;
  return (hour % 12) + (half.toLowerCase().startsWith('p') ? 12 : 0);
}

/** The quarter or year that a text most likely means: `2026-Q1` of `Q1 2026`, `2025` of `2025.0`. */
export function likelyPeriod(text: string): string | undefined {
  const [, year] = /(?:^|\D)((?:19|20)\d\d)(?:\D|$)/.exec(text) ?? [];
  if (year === undefined || !/q/i.test(text)) return year;
  const [, quarter] = /q\W*([1-4])(?:\D|$)/i.exec(text) ?? /(?:^|\D)([1-4])\W*q/i.exec(text) ?? [];
  return quarter === undefined ? undefined : `${year}-Q${quarter}`;
}

/** The span of hours that a text most likely means: `16:00-21:00` of `4pm – 9pm`. */
export function likelySpan(text: string): string | undefined {
  const [from, to, more] = text.split(/\s*(?:-|–|to)\s*/).map(likelyTime);
  return from === undefined || to === undefined || more !== undefined ? undefined : `${from}-${to}`;
}
