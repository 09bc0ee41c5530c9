/** Runs lots through making, firing, galleries and sales, and says what each thing sold had cost. */
import type { Book, Day, Firing, Lot, Sale } from '../book.ts';
import { NO_MONEY } from '../number/money.ts';
import { NO_COST, type Cost } from './cost.ts';
import { firingCost, type FiringCost } from './firing-cost.ts';
import { consign } from './galleries.ts';
import { fireLine } from './kiln-load.ts';
import { leaveLot, loseFromLot, makeLot, placeOf } from './lot-making.ts';
import { countPieces, sellLine, type SoldLine } from './selling.ts';
import type { Shortfall } from './stock.ts';
import type { StockFlow } from './stock-flow.ts';
import { byTurn, turnAfter, type Happening, type Turn } from './timeline.ts';
import {
  STUDIO_PLACE,
  emptyWare,
  noteWare,
  type LotState,
  type Ware,
  type WareFact,
} from './ware.ts';

/** All ware at the end of a day, and what it had cost. */
export interface WareFlow {
  readonly asOf: Day;
  readonly lots: ReadonlyMap<string, LotState>;
  /** Firing → its cost. */
  readonly firings: ReadonlyMap<string, FiringCost>;
  /** Sale → what each of its lines took from the shelf; none without money. */
  readonly sold: ReadonlyMap<string, readonly SoldLine[]>;
  /** What was put on lots, and where the cost of everything that left has gone; none without money. */
  readonly facts: readonly WareFact[];
  /** Lot → by its lines of what is gone, the cost of the finished pieces that left. */
  readonly gone: ReadonlyMap<string, readonly (Cost | undefined)[]>;
  readonly shortfalls: readonly Shortfall[];
}

interface Pass {
  readonly ware: Ware;
  readonly stock: StockFlow;
  readonly firings: Map<string, FiringCost>;
  readonly sold: Map<string, readonly SoldLine[]>;
}

/** A dated line of a lot: pieces lost, or gone without a sale. */
interface LotHappening extends Turn {
  readonly kind: 'lost' | 'gone';
  readonly record: Lot;
  readonly index: number;
}

/** Goes through the same events as the stock did, with the values that it drew for them. */
export function wareFlow(book: Book, stock: StockFlow, happenings: readonly Happening[]): WareFlow {
  const { asOf } = stock;
  const ware = emptyWare(book, stock.isValued);
  const pass: Pass = {
    ware,
    stock,
    firings: new Map(),
    sold: new Map(),
  };
  const all = [...happenings, ...lotHappenings(ware, asOf)].sort(byTurn);
  for (const happening of all) reckonHappening(pass, happening);
  const { lots, facts, gone, shortfalls } = ware;
  return { asOf, lots, firings: pass.firings, sold: pass.sold, facts, gone, shortfalls };
}

/**
 * What was lost counts after the day's making and before its firings; what left the studio without a
 * sale before the deliveries to galleries, and what left a gallery after them.
 */
function lotHappenings(ware: Ware, asOf: Day): LotHappening[] {
  return [...ware.book.pieces.values()].flatMap((lot) => {
    const lost = (lot.lost ?? []).map(({ date }, index) => ({ date, index, turn: LOST }));
    const gone = (lot.gone ?? []).map(({ date, channel }, index) => {
      const isHere = placeOf(ware, channel) === STUDIO_PLACE;
      return { date, index, turn: isHere ? GONE_FROM_STUDIO : GONE_FROM_GALLERY };
    });
    return [...lost, ...gone]
      .filter(({ date }) => date <= asOf)
      .map(({ date, index, turn }) => {
        const kind = turn === LOST ? ('lost' as const) : ('gone' as const);
        return { kind, day: date, turn, id: lot.id, record: lot, index };
      });
  });
}

const LOST = turnAfter('pieces');
const GONE_FROM_STUDIO = turnAfter('used');
const GONE_FROM_GALLERY = turnAfter('consigned');

function reckonHappening(pass: Pass, happening: Happening | LotHappening): void {
  const { ware, stock } = pass;
  switch (happening.kind) {
    case 'pieces':
      makeLot(ware, happening.record, stock.drawn.clay.get(happening.record.id) ?? NO_MONEY);
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
    case 'bought':
    case 'reclaimed':
    case 'mixed':
    case 'used':
      return;
  }
}

function fire(pass: Pass, firing: Firing): void {
  const { ware, stock } = pass;
  const cost = stock.isValued ? firingCost(ware.book, stock, firing) : undefined;
  const glaze = stock.drawn.firings.get(firing.id)?.glaze ?? [];
  firing.load.forEach((line, index) => {
    const share = cost?.shares[index] ?? NO_COST;
    fireLine(ware, { firing, index, line, share, glaze: glaze[index] ?? NO_MONEY });
  });
  if (!cost) return;
  pass.firings.set(firing.id, cost);
  if (firing.load.length === 0) noteEmpty(ware, cost);
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

/** Without money nobody asks what a line had cost. */
function sell({ ware, stock, sold }: Pass, sale: Sale): void {
  const packing = stock.drawn.packing.get(sale.id) ?? [];
  const lines = sale.lines.map((_, index) =>
    sellLine(ware, sale, { index, packing: packing[index] ?? NO_MONEY }),
  );
  if (stock.isValued) sold.set(sale.id, lines);
}
