/** Changes in words, with places in the files; what is to be kept from others is left out. */
import { type Book, type Kind } from '../book.ts';
import { NOUN } from '../check/finding.ts';
import { booked, digitsOf } from '../reckon/booked.ts';
import type { Place, Spot } from '../problem.ts';
import { pathWords, setApart } from '../in-words.ts';
import { moneyText, type Money } from '../number/money.ts';
import { chargedFor, invoiceTotal } from '../reckon/sales/debts.ts';
import { recordWords } from '../report/record-words.ts';
import type { RecordChange } from './changes.ts';
import { dayOfRecord } from './days.ts';
import type { FieldChange } from './fields.ts';
import { NOT_SHOWN, valueText, type Withheld, type ValueWriting } from './value.ts';

/** One state of the book in words. */
export interface SideWords {
  readonly book: Book;
  /** Counts the line of a spot. */
  readonly placeOf: (at: Spot | Place) => Place;
}

/** Both states, and how values are written. */
export interface Speech {
  readonly old: SideWords;
  readonly now: SideWords;
  readonly hidden: Withheld;
}

/** A value before and after, as it is shown; undefined where there is none. */
export interface FieldWords {
  /** Keys and indexes from the record on, as in the file: `lines.1.price`. */
  readonly path: string;
  /** For people: `line 1 (mug), price`. */
  readonly label: string;
  readonly at: string;
  /** Whether it is a list, an item of one or the like, and no single value. */
  readonly isPart: boolean;
  readonly before: string | undefined;
  readonly after: string | undefined;
}

/** A record's place: the line of its id, on the new side where it is there. */
export function placeOfChange(speech: Speech, change: RecordChange): Place {
  const { side, entry } = sideOfChange(speech, change);
  const path = change.kind === 'studio' ? [] : [entry?.id ?? ''];
  return side.placeOf({ file: entry?.file ?? 'studio.yaml', path, on: 'key' });
}

/** `sales/2026-03.yaml:12` */
export function fileAndLine({ file, line }: Pick<Place, 'file' | 'line'>): string {
  return `${file}:${line}`;
}

function sideOfChange(
  { old, now }: Speech,
  { before, after }: RecordChange,
): { side: SideWords; entry: RecordChange['after'] } {
  return after ? { side: now, entry: after } : { side: old, entry: before };
}

/** What a record is: `sale s260310kr`, `the settings`. */
export function titleOfRecord({
  kind,
  id,
}: {
  readonly kind: Kind | 'studio';
  readonly id: string;
}): string {
  return kind === 'studio' ? 'the settings' : `${NOUN[kind]} ${id}`;
}

/** What a record is about, in a few words; its day alone where words are hidden. */
export function aboutChange(speech: Speech, change: RecordChange): string {
  const { side, entry } = sideOfChange(speech, change);
  if (!entry || change.kind === 'studio') return '';
  const { names, prices } = speech.hidden;
  const isOpen = !names && !prices;
  const [words] = isOpen ? recordWords(side.book, [entry.id]) : [];
  const amount = isOpen ? amountOfRecord(side.book, change.kind, entry.id) : undefined;
  return [dayOfRecord(entry), words?.what.replace(/\.$/, ''), amount]
    .filter((word) => word !== undefined && word !== '')
    .join(', ');
}

/** What a sale or a purchase comes to; of expenses and advances the amount is among their words. */
function amountOfRecord(book: Book, kind: Kind | 'studio', id: string): string | undefined {
  if (kind === 'spent' || kind === 'advances') return undefined;
  const amount = moneyOfRecord(book, kind, id);
  return amount === undefined ? undefined : setApart(moneyText(amount, digitsOf(book)));
}

function moneyOfRecord(book: Book, kind: Kind | 'studio', id: string): Money | undefined {
  const sale = kind === 'sales' ? book.sales.get(id) : undefined;
  if (sale) return chargedFor(book, sale);
  const bought = kind === 'bought' ? book.bought.get(id) : undefined;
  if (bought) return invoiceTotal(book, bought);
  const paid = kind === 'spent' || kind === 'advances' ? book[kind].get(id) : undefined;
  return paid && booked(book, paid.amount);
}

/** By how much the amount of a record moved, in minor units, whichever way; all of it where it came or went. */
export function moneyMoved(
  { old, now }: Speech,
  { kind, id, was = id, ...ends }: RecordChange,
): number {
  const before = ends.before && moneyOfRecord(old.book, kind, was);
  const after = ends.after && moneyOfRecord(now.book, kind, id);
  return Math.abs(Number(after ?? 0) - Number(before ?? 0));
}

/** How values of the new book are written. */
export function writingOf({ now, hidden }: Speech): ValueWriting {
  return { minorDigits: digitsOf(now.book), hidden };
}

/** A field's change in words, with its line. */
export function fieldWords(speech: Speech, change: RecordChange, field: FieldChange): FieldWords {
  const writing = writingOf(speech);
  const isGone = field.after === undefined;
  const entry = isGone ? change.before : change.after;
  const side = isGone ? speech.old : speech.now;
  const root = change.kind === 'studio' ? [] : [entry?.id ?? ''];
  const at = side.placeOf({ file: entry?.file ?? '', path: [...root, ...field.path] });
  const text = (value: unknown): string | undefined =>
    value === undefined ? undefined : valueText(field.spec, value, writing) || NOT_SHOWN;
  return {
    path: pathWords(field.path),
    label: labelOf(field),
    at: fileAndLine(at),
    isPart: FIELD_PARTS.has(field.spec.type),
    before: text(field.before),
    after: text(field.after),
  };
}

const FIELD_PARTS: ReadonlySet<string> = new Set(['list', 'map', 'record', 'either']);
const NOT_THERE = 'none';

/** Words for lists whose key is no noun of one item. */
const ONE_OF: Readonly<Record<string, string>> = {
  lines: 'line',
  versions: 'version',
  glazes: 'glaze',
  additions: 'addition',
  materials: 'material',
  pieces: 'ware',
  bands: 'band',
  advances: 'advance',
  supplies: 'supply',
};

function labelOf({ path, item }: FieldChange): string {
  const named = path.findLastIndex((key) => typeof key === 'number');
  const words: string[] = [];
  path.forEach((key, index) => {
    if (typeof key === 'string')
      words.push(typeof path[index + 1] === 'number' ? (ONE_OF[key] ?? key) : key);
    else
      words.push(
        `${words.pop() ?? ''} ${key + 1}${index === named && item !== undefined ? ` (${item})` : ''}`,
      );
  });
  return words.join(', ');
}

/** `price 40.00 → 42.00`, `buyer none → M. T.`, `line 2 (mug) removed: …`. */
export function fieldSentence({ label, isPart, before, after }: FieldWords): string {
  if (isPart && before === undefined) return `${label} added: ${after ?? ''}`;
  if (isPart && after === undefined) return `${label} removed: ${before ?? ''}`;
  if (before === NOT_SHOWN && after === NOT_SHOWN) return `${label} changed ${NOT_SHOWN}`;
  return `${label} ${before ?? NOT_THERE} → ${after ?? NOT_THERE}`;
}
