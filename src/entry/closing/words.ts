/** The end of a fair day in lines: what is gone, what it would come to, and the money that is there. */
import type { Book } from '../../book.ts';
import { setApart } from '../../in-words.ts';
import { NO_MONEY, add, less, moneyText, opposite, type Money } from '../../number/money.ts';
import { digitsOf } from '../../reckon/booked.ts';
import {
  comesTo,
  rowsComeTo,
  shouldBe,
  withoutPrice,
  type Closing,
  type DaySale,
  type GoneRow,
} from './closing.ts';
import { wareName } from './count.ts';

type MoneyInWords = (amount: Money) => string;

/** How amounts of a book are written. */
export function shownIn(book: Book): MoneyInWords {
  return (amount) => setApart(moneyText(amount, digitsOf(book)));
}

const HEADS = ['', 'taken', 'back', 'on record', 'gone', 'price', 'come to'] as const;

/** All there is to see before it is said what became of the pieces. */
export function closingLines(book: Book, closing: Closing): readonly string[] {
  const { at, gone } = closing;
  const shown = shownIn(book);
  const rows = gone.length === 0 ? [] : [HEADS, ...gone.map((row) => cellsOf(row, shown))];
  const money = moneyRows(closing, shown);
  return [
    `${at.fair.name} (${at.fair.id}), ${at.day}`,
    ...(gone.length === 0 ? ['Nothing is gone beside what is on record.'] : grid(rows)),
    ...grid(money),
    ...noPrices(closing),
  ];
}

function cellsOf(row: GoneRow, shown: MoneyInWords): readonly string[] {
  const sum = comesTo(row);
  const counts = [row.taken, row.back, row.onRecord, row.gone].map(String);
  const money = [row.price, sum].map((each) => (each === undefined ? '?' : shown(each)));
  return [wareName(row), ...counts, ...money];
}

function moneyRows(closing: Closing, shown: MoneyInWords): readonly (readonly string[])[] {
  const { takings, there, usual, counted } = closing;
  const more = less(usual, rowsComeTo(closing));
  const { cash = NO_MONEY, float, card } = counted;
  const box = `Cash ${shown(cash)} less ${shown(float)} in the morning`;
  const read = card === undefined ? '' : `, and ${shown(card)} by card`;
  return [
    ['Gone pieces at their usual prices', shown(less(usual, more))],
    ...(more === NO_MONEY ? [] : [['Tax on top', shown(more)]]),
    ['Came in by the records of the day', shown(takings.all)],
    ['There should be', shown(shouldBe(closing))],
    ...(there === undefined ? [] : [[`${box}${read}`, shown(there)]]),
    ...(there === undefined ? [] : [differenceRow(less(there, shouldBe(closing)), shown)]),
  ];
}

function differenceRow(over: Money, shown: MoneyInWords): readonly string[] {
  if (over === NO_MONEY) return ['It fits', shown(over)];
  return over > NO_MONEY ? ['Over', shown(over)] : ['Short', shown(opposite(over))];
}

/** Columns as wide as their widest cell: names on the left, figures on the right. */
function grid(rows: readonly (readonly string[])[]): string[] {
  const widths = (rows[0] ?? []).map((_, at) =>
    Math.max(...rows.map((row) => (row[at] ?? '').length)),
  );
  return rows.map((row) => {
    const cells = row.map((cell, at) => {
      const width = widths[at] ?? 0;
      return at === 0 ? cell.padEnd(width) : cell.padStart(width);
    });
    return `  ${cells.join('  ')}`.trimEnd();
  });
}

function noPrices(closing: Closing): readonly string[] {
  const names = withoutPrice(closing);
  if (names.length === 0) return [];
  return [`Without a price, so in none of these sums: ${names.join(', ')}.`];
}

/** The money that is there against what should be, in a sentence; empty where none was counted. */
export function moneySentence(book: Book, closing: Closing): string {
  const { there } = closing;
  if (there === undefined) return '';
  return sentenceOf(shownIn(book), there, shouldBe(closing));
}

function sentenceOf(shown: MoneyInWords, there: Money, wanted: Money): string {
  const [what = '', amount = ''] = differenceRow(less(there, wanted), shown);
  const difference = what === 'It fits' ? 'it fits' : `${amount} ${what.toLowerCase()}`;
  return `There should be ${shown(wanted)}, and there is ${shown(there)}: ${difference}.`;
}

/** What is left open once the sale and the missing pieces are written. */
export function leftLines(
  book: Book,
  { there, takings }: Closing,
  { sale, left }: { readonly sale: DaySale | undefined; readonly left: readonly string[] },
): readonly string[] {
  const shown = shownIn(book);
  const { due, cardLeft } = sale ?? { due: NO_MONEY, cardLeft: NO_MONEY };
  const wanted = add(takings.all, due);
  const fits = there === undefined || there === wanted;
  return [
    ...(there === undefined
      ? []
      : [`With this written: ${lowered(sentenceOf(shown, there, wanted))}`]),
    ...(fits ? [] : ['The difference is not written anywhere.']),
    ...(cardLeft > NO_MONEY
      ? [`${shown(cardLeft)} of the card total is more than was sold, and is not written.`]
      : []),
    ...(left.length === 0 ? [] : [`Left as it is: ${left.join(', ')}.`]),
  ];
}

function lowered(sentence: string): string {
  return sentence.slice(0, 1).toLowerCase() + sentence.slice(1);
}
