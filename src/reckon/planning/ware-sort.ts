/** Ware that is planned together: one product in one glaze, with what a kiln and the hours have to know of it. */
import type { Book, FiringKind } from '../../book.ts';
import type { Cone } from '../../number/cone.ts';
import { ZERO, decimal, type Decimal } from '../../number/decimal.ts';
import { cached } from '../../once.ts';
import { spaceOfOne } from '../kilns/firing-cost.ts';
import { GLAZING, firingsOf } from '../ware/stages.ts';

/** One product in one glaze. */
export interface WareSort {
  /** `mug oatmeal`, or the product alone where any glaze will do. */
  readonly name: string;
  readonly product: string;
  readonly glaze: string | undefined;
  readonly fired: readonly FiringKind[];
  /** What its glaze is fired to. */
  readonly cone: Cone | undefined;
  /** Room of one piece in a kind of firing, in whole millionths of the unit of space. */
  readonly roomOf: (kind: FiringKind) => number;
  /** Minutes of work on one piece; 0 where they are not known. */
  readonly minutes: number;
}

const MILLION = decimal(1_000_000);

/** Space in whole millionths, so that sums are exact: up for what is taken, down for what there is. */
export function roomTaken(space: Decimal): number {
  return Math.ceil(space.times(MILLION).toNumber());
}

/** Room of several pieces in a kind of firing. */
export function roomOfAll(
  pieces: readonly { readonly sort: WareSort; readonly count: number }[],
  kind: FiringKind,
): number {
  return pieces.reduce((sum, { sort, count }) => sum + sort.roomOf(kind) * count, 0);
}

/** The sorts of a book as it is in force, each made once. */
export function wareSorts(book: Book): (product: string, glaze: string | undefined) => WareSort {
  const byName = cached((name: string) => {
    const [product = '', glaze] = name.split(' ');
    return makeSort(book, product, glaze);
  });
  return (product, glaze) => byName(glaze === undefined ? product : `${product} ${glaze}`);
}

function makeSort(book: Book, id: string, glaze: string | undefined): WareSort {
  const product = book.products.get(id);
  const recipes = glaze === undefined ? (product?.glazes ?? []).map((use) => use.recipe) : [glaze];
  const cones = recipes.flatMap((recipe) => book.recipes.get(recipe)?.cone ?? []);
  return {
    name: glaze === undefined ? id : `${id} ${glaze}`,
    product: id,
    glaze,
    fired: firingsOf(product),
    cone: cones[0],
    roomOf: cached((kind: FiringKind) => roomTaken(spaceOfOne(product, kind))),
    minutes: (product?.minutes ?? ZERO).toNumber(),
  };
}

/** The cone that a sort is fired to in a kind of firing, where that matters: ware of one cone goes together. */
export function coneIn({ cone }: WareSort, kind: FiringKind): Cone | undefined {
  return GLAZING.includes(kind) ? cone : undefined;
}
