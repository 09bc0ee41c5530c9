/** Where the value of the materials is: every unit of money that was bought is somewhere. */
import { type Money, NO_MONEY, add, less, total } from '../number/money.ts';
import { valueOf } from './pool.ts';
import type { MovementReason } from './stock.ts';
import type { Account } from './ware.ts';
import type { Flows, StockFlow, WareFlow } from './flows.ts';
import { STUDIO_PLACE, WARE_STANDING } from './lot.ts';

/** A place where material value stands on a day. */
export const STANDING = [
  'materials in stock',
  'glaze buckets and mixed clay',
  ...WARE_STANDING,
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
const knownValues = new WeakMap<StockFlow, MaterialValue>();

/**
 * Material value up to the flows' day: opened + bought = all that stands + all that left. For a period, take the
 * value at its end less the value at the eve of its start.
 */
export function materialValue({ stock, ware }: Pick<Flows, 'stock' | 'ware'>): MaterialValue {
  const value = knownValues.get(stock) ?? sumUp({ stock, ware });
  knownValues.set(stock, value);
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

function lotValues({ standing }: WareFlow): Record<(typeof WARE_STANDING)[number], Money> {
  const values = {
    greenware: NO_MONEY,
    bisqueware: NO_MONEY,
    'in the kiln': NO_MONEY,
    'finished ware, studio': NO_MONEY,
    'finished ware, galleries': NO_MONEY,
  };
  for (const lot of standing().values())
    for (const [place, value] of lot) values[place] = add(values[place], value);
  return values;
}

/** Ways that material leaves by which are part of the cost of goods sold. */
export const CONSUMED = [
  'sold',
  'lost',
  'given away',
  'classes and others',
  'stocktake differences',
] as const satisfies readonly Leaving[];

export type Consumed = (typeof CONSUMED)[number];

/** A period; what was counted when the book began in it is opening stock. Opening + purchases − own use − closing = cost of goods sold = all consumed. */
export interface Goods {
  readonly opening: Readonly<Record<Standing, Money>>;
  readonly purchases: Money;
  /** Finished ware that the potter kept. */
  readonly ownUse: Money;
  readonly closing: Readonly<Record<Standing, Money>>;
  readonly consumed: Readonly<Record<Consumed, Money>>;
  readonly costOfGoodsSold: Money;
}

/** The period between two days' ends. */
export function goodsBetween(eve: MaterialValue, end: MaterialValue): Goods {
  const left = (way: Leaving): Money => less(end.leaving[way], eve.leaving[way]);
  const consumed: Record<Consumed, Money> = {
    sold: left('sold'),
    lost: left('lost'),
    'given away': left('given away'),
    'classes and others': left('classes and others'),
    'stocktake differences': left('stocktake differences'),
  };
  const opening = STANDING.map((place): [Standing, Money] => [
    place,
    add(eve.standing[place], less(end.opened[place], eve.opened[place])),
  ]);
  return {
    opening: Object.fromEntries(opening) as Goods['opening'],
    purchases: less(end.bought, eve.bought),
    ownUse: left('kept'),
    closing: end.standing,
    consumed,
    costOfGoodsSold: total(Object.values(consumed)),
  };
}
