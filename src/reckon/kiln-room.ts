/** Whether a kiln load is full: the space of the ware that waits for a firing against each kiln's. */
import type { Book, FiringKind, Kiln } from '../book.ts';
import { ZERO, divide, type Decimal } from '../number/decimal.ts';
import type { Open } from './open.ts';
import type { Waiting } from './standing.ts';

/** The ware that waits for one kind of firing, against one kiln. */
export interface KilnRoom {
  readonly kind: FiringKind;
  readonly kiln: Kiln;
  /** Space of all ware that waits for the kind, in the unit of the products' space. */
  readonly waiting: Decimal;
  /** The kiln's own. */
  readonly space: Decimal;
  /** Waiting ÷ space; above 1 some has to wait for another load. */
  readonly share: Decimal;
}

/**
 * For each kind of firing that ware waits for, every kiln that fires that kind: those that have fired
 * it so far, or where none has, all. Kilns without a stated space are left out. In the order
 * in which a pot comes to the kinds, then of the kilns' ids.
 */
export function kilnRoom(book: Book, open: Open, waiting: readonly Waiting[]): KilnRoom[] {
  return [...spaces(waiting)].flatMap(([kind, space]) =>
    kilnsFor(book, open, kind).flatMap((kiln) => roomIn(kiln, kind, space)),
  );
}

function spaces(waiting: readonly Waiting[]): Map<FiringKind, Decimal> {
  const byKind = new Map<FiringKind, Decimal>();
  for (const { next, space } of waiting) byKind.set(next, (byKind.get(next) ?? ZERO).plus(space));
  return new Map([...byKind].sort(([a], [b]) => rank(a) - rank(b)));
}

/** The kinds in the order in which a pot may come to them. */
const ORDER: readonly FiringKind[] = ['bisque', 'once', 'glaze', 'raku', 'lustre', 'test'];

function rank(kind: FiringKind): number {
  return ORDER.indexOf(kind);
}

function kilnsFor(book: Book, { fired }: Open, kind: FiringKind): Kiln[] {
  const kilns = [...book.kilns.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
  const proven = kilns.filter(({ id }) => fired.get(kind)?.has(id));
  return proven.length === 0 ? kilns : proven;
}

function roomIn(kiln: Kiln, kind: FiringKind, waiting: Decimal): KilnRoom[] {
  const { space } = kiln;
  if (!space?.gt(ZERO)) return [];
  return [{ kind, kiln, waiting, space, share: divide(waiting, space) }];
}
