/** Where the value of the materials is: every unit of money that was bought is somewhere. */
import { NO_MONEY, add, less, total, type Money } from '../number/money.ts';
import { restOf } from './batch.ts';
import { materialOf } from './cost.ts';
import type { Flows } from './flow.ts';
import { valueOf } from './pool.ts';
import { placedPieces } from './shelf.ts';
import type { StockFlow } from './stock-flow.ts';
import type { MovementReason } from './stock.ts';
import { lotsStanding } from './lots.ts';
import { STUDIO_PLACE, type Account, type LotState } from './ware.ts';
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

/** A way that material leaves by. */
export const LEAVING = [
  'sold',
  'lost',
  'given away',
  'kept',
  'classes and others',
  'stocktake differences',
] as const;

export type Standing = (typeof STANDING)[number];
export type Leaving = (typeof LEAVING)[number];

/** Material value: there at the beginning, bought so far, standing where, and gone which way. */
export interface MaterialValue {
  readonly bought: Money;
  /** What was there when the book began, by where it was then. */
  readonly opened: Readonly<Record<Standing, Money>>;
  readonly standing: Readonly<Record<Standing, Money>>;
  readonly leaving: Readonly<Record<Leaving, Money>>;
}

/** The flows of a day never change. */
const known = new WeakMap<StockFlow, MaterialValue>();

/**
 * Material value up to the flows' day: opened + bought = all that stands + all that left. For a period, take the
 * value at its end less the value at the eve of its start.
 */
export function materialValue({ stock, ware }: Pick<Flows, 'stock' | 'ware'>): MaterialValue {
  const value = known.get(stock) ?? sumUp({ stock, ware });
  known.set(stock, value);
  return value;
}

function sumUp({ stock, ware }: Pick<Flows, 'stock' | 'ware'>): MaterialValue {
  const { byReason } = ware.sums;
  const moved = (reason: MovementReason): Money => stock.sums.get(reason) ?? NO_MONEY;
  const gone = (reason: Account): Money => byReason.get(reason) ?? NO_MONEY;
  return {
    bought: moved('bought'),
    opened: openedValue({ stock, ware }),
    standing: standingValue({ stock, ware }),
    leaving: {
      sold: gone('sold'),
      lost: gone('lost'),
      'given away': gone('given'),
      kept: gone('kept'),
      'classes and others': less(gone('others'), moved('used')),
      'stocktake differences': less(gone('differences'), moved('counted'), moved('settled')),
    },
  };
}

/** Opening stock, pool by pool, and opening ware by where it stood. */
function openedValue({ stock, ware }: Pick<Flows, 'stock' | 'ware'>): MaterialValue['opened'] {
  const values = Object.fromEntries(STANDING.map((place) => [place, NO_MONEY]));
  const opened = values as Record<Standing, Money>;
  for (const { material, opened: value } of stock.pools.values()) {
    const place = material ? 'materials in stock' : 'glaze buckets and mixed clay';
    opened[place] = add(opened[place], value);
  }
  for (const [at, value] of ware.sums.opened)
    opened[openedAt(at)] = add(opened[openedAt(at)], value);
  return opened;
}

function openedAt(at: number | string): Standing {
  if (at === 0) return 'greenware';
  if (typeof at === 'number') return 'bisqueware';
  return at === STUDIO_PLACE ? 'finished ware, studio' : 'finished ware, galleries';
}

/** The part of it that stands somewhere, without the longer reckoning of what left. */
export function standingValue({
  stock,
  ware,
}: Pick<Flows, 'stock' | 'ware'>): MaterialValue['standing'] {
  return { ...poolValues(stock), ...lotValues(ware) };
}

function poolValues(
  stock: StockFlow,
): Pick<Record<Standing, Money>, 'materials in stock' | 'glaze buckets and mixed clay'> {
  const pools = [...stock.pools.values()];
  const valued = (wanted: boolean): Money =>
    total(
      pools
        .filter((pool) => (pool.material !== undefined) === wanted)
        .map((pool) => valueOf(pool.pool)),
    );
  return { 'materials in stock': valued(true), 'glaze buckets and mixed clay': valued(false) };
}

type LotStanding = Exclude<Standing, 'materials in stock' | 'glaze buckets and mixed clay'>;

function lotValues(ware: WareFlow): Record<LotStanding, Money> {
  const values: Record<LotStanding, Money> = {
    greenware: NO_MONEY,
    bisqueware: NO_MONEY,
    'in the kiln': NO_MONEY,
    'finished ware, studio': NO_MONEY,
    'finished ware, galleries': NO_MONEY,
  };
  for (const state of lotsStanding(ware.lots))
    for (const [standing, value] of lotParts(state))
      values[standing] = add(values[standing], value);
  return values;
}

function lotParts(state: LotState): [LotStanding, Money][] {
  return [
    ...state.stages.map((batch, stage): [LotStanding, Money] => [
      stage === 0 ? 'greenware' : 'bisqueware',
      materialOf(restOf(batch).cost),
    ]),
    ...state.inKiln.map(({ cost }): [LotStanding, Money] => ['in the kiln', materialOf(cost)]),
    ...placedPieces(state).map(({ place, cost }): [LotStanding, Money] => [
      place === STUDIO_PLACE ? 'finished ware, studio' : 'finished ware, galleries',
      materialOf(cost),
    ]),
  ];
}
