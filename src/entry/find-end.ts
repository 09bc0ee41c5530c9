/** Finds where a book ends, by going through it. */
import { KINDS, type Book, type Counted, type Day, type Sale } from '../book.ts';
import { faultFinder } from '../check/walk.ts';
import { isOpening } from '../reckon/opening.ts';
import { outOn } from '../reckon/out-of-kiln.ts';
import { TIMELINE_KINDS } from '../reckon/timeline.ts';
import { idsFrom, type BookEnd } from './book-end.ts';
import { finishedName, IN_THE_STUDIO, NOTHING_HELD, type Holdings } from './held.ts';
import { holdingsOf } from './holdings.ts';

/** What has to be known of a book's last day. */
export function bookEnd(book: Book): BookEnd {
  const day = lastDay(book);
  const sales = [...book.sales.values()].filter(({ date }) => date === day);
  const stocktakes = [...book.counted.values()]
    .filter(({ date }) => date === day)
    .map((counted) => linesOf(counted, false));
  const bound = [
    ...sales.flatMap(({ lines }) => lines).filter(isBound),
    ...stocktakes.flatMap(({ pieces = [] }) => pieces).filter(isMixedUp),
  ];
  const products = new Set(bound.flatMap(({ product }) => product ?? []));
  return {
    day,
    uncounted: uncountedIn(book, day, stocktakes),
    bound: [...products].sort(),
    settled: lastOfDates(book),
    ids: idsFrom(
      day,
      KINDS.flatMap((kind) => [...book[kind].keys()]),
    ),
  };
}

function lastDay(book: Book): Day {
  let last = '';
  const look = ({ date }: { readonly date: Day }): void => {
    if (date > last) last = date;
  };
  for (const kind of TIMELINE_KINDS) for (const record of book[kind].values()) look(record);
  for (const filing of book.filed.values()) look(filing);
  for (const { lost = [], gone = [] } of book.pieces.values()) [...lost, ...gone].forEach(look);
  for (const firing of book.firings.values()) look({ date: outOn(firing) });
  return last;
}

/** Of all dates but those of classes and fairs, which are planned ahead. */
function lastOfDates(book: Book): Day {
  const { closedThrough = '', starts = '' } = book.studio;
  let last = closedThrough > starts ? closedThrough : starts;
  const look = (value: unknown): boolean => {
    if (typeof value === 'string' && /^\d/.test(value) && value > last) last = value;
    return true;
  };
  const lookAt = faultFinder({
    wants: ({ type }) => type === 'day' || type === 'paid',
    tester: () => look,
  });
  for (const kind of KINDS.filter((each) => each !== 'classes' && each !== 'fairs'))
    for (const record of book[kind].values()) lookAt(kind, record, book);
  return last;
}

function isBound({ lot, glaze, returned }: Sale['lines'][number]): boolean {
  return lot !== undefined || glaze !== undefined || returned === 'yes';
}

type CountedPieces = NonNullable<Counted['pieces']>[number];

function isMixedUp({ place, glaze, grade }: CountedPieces): boolean {
  return place === undefined && (glaze !== undefined || grade === undefined);
}

function uncountedIn(book: Book, day: Day, stocktakes: readonly Counted[]): Holdings {
  if (stocktakes.length === 0) return NOTHING_HELD;
  const earlier = [...book.counted].map(([id, counted]): [string, Counted] => [
    id,
    counted.date === day ? linesOf(counted, true) : counted,
  ]);
  const { stock, pieces } = holdingsOf({ ...book, counted: new Map(earlier) }, day);
  const materials = stocktakes.flatMap((counted) => counted.materials ?? []);
  const ids = new Set(materials.map(({ material }) => material));
  const names = new Set(stocktakes.flatMap((counted) => counted.pieces ?? []).flatMap(nameOf));
  const known = new Map(pieces);
  return {
    stock: stock.filter(([id]) => ids.has(id)),
    // Of what was not there before, a stocktake may all the same have found some.
    pieces: [...names].sort().map((name) => [name, known.get(name) ?? 0]),
  };
}

/** A count with those of its lines alone that say what was there when the book began, or without them. */
function linesOf(counted: Counted, opening: boolean): Counted {
  const { materials = [], pieces = [] } = counted;
  const isMeant = (line: { readonly cost?: unknown }): boolean => isOpening(line) === opening;
  return { ...counted, materials: materials.filter(isMeant), pieces: pieces.filter(isMeant) };
}

/** What stands elsewhere no sale from the studio takes. */
function nameOf({ product, grade, place }: CountedPieces): string[] {
  if (place !== undefined || grade === undefined) return [];
  return [finishedName(product, grade, IN_THE_STUDIO)];
}
