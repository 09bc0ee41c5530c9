/** A materials report of an invented pottery. */
import { decimal } from '../../src/number/decimal.ts';
import type { Column, Row, Table } from '../../src/report/table.ts';
import { money } from '../helpers/minor.ts';
import { tableOf } from './sample.ts';

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
    '421.87',
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
    '44.52',
    '0.18',
    118,
    '2026-07-27',
    '2026-07-13',
    'ok',
  ],
  ['whiting', 'Whiting', '9.8', 'kg', '12.74', '0.09', 108, '2026-07-17', '2026-07-03', 'ok'],
  [
    'silica-325',
    'Silica, 325 mesh',
    '14.25',
    'kg',
    '15.68',
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
    '8.77',
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
    '20.35',
    '0.001',
    185,
    '2026-10-02',
    '2026-09-18',
    'ok',
  ],
  ['wadding', 'Wadding, alumina and kaolin', '2.2', 'kg', '6.16', null, null, null, null, 'idle'],
  ['propane', 'Propane', '-4.5', 'gal', '-14.85', '0.61', 0, '2026-03-31', '2026-03-17', 'out'],
];

function materialRow(cells: MaterialCells): Row {
  const [material, name, onHand, unit, value, usedPerDay, daysLeft, runsOut, orderBy, state] =
    cells;
  const rate = usedPerDay === null ? null : decimal(usedPerDay);
  return {
    material,
    name,
    onHand: decimal(onHand),
    unit,
    value: money(value),
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
  totals: { value: money('614.04') },
  notes: [
    'Propane stands below zero: the book says more was burnt than was bought. Count the tank, or add the missing purchase.',
    'Used a day is what went out in the last 90 days.',
  ],
});
