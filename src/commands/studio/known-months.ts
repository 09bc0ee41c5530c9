/** The months of books that earlier runs came through, as they are remembered. */
import { deserialize, serialize } from 'node:v8';
import type { Book } from '../../book.ts';
import { madeOnce } from '../../once.ts';
import type { Memory } from '../../read/kept/memory.ts';
import type { KeyOf } from '../../read/kept/outline.ts';
import { goOnFrom } from '../../reckon/flow.ts';
import type { KnownMonths, MonthHead, MonthParts } from '../../reckon/months/before.ts';

/** The months of one studio's books, of which there may be several in one run: before a change, and after it. */
interface MonthShelf {
  /** Lets a book's flows go on from the months that are as in an earlier run, or in this one. */
  readonly goOn: (book: Book, state: BookState) => void;
  /** Notes the months of that book to be kept, first or beside the first. */
  readonly keep: (book: Book, isBeside: boolean) => void;
}

/** What tells one state of a book from others. */
interface BookState {
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
const MONTH_PARTS: readonly PartName[] = [
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

/** The months that a memory has; is told of each that is gone through. */
export function monthShelf(memory: Memory, told: (month: string) => void): MonthShelf {
  const kept = (memory.recallMore(MONTHS) ?? []) as readonly Chain[];
  const chains = [...kept];
  let keeping = kept;
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
      goOnFrom(book, monthsIn(months, { keyOf, memory, told }));
    },
    keep: (book, isBeside) => {
      const chain = chainOf.get(book);
      if (!chain) return;
      const isKnown = keeping.some(({ content }) => content === chain.content);
      if (isKnown && !chain.months.some(({ parts }) => parts)) return;
      const before = keeping;
      keeping = withoutFar(withState(before, chain, isBeside));
      keepChains(keeping, { before, memory });
    },
  };
}

/** A head as it was kept: of one in another form lots or firings would be overlooked. */
function sound(head: MonthHead): MonthHead {
  const lists: readonly unknown[] = [head.lots, head.glazed, head.firings, head.worked];
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

interface MonthSource {
  readonly keyOf: () => KeyOf;
  readonly memory: Memory;
  readonly told: (month: string) => void;
}

function monthsIn(chain: Month[], { keyOf, memory, told }: MonthSource): KnownMonths {
  const heads = chain.map(({ head }) => sound(head));
  const byMonth = new Map(chain.map((month) => [month.head.month, month]));
  return {
    heads,
    read: (month, part) => {
      told(month);
      const { key = '', parts } = byMonth.get(month) ?? {};
      const bytes = parts?.[part] ?? memory.recallPart(...placeOf(key, part));
      return deserialize(bytes) as MonthParts[typeof part];
    },
    keep: (head, made) => {
      told(head.month);
      const parts = partsOf((part) => serialize(made[part]));
      const month = { key: keyOf()(head.month), head, parts };
      heads.push(head);
      chain.push(month);
      byMonth.set(head.month, month);
    },
  };
}

function partsOf<T>(make: (part: PartName) => T): Record<PartName, T> {
  return Object.fromEntries(MONTH_PARTS.map((part) => [part, make(part)])) as Record<PartName, T>;
}

/** The most months that are kept of a state of which they are not those of the first. */
const MOST_APART = 12;

/** What differs for long from the first state is soon reckoned anew where it is asked for, and much to keep. */
function withoutFar([first, ...others]: readonly Chain[]): readonly Chain[] {
  if (!first) return [];
  const own = new Set(first.months.map(({ key }) => key));
  const near = others.filter(
    ({ months }) => months.filter(({ key }) => !own.has(key)).length <= MOST_APART,
  );
  return [first, ...near];
}

function keepChains(
  chains: readonly Chain[],
  { before, memory }: { readonly before: readonly Chain[]; readonly memory: Memory },
): void {
  const months = chains.flatMap((chain) => chain.months);
  const staying = new Set(months.map(({ key }) => key));
  const gone = before.flatMap((chain) => chain.months).filter(({ key }) => !staying.has(key));
  for (const { key } of gone)
    for (const part of MONTH_PARTS) memory.dropPart(...placeOf(key, part));
  for (const month of months) keepParts(month, memory);
  const bare = ({ key, head }: Month): Month => ({ key, head });
  memory.keepMore(
    MONTHS,
    chains.map((chain) => ({ content: chain.content, months: chain.months.map(bare) })),
  );
}

function keepParts({ key, parts }: Month, memory: Memory): void {
  if (!parts) return;
  for (const part of MONTH_PARTS) memory.keepPart(...placeOf(key, part), parts[part]);
}

/** So much of a key tells the months of a few states apart. */
const KEY_SIZE = '2026-03 '.length + 12;

/** Months of several states are kept where they are the same. */
function placeOf(key: string, part: PartName): [year: string, name: string] {
  return [key.slice(0, 4), `${key.slice(0, KEY_SIZE)} ${part}`];
}

/** A few, for the memory is one of the studio as it is. */
const MOST_STATES = 4;

/** With one more: the first, or beside the first where it is a commit that is only looked at. */
export function withState<T extends { readonly content: string }>(
  known: readonly T[],
  state: T,
  isBeside: boolean,
): readonly T[] {
  const isFirst = !isBeside || known[0]?.content === state.content;
  const others = known.filter(({ content }) => content !== state.content);
  const at = isFirst ? 0 : 1;
  return [...others.slice(0, at), state, ...others.slice(at)].slice(0, MOST_STATES);
}
