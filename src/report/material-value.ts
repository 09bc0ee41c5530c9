/** Where the material value of a period came from and went to: both sides add up to the same. */
import type { Book, Day } from '../book.ts';
import { ZERO, sum, type Decimal } from '../number/decimal.ts';
import type { Flows } from '../reckon/flow.ts';
import { goodsRecords, standingRecords } from '../reckon/goods-records.ts';
import { LEAVING, STANDING, materialValue, type MaterialValue } from '../reckon/where.ts';
import { moneyColumn, spanInWords, tableHead, textColumn } from './head.ts';
import type { Row, Table } from './table.ts';

const COLUMNS = [
  textColumn('side', 'Side'),
  textColumn('part', 'Part'),
  moneyColumn('cameFrom', 'Came from'),
  moneyColumn('wentTo', 'Went to'),
];

/**
 * Opening value + bought = what stands at the end + what left, to the last digit. `eve` is the flow up
 * to the day before the period, where it doesn't start with the book.
 */
export function materialValueTable(
  book: Book,
  flows: Flows,
  start: { from: Day; eve: Flows } | undefined,
): Table {
  const end = materialValue(flows);
  const before = start && materialValue(start.eve);
  const rows = [...cameRows(end, before), ...wentRows(end, before)];
  const { asOf } = flows.stock;
  return {
    report: 'materials',
    title: `Where the material value is, ${spanInWords({ from: start?.from, to: asOf })}`,
    ...tableHead(book, asOf),
    columns: COLUMNS,
    rows,
    totals: { side: 'total', cameFrom: sumOf(rows, 'cameFrom'), wentTo: sumOf(rows, 'wentTo') },
    notes: [
      'Materials at landed cost; energy, wear and labour are not in it. Both sides add up to the same.',
    ],
    behind: recordsBehind(book, flows, start),
  };
}

/** In the order of the rows. */
function recordsBehind(
  book: Book,
  flows: Flows,
  start: { from: Day; eve: Flows } | undefined,
): (readonly string[])[] {
  const period = { from: start?.from ?? '0000-01-01', to: flows.stock.asOf };
  const { purchases, ownUse, consumed } = goodsRecords(book, flows, period);
  const before = start ? Object.values(standingRecords(start.eve)).flat() : [];
  const standing = standingRecords(flows);
  const left = { ...consumed, 'given away and kept': [...consumed['given away'], ...ownUse] };
  return [
    [...new Set(before)],
    purchases,
    ...STANDING.map((part) => standing[part]),
    ...LEAVING.map((part) => [...new Set(left[part])]),
  ];
}

function cameRows(end: MaterialValue, before: MaterialValue | undefined): Row[] {
  const opening = before ? sum(Object.values(before.standing)) : ZERO;
  return [
    { side: 'came from', part: 'standing before', cameFrom: opening, wentTo: null },
    {
      side: 'came from',
      part: 'bought',
      cameFrom: end.bought.minus(before?.bought ?? ZERO),
      wentTo: null,
    },
  ];
}

function wentRows(end: MaterialValue, before: MaterialValue | undefined): Row[] {
  const stands = STANDING.map((part) => wentRow('stands', part, end.standing[part]));
  const left = LEAVING.map((part) =>
    wentRow('left', part, end.leaving[part].minus(before?.leaving[part] ?? ZERO)),
  );
  return [...stands, ...left];
}

function wentRow(side: string, part: string, wentTo: Decimal): Row {
  return { side, part, cameFrom: null, wentTo };
}

function sumOf(rows: readonly Row[], key: 'cameFrom' | 'wentTo'): Decimal {
  return sum(
    rows.map((row) => row[key]).filter((cell) => typeof cell === 'object' && cell !== null),
  );
}
