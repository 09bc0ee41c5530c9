/** What one record came to: its money, what it moved in stock, and what became of ware by it. */
import { countIn } from '../../grouping.ts';
import { factsDuring } from '../../among.ts';
import type { Book } from '../../book.ts';
import { stageName } from '../../check/shortage-words.ts';
import { capitalised } from '../../in-words.ts';
import { NO_QUANTITY, inUnit, sumOf, type Measure } from '../../number/measure.ts';
import type { Unit } from '../../number/unit.ts';
import { NO_MONEY, add, total, type Money } from '../../number/money.ts';
import { booked } from '../../reckon/booked.ts';
import { restOf, totalOf } from '../../reckon/costs/cost.ts';
import type { Flows } from '../../reckon/flows.ts';
import { soldSaleOf } from '../../reckon/flows.ts';
import { valueOf } from '../../reckon/stock/pool.ts';
import { chargedFor, invoiceTotal } from '../../reckon/sales/debts.ts';
import { saleMoney } from '../../reckon/sales/sale-money.ts';
import { STUDIO_PLACE, countAt, placedPieces } from '../../reckon/ware/lot.ts';
import type { WareFact } from '../../reckon/ware/ware.ts';
import { perPiece, tableHead, withRows } from '../head.ts';
import { MOVED_BY } from '../materials.ts';
import type { ColumnOf, Table } from '../table.ts';
import { amountFigure, type AskedRecord, type RecordFigure } from './figure.ts';
import { reportFigures } from './of-reports.ts';

const FIGURE_COLUMNS: readonly ColumnOf<Required<RecordFigure>>[] = [
  { key: 'what', title: 'What', type: 'text' },
  { key: 'of', title: 'Of', type: 'text' },
  { key: 'count', title: 'Count', type: 'count' },
  { key: 'quantity', title: 'Quantity', type: 'quantity', places: 3 },
  { key: 'unit', title: 'Unit', type: 'text' },
  { key: 'money', title: 'Money', type: 'money' },
  { key: 'each', title: 'Each', type: 'rate' },
];

/** All that a record came to by the day of the flows; without rows where it moved nothing. */
export function recordTable(book: Book, flows: Flows, record: AskedRecord): Table {
  const figures = [
    ...moneyFigures(book, flows, record),
    ...movedBy(book, flows, record),
    ...(record.kind === 'pieces' ? lotFigures(book, flows, record.id) : []),
    ...(record.kind === 'recipes' ? bucketFigures(flows, record.id) : []),
    ...reportFigures(book, flows, record),
  ];
  const used = FIGURE_COLUMNS.filter(
    ({ key }) => key === 'what' || figures.some((each) => (each[key] ?? null) !== null),
  );
  return {
    report: 'record',
    title: `What ${record.id} came to by ${flows.stock.asOf}`,
    ...tableHead(book, flows.stock.asOf),
    ...withRows(used as readonly ColumnOf<RecordFigure>[], figures),
    notes: [],
  };
}

function moneyFigures(
  book: Book,
  flows: Flows,
  { kind, id }: AskedRecord,
): readonly RecordFigure[] {
  if (kind === 'sales') return saleFigures(book, flows, id);
  if (kind === 'bought') {
    const bought = book.bought.get(id);
    return bought ? [{ what: 'To pay for it', money: invoiceTotal(book, bought) }] : [];
  }
  if (kind === 'consigned') {
    const { sent = [], back = [], missing = [] } = book.consigned.get(id) ?? {};
    return [
      { what: 'Sent', count: countIn(sent) },
      { what: 'Returned', count: countIn(back) },
      { what: 'Missing', count: countIn(missing) },
    ].filter((figure) => figure.count > 0);
  }
  const paid = kind === 'spent' || kind === 'advances' ? book[kind].get(id) : undefined;
  return paid ? [{ what: 'Amount', money: booked(book, paid.amount) }] : [];
}

function saleFigures(book: Book, flows: Flows, id: string): readonly RecordFigure[] {
  const sale = book.sales.get(id);
  if (!sale) return [];
  const { tax, shipping, advances, fee, commission } = saleMoney(book, sale);
  const sold = soldSaleOf(flows.ware, sale);
  const cost = total((sold?.lines ?? []).map((line) => totalOf(line.cost)));
  const parts: readonly (readonly [string, Money])[] = [
    ['Of that, sales tax', tax],
    ['Of that, shipping', shipping],
    ['Paid beforehand', advances],
    ['Fee', fee],
    ['Commission', commission],
    ['Cost of what was sold', cost],
  ];
  return [
    { what: 'Charged', money: chargedFor(book, sale) },
    ...parts.filter(([, money]) => money !== NO_MONEY).map(([what, money]) => ({ what, money })),
  ];
}

