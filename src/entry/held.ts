/** What a studio holds on a day, in a form that JSON can keep. */
import type { Grade } from '../book.ts';
import type { Unit } from '../number/unit.ts';

/** So much of a material or of a recipe's mix, with every digit. */
export type HeldStock = readonly [id: string, unit: Unit, quantity: string];

/** So many pieces under one name: `mug bisqueware`, `mug seconds at west-window`. */
export type HeldPieces = readonly [name: string, count: number];

/** Every pool of stock and every pile of pieces. */
export interface Holdings {
  readonly stock: readonly HeldStock[];
  readonly pieces: readonly HeldPieces[];
}

/** Holdings that were kept; undefined where it is something else. */
export function asHoldings(kept: unknown): Holdings | undefined {
  const { stock, pieces } = (kept ?? {}) as Partial<Holdings>;
  return Array.isArray(stock) && Array.isArray(pieces) ? { stock, pieces } : undefined;
}

/** The name of finished pieces of a product that stand `in the studio` or elsewhere. */
export function finishedName(product: string, grade: Grade, where: string): string {
  return `${product} ${grade === 'second' ? 'seconds ' : ''}${where}`;
}

/** Where what stands in the studio itself is said to be. */
export const IN_THE_STUDIO = 'in the studio';

const IN_STUDIO = new RegExp(`^(\\S+) (?:seconds )?${IN_THE_STUDIO}$`);

/** Products with how many finished pieces of either grade stand in the studio, none without any. */
export function heldInStudio({ pieces }: Holdings): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const [name, count] of pieces) {
    const [, product] = IN_STUDIO.exec(name) ?? [];
    if (product !== undefined && count > 0) counts.set(product, (counts.get(product) ?? 0) + count);
  }
  return counts;
}
