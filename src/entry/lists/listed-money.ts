/** What the rows of a list say was paid, to be held against the book. */
import { sum, type Decimal } from '../../number/decimal.ts';
import { roundedMoney } from '../../number/money.ts';
import type { Finding } from '../../problem.ts';
import type { ListedMoney } from '../../reckon/sales/matching.ts';
import { dayOfDate, numberOfCell } from './cell.ts';
import type { ListMap } from './map.ts';
import { unclearRow } from './row-words.ts';
import { keyOfRow, sortRows, type RowGroup } from './sort-rows.ts';
import { turned } from './signs.ts';
import type { ListRow, ListTable } from './table.ts';

/** The amounts of a list, and the rows that do not say one. */
export interface ListedAmounts {
  readonly listed: readonly ListedMoney[];
  readonly findings: readonly Finding[];
}

/** One amount a record where the map has a kind, else one a row; what the map skips is not among them. */
export function listedMoney(table: ListTable, map: ListMap, digits: number): ListedAmounts {
  const { groups, used } = sortRows(table, map);
  const each: readonly RowGroup[] = map.kind
    ? groups
    : used.map((row) => ({ key: keyOfRow(row, map) || String(row.line), rows: [row] }));
  const findings: Finding[] = [];
  const listed = each.flatMap(({ key, rows }) => {
    const [row] = rows;
    if (!row) return [];
    const date = dayOfDate(cell(map, row, 'date'), map.dates ?? 'year-month-day');
    const amount = amountOfRows(map, rows);
    if (date === undefined) findings.push(noDay(map, row));
    else if (!amount) findings.push(noAmount(map, row));
    else
      return [
        { row: key, date, amount: roundedMoney(amount, digits), text: wordsOfRows(map, rows) },
      ];
    return [];
  });
  return { listed, findings };
}

function cell({ columns }: ListMap, { cells }: ListRow, field: string): string {
  return cells.get(columns.get(field) ?? '') ?? '';
}

function noDay(map: ListMap, row: ListRow): Finding {
  const value = cell(map, row, 'date');
  return unclearRow(row, {
    message: `"${value}" is not a day in the order ${map.dates ?? 'year-month-day'}`,
    hint: 'write dates: in the map as the list has them, or skip the row',
    value,
  });
}

function noAmount({ decimals }: ListMap, row: ListRow): Finding {
  return unclearRow(row, {
    message: `no amount is on this row with a decimal ${decimals}`,
    hint: 'write columns: total, amount, or in and out, in the map; or skip the row',
  });
}

/** What came in, above zero, or went out, below it. */
function amountOfRows(map: ListMap, rows: readonly ListRow[]): Decimal | undefined {
  const all = (field: string): Decimal[] =>
    rows.flatMap((row) => numberOfCell(cell(map, row, field), map.decimals) ?? []);
  const [total] = all('total');
  if (total) return total;
  const amounts = all('amount');
  if (amounts.length > 0) {
    const isCost = map.kind === 'spent' && map.money !== 'out';
    return isCost ? turned(sum(amounts)) : sum(amounts);
  }
  const moved = [
    ...all('in').map((each) => each.abs()),
    ...all('out').map((each) => turned(each.abs())),
  ];
  const [net] = all('net');
  return moved.length > 0 ? sum(moved) : net;
}

/** All but dates and figures: in these a number would be found by chance. */
function wordsOfRows({ columns, unique = '' }: ListMap, rows: readonly ListRow[]): string {
  const figures = [
    'date',
    'total',
    'amount',
    'net',
    'in',
    'out',
    'fee',
    'tax',
    'shipping',
    'price',
    'count',
  ];
  const passed = new Set([unique, ...figures.map((field) => columns.get(field) ?? '')]);
  const texts = rows.flatMap(({ cells }) =>
    [...cells].flatMap(([column, text]) => (passed.has(column) || text === '' ? [] : [text])),
  );
  return [...new Set(texts)].join(' · ');
}
