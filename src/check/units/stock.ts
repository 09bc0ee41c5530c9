/** Quantities of materials and clays against the unit that they are kept in. */
import type { ClayUse, Lot, NamedBook } from '../../book.ts';
import type { Quantity, Unit } from '../../number/unit.ts';
import { clayOn } from '../across.ts';
import { eachStating, type Say, type Sited } from '../finding.ts';
import { each, type EachLook } from '../rule.ts';
import { mustFitStock } from './fuel.ts';

interface Stock {
  readonly id: string;
  readonly unit: Unit;
}

interface Line {
  readonly material: string;
  readonly quantity: Quantity;
}

interface Measuring {
  readonly book: NamedBook;
  readonly record: Sited;
  readonly say: Say;
  /** Where what is looked at stands in the record; absent: in the record itself. */
  readonly path?: readonly (string | number)[];
}

/** A material, or a clay recipe, which is kept by weight. */
function stockOf(book: NamedBook, id: string | undefined): Stock | undefined {
  if (id === undefined) return undefined;
  return book.materials.get(id) ?? (book.recipes.has(id) ? { id, unit: 'g' } : undefined);
}

function clayOf(book: NamedBook, lot: Lot): Partial<ClayUse> {
  const { clay } = lot;
  const material = clay?.material ?? clayOn(book, lot)?.material;
  return { ...(material && { material }), ...(clay?.each && { each: clay.each }) };
}

/** Quantities in a unit that measures something else than the stock unit of their material. */
export const badStockUnits: readonly EachLook[] = [
  each('materials', (material, { say }) => {
    const { reorderAt: quantity } = material;
    mustFitStock({ record: material, path: ['reorder-at'], quantity }, material, say);
  }),
  each('products', (product, { book, say }) => {
    eachStating(product, (stated, path) => {
      const look = { book, record: product, say, path };
      lookAtClay(look, stated.clay);
      const packing = stated.packing?.map(({ material, each: quantity }) => ({
        material,
        quantity,
      }));
      lookAtLines(look, ['packing', 'each'], packing);
    });
  }),
  each('classes', (taught, { book, say }) => {
    eachStating(taught, (stated, path) => {
      lookAtClay({ book, record: taught, say, path }, stated.clay);
    });
  }),
  each('pieces', (lot, { book, say }) => {
    if (lot.clay !== undefined) lookAtClay({ book, record: lot, say }, clayOf(book, lot));
  }),
  each('bought', (bought, { book, say }) => {
    lookAtLines({ book, record: bought, say }, ['lines', 'quantity'], bought.lines);
  }),
  each(['reclaimed', 'used'], (record, { book, say }) => {
    lookAtOne({ book, record, say }, ['quantity'], record);
  }),
  each('firings', (firing, { book, say }) => {
    const look = { book, record: firing, say };
    lookAtLines(look, ['supplies', 'quantity'], firing.supplies);
    const fuel = firing.fuelUsed;
    if (fuel && 'material' in fuel) lookAtOne(look, ['fuel-used', 'quantity'], fuel);
  }),
  each('counted', (counted, { book, say }) => {
    lookAtLines({ book, record: counted, say }, ['materials', 'quantity'], counted.materials);
  }),
];

function lookAtLines(
  look: Measuring,
  [list, key]: readonly [string, string],
  lines: readonly Line[] | undefined,
): void {
  lines?.forEach((line, index) => {
    lookAtOne(look, [list, index, key], line);
  });
}

function lookAtOne(
  { book, record, say, path: above = [] }: Measuring,
  path: readonly (string | number)[],
  { material, quantity }: Line,
): void {
  mustFitStock({ record, path: [...above, ...path], quantity }, stockOf(book, material), say);
}

function lookAtClay(look: Measuring, clay: Partial<ClayUse> | undefined): void {
  const { book, record, say, path = [] } = look;
  const measured = { record, path: [...path, 'clay', 'each'], quantity: clay?.each };
  mustFitStock(measured, stockOf(book, clay?.material), say);
}
