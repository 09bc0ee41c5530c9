/** What reports say of one definition, firing or fair: the figures of its rows. */
import type { Book } from '../../book.ts';
import type { Flows } from '../../reckon/flows.ts';
import { USAGE_WINDOW } from '../../reckon/stock/depletion.ts';
import { fairsTable } from '../fairs.ts';
import { firingsTable } from '../firings.ts';
import { galleriesTable } from '../galleries.ts';
import type { IncomeGroup } from '../../groups.ts';
import { incomeTable } from '../income.ts';
import { materialsTable } from '../materials.ts';
import { piecesTable } from '../pieces.ts';
import { total, type Money } from '../../number/money.ts';
import type { Column, Row, Table } from '../table.ts';
import { isDecimal } from '../../number/decimal.ts';
import { amountFigure, type AskedRecord, type RecordFigure } from './figure.ts';

/** A report's table, and the column that has the record's id. */
interface RowsOf {
  readonly table: Table;
  readonly key: string;
}

/** The figures of all rows that are about a record. */
export function reportFigures(
  book: Book,
  flows: Flows,
  record: AskedRecord,
): readonly RecordFigure[] {
  if (record.kind === 'kilns')
    return kilnFigures(firingsTable(book, flows, { to: flows.stock.asOf }), record.id);
  return tablesFor(book, flows, record).flatMap(({ table, key }) =>
    table.rows
      .filter((row) => row[key] === record.id)
      .flatMap((row) => figuresOf(table.columns, row, key)),
  );
}

/** How often a kiln was fired, and what that cost. */
function kilnFigures({ rows }: Table, id: string): readonly RecordFigure[] {
  const own = rows.filter(({ kiln }) => kiln === id);
  const sum = (key: string): Money =>
    total(own.map((row) => row[key]).filter((cell) => typeof cell === 'bigint'));
  if (own.length === 0) return [];
  return [
    { what: 'Firings', count: own.length, money: sum('total') },
    { what: 'Of that, energy or fuel', money: sum('energyCost') },
    { what: 'Of that, wear', money: sum('wearCost') },
  ];
}

function tablesFor(book: Book, flows: Flows, { kind, id }: AskedRecord): readonly RowsOf[] {
  const span = { to: flows.stock.asOf };
  const sold = (by: IncomeGroup): RowsOf => {
    const period = { from: '0000-01-01', to: flows.stock.asOf };
    return { table: incomeTable(book, flows, { by, period }), key: 'item' };
  };
  if (kind === 'materials' || kind === 'recipes')
    return [{ table: materialsTable(book, flows, USAGE_WINDOW), key: 'material' }];
  if (kind === 'products')
    return [{ table: piecesTable(book, flows, 'product'), key: 'product' }, sold('product')];
  if (kind === 'firings') return [{ table: firingsTable(book, flows, span), key: 'firing' }];
  if (kind === 'fairs') return [{ table: fairsTable(book, flows, span), key: 'fair' }];
  if (kind === 'classes') return [sold('class')];
  if (kind !== 'channels') return [];
  const isGallery = book.channels.get(id)?.kind === 'consignment';
  return [
    ...(isGallery ? [{ table: galleriesTable(book, flows), key: 'gallery' }] : []),
    sold('channel'),
  ];
}

/** The figures of a row, of its glaze where it has one; what is zero says nothing. */
function figuresOf(columns: readonly Column[], row: Row, key: string): readonly RecordFigure[] {
  const { glaze, unit } = row;
  const of = key === 'product' && typeof glaze === 'string' && glaze !== '' ? glaze : undefined;
  const own = typeof unit === 'string' ? unit : undefined;
  return columns.flatMap(({ key: name, title: what, type, unit: ofColumn }): RecordFigure[] => {
    const cell = row[name] ?? null;
    if (cell === null || cell === 0 || cell === 0n) return [];
    if (type === 'count') return [{ what, of, count: cell }];
    if (type === 'money') return [{ what, of, money: cell }];
    if (type === 'rate') return [{ what, of, each: cell }];
    if (type !== 'quantity') return [];
    const unit = name.startsWith('days') ? 'days' : (ofColumn ?? own);
    return [
      { what, of, ...(isDecimal(cell) ? amountFigure(cell, unit) : { quantity: cell, unit }) },
    ];
  });
}
