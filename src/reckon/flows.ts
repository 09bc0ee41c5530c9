/** What a book comes to on one day: stock, ware, and what is not settled. */
import {
  factsDuring,
  isAmong,
  recordsDuring,
  type Days,
  type Facts,
  type Records,
} from '../among.ts';
import type { Day, Sale } from '../book.ts';
import { monthOf } from '../number/date.ts';
import type { Decimal } from '../number/decimal.ts';
import type { Money } from '../number/money.ts';
import type { SoldSale } from './sales/earned.ts';
import type { FiringCost } from './kilns/firing-cost.ts';
import type { LotValue } from './ware/lot.ts';
import type { Open, TaxSums } from './open.ts';
import type { Movement, MovementReason, Shortfall, StockPool } from './stock/stock.ts';
import type { LotsThere, OpenGlaze, WareFact, WareSums } from './ware/ware.ts';
import { cached, cachedFor } from '../once.ts';

/** What a book comes to on one day. */
export interface Flows {
  readonly stock: StockFlow;
  readonly ware: WareFlow;
  /** Sales tax that was collected. */
  readonly taxes: TaxSums;
  /** What is not settled yet. */
  readonly open: Open;
  /** Whatever was short on the way, of material or of pieces. */
  readonly shortfalls: readonly Shortfall[];
}

/** Stock at the end of a day, and how it came to that. */
export interface StockFlow {
  readonly asOf: Day;
  /** Whether money was reckoned; without it every value is nothing. */
  readonly isValued: boolean;
  readonly pools: ReadonlyMap<string, StockPool>;
  /** None without money. */
  readonly movements: Facts<Movement>;
  /** The values of all movements, by their reason. */
  readonly sums: ReadonlyMap<MovementReason, Money>;
  readonly shortfalls: readonly Shortfall[];
}

/** All ware at the end of a day, and what it had cost. */
export interface WareFlow {
  readonly asOf: Day;
  readonly lots: LotsThere;
  /** Lots of which pieces are anywhere → the material in them. */
  readonly standing: () => ReadonlyMap<string, LotValue>;
  /** Minutes of work behind a good piece of a lot, its share in lost ones too; undefined where not known. */
  readonly minutesOf: (lot: string) => Decimal | undefined;
  /** Product → the glazes of its lots; an empty one where a lot has none. */
  readonly glazes: ReadonlyMap<string, ReadonlySet<string>>;
  /** Lots that name no glaze, once any of them was finished. */
  readonly unglazed: ReadonlySet<string>;
  /** Firing → its cost. */
  readonly firings: Records<FiringCost>;
  /** In their order; none without money. */
  readonly sales: Facts<SoldSale>;
  /** What was put on lots, and where the cost of everything that left has gone; none without money. */
  readonly facts: Facts<WareFact>;
  /** The material in them all. */
  readonly sums: WareSums;
  readonly shortfalls: readonly Shortfall[];
  /** Takings of which nobody knows the glaze, in their order. */
  readonly openGlazes: readonly OpenGlaze[];
}

/** By month as far as it was asked for, then by sale. Where no part can be had alone, all months are one. */
const salesByMonth = cachedFor((sales: Facts<SoldSale>) =>
  cached((month: string) => {
    const days = { from: `${month}-01`, to: `${month}-31` };
    return new Map([...factsDuring(sales, days)].map((one) => [one.id, one]));
  }),
);

/** A sale as it was booked; undefined of one that is later than the flow. */
export function soldSaleOf(
  { sales }: Pick<WareFlow, 'sales'>,
  { id, date }: Pick<Sale, 'id' | 'date'>,
): SoldSale | undefined {
  return salesByMonth(sales)(sales.during ? monthOf(date) : '').get(id);
}

/** What the firings of those days cost. */
export function firingsOn({ firings }: Pick<WareFlow, 'firings'>, days: Days): FiringCost[] {
  return [...recordsDuring(firings, days)].filter(({ firing }) => isAmong(firing.date, days));
}
