/** What the cells of a list say: days and numbers as other programs write them. Nothing is guessed. */
import { isDay, type Day } from '../../number/date.ts';
import { decimal, type Decimal } from '../../number/decimal.ts';
import type { DateOrder, DecimalMark } from './map.ts';

const MONTH_WORDS = 'jan feb mar apr may jun jul aug sep oct nov dec'.split(' ');

/** Three parts with the same sort of sign between them; a time may follow. */
const DATE =
  /^(?:[a-z]{3,9},? )?(\d{4}|\d{1,2}|[a-z]{3,9})\.?(?:[-/. ]|, ?)(\d{1,2}|[a-z]{3,9})\.?(?:[-/. ]|, ?)(\d{4}|\d{1,2})(?:[t, ].*)?$/i;

/** The day of a date in that order, whatever signs part it; a year of two digits is of this century. */
export function dayOfDate(text: string, order: DateOrder): Day | undefined {
  const [, ...parts] = DATE.exec(text.trim()) ?? [];
  if (parts.length < 3) return undefined;
  const places = order.split('-');
  const [year = '', month = '', day = ''] = ['year', 'month', 'day'].map(
    (name) => parts[places.indexOf(name)],
  );
  const whole = year.length === 2 ? `20${year}` : year;
  const found = `${whole}-${monthIn(month)}-${day.padStart(2, '0')}`;
  return isDay(found) ? found : undefined;
}

function monthIn(text: string): string {
  const at = MONTH_WORDS.indexOf(text.slice(0, 3).toLowerCase());
  return String(at < 0 ? text : at + 1).padStart(2, '0');
}

/** Thousands are set apart by one sort of sign, in threes. */
const FIGURE_FORMS: Readonly<Record<DecimalMark, RegExp>> = {
  point: /^(?:\d+|\d{1,3}(?:([,' ])\d{3})(?:\1\d{3})*)(?:\.\d+)?$|^\.\d+$/,
  comma: /^(?:\d+|\d{1,3}(?:([.' ])\d{3})(?:\1\d{3})*)(?:,\d+)?$|^,\d+$/,
};

/** Signs of a currency, or the letters of its code, before the figures or after them. */
const CURRENCY = /^(?:\p{Sc}|[A-Z]{2,3}\p{Sc}?(?=[ \d-]))\s*|\s*(?:\p{Sc}|[A-Z]{3})$/gu;

/** The number that a cell says; undefined where it says none with that decimal mark. */
export function numberOfCell(text: string, mark: DecimalMark): Decimal | undefined {
  const plain = text
    .trim()
    .replace(/[\u00a0\u202f\u2009]/g, ' ')
    .replace(/[\u2212\u2013]/g, '-')
    .replace(/[\u2019]/g, "'");
  const [, inBrackets] = /^\((.*)\)$/.exec(plain) ?? [];
  const { negative, figures } = withoutSign(inBrackets ?? plain);
  if (!FIGURE_FORMS[mark].test(figures)) return undefined;
  const bare = figures.replace(mark === 'point' ? /[,' ]/g : /[.' ]/g, '').replace(',', '.');
  const number = decimal(bare.startsWith('.') ? `0${bare}` : bare);
  return negative || inBrackets !== undefined ? number.neg() : number;
}

function withoutSign(text: string): { readonly negative: boolean; readonly figures: string } {
  const bare = text.replace(CURRENCY, '').trim();
  const negative = /^-|-$/.test(bare);
  const figures = bare
    .replace(/^[-+]\s*|-$/, '')
    .replace(CURRENCY, '')
    .trim();
  return { negative, figures };
}
