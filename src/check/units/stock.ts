/** Quantities of materials and clays against the unit that they are kept in. */
import type { Book, ClayUse, Lot } from '../../book.ts';
import type { Quantity, Unit } from '../../number/unit.ts';
import { findEach, type Say, type Sited } from '../finding.ts';
import type { RuleFinding } from '../rule.ts';
import { mustFitStock } from './fits.ts';

interface Stock {
  readonly id: string;
  readonly unit: Unit;
}

interface Line {
  readonly material: string;
  readonly quantity: Quantity;
}

interface Look {
  readonly book: Book;
  readonly record: Sited;
  readonly say: Say;
}

/** Quantities in a unit that measures something else than the stock unit of their material. */
export function badStockUnits(book: Book): readonly RuleFinding[] {
  return [...inDefinitions(book), ...inWare(book), ...inEvents(book)];
}

/** A material, or a clay recipe, which is kept by weight. */
function stockOf(book: Book, id: string | undefined): Stock | undefined {
  if (id === undefined) return undefined;
  return book.materials.get(id) ?? (book.recipes.has(id) ? { id, unit: 'g' } : undefined);
}

function inDefinitions(book: Book): readonly RuleFinding[] {
  return [
    ...findEach(book.materials, (material, say) => {
      const { reorderAt: quantity } = material;
      mustFitStock({ record: material, path: ['reorder-at'], quantity }, material, say);
    }),
    ...findEach(book.products, (product, say) => {
      const look = { book, record: product, say };
      lookAtClay(look, product.clay);
      const packing = product.packing?.map(({ material, each }) => ({ material, quantity: each }));
      lookAtLines(look, ['packing', 'each'], packing);
    }),
    ...findEach(book.classes, (taught, say) => {
      lookAtClay({ book, record: taught, say }, taught.clay);
    }),
  ];
}

function inWare(book: Book): readonly RuleFinding[] {
  return findEach(book.pieces, (lot, say) => {
    if (lot.clay !== undefined) lookAtClay({ book, record: lot, say }, clayOf(book, lot));
  });
}

function clayOf(book: Book, { clay, product }: Lot): Partial<ClayUse> {
  const material = clay?.material ?? book.products.get(product)?.clay?.material;
  return { ...(material && { material }), ...(clay?.each && { each: clay.each }) };
}

function inEvents(book: Book): readonly RuleFinding[] {
  return [
    ...findEach(book.bought, (bought, say) => {
      lookAtLines({ book, record: bought, say }, ['lines', 'quantity'], bought.lines);
    }),
    ...findEach(book.reclaimed, (reclaimed, say) => {
      lookAtOne({ book, record: reclaimed, say }, ['quantity'], reclaimed);
    }),
    ...findEach(book.used, (used, say) => {
      lookAtOne({ book, record: used, say }, ['quantity'], used);
    }),
    ...findEach(book.firings, (firing, say) => {
      const look = { book, record: firing, say };
      lookAtLines(look, ['supplies', 'quantity'], firing.supplies);
      const fuel = firing.fuelUsed;
      if (fuel && 'material' in fuel) lookAtOne(look, ['fuel-used', 'quantity'], fuel);
    }),
    ...findEach(book.counted, (counted, say) => {
      lookAtLines({ book, record: counted, say }, ['materials', 'quantity'], counted.materials);
    }),
  ];
}

function lookAtLines(
  look: Look,
  [list, key]: readonly [string, string],
  lines: readonly Line[] | undefined,
): void {
  lines?.forEach((line, index) => {
    lookAtOne(look, [list, index, key], line);
  });
}

function lookAtOne(
  { book, record, say }: Look,
  path: readonly (string | number)[],
  { material, quantity }: Line,
): void {
  mustFitStock({ record, path, quantity }, stockOf(book, material), say);
}

function lookAtClay({ book, record, say }: Look, clay: Partial<ClayUse> | undefined): void {
  const measured = { record, path: ['clay', 'each'], quantity: clay?.each };
  mustFitStock(measured, stockOf(book, clay?.material), say);
}
