/** One material's (or one glaze bucket's) history: every movement with what was left after it. */
import { once } from '../once.ts';
import { factsDuring } from '../among.ts';
import type { Book } from '../book.ts';
import { ZERO, divide, isDecimal } from '../number/decimal.ts';
import { NO_MONEY, add, decimalOf } from '../number/money.ts';
import { NO_QUANTITY, inUnit, sumOf } from '../number/measure.ts';
import type { Unit } from '../number/unit.ts';
import { digitsOf } from '../reckon/booked.ts';
import type { Movement, MovementReason, StockPool } from '../reckon/stock.ts';
import { moneyColumn, rateColumn, tableHead, textColumn } from './head.ts';
import { sparkLine } from './spark-line.ts';
import type { Column, Row, Table } from './table.ts';
import type { Flows } from '../reckon/flows.ts';

const REASONS: Readonly<Record<MovementReason, string>> = {
  bought: 'bought',
  reclaimed: 'reclaimed',
  mixed: 'weighed out for a mix',
  'into-mix': 'mixed',
  clay: 'clay for a lot',
  glaze: 'glaze on ware',
  supplies: 'firing supplies',
  fuel: 'fuel',
  packing: 'packing of sales',
  used: 'used',
  counted: 'stocktake difference',
  opening: 'there at the start',
  settled: 'cost of a shortage settled',
};

/** Columns of a history, figures in the pool's unit. */
function columnsFor(unit: string): readonly Column[] {
  return [
    { key: 'date', title: 'Date', type: 'date' },
    textColumn('what', 'What'),
    { key: 'record', title: 'Record', type: 'id' },
    { key: 'change', title: 'Change', type: 'quantity', unit },
    { key: 'onHand', title: 'On hand', type: 'quantity', unit },
    moneyColumn('valueChange', 'Value change', { drop: 1 }),
    moneyColumn('value', 'Value'),
    rateColumn('unitCost', `Cost a ${unit}`, { places: 4, drop: 2 }),
  ];
}

/** Every movement of one pool in order; undefined when there is no material or recipe of that id. */
export function materialHistory(book: Book, flows: Flows, id: string): Table | undefined {
  const stock = flows.stock.pools.get(id);
  if (!stock) return undefined;
  const { since } = stock;
  const movements = [...factsDuring(flows.stock.movements, { from: since })].filter(
    (movement) => movement.pool === id,
  );
  const rows = historyRows(movements, { unit: stock.unit, digits: digitsOf(book) });
  return {
    report: 'materials',
    title: `History of ${stock.material?.name ?? stock.recipe?.name ?? id} (${stock.unit})`,
    ...tableHead(book, flows.stock.asOf),
    columns: columnsFor(stock.unit),
    rows,
    notes: [...courseOf(rows), ...cautions(stock)],
    behind: once(() => movements.map(({ by }) => [by])),
  };
}

function historyRows(
  movements: readonly Movement[],
  { unit, digits }: { unit: Unit; digits: number },
): Row[] {
  let quantity = NO_QUANTITY;
  let value = NO_MONEY;
  return movements.map((movement) => {
    quantity = sumOf(quantity, movement.quantity);
    value = add(value, movement.value);
    const onHand = inUnit(quantity, unit);
    const purpose = movement.for === undefined ? '' : `: ${movement.for}`;
    return {
      date: movement.day,
      what: `${REASONS[movement.reason]}${purpose}`,
      record: movement.by,
      change: inUnit(movement.quantity, unit),
      onHand,
      valueChange: movement.value,
      value,
      unitCost: onHand.gt(ZERO) ? divide(decimalOf(value, digits), onHand) : null,
    };
  });
}

const COURSE_LENGTH = 60;

/** The last movements' stock on hand at a glance. */
function courseOf(rows: readonly Row[]): string[] {
  const onHand = rows.slice(-COURSE_LENGTH).map((row) => row['onHand']);
  if (onHand.length < 2) return [];
  const line = sparkLine(onHand.map((cell) => (isDecimal(cell) ? cell.toNumber() : null)));
  return [`On hand: ${line}`];
}

/** The usual cautions for what a material contains (common practice; local codes rule). */
function cautions({ material }: StockPool): string[] {
  const contains = material?.contains ?? [];
  if (contains.length === 0) return [];
  const silica = contains.includes('silica')
    ? ' Silica dust harms the lungs: weigh it with a fitted respirator, clean wet, never sweep dry.'
    : '';
  return [
    `Contains ${contains.join(', ')}.${silica} Follow its safety data sheet and local rules.`,
  ];
}
