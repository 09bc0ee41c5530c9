/** Tables of an invented pottery for the tests of the renderers. */
import { decimal } from '../../src/number/decimal.ts';
import type { Decimal } from '../../src/number/decimal.ts';
import type { Column, Row, Table } from '../../src/report/table.ts';

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

const MATERIAL_COLUMNS: readonly Column[] = [
  { key: 'material', title: 'Id', type: 'id', dataOnly: true },
  { key: 'name', title: 'Material', type: 'text' },
  { key: 'onHand', title: 'On hand', type: 'quantity' },
  { key: 'unit', title: 'Unit', type: 'text' },
  { key: 'value', title: 'Value', type: 'money' },
  { key: 'usedPerDay', title: 'Used a day', type: 'quantity', places: 3, drop: 2 },
  { key: 'daysLeft', title: 'Days left', type: 'count' },
  { key: 'runsOut', title: 'Runs out', type: 'date', drop: 1 },
  { key: 'orderBy', title: 'Order by', type: 'date' },
  { key: 'state', title: 'State', type: 'text' },
];

type MaterialCells = [
  string,
  string,
  string,
  string,
  string,
  string | null,
  number | null,
  string | null,
  string | null,
  string,
];

const MATERIAL_CELLS: readonly MaterialCells[] = [
  [
    'buff-stoneware',
    'Buff stoneware, fine grog',
    '312.5',
    'kg',
    '421.875',
    '6.41',
    48,
    '2026-05-18',
    '2026-05-04',
    'ok',
  ],
  [
    'porcelain',
    'Porcelain, throwing body',
    '38',
    'kg',
    '98.80',
    '2.75',
    13,
    '2026-04-13',
    '2026-03-30',
    'order-now',
  ],
  [
    'potash-feldspar',
    'Potash feldspar',
    '21.4',
    'kg',
    '44.5155',
    '0.18',
    118,
    '2026-07-27',
    '2026-07-13',
    'ok',
  ],
  ['whiting', 'Whiting', '9.8', 'kg', '12.7402', '0.09', 108, '2026-07-17', '2026-07-03', 'ok'],
  [
    'silica-325',
    'Silica, 325 mesh',
    '14.25',
    'kg',
    '15.6751',
    '0.12',
    118,
    '2026-07-27',
    '2026-07-13',
    'ok',
  ],
  [
    'red-iron-oxide',
    'Red iron oxide',
    '1.35',
    'kg',
    '8.7750',
    '0.02',
    67,
    '2026-06-06',
    '2026-05-23',
    'low',
  ],
  [
    'cobalt-carbonate',
    'Cobalt carbonate',
    '0.185',
    'kg',
    '20.3497',
    '0.001',
    185,
    '2026-10-02',
    '2026-09-18',
    'ok',
  ],
  ['wadding', 'Wadding, alumina and kaolin', '2.2', 'kg', '6.16', null, null, null, null, 'idle'],
  ['propane', 'Propane', '-4.5', 'gal', '-14.8500', '0.61', 0, '2026-03-31', '2026-03-17', 'out'],
];

function materialRow(cells: MaterialCells): Row {
  const [material, name, onHand, unit, value, usedPerDay, daysLeft, runsOut, orderBy, state] =
    cells;
  const rate = usedPerDay === null ? null : d(usedPerDay);
  return {
    material,
    name,
    onHand: d(onHand),
    unit,
    value: d(value),
    usedPerDay: rate,
    daysLeft,
    runsOut,
    orderBy,
    state,
  };
}

/** What a materials report looks like. */
export const MATERIALS: Table = tableOf(MATERIAL_COLUMNS, MATERIAL_CELLS.map(materialRow), {
  report: 'materials',
  title: 'Materials on hand',
  totals: { value: d('614.0405') },
  notes: [
    'Propane stands below zero: the book says more was burnt than was bought. Count the tank, or add the missing purchase.',
    'Used a day is what went out in the last 90 days.',
  ],
});

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
  { key: 'perPiece', title: 'A piece', type: 'money', places: 3 },
  { key: 'estimated', title: 'Estimated', type: 'flag', drop: 4 },
];

const ENERGY = ['52.31', '71.4', '49.86', '70.922', '68.05', '51.7', '73.3', '12.9'] as const;

function firingRow(used: string, at: number): Row {
  const energyUsed = d(used);
  const energyCost = energyUsed.times(d('0.1847'));
  const [wearCost, suppliesCost, labourCost] = [d('3.4166'), d('0.9375'), d('7.50')];
  const pieces = 24 + at * 5;
  const total = energyCost.plus(wearCost).plus(suppliesCost).plus(labourCost);
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
    perPiece: decimal((Number(total.toFixed(6)) / pieces).toFixed(6)),
    estimated: at === 7,
  };
}

const FIRING_ROWS = ENERGY.map(firingRow);

function added(key: string): Decimal {
  return FIRING_ROWS.map((row) => row[key] as Decimal).reduce((sum, value) => sum.plus(value));
}

const ADDED = [
  'energyUsed',
  'energyCost',
  'wearCost',
  'suppliesCost',
  'labourCost',
  'total',
] as const;

/** What a firings report looks like: more columns than 80 cells hold. */
export const FIRINGS: Table = tableOf(FIRING_COLUMNS, FIRING_ROWS, {
  title: 'What each firing cost',
  totals: { pieces: 332, ...Object.fromEntries(ADDED.map((key) => [key, added(key)])) },
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
