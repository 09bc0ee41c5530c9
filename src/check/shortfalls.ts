/** Where the book runs out of something, as the reckoning finds it, sorted for the rules. */
import type { Day, Kind, Named, NamedBook } from '../book.ts';
import type { Shortfall } from '../reckon/stock/stock.ts';
import type { Short, TooEarly, Unsound } from './rule.ts';

type ShortfallKind = Shortfall['kind'];

/** What the reckoning came to, as far as something may be short. */
interface ShortFlows {
  readonly stock: { readonly shortfalls: Iterable<Shortfall> };
  readonly ware: {
    readonly shortfalls: Iterable<Shortfall>;
    readonly lots: Named<{ readonly finishedOn: Day | undefined }>;
  };
}

/** Sorts what a book was found short of, beside what it leaves out. */
export function shortIn(
  { stock, ware }: ShortFlows,
  { book, unsound }: { readonly book: NamedBook; readonly unsound: Unsound },
): Short {
  const short: Shortfall[] = [...stock.shortfalls];
  const early: TooEarly[] = [];
  const { told, followed } = withoutFollowing(book, ware.shortfalls);
  for (const shortfall of told) {
    const lot = lotNamedAt(book, shortfall);
    const finishedOn = lot === undefined ? undefined : ware.lots.get(lot)?.finishedOn;
    if (lot === undefined || finishedOn === undefined || finishedOn <= shortfall.day)
      short.push(shortfall);
    else early.push({ shortfall, lot, finishedOn });
  }
  const isDoubtful = doubtsAbout(book, unsound);
  const dated = new Set(early.map(({ shortfall }) => recordAt(shortfall)));
  const of: Short['of'] = (...kinds) =>
    short.filter(
      (shortfall) =>
        kinds.includes(shortfall.kind) && !isDoubtful(shortfall) && !dated.has(recordAt(shortfall)),
    );
  const after: Short['after'] = (shortfall) => followed.get(shortfall) ?? [];
  return { of, early: onceEach(early), after };
}

function recordAt({ at }: Shortfall): string {
  return `${at.file} ${String(at.path[0])}`;
}

/** The date of a record is too early for all of its lines alike. */
function onceEach(early: readonly TooEarly[]): readonly TooEarly[] {
  const seen = new Set<string>();
  return early.filter(({ shortfall }) => {
    const record = recordAt(shortfall);
    const isFirst = !seen.has(record);
    seen.add(record);
    return isFirst;
  });
}

interface Following {
  readonly told: readonly Shortfall[];
  readonly followed: ReadonlyMap<Shortfall, readonly Shortfall[]>;
}

/** Once a lot was fired out of turn, what is short of it, or of its product, later follows from that. */
function withoutFollowing(book: NamedBook, shortfalls: Iterable<Shortfall>): Following {
  const astray = new Map<string, Shortfall>();
  const followed = new Map<Shortfall, Shortfall[]>();
  const told: Shortfall[] = [];
  for (const shortfall of shortfalls) {
    const { kind, what } = shortfall;
    const cause = astray.get(what);
    if (cause) followed.set(cause, [...(followed.get(cause) ?? []), shortfall]);
    else told.push(shortfall);
    if (cause || kind !== 'out-of-turn') continue;
    astray.set(what, shortfall);
    const product = book.pieces.get(what)?.product;
    if (product !== undefined && !astray.has(product)) astray.set(product, shortfall);
  }
  return { told, followed };
}

/** The lot that a line of finished ware names; of pieces gone from a lot, the lot itself. */
function lotNamedAt(book: NamedBook, { kind, at }: Shortfall): string | undefined {
  if (kind !== 'finished' && kind !== 'consigned') return undefined;
  const [id = '', list, index] = at.path;
  if (list === 'gone') return String(id);
  const lines = linesOf(book, String(id), String(list));
  return lines?.[Number(index)]?.lot;
}

function linesOf(
  book: NamedBook,
  id: string,
  list: string,
): readonly { readonly lot?: string }[] | undefined {
  const sale = book.sales.get(id);
  if (sale !== undefined) return sale.lines;
  return book.consigned.get(id)?.[list as 'sent' | 'back' | 'missing'];
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
function doubtsAbout(book: NamedBook, unsound: Unsound): (shortfall: Shortfall) => boolean {
  const { ids, texts, kinds } = unsound;
  const lacksPlace = [...ids.values()].includes('channels');
  const products = new Set([...texts].flatMap((text) => book.pieces.get(text)?.product ?? []));
  return ({ kind, what }) =>
    FED_BY[kind].some((feeder) => kinds.has(feeder)) ||
    (lacksPlace && (kind === 'finished' || kind === 'consigned')) ||
    texts.has(what) ||
    products.has(what) ||
    ids.has(what) ||
    ids.has(book.pieces.get(what)?.product ?? '');
}
