/** Random tables and texts for the laws of the renderers. */
import fc from 'fast-check';
import { decimal } from '../../src/number/decimal.ts';
import { total, type Money } from '../../src/number/money.ts';
import type { Cell, Column, ColumnType, Row, Table } from '../../src/report/table.ts';
import { tableOf } from './sample.ts';

const NASTY = [
  '\u001b[31m',
  '\u009b',
  '\u202e',
  '\u2066',
  '\u200b',
  '\u200d',
  '\ufeff',
  '\u2028',
  '\ud800',
  '\r\n',
  '\t',
  '|',
  '\\',
  '`',
  '=',
  '-',
  '@',
  '"',
  ',',
  '釉薬',
  '🏺',
  'e\u0301',
  ' ',
];

/** Any string at all: lone surrogates, controls, and signs that are known to cause trouble. */
export const anyText = fc
  .array(
    fc.oneof(
      fc.string({ unit: 'binary', maxLength: 4 }),
      fc.constantFrom(...NASTY),
      fc.integer({ min: 0, max: 0xffff }).map((unit) => String.fromCharCode(unit)),
      fc.string({ unit: 'grapheme-ascii', maxLength: 12 }),
    ),
    { maxLength: 8 },
  )
  .map((parts) => parts.join(''));

/** A decimal of up to six digits before the point and eight after. */
export const anyDecimal = fc
  .tuple(fc.integer({ min: -999_999, max: 999_999 }), fc.integer({ min: 0, max: 99_999_999 }))
  .map(([whole, part]) => decimal(`${whole}.${String(part).padStart(8, '0')}`));

/** An amount of up to eight digits. */
export const anyMoney = fc
  .bigInt({ min: -99_999_999n, max: 99_999_999n })
  .map((units) => units as Money);

const CELLS: Readonly<Record<ColumnType, fc.Arbitrary<Cell>>> = {
  text: anyText,
  id: anyText,
  date: fc.constantFrom('2026-03-08', '2025-12-31'),
  flag: fc.boolean(),
  count: fc.integer({ min: -99_999, max: 9_999_999 }),
  money: anyMoney,
  rate: anyDecimal,
  quantity: anyDecimal,
  fraction: anyDecimal,
};

const TYPES = Object.keys(CELLS) as ColumnType[];

function columnArbitrary(at: number): fc.Arbitrary<Column> {
  return fc
    .record({
      title: anyText,
      type: fc.constantFrom(...TYPES),
      drop: fc.option(fc.integer({ min: 1, max: 3 }), { nil: undefined }),
      bar: fc.boolean(),
      unit: fc.option(fc.constantFrom('kg', 'kWh'), { nil: undefined }),
    })
    .map(({ title, type, drop, bar, unit }) => ({
      key: `column${String(at)}`,
      title,
      type,
      bar,
      ...(drop === undefined ? {} : { drop }),
      ...(unit === undefined ? {} : { unit }),
    }));
}

const columnsArbitrary = fc
  .integer({ min: 1, max: 7 })
  .chain((count) => fc.tuple(...Array.from({ length: count }, (_, at) => columnArbitrary(at))));

function rowArbitrary(columns: readonly Column[]): fc.Arbitrary<Row> {
  const cells = columns.map(
    ({ key, type }) => [key, fc.option(CELLS[type], { nil: null })] as const,
  );
  return fc.record(Object.fromEntries(cells));
}

function isMoney(cell: Cell | undefined): cell is Money {
  return typeof cell === 'bigint';
}

function totalsOf(columns: readonly Column[], rows: readonly Row[]): Row {
  const money = columns.filter(({ type }) => type === 'money');
  return Object.fromEntries(
    money.map(({ key }) => [key, total(rows.map((row) => row[key]).filter(isMoney))]),
  );
}

/** Any table; where it has totals, money adds up to them exactly. */
export const anyTable: fc.Arbitrary<Table> = columnsArbitrary.chain((columns) =>
  fc
    .record({
      rows: fc.array(rowArbitrary(columns), { maxLength: 6 }),
      withTotals: fc.boolean(),
      title: anyText,
      studio: anyText,
      notes: fc.array(anyText, { maxLength: 2 }),
    })
    .map(({ rows, withTotals, title, studio, notes }) =>
      tableOf(columns, rows, {
        title,
        studio,
        notes,
        ...(withTotals ? { totals: totalsOf(columns, rows) } : {}),
      }),
    ),
);

/** Matches what must never reach a terminal, a page or a sheet (line ends are taken off before). */
export const UNSAFE = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}]/u;
