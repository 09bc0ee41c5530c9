/** What firings and sales do to the ware, all ware as they leave it, and what each thing sold had cost. */
import { factsDuring, type Facts, type Records } from '../among.ts';
import type { Day, Firing, Sale } from '../book.ts';
import { monthOf } from '../number/date.ts';
import type { Decimal } from '../number/decimal.ts';
import { NO_MONEY, total, type Money } from '../number/money.ts';
import { NO_COST, type Cost } from './cost.ts';
import type { FiringCost } from './firing-cost.ts';
import type { FiringDraws } from './firing-draws.ts';
import { fireLine } from './kiln-load.ts';
import { sellLine, type SoldLine } from './selling.ts';
import type { SoldSale } from './earned.ts';
import type { Shortfall } from './stock.ts';
import type { LotValue } from './lot-value.ts';
import type { LotsThere } from './lots.ts';
import { noteWare, type OpenGlaze, type Ware, type WareFact, type WareSums } from './ware.ts';

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

/** By month as far as it was asked for, then by sale. */
const known = new WeakMap<Facts<SoldSale>, Map<string, ReadonlyMap<string, SoldSale>>>();

/** A sale as it was booked; undefined of one that is later than the flow. */
export function soldSaleOf(
  { sales }: Pick<WareFlow, 'sales'>,
  { id, date }: Pick<Sale, 'id' | 'date'>,
): SoldSale | undefined {
  const months = known.get(sales) ?? new Map<string, ReadonlyMap<string, SoldSale>>();
  known.set(sales, months);
  // Where no part can be had alone, all months are one.
  const month = sales.during ? monthOf(date) : '';
  const days = { from: `${month}-01`, to: `${month}-31` };
  const all =
    months.get(month) ?? new Map([...factsDuring(sales, days)].map((one) => [one.id, one]));
  months.set(month, all);
  return all.get(id);
}

/** Passes a load through its firing; no cost where no money is reckoned. */
export function fire(
  ware: Ware,
  firing: Firing,
  { glaze, cost }: { glaze: FiringDraws['glaze']; cost: FiringCost | undefined },
): void {
  firing.load.forEach((line, index) => {
    const share = cost?.shares[index] ?? NO_COST;
    fireLine(ware, { firing, index, line, share, glaze: glaze[index] ?? NO_MONEY });
  });
  if (cost && firing.load.length === 0) noteEmpty(ware, cost);
}

/** A firing of an empty kiln bears its cost itself. */
function noteEmpty(ware: Ware, { firing, energyCost = NO_MONEY, ...others }: FiringCost): void {
  const cost: Cost = {
    energy: energyCost,
    fuel: others.fuelCost,
    wear: others.wearCost,
    supplies: others.suppliesCost,
    labour: others.labourCost,
  };
  noteWare(ware, { day: firing.date, reason: 'others', by: firing.id, lot: '', count: 0, cost });
}

/** Takes what a sale sold off the shelves, with the packing that its lines took, and puts back what came back. */
export function sell(ware: Ware, sale: Sale, packing: readonly Money[]): SoldLine[] {
  notePacking(ware, sale, total(packing));
  return sale.lines.map((_, index) =>
    sellLine(ware, sale, { index, packing: packing[index] ?? NO_MONEY }),
  );
}

function notePacking(ware: Ware, { id, date }: Sale, packing: Money): void {
  if (packing === NO_MONEY) return;
  noteWare(ware, { day: date, reason: 'sold', by: id, lot: '', count: 0, cost: { packing } });
}
