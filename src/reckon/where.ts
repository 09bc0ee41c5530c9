/** Where the value of the materials is: every unit of money that was bought is somewhere. */
import { ZERO, decimal, portion, sum, type Decimal } from '../number/decimal.ts';
import { costOfSlice, restOf } from './batch.ts';
import { materialOf } from './cost.ts';
import { valueOf } from './pool.ts';
import type { Flows } from './flow.ts';
import type { StockFlow } from './stock-flow.ts';
import type { MovementReason } from './stock.ts';
import { STUDIO_PLACE, accountCost, piecesAt, type Account, type LotState } from './ware.ts';
import type { WareFlow } from './ware-flow.ts';

/** A place where material value stands on a day. */
export const STANDING = [
  'materials in stock',
  'glaze buckets and mixed clay',
  'greenware',
  'bisqueware',
  'in the kiln',
  'finished ware, studio',
  'finished ware, galleries',
] as const;

/** A way that material value leaves by. */
export const LEAVING = [
  'sold',
  'lost',
  'given away and kept',
  'classes and others',
  'stocktake differences',
] as const;

export type Standing = (typeof STANDING)[number];
export type Leaving = (typeof LEAVING)[number];

/** Material value in money: bought so far, standing where, and gone which way. */
export interface MaterialValue {
  readonly bought: Decimal;
  readonly standing: Readonly<Record<Standing, Decimal>>;
  readonly leaving: Readonly<Record<Leaving, Decimal>>;
}

/**
 * Material value up to the flows' day. To the last digit, bought = all that stands + all that left:
 * for a period, take the value at its end less the value at the eve of its start.
 */
export function materialValue({ stock, ware }: Pick<Flows, 'stock' | 'ware'>): MaterialValue {
  const moved = movedBy(stock);
  const gone = (account: Account): Decimal => materialOf(accountCost(ware.accounts[account]));
  return {
    bought: moved('bought'),
    standing: standingValue({ stock, ware }),
    leaving: {
      sold: gone('sold'),
      lost: gone('lost'),
      'given away and kept': gone('given').plus(gone('kept')),
      'classes and others': gone('others').minus(moved('used')),
      'stocktake differences': gone('differences').minus(moved('counted')).minus(moved('settled')),
    },
  };
}

/** The part of it that stands somewhere, without the longer reckoning of what left. */
export function standingValue({
  stock,
  ware,
}: Pick<Flows, 'stock' | 'ware'>): MaterialValue['standing'] {
  return { ...poolValues(stock), ...lotValues(ware) };
}

/** What came less what stands and left: zero, unless value leaks. */
export function leak(value: MaterialValue): Decimal {
  const standing = sum(Object.values(value.standing));
  const leaving = sum(Object.values(value.leaving));
  return value.bought.minus(standing).minus(leaving);
}

function movedBy(stock: StockFlow): (reason: MovementReason) => Decimal {
  const values = new Map<MovementReason, Decimal>();
  for (const { reason, value } of stock.movements) {
    values.set(reason, (values.get(reason) ?? ZERO).plus(value));
  }
  return (reason) => values.get(reason) ?? ZERO;
}

function poolValues(
  stock: StockFlow,
): Pick<Record<Standing, Decimal>, 'materials in stock' | 'glaze buckets and mixed clay'> {
  const pools = [...stock.pools.values()];
  const valued = (wanted: boolean): Decimal =>
    sum(
      pools
        .filter((pool) => (pool.material !== undefined) === wanted)
        .map((pool) => valueOf(pool.pool)),
    );
  return { 'materials in stock': valued(true), 'glaze buckets and mixed clay': valued(false) };
}

type LotStanding = Exclude<Standing, 'materials in stock' | 'glaze buckets and mixed clay'>;

function lotValues(ware: WareFlow): Record<LotStanding, Decimal> {
  const values: Record<LotStanding, Decimal> = {
    greenware: ZERO,
    bisqueware: ZERO,
    'in the kiln': ZERO,
    'finished ware, studio': ZERO,
    'finished ware, galleries': ZERO,
  };
  for (const state of ware.lots.values()) addLot(values, state);
  return values;
}

function addLot(values: Record<LotStanding, Decimal>, state: LotState): void {
  state.stages.forEach((pile, stage) => {
    const standing = stage === 0 ? 'greenware' : 'bisqueware';
    values[standing] = values[standing].plus(materialOf(pile.cost));
  });
  const inKiln = state.inKiln.map((pile) => materialOf(pile.cost));
  values['in the kiln'] = values['in the kiln'].plus(sum(inKiln));
  const rest = restOf(state.shelf);
  splitByPlace(values, state, { pieces: rest.count, value: materialOf(costOfSlice(rest)) });
}

/** The studio's part of a lot's finished ware; the rest stands at galleries. */
function splitByPlace(
  values: Record<LotStanding, Decimal>,
  state: LotState,
  { pieces, value }: { pieces: number; value: Decimal },
): void {
  const inStudio = piecesAt(state, STUDIO_PLACE);
  const studio = pieces === 0 ? value : portion(value, decimal(inStudio), decimal(pieces));
  values['finished ware, studio'] = values['finished ware, studio'].plus(studio);
  values['finished ware, galleries'] = values['finished ware, galleries'].plus(value.minus(studio));
}
