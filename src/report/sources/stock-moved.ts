/** What moved each material: record by record in the last year, what was before that in one sum. */
import { addDays } from '../../number/date.ts';
import { NO_QUANTITY, inUnit, sumOf, type Measure } from '../../number/measure.ts';
import { NO_MONEY, add, type Money } from '../../number/money.ts';
import { madeOnce } from '../../once.ts';
import type { Flows } from '../../reckon/flows.ts';
import type { Depletion } from '../../reckon/stock/depletion.ts';
import type { Movement } from '../../reckon/stock/stock.ts';
import { isZeroFigure } from '../brought.ts';
import type { Figure, Table } from '../table.ts';

/** Days whose records a page lists one by one. */
const LISTED_DAYS = 365;

interface Moved {
  readonly quantity: Measure;
  readonly value: Money;
}

/** What moved one material, by record. */
interface MovedStock {
  readonly before: Map<string, Moved>;
  readonly since: Map<string, Moved>;
}

/** Everything that moved a material, from its first record on: the value rests on all of it. */
export function movedStock(
  { stock: { movements, asOf } }: Flows,
  stock: readonly Depletion[],
): Pick<Table, 'behind' | 'brought' | 'earlier'> {
  const from = addDays(asOf, -LISTED_DAYS);
  const moved = madeOnce(() => {
    const found = movedSince(movements, from);
    return stock.map((each) => ({ ...each, ...(found.get(each.id) ?? nothingMoved()) }));
  });
  type Row = ReturnType<typeof moved>[number];
  const brought = (figure: (row: Row, moved: Moved) => Figure) => () =>
    moved().map((row) => {
      const figures = [...row.since].map(([id, each]) => [id, figure(row, each)] as const);
      return new Map(figures.filter(([, each]) => !isZeroFigure(each)));
    });
  const before = (figure: (row: Row, moved: Moved) => Figure) => () =>
    moved().map((row) => figure(row, [...row.before.values()].reduce(together, NOTHING)));
  const onHand = ({ unit }: Row, { quantity }: Moved): Figure => inUnit(quantity, unit);
  const value = (_: Row, each: Moved): Figure => each.value;
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

const NOTHING: Moved = { quantity: NO_QUANTITY, value: NO_MONEY };

function nothingMoved(): MovedStock {
  return { before: new Map(), since: new Map() };
}

function together(one: Moved, other: Moved): Moved {
  return { quantity: sumOf(one.quantity, other.quantity), value: add(one.value, other.value) };
}

/** A record that moved it on both sides of the day is listed, with all that it moved. */
function movedSince(movements: Iterable<Movement>, from: string): ReadonlyMap<string, MovedStock> {
  const found = new Map<string, MovedStock>();
  for (const movement of movements) {
    const { pool, by, day } = movement;
    const moved = found.get(pool) ?? nothingMoved();
    found.set(pool, moved);
    const side = day < from ? moved.before : moved.since;
    side.set(by, together(side.get(by) ?? moved.before.get(by) ?? NOTHING, movement));
    if (side === moved.since) moved.before.delete(by);
  }
  return found;
}
