/** What moved each material: record by record in the last year, what was before that in one sum. */
import { addDays } from '../../number/date.ts';
import { NO_QUANTITY, inUnit, sumOf, type Measure } from '../../number/measure.ts';
import { NO_MONEY, add, type Money } from '../../number/money.ts';
import { isNothing, type Summable } from '../../number/summable.ts';
import { madeOnce } from '../../once.ts';
import type { Flows } from '../../reckon/flows.ts';
import type { Depletion } from '../../reckon/stock/depletion.ts';
import type { Movement } from '../../reckon/stock/stock.ts';
import type { Table } from '../table.ts';

/** Days whose records a page lists one by one. */
const LISTED_DAYS = 365;

interface RecordMoves {
  readonly quantity: Measure;
  readonly value: Money;
}

/** What moved one material, by record. */
interface StockMoves {
  readonly before: Map<string, RecordMoves>;
  readonly since: Map<string, RecordMoves>;
}

/** Everything that moved a material, from its first record on: the value rests on all of it. */
export function movedStock(
  { stock: { movements, asOf } }: Flows,
  stock: readonly Depletion[],
): Pick<Table, 'behind' | 'brought' | 'earlier'> {
  const from = addDays(asOf, -LISTED_DAYS);
  const moved = madeOnce(() => {
    const found = movedSince(movements, from);
    return stock.map((each) => ({ ...each, ...(found.get(each.id) ?? noMoves()) }));
  });
  type Row = ReturnType<typeof moved>[number];
  const brought = (figure: (row: Row, moved: RecordMoves) => Summable) => () =>
    moved().map((row) => {
      const figures = [...row.since].map(([id, each]) => [id, figure(row, each)] as const);
      return new Map(figures.filter(([, each]) => !isNothing(each)));
    });
  const before = (figure: (row: Row, moved: RecordMoves) => Summable) => () =>
    moved().map((row) => figure(row, [...row.before.values()].reduce(movesTogether, NO_MOVES)));
  const onHand = ({ unit }: Row, { quantity }: RecordMoves): Summable => inUnit(quantity, unit);
  const value = (_: Row, each: RecordMoves): Summable => each.value;
  return {
    behind: () => moved().map((row) => [row.id, ...row.before.keys(), ...row.since.keys()]),
    brought: { onHand: madeOnce(brought(onHand)), value: madeOnce(brought(value)) },
    earlier: {
      before: from,
      behind: () => moved().map((row) => [...row.before.keys()]),
      brought: { onHand: madeOnce(before(onHand)), value: madeOnce(before(value)) },
    },
  };
}

const NO_MOVES: RecordMoves = { quantity: NO_QUANTITY, value: NO_MONEY };

function noMoves(): StockMoves {
  return { before: new Map(), since: new Map() };
}

function movesTogether(one: RecordMoves, other: RecordMoves): RecordMoves {
  return { quantity: sumOf(one.quantity, other.quantity), value: add(one.value, other.value) };
}

/** A record that moved it on both sides of the day is listed, with all that it moved. */
function movedSince(movements: Iterable<Movement>, from: string): ReadonlyMap<string, StockMoves> {
  const found = new Map<string, StockMoves>();
  for (const movement of movements) {
    const { pool, by, day } = movement;
    const moved = found.get(pool) ?? noMoves();
    found.set(pool, moved);
    const side = day < from ? moved.before : moved.since;
    side.set(by, movesTogether(side.get(by) ?? moved.before.get(by) ?? NO_MOVES, movement));
    if (side === moved.since) moved.before.delete(by);
  }
  return found;
}
