/** Which glaze went where a line names none: what the book can't know, until a count says it. */
import type { Day, Grade } from '../../book.ts';
import { addTo } from '../../grouping.ts';
import type { Spot } from '../../problem.ts';
import { type OpenGlaze, type Selection, type Ware, readyAt } from './ware.ts';
import { type LotState, placeKey } from './lot.ts';

/** What a line took, and from which lots. */
interface LineTaking {
  readonly day: Day;
  readonly at: Spot;
  readonly from: readonly { readonly lot: LotState; readonly count: number }[];
}

const GRADES: readonly Grade[] = ['first', 'second'];

/**
 * Notes a taking that could choose among glazes: lot and glaze are not named, pieces with different
 * glazes were there, and some are left. Of a product with one glaze nothing is looked at.
 */
export function noteOpenGlaze(
  ware: Ware,
  { product, lot, glaze, grade, place }: Selection,
  { day, at, from }: LineTaking,
): void {
  const glazes = ware.glazes.get(product);
  if (lot !== undefined || glaze !== undefined || from.length === 0) return;
  if (glazes === undefined || glazes.size < 2) return;
  const keys = placeKeys(grade, place);
  const left = keys.flatMap((key) => readyAt(ware, product, key));
  const taken = new Map(left.map((state) => [state.glaze, 0]));
  for (const each of from) taken.set(each.lot.glaze, (taken.get(each.lot.glaze) ?? 0) + each.count);
  if (left.length === 0 || taken.size < 2) return;
  const found = { day, at, product, grade, place, taken, open: new Set(taken.keys()) };
  ware.openGlazes.push(found);
  for (const key of keys) addTo(ware.openAt, `${product} ${key}`, found);
}

/** Pieces that were counted by their glaze: how many of it are left is known again. */
export function settleCounted(ware: Ware, { product, glaze, grade, place }: Selection): void {
  if (glaze === undefined) return;
  const open = new Set(
    placeKeys(grade, place).flatMap((key) => ware.openAt.get(`${product} ${key}`) ?? []),
  );
  for (const each of open) {
    if (grade !== undefined && each.grade !== grade) continue;
    const [only, ...others] = [...each.open].filter((name) => name.split(' + ').includes(glaze));
    if (only !== undefined && others.length === 0) settle(each, only);
  }
}

/** Where nothing is left of what could be chosen from, nothing is uncertain. */
export function settleEmpty(ware: Ware, product: string, key: string): void {
  const open = ware.openAt.get(`${product} ${key}`);
  if (open === undefined) return;
  ware.openAt.delete(`${product} ${key}`);
  const isLeft = ({ grade, place }: OpenGlaze): boolean =>
    placeKeys(grade, place).some((each) => readyAt(ware, product, each).length > 0);
  for (const each of open) if (!isLeft(each)) each.open.clear();
}

function placeKeys(grade: Grade | undefined, place: string): string[] {
  return (grade ? [grade] : GRADES).map((each) => placeKey(each, place));
}

/** How many there are of all glazes is known, so with all but one of them that one is, too. */
function settle({ open }: OpenGlaze, glaze: string): void {
  open.delete(glaze);
  if (open.size === 1) open.clear();
}
