import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimal, roundTo } from '../../src/number/decimal.ts';
import { moneyText } from '../../src/number/money.ts';
import type { Cell, Column, Table } from '../../src/report/table.ts';
import { renderJson } from '../../src/render/json.ts';
import { holds } from '../helpers/law.ts';
import { money } from '../helpers/minor.ts';
import { anyTable, UNSAFE } from './arbitrary.ts';
import { SMALL, tableOf } from './sample.ts';

interface Document {
  readonly columns: readonly unknown[];
  readonly rows: readonly Record<string, unknown>[];
  readonly totals?: Record<string, unknown>;
}

function parse(table: Table): Document {
  return JSON.parse(renderJson(table)) as Document;
}

const TINY = tableOf(
  [
    { key: 'item', title: 'Item', type: 'text', drop: 1 },
    { key: 'weight', title: 'Weight', type: 'quantity', unit: 'g', places: 1 },
    { key: 'sold', title: 'Sold', type: 'flag', dataOnly: true },
    { key: 'count', title: 'Count', type: 'count' },
  ],
  [
    { item: 'Mug \u001b[1m', weight: decimal('0.00000000012345678901234'), sold: false, count: 2 },
    { count: null, item: null },
  ],
  { totals: { count: 2 }, notes: ['One note.'] },
);

const WITHOUT_TOTALS = tableOf(TINY.columns, TINY.rows);

describe('renderJson', () => {
  it('is one document in the stated order', () => {
    expect(renderJson(TINY)).toBe(`{
  "version": 1,
  "report": "firings",
  "studio": "Willow Bend Pottery",
  "asOf": "2026-03-31",
  "currency": "USD",
  "columns": [
    {
      "key": "item",
      "title": "Item",
      "type": "text"
    },
    {
      "key": "weight",
      "title": "Weight",
      "type": "quantity",
      "unit": "g"
    },
    {
      "key": "sold",
      "title": "Sold",
      "type": "flag"
    },
    {
      "key": "count",
      "title": "Count",
      "type": "count"
    }
  ],
  "rows": [
    {
      "item": "Mug \\u001b[1m",
      "weight": "0.00000000012345678901234",
      "sold": false,
      "count": 2
    },
    {
      "item": null,
      "weight": null,
      "sold": null,
      "count": null
    }
  ],
  "totals": {
    "count": 2
  },
  "notes": [
    "One note."
  ]
}
`);
  });

  it('has no totals where the table has none', () => {
    expect(Object.keys(parse({ ...TINY, rows: [] }))).toContain('totals');
    expect(Object.keys(parse(WITHOUT_TOTALS))).toEqual([
      'version',
      'report',
      'studio',
      'asOf',
      'currency',
      'columns',
      'rows',
      'notes',
    ]);
  });

  it('has money with all decimals of its currency', () => {
    const { rows, totals } = parse(SMALL);
    expect(rows.map(({ gross }) => gross)).toEqual(['33600.01', '-84.00', '0.00']);
    expect(totals).toEqual({ count: 1204, gross: '33516.01' });
  });

  it('writes whole numbers that stand in a decimal column as text, and a decimal count as a number', () => {
    const columns = [
      { key: 'a', title: 'A', type: 'money' },
      { key: 'b', title: 'B', type: 'count' },
    ] as const;
    expect(parse(tableOf(columns, [{ a: 3, b: decimal('4') }])).rows).toEqual([{ a: '3', b: 4 }]);
    expect(parse(tableOf(columns, [{ a: money('3.10'), b: 4 }])).rows).toEqual([
      { a: '3.10', b: 4 },
    ]);
  });

  it('reads back as the very cells, without a sign that acts', () => {
    const plain = (cell: Cell | undefined, { type }: Column): unknown => {
      if (typeof cell === 'bigint') return moneyText(cell, 2);
      if (typeof cell !== 'object' || cell === null) return cell ?? null;
      return (type === 'rate' ? roundTo(cell, 8) : cell).toFixed();
    };
    holds(
      fc.property(anyTable, (table) => {
        expect(parse(table).rows).toEqual(
          table.rows.map((row) =>
            Object.fromEntries(
              table.columns.map((column) => [column.key, plain(row[column.key], column)]),
            ),
          ),
        );
        expect(renderJson(table).replaceAll('\n', '')).not.toMatch(UNSAFE);
      }),
    );
  });
});
