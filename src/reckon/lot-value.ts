/** The material in the lots that stand anywhere, lot by lot: what has not changed is not looked at again. */
import { NO_MONEY, type Money } from '../number/money.ts';
import { restOf } from './batch.ts';
import { materialOf } from './cost.ts';
import { isStanding } from './lots.ts';
import { placedPieces } from './shelf.ts';
import { STUDIO_PLACE, type LotState, type Ware } from './ware.ts';

/** Where material in ware can stand. */
export const WARE_STANDING = [
  'greenware',
  'bisqueware',
  'in the kiln',
  'finished ware, studio',
  'finished ware, galleries',
] as const;

type WareStanding = (typeof WARE_STANDING)[number];

/** The material in one lot, by where it stands. */
export type LotValue = readonly (readonly [place: WareStanding, value: Money])[];

/** Lots of which pieces are anywhere → the material in them, as they are now. */
export function standingNow({
  standing,
  touched,
}: Pick<Ware, 'standing' | 'touched'>): Map<string, LotValue> {
  const now = new Map(standing);
  for (const state of touched)
    if (isStanding(state)) now.set(state.lot.id, lotValue(state));
    else now.delete(state.lot.id);
  return now;
}

function lotValue(state: LotState): LotValue {
  const stages = state.stages.map((batch, stage) => {
    const place = stage === 0 ? 'greenware' : 'bisqueware';
    return [place, materialOf(restOf(batch).cost)] as const;
  });
  const inKiln = state.inKiln.map(({ cost }) => ['in the kiln', materialOf(cost)] as const);
  const finished = placedPieces(state).map(({ place, cost }) => {
    const isHere = place === STUDIO_PLACE;
    const standing = isHere ? 'finished ware, studio' : 'finished ware, galleries';
    return [standing, materialOf(cost)] as const;
  });
  return [...stages, ...inKiln, ...finished].filter(([, value]) => value !== NO_MONEY);
}