/** What is in the bucket of a recipe, and all that was mixed of it. */
function bucketFigures({ stock }: Flows, id: string): readonly RecordFigure[] {
  const known = stock.pools.get(id);
  if (!known) return [];
  const { unit, pool } = known;
  const mixes = [...stock.movements].filter(
    (each) => each.pool === id && each.reason === 'into-mix',
  );
  const mixed = mixes.reduce((sum, { quantity }) => sumOf(sum, quantity), NO_QUANTITY);
  return [
    { what: 'Mixed', ...amountIn(mixed, unit), money: total(mixes.map(({ value }) => value)) },
    { what: 'On hand', ...amountIn(pool.onHand, unit), money: valueOf(pool) },
  ];
}

/** An amount in its unit; of what is counted, how many. */
function amountIn(
  quantity: Measure,
  unit: Unit,
): Pick<RecordFigure, 'count' | 'quantity' | 'unit'> {
  return amountFigure(inUnit(quantity, unit), unit);
}

/** Where the pieces of a lot are, and what they cost. */
function lotFigures(book: Book, { ware }: Flows, id: string): readonly RecordFigure[] {
  const state = ware.lots.get(id);
  if (!state) return [];
  const underway = state.stages.map((batch, stage) => ({
    what: capitalised(stageName(state.fired, stage)),
    ...pieceMoney(book, countAt(state, stage), totalOf(restOf(batch).cost)),
  }));
  const inKiln = state.inKiln.map(({ count, cost, firing }) => ({
    what: 'In the kiln',
    of: firing,
    ...pieceMoney(book, count, totalOf(cost)),
  }));
  const placed = placedPieces(state).map(({ grade, place, count, cost }) => ({
    what: place === STUDIO_PLACE ? 'In the studio' : `At ${place}`,
    of: `${grade}s`,
    ...pieceMoney(book, count, totalOf(cost)),
  }));
  const left = summedFacts(
    [...ware.facts].filter((fact) => fact.lot === id && LEFT.has(fact.reason)),
  ).map(({ reason, count, cost }) => ({
    what: WARE_WORDS[reason],
    ...pieceMoney(book, count, cost),
  }));
  return [...underway, ...inKiln, ...placed, ...left].filter(({ count }) => count !== 0);
}

function pieceMoney(
  book: Book,
  count: number,
  money: Money,
): Pick<RecordFigure, 'count' | 'money' | 'each'> {
  return { count, money, each: perPiece(book, money, count) };
}

const LEFT: ReadonlySet<WareFact['reason']> = new Set(['sold', 'lost', 'given', 'kept', 'others']);

const WARE_WORDS: Readonly<Record<WareFact['reason'], string>> = {
  made: 'Made',
  fired: 'Fired',
  opened: 'There at the start',
  sold: 'Sold',
  lost: 'Lost',
  given: 'Given away',
  kept: 'Kept for yourself',
  others: 'For others',
  differences: 'Stocktake difference',
};

interface FactSum {
  readonly reason: WareFact['reason'];
  readonly lot: string;
  readonly count: number;
  readonly cost: Money;
}

/** Facts of the same reason and lot as one. */
function summedFacts(facts: readonly WareFact[]): readonly FactSum[] {
  const sums = new Map<string, FactSum>();
  for (const { reason, lot, count, cost } of facts) {
    const key = `${reason} ${lot}`;
    const known = sums.get(key) ?? { reason, lot, count: 0, cost: NO_MONEY };
    sums.set(key, { ...known, count: known.count + count, cost: add(known.cost, totalOf(cost)) });
  }
  return [...sums.values()];
}

/** What the record itself moved in stock, and in ware. */
function movedBy(
  book: Book,
  { stock, ware }: Flows,
  { kind, id }: AskedRecord,
): readonly RecordFigure[] {
  const { date } = (book[kind].get(id) ?? {}) as { readonly date?: string };
  if (date === undefined) return [];
  const days = { from: date };
  const moved = [...factsDuring(stock.movements, days)].filter(({ by }) => by === id);
  const facts = [...factsDuring(ware.facts, days)].filter(({ by }) => by === id);
  const stockRows = moved.map(({ pool, reason, quantity, value }): RecordFigure => {
    const unit = stock.pools.get(pool)?.unit;
    const inWords = unit && amountIn(quantity, unit);
    return { what: capitalised(MOVED_BY[reason]), of: pool, ...inWords, money: value };
  });
  const isLot = kind === 'pieces';
  const wareRows = summedFacts(facts)
    .filter(({ reason }) => !(isLot && LEFT.has(reason)))
    .map(({ reason, lot, count, cost }): RecordFigure => {
      // What goes with a sale, and what a firing of others costs, is of no lot.
      if (lot === '')
        return { what: reason === 'sold' ? 'Packed with it' : WARE_WORDS[reason], money: cost };
      const of = lot === id ? undefined : lot;
      return { what: WARE_WORDS[reason], of, ...pieceMoney(book, count, cost) };
    });
  return [...stockRows, ...wareRows];
}
