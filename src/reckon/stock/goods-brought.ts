/** What brings the value of the goods: what holds it on a day, and the records that moved it in a period. */
import { factsDuring, isAmong } from '../../among.ts';
import { keyed } from '../../grouping.ts';
import { opposite, type Money } from '../../number/money.ts';
import type { Span } from '../../number/date.ts';
import { broughtBy, type Brought } from '../brought.ts';
import { materialOf } from '../costs/cost.ts';
import type { Flows } from '../flows.ts';
import type { Account, WareFact } from '../ware/ware.ts';
import { valueOf } from './pool.ts';
import type { Movement, MovementReason } from './stock.ts';
import {
  CONSUMED,
  STANDING,
  openedAt,
  placeOfPool,
  type Consumed,
  type Standing,
} from './where.ts';

type ByPlace = Readonly<Record<Standing, Brought>>;

/** What each record brings to the goods of a period; they add up to its figures. */
export interface GoodsBrought {
  /** What was counted when the book began, by where it was then. */
  readonly opened: ByPlace;
  readonly purchases: Brought;
  readonly ownUse: Brought;
  readonly consumed: Readonly<Record<Consumed, Brought>>;
}

type PlacedParts = Iterable<readonly [place: Standing, id: string, amount: Money]>;

/** What stands on the flows' day, by material, recipe and lot of ware. */
export function standingBrought({ stock, ware }: Pick<Flows, 'stock' | 'ware'>): ByPlace {
  const pools = [...stock.pools.values()].map(
    (each) => [placeOfPool(each), each.id, valueOf(each.pool)] as const,
  );
  const lots = [...ware.standing()].flatMap(([lot, value]) =>
    value.map(([place, amount]) => [place, lotRecord(lot), amount] as const),
  );
  return standingAt([...pools, ...lots]);
}

/** Pieces that a count found, or that came back, are a lot of a line of their record. */
function lotRecord(lot: string): string {
  return lot.split('/', 1)[0] ?? lot;
}

/** Everything of a period, with its first and its last day, that moved material value in or out. */
export function goodsBrought({ stock, ware }: Flows, period: Span): GoodsBrought {
  const isIn = ({ day }: { readonly day: string }): boolean => isAmong(day, period);
  const movements = [...factsDuring(stock.movements, period)].filter(isIn);
  const facts = [...factsDuring(ware.facts, period)].filter(isIn);
  const moved = (...reasons: readonly MovementReason[]): Movement[] =>
    movements.filter(({ reason }) => reasons.includes(reason));
  const gone = (to: WareFact['reason']): (readonly [string, Money])[] =>
    facts
      .filter(({ reason }) => reason === to)
      .map(({ by, cost }) => [lotRecord(by), materialOf(cost)] as const);
  const besides: Partial<Record<Account, readonly Movement[]>> = {
    others: moved('used'),
    differences: moved('counted', 'settled'),
  };
  const left = (way: Account): Brought =>
    broughtBy([
      ...gone(way),
      ...(besides[way] ?? []).map(({ by, value }) => [by, opposite(value)] as const),
    ]);
  const openedPools = moved('opening').flatMap(({ pool, by, value }) => {
    const found = stock.pools.get(pool);
    return found ? [[placeOfPool(found), by, value] as const] : [];
  });
  const openedWare = facts
    .filter(({ reason }) => reason === 'opened')
    .map(({ at = '', by, cost }) => [openedAt(at), lotRecord(by), materialOf(cost)] as const);
  return {
    opened: standingAt([...openedPools, ...openedWare]),
    purchases: broughtBy(moved('bought').map(({ by, value }) => [by, value])),
    ownUse: left('kept'),
    consumed: keyed(CONSUMED, left),
  };
}

function standingAt(parts: PlacedParts): ByPlace {
  const all = [...parts];
  return keyed(STANDING, (place) =>
    broughtBy(all.filter(([at]) => at === place).map(([, id, amount]) => [id, amount])),
  );
}
