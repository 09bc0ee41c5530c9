/** What records come to, held against what the list itself says they do. */
import type { Book } from '../../book.ts';
import { decimal, sum, type Decimal } from '../../number/decimal.ts';
import { moneyText, roundedMoney, type Money } from '../../number/money.ts';
import { grouped } from '../../grouping.ts';
import type { Finding } from '../../problem.ts';
import { isList, textUnder, type RawMap } from '../../read/raw.ts';
import { digitsOf } from '../../reckon/booked.ts';
import { chargedFor, dueFor } from '../../reckon/sales/debts.ts';
import { soundSale, withSaleTax } from '../sale-tax.ts';
import { numberOfCell } from './cell.ts';
import type { ListGround } from './cell-value.ts';
import { listField } from './list-field.ts';
import type { ListKind } from './map.ts';
import type { RecordOfRows } from './record-of-rows.ts';
import { unclearRow } from './row-words.ts';
import type { RowGroup, SortedRows } from './sort-rows.ts';
import type { ListRow } from './table.ts';

/** What a new record comes to, and what is wrong with that by the list. */
export interface RecordAmount {
  readonly money: Money;
  readonly differs: (listed: RecordOfRows) => readonly Finding[];
}

/** The money of a record: what a buyer is charged, what a bill or an expense comes to. */
export function recordAmount(book: Book, kind: ListKind, fields: RawMap): RecordAmount {
  const digits = digitsOf(book);
  const sale = kind === 'sales' ? soundSale(withSaleTax(book, fields)) : undefined;
  if (sale) {
    const money = chargedFor(book, sale);
    const due = dueFor(book, sale);
    return { money, differs: (listed) => notMet(listed, { total: money, net: due }, digits) };
  }
  const lines = isList(fields['lines']) ? fields['lines'] : [];
  const texts = [textUnder(fields, 'amount'), ...lines.map((line) => textUnder(line, 'cost'))];
  const money = sum(texts.map((text) => amountInText(text)));
  return { money: roundedMoney(money, digits), differs: () => [] };
}

function amountInText(text: string): Decimal {
  return /^-?\d+(?:\.\d+)?$/.test(text) ? decimal(text) : decimal(0);
}

/** The list's own totals of a record must be what the record comes to. */
function notMet(
  { told, rows: [row] }: RecordOfRows,
  comes: Readonly<Record<'total' | 'net', Money>>,
  digits: number,
): readonly Finding[] {
  return (['total', 'net'] as const).flatMap((name) => {
    const said = told[name];
    if (!said || !row || roundedMoney(said, digits) === comes[name]) return [];
    const own = moneyText(roundedMoney(said, digits), digits);
    return [
      unclearRow(row, {
        message: `its ${name} is ${own}, and what is understood of it comes to ${moneyText(comes[name], digits)}`,
        hint: 'add the columns that are missing: shipping, tax, discount, fee; or fix tax: 0 where none is on top',
      }),
    ];
  });
}

/** Figures that rows add up to. */
const ADDED_UP = [
  'total',
  'net',
  'amount',
  'shipping',
  'tax',
  'fee',
  'commission',
  'in',
  'out',
] as const;

/** Rows that add the others up must say what those come to. */
export function lookAtTotals(ground: ListGround, { sums, groups }: SortedRows): readonly Finding[] {
  const { map, digits } = ground;
  return sums.flatMap((row) =>
    ADDED_UP.flatMap((name) => {
      const text = row.cells.get(map.columns.get(name) ?? '') ?? '';
      const said = numberOfCell(text, map.decimals);
      const all = sum(groups.map((group) => inGroup(ground, group, name)));
      if (!said || said.eq(all)) return [];
      return [
        unclearRow(row, {
          message: `${name} is ${said.toFixed(digits)} in all by the list, and its rows come to ${all.toFixed(digits)}`,
          hint: 'see which row is missing or is skipped; or move the row from sums to skip in the map',
          value: text,
        }),
      ];
    }),
  );
}

function inGroup({ map }: ListGround, { rows }: RowGroup, name: string): Decimal {
  const column = map.columns.get(name) ?? '';
  const figures = rows.flatMap(
    ({ cells }) => numberOfCell(cells.get(column) ?? '', map.decimals) ?? [],
  );
  const field = listField(map.kind, name);
  const isOnce = name !== 'amount' && field?.within !== 'line' && !map.eachRow.includes(name);
  return sum(isOnce ? figures.slice(0, 1) : figures);
}

/** What payouts come to, and the numbers of those that their rows don't come to. */
export interface PaidOut {
  readonly money: Money;
  /** How many name, as their rows do, a number of their own, and are what those rows come to. */
  readonly met: number;
  readonly unmet: readonly string[];
}

/** Payouts are no income: each is what the rows of its number came to after their fees. */
export function paidOut(
  { map, digits }: Pick<ListGround, 'map' | 'digits'>,
  { payouts, used }: Pick<SortedRows, 'payouts' | 'used'>,
): PaidOut {
  const column = map.columns.get('net') ?? map.columns.get('total') ?? map.columns.get('amount');
  const figure = ({ cells }: ListRow): Decimal =>
    numberOfCell(cells.get(column ?? '') ?? '', map.decimals) ?? decimal(0);
  const numberOf = ({ cells }: ListRow): string =>
    cells.get(map.columns.get('statement') ?? '') ?? '';
  const rows = grouped(used, numberOf);
  const numbered = payouts.filter((row) => numberOf(row) !== '' && rows.has(numberOf(row)));
  const unmet = numbered.filter(
    (row) => !sum((rows.get(numberOf(row)) ?? []).map(figure)).eq(figure(row).abs()),
  );
  return {
    money: roundedMoney(sum(payouts.map((row) => figure(row).abs())), digits),
    met: map.columns.has('net') ? numbered.length - unmet.length : 0,
    unmet: map.columns.has('net') ? unmet.map(numberOf) : [],
  };
}
