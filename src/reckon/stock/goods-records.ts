/** The records behind the cost of goods sold: what stands on a day, and what came and left in a period. */
import { factsDuring, isAmong, recordsDated, recordsDuring } from '../../among.ts';
import type { Book, Day, Firing, SaleLine } from '../../book.ts';
import { NO_MONEY } from '../../number/money.ts';
import { leftIn } from '../costs/cost.ts';
import type { Span } from '../../number/date.ts';
import { GONE_TO } from '../ware/lot-making.ts';
import { openings } from './opening.ts';
import { outOn } from '../kilns/out-of-kiln.ts';
import { valueOf } from './pool.ts';
import type { MovementReason } from './stock.ts';
import { type Account, lotsStanding } from '../ware/ware.ts';
import type { Flows } from '../flows.ts';
import { type LotState, STUDIO_PLACE, countAt, piecesAt } from '../ware/lot.ts';
import { CONSUMED, type Consumed, STANDING, type Standing } from './where.ts';

/** Ids of the records by the figure that they are behind, in the order of letters. */
export type StandingRecords = Readonly<Record<Standing, readonly string[]>>;

/** Records of a period: opening counts, purchases, ware kept for oneself, and whatever was consumed. */
export interface GoodsRecords {
  /** Counts with a cost. */
  readonly opened: readonly string[];
  readonly purchases: readonly string[];
  readonly ownUse: readonly string[];
  readonly consumed: Readonly<Record<Consumed, readonly string[]>>;
}

/** What holds the value that stands on the flows' day: materials, recipes, and lots of ware. */
export function standingRecords({ stock, ware }: Flows): StandingRecords {
  const pools = [...stock.pools.values()].filter(({ pool }) => valueOf(pool) !== NO_MONEY);
  const lots = [...lotsStanding(ware.lots)];
  const lotsWith = (holds: (state: LotState) => boolean): string[] =>
    lots.filter(holds).map(({ lot }) => lot.id);
  const records: Record<Standing, string[]> = {
    materials: pools.filter(({ material }) => material).map(({ id }) => id),
    mixes: pools.filter(({ material }) => !material).map(({ id }) => id),
    greenware: lotsWith((state) => countAt(state, 0) > 0),
    bisqueware: lotsWith(({ stages }) => stages.some((batch, at) => at > 0 && leftIn(batch) > 0)),
    'in-kiln': lotsWith(({ inKiln }) => inKiln.some(({ count }) => count > 0)),
    studio: lotsWith((state) => piecesAt(state, STUDIO_PLACE) > 0),
    galleries: lotsWith((state) => leftIn(state.shelf) > piecesAt(state, STUDIO_PLACE)),
  };
  for (const place of STANDING) records[place].sort();
  return records;
}

/** Everything of a period, with its first and its last day, that moved material value in or out. */
export function goodsRecords(book: Book, { stock }: Flows, period: Span): GoodsRecords {
  const isIn = (day: Day): boolean => isAmong(day, period);
  const movements = [...factsDuring(stock.movements, period)].filter(({ day }) => isIn(day));
  const moved = (...reasons: readonly MovementReason[]): string[] => {
    const own = movements.filter(({ reason }) => reasons.includes(reason));
    return [...new Set(own.map(({ by }) => by))].sort();
  };
  const lots = [...recordsDuring(book.pieces, period)];
  const gone = (to: Account): string[] =>
    idsInOrder(
      lots.filter(
        ({ gone: left = [], lost = [] }) =>
          left.some(({ date, how }) => GONE_TO[how] === to && isIn(date)) ||
          (to === 'lost' && lost.some(({ date }) => isIn(date))),
      ),
    );
  const consumed: Record<Consumed, string[]> = {
    sold: idsInOrder(recordsDated(book.sales, period).filter(({ lines }) => lines.some(isWare))),
    lost: [
      ...gone('lost'),
      ...idsInOrder(
        [...recordsDuring(book.firings, period)].filter(
          (firing) => isIn(outOn(firing)) && losesAll(firing),
        ),
      ),
      ...idsInOrder(recordsDated(book.consigned, period).filter(({ missing }) => missing?.length)),
    ],
    given: gone('given'),
    others: [
      ...moved('used'),
      ...idsInOrder(recordsDated(book.firings, period).filter(isForOthers)),
    ],
    differences: [
      ...moved('counted', 'settled'),
      ...idsInOrder(recordsDated(book.counted, period)),
    ],
  };
  for (const way of CONSUMED) consumed[way] = [...new Set(consumed[way])].sort();
  const opened = openings(book, { to: period.to }).filter(({ day }) => isIn(day));
  return {
    opened: idsInOrder(opened.map(({ record }) => record)),
    purchases: moved('bought'),
    ownUse: gone('kept'),
    consumed,
  };
}

function idsInOrder(records: readonly { readonly id: string }[]): string[] {
  return records.map(({ id }) => id).sort();
}

function isWare({ product, lot }: SaleLine): boolean {
  return product !== undefined || lot !== undefined;
}

function isForOthers({ load }: Firing): boolean {
  return load.length === 0 || load.some(({ lot }) => lot === undefined);
}

/** Losses are borne by the pieces that survive; where none do, their cost is lost. */
function losesAll({ load }: Firing): boolean {
  return load.some(({ lost = 0, first = 0, second = 0 }) => lost > 0 && first + second === 0);
}
