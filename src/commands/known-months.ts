/** The months of books that earlier runs came through, as they are remembered. */
import { deserialize, serialize } from 'node:v8';
import type { Book } from '../book.ts';
import type { Memory } from '../read/memory.ts';
import type { KeyOf } from '../read/month-keys.ts';
import { goOnFrom } from '../reckon/flow.ts';
import type { KnownMonths, MonthHead, MonthParts } from '../reckon/months/before.ts';
import { madeOnce } from '../once.ts';

/** The months of one studio's books, of which there may be several in one run: before a change, and after it. */
export interface MonthShelf {
  /** Lets a book's flows go on from the months that are as in an earlier run, or in this one. */
  readonly goOn: (book: Book, state: BookState) => void;
  /** Notes the months of that book to be kept, in place of any others. */
  readonly keep: (book: Book) => void;
}

/** What tells one state of a book from others. */
export interface BookState {
  /** A fingerprint of all that was read. */
  readonly content: string;
  readonly keys: () => KeyOf;
}

type PartName = keyof MonthParts;

/** A month with the key of all that it comes from, and its parts where they are not in the memory yet. */
interface Month {
  readonly key: string;
  readonly head: MonthHead;
  readonly parts?: Readonly<Record<PartName, Uint8Array>>;
}

/** The months that one state of a book came through. */
interface Chain {
  readonly content: string;
  readonly months: Month[];
}

const MONTHS = 'months';
const PARTS: readonly PartName[] = [
  'movements',
  'ware',
  'sales',
  'firings',
  'minutes',
  'lots',
  'glazed',
  'standing',
  'end',
];

/** The months that a memory has. */
export function monthShelf(memory: Memory): MonthShelf {
  const kept = (memory.recallMore(MONTHS) ?? { content: '', months: [] }) as Chain;
  const chains: Chain[] = [kept];
  const chainOf = new WeakMap<Book, Chain>();
  return {
    goOn: (book, { content, keys }) => {
      const keyOf = madeOnce(keys);
      const some = chains.filter(({ months }) => months.length > 0);
      const known = some.find((each) => each.content === content);
      const months = known
        ? [...known.months]
        : longest(some.map((each) => sameMonths(each, keyOf())));
      const chain = { content, months };
      chains.push(chain);
      chainOf.set(book, chain);
      goOnFrom(book, monthsIn(months, { keyOf, memory }));
    },
    keep: (book) => {
      const chain = chainOf.get(book);
      if (!chain) return;
      const isNew = chain.content !== kept.content || chain.months.some(({ parts }) => parts);
      if (isNew) keepChain(chain, { kept, memory });
    },
  };
}

/** A head as it was kept: of one in another form lots or firings would be overlooked. */
function sound(head: MonthHead): MonthHead {
  const lists: readonly unknown[] = [head.lots, head.glazed, head.firings];
  const texts = [head.month, head.last, ...lists.flat()];
  if (lists.every(Array.isArray) && texts.every((text) => typeof text === 'string')) return head;
  throw new TypeError('what is remembered of a month is not as it was kept');
}

/** From the first month on that comes from something else, nothing is the same. */
function sameMonths({ months }: Chain, keyOf: KeyOf): Month[] {
  const changed = months.findIndex(({ key, head }) => key !== keyOf(head.month));
  return changed === -1 ? [...months] : months.slice(0, changed);
}

function longest(chains: readonly Month[][]): Month[] {
  return chains.reduce((best, each) => (each.length > best.length ? each : best), []);
}

function monthsIn(
  chain: Month[],
  { keyOf, memory }: { readonly keyOf: () => KeyOf; readonly memory: Memory },
): KnownMonths {
  const heads = chain.map(({ head }) => sound(head));
  const byMonth = new Map(chain.map((month) => [month.head.month, month]));
  return {
    heads,
    read: (month, part) => {
      const bytes = byMonth.get(month)?.parts?.[part];
      return deserialize(
        bytes ?? memory.recallPart(...placeOf(month, part)),
      ) as MonthParts[typeof part];
    },
    keep: (head, made) => {
      const parts = partsOf((part) => serialize(made[part]));
      const month = { key: keyOf()(head.month), head, parts };
      heads.push(head);
      chain.push(month);
      byMonth.set(head.month, month);
    },
  };
}

function partsOf<T>(make: (part: PartName) => T): Record<PartName, T> {
  return Object.fromEntries(PARTS.map((part) => [part, make(part)])) as Record<PartName, T>;
}

function keepChain(
  { content, months }: Chain,
  { kept, memory }: { readonly kept: Chain; readonly memory: Memory },
): void {
  const staying = new Set(months.filter(({ parts }) => !parts).map(({ key }) => key));
  const gone = kept.months.filter(({ key }) => !staying.has(key));
  for (const place of gone.flatMap(placesOf)) memory.dropPart(...place);
  for (const month of months) keepParts(month, memory);
  memory.keepMore(MONTHS, { content, months: months.map(({ key, head }) => ({ key, head })) });
}

function keepParts({ head, parts }: Month, memory: Memory): void {
  if (!parts) return;
  for (const part of PARTS) memory.keepPart(...placeOf(head.month, part), parts[part]);
}

function placesOf({ head }: Month): ReturnType<typeof placeOf>[] {
  return PARTS.map((part) => placeOf(head.month, part));
}

function placeOf(month: string, part: string): [year: string, name: string] {
  return [month.slice(0, 4), `${month} ${part}`];
}
