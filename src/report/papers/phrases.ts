/** What papers say: our words, each of which a studio may say in its own, and how it writes amounts and days. */
import type { Book, Day } from '../../book.ts';
import { setApart } from '../../in-words.ts';
import { decimal, type Decimal } from '../../number/decimal.ts';
import { moneyText, type Money } from '../../number/money.ts';
import { digitsOf } from '../../reckon/booked.ts';

/** Every phrase, with what it is where the studio has none of its own. */
export const PHRASES = {
  language: 'en',
  'decimal-mark': '.',
  'thousands-mark': ',',
  'day-form': 'YYYY-MM-DD',
  invoice: 'Invoice',
  'without-number': 'Draft, without a number',
  receipt: 'Receipt',
  'credit-note': 'Credit note',
  'order-confirmation': 'Confirmation of your order',
  'delivery-list': 'List of ware sent',
  statement: 'Statement of account',
  labels: 'Price labels',
  'care-card': 'Care card',
  to: 'To',
  from: 'From',
  date: 'Date',
  number: 'Number',
  reference: 'Our reference',
  'for-invoice': 'For invoice',
  'for-sale': 'For sale',
  due: 'Due',
  'paid-on': 'Paid on',
  'paid-ahead': 'Paid ahead',
  'still-open': 'Still to pay',
  count: 'Count',
  what: 'What',
  mark: 'No.',
  price: 'Price',
  amount: 'Amount',
  'price-open': 'to be agreed',
  returned: 'returned',
  second: 'second',
  less: 'less',
  discount: 'Discount',
  subtotal: 'Subtotal',
  shipping: 'Shipping',
  'sales-tax': 'Sales tax',
  'tax-within': 'of which sales tax',
  total: 'Total',
  commission: 'Commission',
  'to-pay': 'To pay',
  'given-back': 'Given back',
  'gallery-share': 'Gallery',
  'studio-share': 'Studio',
  missing: 'Missing ware',
  nothing: 'Nothing is owed.',
  'care-words': 'Care',
  food: 'Food',
  oven: 'Oven',
  microwave: 'Microwave',
  dishwasher: 'Dishwasher',
  ornamental: 'Not for food or drink',
  test: 'Test',
  tested: 'test on record',
  'tested-under': 'lead and cadmium under the limits in a test on record',
  'test-not-comparable': 'no test on record that covers it',
  'no-test': 'no test on record',
  'tests-say': 'What is said here is which tests are on record, not that the ware is safe.',
} as const;

export type PhraseKey = keyof typeof PHRASES;

/** A studio's own phrases. */
export type OwnPhrases = Readonly<Partial<Record<PhraseKey, string>>>;

/** How a studio writes on its papers. */
export interface PaperWording {
  readonly say: (key: PhraseKey) => string;
  readonly money: (amount: Money) => string;
  readonly day: (day: Day) => string;
  /** A fraction of 1 in percent. */
  readonly percent: (fraction: Decimal) => string;
}

/** The wording of a studio. */
export function paperWording(book: Pick<Book, 'studio'>, own: OwnPhrases): PaperWording {
  const say = (key: PhraseKey): string => own[key] ?? PHRASES[key];
  const marked = (digits: string): string =>
    digits.replace(/[.,]/g, (sign) => say(sign === '.' ? 'decimal-mark' : 'thousands-mark'));
  return {
    say,
    money: (amount) => marked(setApart(moneyText(amount, digitsOf(book)))),
    day: (day) => {
      const [year = '', month = '', date = ''] = day.split('-');
      const parts: Readonly<Record<string, string>> = { YYYY: year, MM: month, DD: date };
      return say('day-form').replace(/YYYY|MM|DD/g, (part) => parts[part] ?? part);
    },
    percent: (fraction) => `${marked(fraction.times(decimal('100')).toString())}%`,
  };
}
