/** Charts of firings and kilns: what they cost by month, what came out of one, how far parts are worn. */
import type { DaysUpTo } from '../../among.ts';
import type { Book } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import { monthOf } from '../../number/date.ts';
import { total } from '../../number/money.ts';
import { once } from '../../once.ts';
import type { FiringCost } from '../../reckon/kilns/firing-cost.ts';
import type { Flows } from '../../reckon/flows.ts';
import { firingsIn } from '../firings.ts';
import { broughtByRecord } from '../brought.ts';
import { perPiece, spanInWords, tableHead } from '../head.ts';
import type { Chart } from '../page.ts';
import type { Row, Table } from '../table.ts';
import { chartOfRows, firstRows, isSome, whatColumn } from './drawn-rows.ts';

/** What a piece in a firing cost on average, month by month. */
export function firingCourseChart(book: Book, flows: Flows, span: DaysUpTo): Chart {
  return {
    shape: 'course',
    title: 'Cost of firing a piece, by month',
    span: spanInWords(span),
    table: firingMonths(book, flows, span),
    label: 'month',
    value: 'perPiece',
  };
}

/** The same, and what a firing cost on average. */
export function firingCharts(book: Book, flows: Flows, span: DaysUpTo): Chart[] {
  const pieces = firingCourseChart(book, flows, span);
  const { table } = pieces;
  return [
    pieces,
    chartOfRows(table, {
      shape: 'course',
      title: 'Cost of a firing, by month',
      span: pieces.span,
      label: 'month',
      value: 'perFiring',
      some: { rows: table.rows, words: '' },
    }),
  ];
}

/** Firings by month: how many, their pieces, their cost, and the cost of a piece over all of them. */
function firingMonths(book: Book, flows: Flows, span: DaysUpTo): Table {
  const firings = firingsIn(flows, span);
  const months = grouped(firings, ({ firing }) => monthOf(firing.date));
  return {
    report: 'firings',
    title: `Cost of firings by month, ${spanInWords(span)}`,
    ...tableHead(book, flows.stock.asOf),
    columns: [
      { key: 'month', title: 'Month', type: 'text' },
      { key: 'firings', title: 'Firings', type: 'count' },
      { key: 'pieces', title: 'Pieces', type: 'count' },
      { key: 'total', title: 'Total', type: 'money' },
      { key: 'perFiring', title: 'Per firing', type: 'rate' },
      { key: 'perPiece', title: 'Per piece', type: 'rate', from: 'Total ÷ Pieces' },
    ],
    rows: [...months].map(([month, those]) => ({ month, ...costOfFirings(book, those) })),
    totals: { month: 'all months', ...costOfFirings(book, firings) },
    notes: [],
    behind: once(() => [...months.values()].map((those) => those.map(({ firing }) => firing.id))),
    brought: broughtByRecord(() => [...months.values()], {
      keys: ['firings', 'pieces', 'total'],
      idOf: ({ firing }) => firing.id,
      cellsOf: (those) => costOfFirings(book, those),
    }),
  };
}

function costOfFirings(book: Book, firings: readonly FiringCost[]): Row {
  const pieces = firings.reduce((count, cost) => count + cost.pieces, 0);
  const all = total(firings.map((cost) => cost.total));
  const each = (count: number) => perPiece(book, all, count);
  const { length } = firings;
  return { firings: length, pieces, total: all, perFiring: each(length), perPiece: each(pieces) };
}

/** What came out of a load, line by line; nothing while it is not unloaded. */
export function loadCharts(table: Table): Chart[] {
  const parts = ['first', 'second', 'lost'];
  const rows = table.rows.filter((row) => parts.some((key) => isSome(row[key])));
  const line = whatColumn('Load');
  return [
    chartOfRows(table, {
      shape: 'bars',
      title: 'What came out',
      span: table.title,
      label: line.key,
      value: 'in',
      more: [line],
      also: { parts },
      some: firstRows(
        rows.map((row) => ({ ...row, what: `${String(row['product'])}, ${String(row['item'])}` })),
      ),
    }),
  ];
}

/** How often each part was fired since it was fitted, beside how long such a part lasts. */
export function wearCharts(table: Table): Chart[] {
  const part = whatColumn('Part');
  return [
    chartOfRows(table, {
      shape: 'bars',
      title: 'Firings since each part was fitted, and how many it lasts',
      span: `on ${table.asOf}`,
      label: part.key,
      value: 'firings',
      more: [part],
      also: { marks: ['lasts'] },
      some: firstRows(
        table.rows.map((row) => ({
          ...row,
          what: `${String(row['kiln'])}: ${String(row['part'])}`,
        })),
      ),
    }),
  ];
}
