/** What is uncertain of stock by glaze, since lines or lots name none. */
import type { Book, Day, Grade, Lot } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import { type OpenGlaze, lotsStanding } from './ware.ts';
import { placeKey } from './lot.ts';
import type { WareFlow } from '../flows.ts';
import { byDate } from '../../text-order.ts';

/** Pieces of one product, grade and place that went out with no glaze named. */
export interface GlazeDoubt {
  readonly product: string;
  /** Absent: a stocktake of both. */
  readonly grade: Grade | undefined;
  readonly place: string;
  readonly since: Day;
  readonly count: number;
  readonly glazes: readonly DoubtfulGlaze[];
}

/** How far what is there of one glaze may be off at most. */
export interface DoubtfulGlaze {
  readonly glaze: string;
  readonly more: number;
  readonly fewer: number;
}

/** All that is uncertain on the day, in the order in which it began. */
export function glazeDoubts(ware: WareFlow): GlazeDoubt[] {
  const open = openTakings(ware);
  const groups = grouped(open, ({ product, grade, place }) => [product, grade, place].join('\n'));
  return [...groups.values()].flatMap((takings) => {
    const [first] = takings;
    if (first === undefined) return [];
    const { product, grade, place, day: since } = first;
    const count = takings.reduce((all, { taken }) => all + sum(taken.values()), 0);
    return [{ product, grade, place, since, count, glazes: glazesOf(ware, takings) }];
  });
}

/** The takings of which nobody knows the glaze yet. */
export function openTakings({ openGlazes }: Pick<WareFlow, 'openGlazes'>): OpenGlaze[] {
  return openGlazes.filter(({ open }) => open.size > 0);
}

/**
 * What the book took of a glaze may have been others, so there may be more of it; what it took of others
 * may have been of this one, as far as there is any.
 */
function glazesOf(ware: WareFlow, takings: readonly OpenGlaze[]): DoubtfulGlaze[] {
  const names = [...new Set(takings.flatMap(({ open }) => [...open]))].sort();
  return names.flatMap((glaze) => {
    const its = takings.filter(({ open }) => open.has(glaze));
    const more = its.reduce((all, { taken }) => all + (taken.get(glaze) ?? 0), 0);
    const others = its.reduce((all, { taken }) => all + sum(taken.values()), -more);
    const fewer = Math.min(others, standing(ware, takings[0], glaze));
    return more + fewer === 0 ? [] : [{ glaze, more, fewer }];
  });
}

function standing({ lots }: WareFlow, taking: OpenGlaze | undefined, glaze: string): number {
  if (taking === undefined) return 0;
  const { product, grade, place } = taking;
  const grades: readonly Grade[] = grade ? [grade] : ['first', 'second'];
  const its = [...lotsStanding(lots)].filter(
    (state) => state.lot.product === product && state.glaze === glaze,
  );
  return sum(
    its.flatMap(({ places }) => grades.map((each) => places.get(placeKey(each, place)) ?? 0)),
  );
}

function sum(counts: Iterable<number>): number {
  return [...counts].reduce((all, count) => all + count, 0);
}

/**
 * Lots with finished ware that name no glaze, nor does their product, though other lots of it have one.
 * An empty list says that there is none.
 */
export function lotsWithoutGlaze(
  book: Book,
  { lots, glazes, unglazed }: Pick<WareFlow, 'lots' | 'glazes' | 'unglazed'>,
): Lot[] {
  if ([...glazes.values()].every(({ size }) => size < 2)) return [];
  return [...unglazed]
    .flatMap((id) => book.pieces.get(id) ?? [])
    .filter(({ id, product, glazes: own }) => {
      const isNamed = (own ?? lots.get(id)?.product?.glazes) !== undefined;
      return !isNamed && (glazes.get(product)?.size ?? 0) > 1;
    })
    .sort(byDate);
}
