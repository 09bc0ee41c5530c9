/** Where the book runs out of something, as the reckoning finds it, sorted for the rules. */
import type { Book, Day, Kind } from '../book.ts';
import { countsFlow } from '../reckon/flow.ts';
import type { Shortfall } from '../reckon/stock.ts';
import { once } from './finding.ts';
import type { Unsound } from './rule.ts';

type ShortfallKind = Shortfall['kind'];

/** A shortage of a named lot that was finished only later. */
export interface TooEarly {
  readonly shortfall: Shortfall;
  readonly lot: string;
  readonly finishedOn: Day;
}

interface Sorted {
  readonly short: readonly Shortfall[];
  readonly early: readonly TooEarly[];
}

/** What is short up to a day: in the order in which the book runs out. */
const sorted = once((book: Book) => {
  const byDay = new Map<Day, Sorted>();
  return (day: Day): Sorted => {
    const known = byDay.get(day) ?? sort(book, day);
    byDay.set(day, known);
    return known;
  };
});

function sort(book: Book, day: Day): Sorted {
  const { stock, ware } = countsFlow(book, day);
  const short: Shortfall[] = [...stock.shortfalls];
  const early: TooEarly[] = [];
  for (const shortfall of ware.shortfalls) {
    const lot = lotNamedAt(book, shortfall);
    const finishedOn = lot === undefined ? undefined : ware.lots.get(lot)?.finishedOn;
    if (lot === undefined || finishedOn === undefined || finishedOn <= shortfall.day)
      short.push(shortfall);
    else early.push({ shortfall, lot, finishedOn });
  }
  return { short, early };
}

/** The lot that a line of finished ware names; of pieces gone from a lot, the lot itself. */
function lotNamedAt(book: Book, { kind, at }: Shortfall): string | undefined {
  if (kind !== 'finished' && kind !== 'consigned') return undefined;
  const [id = '', list, index] = at.path;
  if (list === 'gone') return String(id);
  const lines = linesOf(book, String(id), String(list));
  return lines?.[Number(index)]?.lot;
}

function linesOf(
  book: Book,
  id: string,
  list: string,
): readonly { readonly lot?: string }[] | undefined {
  const sale = book.sales.get(id);
  if (sale !== undefined) return sale.lines;
  return book.consigned.get(id)?.[list as 'sent' | 'back' | 'missing'];
}

/** The shortfalls of some kinds, without those that an unsound record may well put right. */
export function shortfallsOf(
  kinds: readonly ShortfallKind[],
  { book, day, unsound }: { readonly book: Book; readonly day: Day; readonly unsound: Unsound },
): readonly Shortfall[] {
  const isDoubtful = doubtsAbout(book, unsound);
  return sorted(book)(day).short.filter(
    (shortfall) => kinds.includes(shortfall.kind) && !isDoubtful(shortfall),
  );
}

/** Named lots that were sold, sent away or gone before any of their pieces were finished. */
export function tooEarly(book: Book, day: Day): readonly TooEarly[] {
  return sorted(book)(day).early;
}

/** The kinds of record that could fill what is short. */
const FED_BY: Readonly<Record<ShortfallKind, readonly Kind[]>> = {
  material: ['bought', 'reclaimed', 'mixed', 'counted'],
  bucket: ['mixed', 'counted'],
  stage: ['pieces', 'firings', 'products'],
  'out-of-turn': ['pieces', 'firings', 'products'],
  opening: [],
  finished: ['pieces', 'firings', 'consigned', 'counted', 'sales', 'products'],
  consigned: ['pieces', 'firings', 'consigned', 'counted', 'products'],
};

// An unsound record may concern the pieces or the stock that it names, and all ware of a lot's product.
function doubtsAbout(book: Book, unsound: Unsound): (shortfall: Shortfall) => boolean {
  const { ids, texts, kinds } = unsound;
  const products = new Set([...texts].flatMap((text) => book.pieces.get(text)?.product ?? []));
  return ({ kind, what }) =>
    FED_BY[kind].some((feeder) => kinds.has(feeder)) ||
    texts.has(what) ||
    products.has(what) ||
    ids.has(what) ||
    ids.has(book.pieces.get(what)?.product ?? '');
}
