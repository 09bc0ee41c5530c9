import { describe, expect, it } from 'vitest';
import { flatten } from '../../src/export/flatten.ts';
import type { DataTable } from '../../src/export/package.ts';
import { bookFrom, type Files } from '../helpers/book.ts';
import { csvRows } from './database.ts';

function tablesOf(files: Files): ReadonlyMap<string, DataTable> {
  const tables = flatten(bookFrom(files), (id) => (id === 's2' ? 7 : undefined));
  return new Map(tables.map((table) => [table.name, table]));
}

function csv(
  tables: ReadonlyMap<string, DataTable>,
  name: string,
  columns: readonly string[],
): string[] {
  const data = tables.get(name);
  if (data === undefined) throw new Error(`no table ${name}`);
  const rows = csvRows([...data.lines()].join(''));
  const kept = columns.map((column) => rows[0]?.indexOf(column) ?? -1);
  return rows.map((cells) => kept.map((at) => cells[at]).join(','));
}

describe('the book as flat tables', () => {
  it('has a row for each record, by id, with its place and exact values', () => {
    const tables = tablesOf({
      sales: `
s2: { date: 2026-03-02, channel: door, discount: 5, lines: [{ product: mug, count: 2, price: 28.50 }] }
s1: { date: 2026-03-01, channel: fair, discount: 10%, paid: no, note: "=1+1", lines: [] }
`,
    });
    expect(
      csv(tables, 'sales', [
        'id',
        'file',
        'line',
        'date',
        'paid',
        'discountAmount',
        'discountPercent',
        'note',
      ]),
    ).toEqual([
      'id,file,line,date,paid,discountAmount,discountPercent,note',
      "s1,sales.yaml,,2026-03-01,no,,0.1,'=1+1",
      's2,sales.yaml,7,2026-03-02,,5.00,,',
    ]);
    expect(csv(tables, 'sales-lines', ['record', 'number', 'product', 'count', 'price'])).toEqual([
      'record,number,product,count,price',
      's2,1,mug,2,28.50',
    ]);
  });

  it('keeps quantities exact, with their units beside them', () => {
    const tables = tablesOf({
      bought: `b1: { date: 2026-01-02, supplier: Clay Barn, lines: [{ material: kaolin, quantity: 4 x 25.125 lb, cost: 9 }] }`,
      kilns: `k1: { name: Kiln, fuel: natural-gas, heat-content: 10.8 kWh/m3-gas, duty: { bisque: 50%, glaze: 62.5% } }`,
      tariffs: `t1: { from: 2026-01-01, fuel: electricity, price: 0.18345678, per: kWh }`,
    });
    expect(csv(tables, 'bought-lines', ['quantity', 'quantityUnit', 'cost'])[1]).toBe(
      '100.5,lb,9.00',
    );
    expect(csv(tables, 'kilns', ['heatContent', 'heatContentUnit'])[1]).toBe('10.8,kWh/m3-gas');
    expect(csv(tables, 'kilns-duty', ['record', 'name', 'value'])).toEqual([
      'record,name,value',
      'k1,bisque,0.5',
      'k1,glaze,0.625',
    ]);
    expect(csv(tables, 'tariffs', ['price'])[1]).toBe('0.18345678');
  });

  it('has distances and temperatures as figures, with their units beside them', () => {
    const tables = tablesOf({
      spent: 'e1: { date: 2026-01-02, to: Garage, for: car, amount: 9, distance: 52.5 mi }',
      firings:
        'f1: { date: 2026-01-03, kiln: k1, kind: glaze, cone: "6", peak: 1222 °C, load: [] }',
    });
    expect(csv(tables, 'spent', ['distance', 'distanceUnit'])[1]).toBe('52.5,mi');
    expect(csv(tables, 'firings', ['cone', 'peak', 'peakUnit'])[1]).toBe('cone 6,1222,°C');
  });

  // 2 × 30.00 with 5 % tax in them, 10 % off: 54.00, of which 2.57 is tax; fee 2 % of 54.00 = 1.08.
  it('has what a sale came to beside what is written, also line by line', () => {
    const tables = tablesOf({
      channels: 'fair: { name: Fair, kind: fair, tax-included: 5%, fee-percent: 2% }',
      sales:
        's1: { date: 2026-03-02, channel: fair, discount: 10%, lines: [{ product: mug, count: 1, price: 40 }, { product: cup, count: 1, price: 20 }] }',
    });
    const sale = ['tax', 'taxTotal', 'fee', 'feeTotal', 'commissionTotal', 'due'];
    expect(csv(tables, 'sales', sale)[1]).toBe(',2.57,,1.08,0.00,54.00');
    // 36.00 and 18.00: tax 1.71 and 0.86, fee 0.72 and 0.36.
    const lines = csv(tables, 'sales-lines', ['net', 'taxIncluded', 'feeShare']);
    expect(lines.slice(1)).toEqual(['34.29,1.71,0.72', '17.14,0.86,0.36']);
  });

  it('has lists within lists, known by their places', () => {
    const tables = tablesOf({
      recipes: `
r1:
  name: Clear
  kind: glaze
  cone: "04"
  versions:
    - { from: 2025-01-01, base: [{ material: frit, parts: 60 }] }
    - { from: 2026-01-01, base: [{ material: frit, parts: 55 }, { material: kaolin, parts: 45 }] }
`,
    });
    expect(csv(tables, 'recipes', ['cone'])[1]).toBe('cone 04');
    expect(
      csv(tables, 'recipes-versions-base', ['record', 'number', 'part', 'material', 'parts']),
    ).toEqual([
      'record,number,part,material,parts',
      'r1,1,1,frit,60',
      'r1,2,1,frit,55',
      'r1,2,2,kaolin,45',
    ]);
    expect(tables.get('recipes-versions-base')).toMatchObject({
      primaryKey: ['record', 'number', 'part'],
      foreignKeys: [
        { fields: ['record', 'number'], resource: 'recipes-versions', to: ['record', 'number'] },
        { fields: ['material'], resource: 'materials', to: ['id'] },
      ],
    });
  });

  it('puts fuel from stock and fuel by the tariff into the same columns', () => {
    const tables = tablesOf({
      firings: `
f1: { date: 2026-01-02, kiln: k, kind: raku, fuel-used: 12 lb, load: [] }
f2: { date: 2026-01-03, kiln: k, kind: raku, fuel-used: { material: propane, quantity: 3 gal }, load: [] }
`,
    });
    expect(csv(tables, 'firings', ['id', 'fuelUsed', 'fuelUsedUnit', 'fuelUsedMaterial'])).toEqual([
      'id,fuelUsed,fuelUsedUnit,fuelUsedMaterial',
      'f1,12,lb,',
      'f2,3,gal,propane',
    ]);
  });

  it('leads only to kinds that an id can be of, and asks only for what a record must have', () => {
    const tables = tablesOf({});
    const used = tables.get('used');
    expect(used?.foreignKeys.map(({ fields }) => fields.join())).toEqual(['id']);
    expect(used?.required).toEqual(['date', 'material', 'quantity', 'quantityUnit']);
    expect(tables.get('pieces')?.required).toEqual(['date', 'product', 'made']);
  });

  it('has every table though nothing is in it', () => {
    expect(csv(tablesOf({}), 'consigned-sent', ['record', 'number', 'product'])).toEqual([
      'record,number,product',
    ]);
  });
});
