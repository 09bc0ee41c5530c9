/** The months of books that earlier runs came through, as they are remembered. */
import { deserialize, serialize } from 'node:v8';
import type { Book } from '../book.ts';
import type { Memory } from '../read/memory.ts';
import type { KeyOf } from '../read/month-keys.ts';
import { goOnFrom } from '../reckon/flow.ts';
import type { KnownMonths, MonthHead, MonthParts } from '../reckon/months/before.ts';

/** The months of one studio's books, of which there may be several in one run: before a change, and after it. */
export interface MonthShelf {
  /** Lets a book's flows go on from the months that are as in an earlier run, or in this one. */
  readonly goOn: (book: Book, keyOf: KeyOf) => void;
  /** Notes the months of that book to be kept, in place of any others. */
  readonly keep: (book: Book) => void;
}

type PartName = keyof MonthParts;

/** A month with the key of all that it comes from, and its parts where they are not in the memory yet. */
interface Month {
  readonly key: string;
  readonly head: MonthHead;
  readonly parts?: Readonly<Record<PartName, Uint8Array>>;
}

const MONTHS = 'months';
const PARTS: readonly PartName[] = ['facts', 'lots', 'glazed', 'end'];

/** The months that a memory has. */
export function monthShelf(memory: Memory): MonthShelf {
  const kept = (memory.recallMore(MONTHS) ?? []) as readonly Month[];
  const chains: (readonly Month[])[] = [kept];
  const chainOf = new WeakMap<Book, readonly Month[]>();
  return {
    goOn: (book, keyOf) => {
      const chain = longest(chains.map((each) => sameMonths(each, keyOf)));
      chains.push(chain);
      chainOf.set(book, chain);
      goOnFrom(book, monthsIn(chain, { keyOf, memory }));
    },
    keep: (book) => {
      const chain = chainOf.get(book);
      if (chain?.some(({ parts }) => parts)) keepChain(chain, { kept, memory });
    },
  };
}

/** From the first month on that comes from something else, nothing is the same. */
function sameMonths(chain: readonly Month[], keyOf: KeyOf): Month[] {
  const changed = chain.findIndex(({ key, head }) => key !== keyOf(head.month));
  return changed === -1 ? [...chain] : chain.slice(0, changed);
}

function longest(chains: readonly Month[][]): Month[] {
  return chains.reduce((best, each) => (each.length > best.length ? each : best), []);
}

function monthsIn(
  chain: Month[],
  { keyOf, memory }: { readonly keyOf: KeyOf; readonly memory: Memory },
): KnownMonths {
  const heads = chain.map(({ head }) => head);
  const byMonth = new Map(chain.map((month) => [month.head.month, month]));
  return {
    heads,
    read: (month, part) => {
      const bytes = byMonth.get(month)?.parts?.[part];
      return deserialize(
        bytes ?? memory.recallPart(...placeOf(month, part)),
      ) as MonthParts[typeof part];
    },
    keep: (head, { facts, lots, glazed, end }) => {
      const parts = {
        facts: serialize(facts),
        lots: serialize(lots),
        glazed: serialize(glazed),
        end: serialize(end),
      };
      const month = { key: keyOf(head.month), head, parts };
      heads.push(head);
      chain.push(month);
      byMonth.set(head.month, month);
    },
  };
}

function keepChain(
  chain: readonly Month[],
  { kept, memory }: { readonly kept: readonly Month[]; readonly memory: Memory },
): void {
  const staying = new Set(chain.filter(({ parts }) => !parts).map(({ key }) => key));
  for (const { key, head } of kept)
    if (!staying.has(key))
      for (const part of PARTS) memory.dropPart(...placeOf(head.month, part));
  for (const { head, parts } of chain)
    if (parts)
      for (const part of PARTS) memory.keepPart(...placeOf(head.month, part), parts[part]);
  memory.keepMore(
    MONTHS,
    chain.map(({ key, head }) => ({ key, head })),
  );
}

function placeOf(month: string, part: string): [year: string, name: string] {
  return [month.slice(0, 4), `${month} ${part}`];
}
