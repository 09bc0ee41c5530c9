/** What is there of a product where too few are of the pieces that a line means. */
import type { OtherPieces } from '../stock/stock.ts';
import { carries } from './finished.ts';
import { placeKey, type LotState } from './lot.ts';
import { lotsStanding, type Selection, type Ware } from './ware.ts';

/** Those of the same product that a line does not mean, the ones of its own place first. */
export function thereInstead(ware: Ware, meant: Selection): readonly OtherPieces[] {
  const lots = [...lotsStanding(ware.lots)].filter(({ lot }) => lot.product === meant.product);
  const found = new Map<string, OtherPieces>();
  for (const pieces of lots.flatMap((state) => piecesOf(state, meant))) {
    const key = [pieces.place, pieces.grade, pieces.glaze].join('\n');
    found.set(key, { ...pieces, count: pieces.count + (found.get(key)?.count ?? 0) });
  }
  const isElsewhere = ({ place }: OtherPieces): number => Number(place !== meant.place);
  return [...found.values()].sort((one, other) => isElsewhere(one) - isElsewhere(other));
}

function piecesOf(state: LotState, meant: Selection): readonly OtherPieces[] {
  const places = new Set([...state.places.keys()].map((key) => key.slice(key.indexOf(' ') + 1)));
  const all = [...places].flatMap((place) =>
    (['first', 'second'] as const).map((grade) => ({ grade, glaze: state.glaze, place })),
  );
  return all.flatMap((sort) => {
    const count = state.places.get(placeKey(sort.grade, sort.place)) ?? 0;
    return count <= 0 || isMeant(state, meant, sort) ? [] : [{ ...sort, count }];
  });
}

function isMeant(
  state: LotState,
  { lot, glaze, grade, place }: Selection,
  sort: Pick<OtherPieces, 'grade' | 'place'>,
): boolean {
  const isThatLot = lot === undefined || state.lot.id === lot;
  const isThere = sort.place === place && (grade === undefined || sort.grade === grade);
  return isThere && isThatLot && carries(state, glaze);
}
