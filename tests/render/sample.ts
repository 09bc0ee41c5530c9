/** Tables of an invented pottery for the tests of the renderers. */
import { decimal } from '../../src/number/decimal.ts';
import type { Decimal } from '../../src/number/decimal.ts';
import { fractionOf, total as totalOf, type Money } from '../../src/number/money.ts';
import type { Column, Row, Table } from '../../src/report/table.ts';
import { money } from '../helpers/minor.ts';

/** A table of the columns and rows, with the rest of the envelope filled in. */
export function tableOf(
  columns: readonly Column[],
  rows: readonly Row[],
  more: Partial<Table> = {},
): Table {
  return {
    report: 'firings',
    title: 'Firings',
    studio: 'Willow Bend Pottery',
    asOf: '2026-03-31',
    currency: 'USD',
    minorDigits: 2,
    columns,
    rows,
    notes: [],
    ...more,
  };
}

function d(text: string): Decimal {
  return decimal(text);
}

const FIRING_COLUMNS: readonly Column[] = [
  { key: 'firing', title: 'Firing', type: 'id' },
  { key: 'date', title: 'Date', type: 'date' },
  { key: 'kiln', title: 'Kiln', type: 'text', drop: 2 },
  { key: 'kind', title: 'Kind', type: 'text' },
  { key: 'cone', title: 'Cone', type: 'text', drop: 1 },
  { key: 'pieces', title: 'Pieces', type: 'count' },
  { key: 'energyUsed', title: 'Energy', type: 'quantity', unit: 'kWh', places: 1, drop: 3 },
  { key: 'energyCost', title: 'Energy cost', type: 'money' },
  { key: 'wearCost', title: 'Wear', type: 'money', drop: 5 },
  { key: 'suppliesCost', title: 'Supplies', type: 'money' },
  { key: 'labourCost', title: 'Labour', type: 'money' },
  { key: 'total', title: 'Total', type: 'money' },
  { key: 'perPiece', title: 'A piece', type: 'rate', places: 3 },
  { key: 'estimated', title: 'Estimated', type: 'flag', drop: 4 },
];

const ENERGY = ['52.31', '71.4', '49.86', '70.922', '68.05', '51.7', '73.3', '12.9'] as const;

function firingRow(used: string, at: number): Row {
  const energyUsed = d(used);
  const energyCost = fractionOf(money('0.18'), energyUsed);
  const [wearCost, suppliesCost, labourCost] = [money('3.42'), money('0.94'), money('7.50')];
  const pieces = 24 + at * 5;
  const total = totalOf([energyCost, wearCost, suppliesCost, labourCost]);
  const bisque = at % 2 === 0;
  return {
    firing: `f2603${String(at * 4 + 1).padStart(2, '0')}k${'abcdefgh'.charAt(at)}`,
    date: `2026-03-${String(at * 4 + 1).padStart(2, '0')}`,
    kiln: at === 7 ? 'Small test kiln' : 'Front-loader',
    kind: at === 7 ? 'test' : bisque ? 'bisque' : 'glaze',
    cone: bisque ? '04' : '6',
    pieces,
    energyUsed,
    energyCost,
    wearCost,
    suppliesCost,
    labourCost,
    total,
    perPiece: decimal((Number(total) / 100 / pieces).toFixed(6)),
    estimated: at === 7,
  };
}

const FIRING_ROWS = ENERGY.map(firingRow);

function added(key: string): Money {
  return totalOf(FIRING_ROWS.map((row) => row[key] as Money));
}

const ADDED = ['energyCost', 'wearCost', 'suppliesCost', 'labourCost', 'total'] as const;

/** What a firings report looks like: more columns than 80 cells hold. */
export const FIRINGS: Table = tableOf(FIRING_COLUMNS, FIRING_ROWS, {
  title: 'What each firing cost',
  totals: {
    pieces: 332,
    energyUsed: d('450.442'),
    ...Object.fromEntries(ADDED.map((key) => [key, added(key)])),
  },
  notes: ['One firing was not metered: its energy is the kiln’s power × hours × duty.'],
});

const LOSS_CELLS: readonly [string, number, number, number, number, string, string, string][] = [
  ['Tumbler', 148, 133, 6, 9, '0.0608', '0.0323', '0.1115'],
  ['Dinner plate', 62, 44, 5, 13, '0.2097', '0.1272', '0.3258'],
  ['Serving bowl', 40, 37, 2, 1, '0.025', '0.0044', '0.1288'],
  ['Teapot', 9, 6, 1, 2, '0.2222', '0.0632', '0.5474'],
  ['Bud vase', 1290, 1261, 14, 15, '0.0116', '0.0071', '0.0191'],
];

/** What a losses report looks like, with a bar. */
export const LOSSES: Table = tableOf(
  [
    { key: 'group', title: 'Product', type: 'text' },
    { key: 'in', title: 'In', type: 'count' },
    { key: 'first', title: 'First', type: 'count' },
    { key: 'second', title: 'Second', type: 'count' },
    { key: 'lost', title: 'Lost', type: 'count' },
    { key: 'lossRate', title: 'Loss rate', type: 'fraction', bar: true },
    { key: 'low', title: 'Low', type: 'fraction' },
    { key: 'high', title: 'High', type: 'fraction' },
  ],
  LOSS_CELLS.map(([group, all, first, second, lost, rate, low, high]) => ({
    group,
    in: all,
    first,
    second,
    lost,
    lossRate: d(rate),
    low: d(low),
    high: d(high),
  })),
  {
    report: 'losses',
    title: 'Losses by product',
    totals: { group: 'All', in: 1549, first: 1481, second: 28, lost: 40, lossRate: d('0.0258') },
    notes: ['Low and high: the 95 % interval (Wilson). One of five says little.'],
  },
);

/** A small table with a cell of every type, and texts that try to act. */
export const SMALL: Table = tableOf(
  [
    { key: 'sale', title: 'Sale', type: 'id' },
    { key: 'date', title: 'Date', type: 'date' },
    { key: 'item', title: 'Item', type: 'text' },
    { key: 'count', title: 'Count', type: 'count' },
    { key: 'gross', title: 'Gross', type: 'money' },
    { key: 'weight', title: 'Clay', type: 'quantity', unit: 'kg' },
    { key: 'marginRate', title: 'Margin', type: 'fraction' },
    { key: 'estimated', title: 'Estimated', type: 'flag' },
    { key: 'file', title: 'File', type: 'text', dataOnly: true },
  ],
  [
    {
      sale: 's260307aa',
      date: '2026-03-07',
      item: 'Tumbler | blue',
      count: 1200,
      gross: money('33600.01'),
      weight: d('480.125'),
      marginRate: d('0.6125'),
      estimated: false,
      file: 'sales/2026-03.yaml',
    },
    {
      sale: 's260308bb',
      date: '2026-03-08',
      item: '=Bowl "wide"',
      count: 3,
      gross: money('-84.00'),
      weight: d('2.4'),
      marginRate: null,
      estimated: true,
      file: 'sales/2026-03.yaml',
    },
    {
      sale: 's260309cc',
      date: '2026-03-09',
      item: 'Vase \u202eesrever',
      count: 1,
      gross: money('0.00'),
      weight: null,
      marginRate: d('-0.0005'),
      estimated: null,
      file: 'sales/2026-03.yaml',
    },
  ],
  {
    report: 'income',
    title: 'Income by sale',
    totals: { count: 1204, gross: money('33516.01') },
    notes: ['One cost is estimated.'],
  },
);
