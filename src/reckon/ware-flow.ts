/** Runs lots through making, firing, galleries and sales, and says what each thing sold had cost. */
import type { Book, Day, Firing, Lot, Sale } from '../book.ts';
import { ZERO } from '../number/decimal.ts';
import type { Slice } from './batch.ts';
import type { Cost } from './cost.ts';
import { firingCost, firingShares, type FiringCost } from './firing-cost.ts';
import { consign } from './galleries.ts';
import { fireLine } from './kiln-load.ts';
import { leaveLot, loseFromLot, makeLot } from './lot-making.ts';
import { packedSlice } from './packing.ts';
import { countPieces, sellLine, type SoldLine } from './selling.ts';
import type { Shortfall } from './stock.ts';
import type { StockFlow } from './stock-flow.ts';
import { byTurn, timeline, turnAfter, type Happening, type Turn } from './timeline.ts';
import { emptyWare, type Account, type AccountEntry, type LotState, type Ware } from './ware.ts';

/** All ware at the end of a day, and what it had cost. */
export interface WareFlow {
  readonly asOf: Day;
  readonly lots: ReadonlyMap<string, LotState>;
  /** Firing → its cost. */
  readonly firings: ReadonlyMap<string, FiringCost>;
  /** Sale → what each of its lines took from the shelf; none without money. */
  readonly sold: ReadonlyMap<string, readonly SoldLine[]>;
  /** Where the cost of everything that left has gone; `accountCost` adds an account up. */
  readonly accounts: Readonly<Record<Account, readonly AccountEntry[]>>;
  /** Lot → by its lines of what is gone, the finished pieces that left. */
  readonly gone: ReadonlyMap<string, readonly (readonly Slice[] | undefined)[]>;
  readonly shortfalls: readonly Shortfall[];
}

interface Pass {
  readonly ware: Ware;
  readonly stock: StockFlow;
  readonly firings: Map<string, FiringCost>;
  readonly sold: Map<string, readonly SoldLine[]>;
}

const WARE_KINDS = ['pieces', 'firings', 'consigned', 'sales', 'counted'] as const;

type WareHappening = Happening<(typeof WARE_KINDS)[number]>;

/** A dated line of a lot: pieces lost, or gone without a sale. */
interface LotHappening extends Turn {
  readonly kind: 'lost' | 'gone';
  readonly record: Lot;
  readonly index: number;
}

/** Goes through every event up to and with the day, with the values that the stock drew for them. */
export function wareFlow(book: Book, stock: StockFlow): WareFlow {
  const { asOf } = stock;
  const ware = emptyWare(book);
  const pass: Pass = {
    ware,
    stock,
    firings: new Map(),
    sold: new Map(),
  };
  const happenings = [...timeline(book, asOf, WARE_KINDS), ...lotHappenings(book, asOf)];
  happenings.sort(byTurn);
  for (const happening of happenings) reckonHappening(pass, happening);
  const { lots, accounts, gone, shortfalls } = ware;
  return { asOf, lots, firings: pass.firings, sold: pass.sold, accounts, gone, shortfalls };
}

/** What was lost counts after the day's making and before its firings; what left, before its sales. */
function lotHappenings(book: Book, asOf: Day): LotHappening[] {
  return [...book.pieces.values()].flatMap((lot) =>
    [...datedLines(lot, 'lost'), ...datedLines(lot, 'gone')].filter(({ day }) => day <= asOf),
  );
}

const LOT_TURNS = { lost: turnAfter('pieces'), gone: turnAfter('consigned') } as const;

function datedLines(lot: Lot, kind: LotHappening['kind']): LotHappening[] {
  return (lot[kind] ?? []).map((line, index) => ({
    kind,
    day: line.date,
    turn: LOT_TURNS[kind],
    id: lot.id,
    record: lot,
    index,
  }));
}

function reckonHappening(pass: Pass, happening: WareHappening | LotHappening): void {
  const { ware, stock } = pass;
  switch (happening.kind) {
    case 'pieces':
      makeLot(ware, happening.record, stock.clay.get(happening.record.id) ?? ZERO);
      return;
    case 'lost':
      loseFromLot(ware, happening.record, happening.index);
      return;
    case 'firings':
      fire(pass, happening.record);
      return;
    case 'consigned':
      consign(ware, happening.record);
      return;
    case 'gone':
      leaveLot(ware, happening.record, happening.index);
      return;
    case 'sales':
      sell(pass, happening.record);
      return;
    case 'counted':
      countPieces(ware, happening.record);
      return;
  }
}

function fire(pass: Pass, firing: Firing): void {
  if (!pass.stock.isValued) {
    firing.load.forEach((line, index) => {
      fireLine(pass.ware, { firing, index, line, share: {}, glaze: ZERO });
    });
    return;
  }
  const cost = firingCost(pass.ware.book, pass.stock, firing);
  pass.firings.set(firing.id, cost);
  const glaze = pass.stock.glaze.get(firing.id) ?? [];
  firingShares(pass.ware.book, cost).forEach((share, index) => {
    const line = firing.load[index];
    if (line) fireLine(pass.ware, { firing, index, line, share, glaze: glaze[index] ?? ZERO });
  });
  if (firing.load.length === 0) pass.ware.accounts.others.push(wholeCost(cost));
}

/** A firing of an empty kiln bears its cost itself. */
function wholeCost({ energyCost = ZERO, ...cost }: FiringCost): Cost {
  const { fuelCost, wearCost, suppliesCost, labourCost } = cost;
  return {
    energy: energyCost,
    fuel: fuelCost,
    wear: wearCost,
    supplies: suppliesCost,
    labour: labourCost,
  };
}

/** Without money nobody asks what a line had cost. */
function sell({ ware, stock, sold }: Pass, sale: Sale): void {
  const packed = stock.isValued ? stock.packed.get(sale.date) : undefined;
  const lines = sale.lines.map((line, index) =>
    sellLine(ware, sale, { index, packing: packedSlice(packed, line) }),
  );
  if (stock.isValued) sold.set(sale.id, lines);
}
