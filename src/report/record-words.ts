/** What a record is about, in a few words for a list: whom it was from, what it was of. */
import type { Book, Entry, Kind, RecordOf } from '../book.ts';
import { NOUN } from '../check/finding.ts';
import { KINDS } from '../book.ts';
import type { Decimal } from '../number/decimal.ts';
import { writtenMoney } from '../number/money.ts';
import { digitsOf } from '../reckon/booked.ts';
import type { Quantity } from '../number/unit.ts';

/** A record in a few words, without its place in the file. */
interface RecordWords {
  readonly id: string;
  /** What one of its kind is called. */
  readonly kind: string;
  readonly date: string | undefined;
  readonly what: string;
  readonly file: string;
}

/** The records of these ids in words, in the ids' order; ids that are nowhere in the book are left out. */
export function recordWords(book: Book, ids: Iterable<string>): RecordWords[] {
  return [...new Set(ids)].flatMap((id) => {
    const kind = KINDS.find((each) => book[each].has(id));
    return kind === undefined ? [] : [recordInWords(book, kind, id)];
  });
}

/** All records of a book in words, kind by kind, without looking for each. */
export function allRecordWords(book: Book): RecordWords[] {
  return KINDS.flatMap((kind) =>
    [...book[kind].values()].map(({ id }) => recordInWords(book, kind, id)),
  );
}

function recordInWords(book: Book, kind: Kind, id: string): RecordWords {
  const record = book[kind].get(id) as Entry & { readonly date?: string; readonly from?: string };
  const { file, date, from } = record;
  return { id, kind: NOUN[kind], date: date ?? from, what: whatOf(book, kind, record), file };
}

/** Writes an amount of money. */
type InMoney = (amount: Decimal) => string;

/** How the records of each kind are told in words; the others have a name. */
const KIND_WORDS: {
  readonly [K in Kind]?: (record: RecordOf[K], money: InMoney) => readonly WordOrNone[];
} = {
  tariffs: ({ fuel, per, price }) => [fuel, `${price.toString()} per ${per}`],
  bought: ({ supplier, invoice, lines }) => [
    supplier,
    invoice === undefined ? undefined : `invoice ${invoice}`,
    list(lines.map(({ material, quantity }) => `${amountOf(quantity)} ${material}`)),
  ],
  reclaimed: ({ material, quantity }) => [`${amountOf(quantity)} ${material}`],
  mixed: ({ recipe, baseWeight, totalWeight }) => [recipe, amountOf(baseWeight ?? totalWeight)],
  pieces: ({ made, product, title }) => [`${made} ${product}`, title],
  firings: ({ kind, kiln, cone }) => [kind, kiln, cone === undefined ? undefined : `cone ${cone}`],
  used: ({ material, quantity, for: purpose }) => [`${amountOf(quantity)} ${material}`, purpose],
  counted: ({ materials = [], pieces = [] }) => [
    list([...materials.map(({ material }) => material), ...pieces.map(({ product }) => product)]),
  ],
  orders: ({ buyer, due, lines }) => [
    buyer,
    due === undefined ? undefined : `due ${due}`,
    list(
      countedByName(
        lines.map(({ count, product, for: words }) => ({ count, name: product ?? words ?? '' })),
      ),
    ),
  ],
  sales: ({ channel, buyer, number, lines }) => [
    channel,
    buyer,
    number === undefined ? undefined : `invoice ${number}`,
    list(
      countedByName(
        lines.map(({ count, product, class: course, for: purpose, returned }) => ({
          count,
          name: (product ?? course ?? purpose ?? '') + (returned === 'yes' ? ' back' : ''),
        })),
      ),
    ),
  ],
  advances: ({ for: purpose, buyer, amount }, money) => [purpose, buyer, money(amount)],
  consigned: ({ channel, sent = [], back = [], missing = [] }) => [
    channel,
    moved('sent', sent),
    moved('back', back),
    moved('missing', missing),
  ],
  spent: ({ to, for: category, amount }, money) => [to, category, money(amount)],
  filed: ({ period, sheet }) => [period, sheet],
  tests: ({ kind, recipe, lot, result }) => [kind, recipe ?? lot, result],
};

type WordOrNone = string | undefined;

function whatOf(book: Book, kind: Kind, record: Entry): string {
  const say = KIND_WORDS[kind] as
    ((record: Entry, money: InMoney) => readonly WordOrNone[]) | undefined;
  const money: InMoney = (amount) => writtenMoney(amount, digitsOf(book));
  const words = say ? say(record, money) : nameInWords(record);
  return words.filter((word) => word !== undefined && word !== '').join(', ');
}

/** Definitions have a name; whatever else has none is told by its id. */
function nameInWords(record: Entry): readonly WordOrNone[] {
  return 'name' in record && typeof record.name === 'string' ? [record.name] : [];
}

const MOST_ITEMS = 4;

function list(items: readonly string[]): string {
  const shown = items.slice(0, MOST_ITEMS);
  const more = items.length - shown.length;
  return [...shown, ...(more === 0 ? [] : [`and ${more} more`])].join(', ');
}

function moved(
  word: string,
  lines: readonly { readonly count: number; readonly product: string }[],
): WordOrNone {
  if (lines.length === 0) return undefined;
  return `${word} ${list(countedByName(lines.map(({ count, product }) => ({ count, name: product }))))}`;
}

/** How many of each, in the order in which they come first. */
function countedByName(
  lines: readonly { readonly count: number; readonly name: string }[],
): string[] {
  const counts = new Map<string, number>();
  for (const { count, name } of lines) counts.set(name, (counts.get(name) ?? 0) + count);
  return [...counts].map(([name, count]) => `${count} ${name}`);
}

function amountOf(quantity: Quantity | undefined): string {
  if (quantity === undefined) return '';
  return quantity.unit === 'each'
    ? quantity.value.toString()
    : `${quantity.value.toString()} ${quantity.unit}`;
}
