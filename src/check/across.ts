/** What rules look up again and again across records: made once a book. */
import type { Book, ClayUse, Day, Firing, GlazeUse, LoadLine, Lot } from '../book.ts';
import { inForce } from '../in-force.ts';
import { once } from './finding.ts';

/** One lot's share of one firing. */
export interface Load {
  readonly firing: Firing;
  readonly line: LoadLine;
  /** Which of the firing's load lines it is. */
  readonly index: number;
}

/** Lot id → the load lines that name it, in the order of the firings in the book. */
export const loadsOf: (book: Book) => ReadonlyMap<string, readonly Load[]> = once((book) => {
  const loads = new Map<string, Load[]>();
  for (const firing of book.firings.values())
    firing.load.forEach((line, index) => {
      if (line.lot === undefined) return;
      const known = loads.get(line.lot);
      if (known === undefined) loads.set(line.lot, [{ firing, line, index }]);
      else known.push({ firing, line, index });
    });
  return loads;
});

/** Bag number → the day of the earliest purchase that has it. */
export type Bags = ReadonlyMap<string, Day>;

/**
 * Material or clay recipe → its bags on record: the numbers on bags, and the ids of the purchases
 * and mixes that brought them.
 */
export const bagsOf: (book: Book) => ReadonlyMap<string, Bags> = once((book) => {
  const bags = new Map<string, Map<string, Day>>();
  const keep = (material: string, name: string | undefined, day: Day): void => {
    if (name === undefined) return;
    const known = bags.get(material) ?? new Map<string, Day>();
    const earlier = known.get(name);
    known.set(name, earlier === undefined || day < earlier ? day : earlier);
    bags.set(material, known);
  };
  for (const { id, date, lines } of book.bought.values())
    for (const { material, lot } of lines) {
      keep(material, id, date);
      keep(material, lot, date);
    }
  for (const { id, date, recipe } of book.mixed.values()) keep(recipe, id, date);
  return bags;
});

/** The glazes on a lot: its own, else its product's of the day that it was made. */
export function glazesOf(book: Book, lot: Lot): readonly GlazeUse[] {
  return lot.glazes ?? inForce(book.products.get(lot.product), lot.date)?.glazes ?? [];
}

/** The clay that a lot's product is made of, on the day that the lot was made. */
export function clayOn(book: Book, { product, date }: Lot): ClayUse | undefined {
  return inForce(book.products.get(product), date)?.clay;
}
