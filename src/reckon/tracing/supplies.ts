/** What filled a bin or a bucket: bags, reclaimed clay, stock that was there at the start, and mixes. */
import type { Book, Bought, Counted, Day, Mixed } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import type { Quantity } from '../../number/unit.ts';
import { cachedFor } from '../../once.ts';
import { isOpening } from '../stock/opening.ts';

/** One arrival of a material, or one mix of a recipe. */
export interface Supply {
  /** The record's id; of a purchase or a count with the number of its line, counted from 0. */
  readonly key: string;
  readonly kind: 'bag' | 'reclaimed' | 'opening' | 'mix';
  /** Id of the record. */
  readonly by: string;
  /** The material, or the recipe of a mix. */
  readonly pool: string;
  readonly day: Day;
  /** What a record may call it: the bag's number, or the id of the record. */
  readonly names: readonly string[];
  readonly quantity: Quantity | undefined;
  /** The mix that was still in the bucket. */
  readonly topsUp?: string | undefined;
}

/** Every supply of a book, by the material or recipe. */
export const suppliesOf = cachedFor((book: Book): ReadonlyMap<string, readonly Supply[]> => {
  const all = [
    ...[...book.bought.values()].flatMap(bagsOf),
    ...[...book.reclaimed.values()].map(({ id, date, material, quantity }) =>
      supply('reclaimed', { key: id, by: id, pool: material, day: date, names: [id], quantity }),
    ),
    ...[...book.counted.values()].flatMap(openingsOf),
    ...[...book.mixed.values()].map(mixOf),
  ];
  return grouped(all, ({ pool }) => pool);
});

function supply(kind: Supply['kind'], rest: Omit<Supply, 'kind'>): Supply {
  return { kind, ...rest };
}

function bagsOf({ id, date, lines }: Bought): Supply[] {
  return lines.map(({ material, quantity, lot }, line) =>
    supply('bag', {
      key: `${id}/${line}`,
      by: id,
      pool: material,
      day: date,
      names: lot === undefined ? [id] : [lot, id],
      quantity,
    }),
  );
}

function openingsOf({ id, date, materials = [] }: Counted): Supply[] {
  return materials.flatMap((line, at) => {
    if (!isOpening(line)) return [];
    const { material, quantity } = line;
    const key = `${id}/${at}`;
    return [supply('opening', { key, by: id, pool: material, day: date, names: [id], quantity })];
  });
}

function mixOf({ id, date, recipe, topsUp, baseWeight, totalWeight }: Mixed): Supply {
  const quantity = baseWeight ?? totalWeight;
  return supply('mix', { key: id, by: id, pool: recipe, day: date, names: [id], quantity, topsUp });
}

/** The mixes that were in the bucket before a mix was added to it, by its chain of `tops-up`. */
export function bucketBefore(book: Pick<Book, 'mixed'>, mix: string): ReadonlySet<string> {
  const found = new Set<string>();
  let next = book.mixed.get(mix)?.topsUp;
  while (next !== undefined && !found.has(next) && next !== mix) {
    found.add(next);
    next = book.mixed.get(next)?.topsUp;
  }
  return found;
}

/** Mix → the last day on which a later mix says that it was still in the bucket, else its own. */
const lastSeen = cachedFor((book: Pick<Book, 'mixed'>): ReadonlyMap<string, Day> => {
  const days = new Map<string, Day>();
  for (const { id, date } of book.mixed.values())
    for (const each of [id, ...bucketBefore(book, id)]) {
      const known = days.get(each) ?? date;
      days.set(each, known < date ? date : known);
    }
  return days;
});

/** Material or recipe → the days on which a stocktake found none of it, the first one first. */
const countedEmpty = cachedFor(
  (book: Pick<Book, 'counted'>): ReadonlyMap<string, readonly Day[]> => {
    const days = [...book.counted.values()].flatMap(({ date, materials = [] }) =>
      materials
        .filter((line) => !isOpening(line) && line.quantity.value.isZero())
        .map(({ material }) => ({ material, date })),
    );
    const found = grouped(days, ({ material }) => material);
    return new Map([...found].map(([pool, each]) => [pool, each.map(({ date }) => date).sort()]));
  },
);

/** The day of the first stocktake that found none left of what the supply is of; undefined for none. */
export function countedGone(book: Book, { key, kind, pool, day }: Supply): Day | undefined {
  const seen = kind === 'mix' ? (lastSeen(book).get(key) ?? day) : day;
  return countedEmpty(book)
    .get(pool)
    ?.find((empty) => empty >= seen);
}
