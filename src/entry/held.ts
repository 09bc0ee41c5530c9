/** What a studio holds on a day, in a form that JSON can keep. */
import type { Grade } from '../book.ts';
import { isUnit, type Unit } from '../number/unit.ts';

/**
 * So much of a material or of a recipe's mix, as the digits of a measure, and the unit that it is told
 * in.
 */
export type HeldStock = readonly [id: string, unit: Unit, quantity: string];

/** So many pieces under one name: `mug bisqueware`, `mug seconds at west-window`. */
export type HeldPieces = readonly [name: string, count: number];

/** Every pool of stock and every pile of pieces. */
export interface Holdings {
  readonly stock: readonly HeldStock[];
  readonly pieces: readonly HeldPieces[];
}

/** Nothing at all. */
export const NOTHING_HELD: Holdings = { stock: [], pieces: [] };

/** Holdings that were kept; undefined where it is something else. */
export function asHoldings(kept: unknown): Holdings | undefined {
  const { stock, pieces } = (kept ?? {}) as Partial<Holdings>;
  const isSound = Array.isArray(stock) && stock.every(isStock) && Array.isArray(pieces);
  return isSound && pieces.every(arePieces) ? { stock, pieces } : undefined;
}

const QUANTITY = /^-?\d+$/;

function isStock(row: unknown): row is HeldStock {
  if (!Array.isArray(row)) return false;
  const [id, unit, quantity] = row as unknown[];
  return areTexts([id, unit, quantity]) && isUnit(String(unit)) && QUANTITY.test(String(quantity));
}

function arePieces(row: unknown): row is HeldPieces {
  return Array.isArray(row) && typeof row[0] === 'string' && Number.isSafeInteger(row[1]);
}

/** Whether all of them are texts. */
export function areTexts(values: readonly unknown[]): boolean {
  return values.every((value) => typeof value === 'string');
}

/** The name of finished pieces of a product that stand `in the studio` or elsewhere. */
export function finishedName(product: string, grade: Grade, where: string): string {
  return `${product} ${grade === 'second' ? 'seconds ' : ''}${where}`;
}

/** Where what stands in the studio itself is said to be. */
export const IN_THE_STUDIO = 'in the studio';

/** Where what stands at a gallery is said to be, by the channel's id. */
export function atGallery(channel: string): string {
  return `at ${channel}`;
}

const GRADES = ['first', 'second'] as const;

/** Products with how many finished pieces of either grade stand `where`, none without any. */
export function heldThere({ pieces }: Holdings, where: string): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const [name, count] of pieces) {
    const [product = ''] = name.split(' ');
    const isThere = GRADES.some((grade) => name === finishedName(product, grade, where));
    if (isThere && count > 0) counts.set(product, (counts.get(product) ?? 0) + count);
  }
  return counts;
}
