/** Charts of fairs and galleries: what came in there, what it took, what is left and still owed. */
import { less, type Money, NO_MONEY } from '../../number/money.ts';
import type { Chart } from '../page.ts';
import type { Cell, Column, Row, Table } from '../table.ts';
import { chartOfRows, firstRows, isSome, lastRows, nameIn, whatColumn } from './drawn-rows.ts';

const NET: Column = { key: 'net', title: 'Came in', type: 'money' };
const COSTS: Column = { key: 'costs', title: 'Cost and expenses', type: 'money' };

/** What each fair brought in, parted into what it cost and what it left. */
export function fairCharts(table: Table): Chart[] {
  const rows = table.rows.filter(({ net, costs }) => isSome(net) || isSome(costs));
  const names = new Set(rows.map((row) => nameIn(row, 'name', 'fair')));
  const isPlain = names.size === rows.length;
  const named = rows.map((row) => ({ ...row, what: fairName(row, isPlain) }));
  return [
    chartOfRows(table, {
      shape: 'bars',
      title: 'What each fair brought in, and what it left',
      span: 'by date',
      label: 'what',
      value: NET.key,
      also: { parts: ['profit', COSTS.key] },
      more: [whatColumn('Fair'), NET, COSTS],
      some: lastRows(named),
    }),
  ];
}

/** A market of every week has one name for all of its days, so that these have to tell them apart. */
function fairName(row: Row, isPlain: boolean): string {
  const name = nameIn(row, 'name', 'fair');
  return isPlain ? name : `${String(row['date'])} ${name}`;
}

/** What one fair sold, by item. */
export function fairItemCharts(table: Table): Chart[] {
  const sold = table.rows.filter(({ part, net }) => part === 'Sold' && isSome(net));
  return [
    chartOfRows(table, {
      shape: 'bars',
      title: 'What sold there, after discounts',
      span: table.title,
      label: 'what',
      value: 'net',
      more: [whatColumn('Item')],
      some: firstRows(sold.map((row) => ({ ...row, what: nameIn(row, 'name', 'item') }))),
    }),
  ];
}

const YOURS: Column = { key: 'yours', title: 'Yours', type: 'money' };

/** What buyers paid at each gallery and whose it is, and what is still owed. */
export function galleryCharts(table: Table): Chart[] {
  const rows = table.rows.map((row): Row => ({
    ...row,
    what: nameIn(row, 'name', 'gallery'),
    yours: yoursOf(row),
  }));
  const gallery = whatColumn('Gallery');
  const common = { shape: 'bars', span: `up to ${table.asOf}`, label: gallery.key } as const;
  const sold = rows.filter(({ takings }) => isSome(takings));
  const owing = rows.filter(({ unpaid }) => isSome(unpaid));
  return [
    chartOfRows(table, {
      ...common,
      title: 'What buyers paid at each gallery',
      value: 'takings',
      also: { parts: [YOURS.key, 'commission'] },
      more: [gallery, YOURS],
      some: firstRows(sold),
    }),
    chartOfRows(table, {
      ...common,
      title: 'Owed to you by each gallery',
      value: 'unpaid',
      more: [gallery],
      some: firstRows(owing),
    }),
  ];
}

function yoursOf({ takings, commission }: Row): Money {
  return less(moneyIn(takings), moneyIn(commission));
}

function moneyIn(cell: Cell | undefined): Money {
  return typeof cell === 'bigint' ? cell : NO_MONEY;
}
