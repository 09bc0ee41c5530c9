/** Cost of goods sold: what stood at the start and was bought, less what was taken and what stands at the end. */
import { add, less, total, type Money } from '../number/money.ts';
import { STANDING, type Leaving, type MaterialValue, type Standing } from './where.ts';

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
