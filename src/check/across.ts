/** What rules look up across records: bags of material, and what lots are made of. */
import { recordsHaving } from '../among.ts';
import type { Book, ClayUse, Day, GlazeUse, Lot, Mixed, NamedBook } from '../book.ts';
import { inForce } from '../in-force.ts';
import type { ReachedBook } from './rule.ts';

/** Bag number → the day of the earliest purchase that has it. */
export type Bags = ReadonlyMap<string, Day>;

/**
 * Material or clay recipe → its bags on record: the numbers on bags, and the ids of the purchases
 * and mixes that brought them.
 */
export function bagsOf({
  bought,
  mixed,
}: Pick<Book, 'bought' | 'mixed'>): ReadonlyMap<string, Bags> {
  const bags = new Map<string, Map<string, Day>>();
  const keep = (material: string, name: string | undefined, day: Day): void => {
    if (name === undefined) return;
    const known = bags.get(material) ?? new Map<string, Day>();
    const earlier = known.get(name);
    known.set(name, earlier === undefined || day < earlier ? day : earlier);
    bags.set(material, known);
  };
  for (const { id, date, lines } of bought.values())
    for (const { material, lot } of lines) {
      keep(material, id, date);
      keep(material, lot, date);
    }
  for (const { id, date, recipe } of mixed.values()) keep(recipe, id, date);
  return bags;
}

/** A bag that a mix or a lot was made of, and where it says so. */
export interface NamedBag {
  readonly record: Lot | Mixed;
  readonly path: readonly string[];
  readonly material: string;
  readonly bag: string;
}

/** The kinds of record that name bags and bring them. */
export const WITH_BAGS = {
  bought: 'all',
  mixed: 'all',
  pieces: { having: 'lot' },
} as const;

type BagBook = ReachedBook<typeof WITH_BAGS>;

/** Every bag that is named, in the order of mixes and lots. */
export function namedBags(book: BagBook): readonly NamedBag[] {
  const found: NamedBag[] = [];
  for (const record of recordsHaving(book.mixed, 'lots'))
    for (const [material, bag] of Object.entries(record.lots ?? {}))
      found.push({ record, path: ['lots', material], material, bag });
  for (const record of book.pieces.values()) {
    const bag = record.clay?.lot;
    const material = record.clay?.material ?? clayOn(book, record)?.material;
    if (bag !== undefined && material !== undefined)
      found.push({ record, path: ['clay', 'lot'], material, bag });
  }
  return found;
}

/** The glazes on a lot: its own, else its product's of the day that it was made. */
export function glazesOf(book: Pick<NamedBook, 'products'>, lot: Lot): readonly GlazeUse[] {
  return lot.glazes ?? inForce(book.products.get(lot.product), lot.date)?.glazes ?? [];
}

/** The clay that a lot's product is made of, on the day that the lot was made. */
export function clayOn(
  book: Pick<NamedBook, 'products'>,
  { product, date }: Lot,
): ClayUse | undefined {
  return inForce(book.products.get(product), date)?.clay;
}
