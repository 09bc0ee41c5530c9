/** Where the value of the materials is, every unit of money that was bought; and so the cost of goods sold. */
import { keyed } from '../../grouping.ts';
import { NO_MONEY, add, less, total, type Money } from '../../number/money.ts';
import type { Flows } from '../flows.ts';
import { STUDIO_PLACE, WARE_STANDING } from '../ware/lot.ts';
import { valueOf } from './pool.ts';
import type { MovementReason, StockPool } from './stock.ts';
import type { Account } from '../ware/ware.ts';
import { cachedFor } from '../../once.ts';

/** Where material value stands on a day: in stock, mixed to glaze and clay, and in the ware. */
export const STANDING = ['materials', 'mixes', ...WARE_STANDING] as const;

export type Standing = (typeof STANDING)[number];

/** Material value: there at the beginning, bought so far, standing where, and gone which way. */
export interface MaterialValue {
  readonly bought: Money;
  /** What was there when the book began, by where it was then. */
  readonly opened: Readonly<Record<Standing, Money>>;
  readonly standing: Readonly<Record<Standing, Money>>;
  readonly leaving: Readonly<Record<Account, Money>>;
}

/**
 * Material value up to the flows' day: opened + bought = all that stands + all that left. For a period, take the
 * value at its end less the value at the eve of its start. The flows of a day never change.
 */
export const materialValue = cachedFor((flows: Pick<Flows, 'stock' | 'ware'>): MaterialValue => {
  const { stock, ware } = flows;
  const moved = (reason: MovementReason): Money => stock.sums.get(reason) ?? NO_MONEY;
  const gone = (reason: Account): Money => ware.sums.byReason.get(reason) ?? NO_MONEY;
  return {
    bought: moved('bought'),
    opened: openedValue(flows),
    standing: standingValue(flows),
    leaving: {
      sold: gone('sold'),
      lost: gone('lost'),
      given: gone('given'),
      kept: gone('kept'),
      others: less(gone('others'), moved('used')),
      differences: less(gone('differences'), moved('counted'), moved('settled')),
    },
  };
});

/** Opening stock, pool by pool, and opening ware by where it stood. */
function openedValue({ stock, ware }: Pick<Flows, 'stock' | 'ware'>): Record<Standing, Money> {
  return sumsByPlace([
    ...[...stock.pools.values()].map((pool) => [placeOfPool(pool), pool.opened] as const),
    ...[...ware.sums.opened].map(([at, value]) => [openedAt(at), value] as const),
  ]);
}

/** Where ware stood that was counted when the book began: a stage, or a place of finished ware. */
export function openedAt(at: number | string): Standing {
  if (typeof at === 'number') return at === 0 ? 'greenware' : 'bisqueware';
  return at === STUDIO_PLACE ? 'studio' : 'galleries';
}

/** The part of it that stands somewhere, without the longer reckoning of what left. */
export function standingValue({
  stock,
  ware,
}: Pick<Flows, 'stock' | 'ware'>): Record<Standing, Money> {
  return sumsByPlace([
    ...[...stock.pools.values()].map((pool) => [placeOfPool(pool), valueOf(pool.pool)] as const),
    ...[...ware.standing().values()].flat(),
  ]);
}

/** Where the value of a pool stands. */
export function placeOfPool({ material }: StockPool): Standing {
  return material ? 'materials' : 'mixes';
}

function sumsByPlace(values: Iterable<readonly [Standing, Money]>): Record<Standing, Money> {
  const sums = keyed(STANDING, () => NO_MONEY);
  for (const [place, value] of values) sums[place] = add(sums[place], value);
  return sums;
}

/** Ways that material leaves by which are part of the cost of goods sold. */
export const CONSUMED = ['sold', 'lost', 'given', 'others', 'differences'] as const;

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
  const left = (way: Account): Money => less(end.leaving[way], eve.leaving[way]);
  const consumed = keyed(CONSUMED, left);
  return {
    opening: keyed(STANDING, (place) =>
      add(eve.standing[place], less(end.opened[place], eve.opened[place])),
    ),
    purchases: less(end.bought, eve.bought),
    ownUse: left('kept'),
    closing: end.standing,
    consumed,
    costOfGoodsSold: total(Object.values(consumed)),
  };
}
