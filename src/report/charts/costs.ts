/** Charts of costs: what a good piece is made of beside its price, and what each price leaves. */
import type { Chart } from '../page.ts';
import { COST_PARTS } from '../product-cost.ts';
import type { Column, Row, Table } from '../table.ts';
import { chartOfRows, firstRows, isSome, nameIn, sumOfCells, whatColumn } from './drawn-rows.ts';

/** What the parts of a cost are called in the drawing; those of a firing are one. */
const PARTS = [
  { key: 'clay', title: 'Clay', of: ['clay'] },
  { key: 'glaze', title: 'Glaze', of: ['glaze'] },
  { key: 'firing', title: 'Firing', of: ['energy', 'wear', 'supplies'] },
  { key: 'labour', title: 'Labour', of: ['labour'] },
  { key: 'overhead', title: 'Overhead', of: ['overhead'] },
  { key: 'lossUplift', title: 'Losses', of: ['lossUplift'] },
  { key: 'packing', title: 'Packing', of: ['packing'] },
] as const;

/** The kinds of channel whose floor is marked, the one that takes most as a rule first. */
const FLOORS = ['floorConsignment', 'floorFair', 'floorOnline', 'floorDirect'] as const;

/** One bar a product, by what it is made of, with its price and the floor of the dearest channel. */
export function costCharts(table: Table): Chart[] {
  const rows = table.rows.filter(({ total }) => isSome(total)).map(costParts);
  const parts = PARTS.filter(({ key }) => rows.some((row) => isSome(row[key])));
  const floor = FLOORS.find((key) =>
    table.columns.some((each) => each.key === key && each.dataOnly !== true),
  );
  return [
    chartOfRows(table, {
      shape: 'bars',
      title: 'What one good piece costs, beside its price',
      span: 'what pays least for an hour first',
      label: 'what',
      value: 'total',
      also: { parts: parts.map(({ key }) => key), marks: ['price', ...(floor ? [floor] : [])] },
      more: [
        whatColumn('Product'),
        ...parts.map(({ key, title }): Column => ({ key, title, type: 'rate' })),
      ],
      some: firstRows(rows),
    }),
  ];
}

function costParts(row: Row): Row {
  const parts = PARTS.map(({ key, of }) => [key, sumOfCells(row, of)] as const);
  return { ...row, ...Object.fromEntries(parts), what: nameIn(row, 'name', 'product') };
}

/** What one product's cost is made of, and what is left of each price. */
export function productCostCharts(table: Table): Chart[] {
  const of = (part: string): Row[] => table.rows.filter((row) => row['part'] === part);
  const common = { shape: 'bars', label: 'item' } as const;
  const parts = of(COST_PARTS.cost).filter(({ cost }) => isSome(cost));
  const prices = of(COST_PARTS.prices).filter(({ margin }) => isSome(margin));
  const totals = { item: 'one good piece', cost: table.totals?.['cost'] };
  return [
    chartOfRows(table, {
      ...common,
      title: 'What the cost of one good piece is made of',
      value: 'cost',
      totals,
      span: 'in the order of its way',
      some: { rows: parts, words: '' },
    }),
    chartOfRows(table, {
      ...common,
      title: 'What each price leaves of one piece',
      value: 'margin',
      span: 'after its cost and selling',
      some: { rows: prices, words: '' },
    }),
  ];
}
