import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimal, sum } from '../../src/number/decimal.ts';
import type { Cell, Column } from '../../src/report/table.ts';
import { caption, shownTable, withZeros } from '../../src/render/shown.ts';
import { anyTable } from './arbitrary.ts';
import { SMALL, tableOf } from './sample.ts';

function identity(text: string): string {
  return text;
}

function shown(column: Partial<Column>, cell: Cell, minorDigits = 2): string | undefined {
  const full: Column = { key: 'a', title: 'A', type: 'text', ...column };
  return shownTable(tableOf([full], [{ a: cell }], { minorDigits }), identity)[0]?.cells[0];
}

describe('a shown cell', () => {
  it.each<[string, Partial<Column>, Cell, string]>([
    ['money at the minor digits', { type: 'money' }, decimal('12345.6'), '12,345.60'],
    ['money half up', { type: 'money' }, decimal('0.005'), '0.01'],
    ['negative money half away from zero', { type: 'money' }, decimal('-1234.565'), '-1,234.57'],
    ['no negative zero', { type: 'money' }, decimal('-0.004'), '0.00'],
    ['a rate at its own places', { type: 'money', places: 4 }, decimal('0.18475'), '0.1848'],
    ['large money', { type: 'money' }, decimal('1234567890.1'), '1,234,567,890.10'],
    ['a quantity at two places', { type: 'quantity' }, decimal('3'), '3.00'],
    ['a quantity at its own places', { type: 'quantity', places: 0 }, decimal('2.5'), '3'],
    ['a fraction as percentage', { type: 'fraction' }, decimal('0.12345'), '12.3%'],
    ['a fraction half up', { type: 'fraction' }, decimal('0.0005'), '0.1%'],
    ['a fraction over one', { type: 'fraction' }, decimal('12.5'), '1,250.0%'],
    ['a count', { type: 'count' }, 1234, '1,234'],
    ['a small count', { type: 'count' }, -999, '-999'],
    ['a negative count', { type: 'count' }, -1000, '-1,000'],
    ['yes', { type: 'flag' }, true, 'yes'],
    ['no', { type: 'flag' }, false, ''],
    ['nothing', { type: 'money' }, null, ''],
    ['a date', { type: 'date' }, '2026-03-08', '2026-03-08'],
  ])('shows %s', (...[, column, cell, text]) => {
    expect(shown(column, cell)).toBe(text);
  });

  it('follows the currency: yen without, dinars with three decimals', () => {
    expect(shown({ type: 'money' }, decimal('1234.5'), 0)).toBe('1,235');
    expect(shown({ type: 'money' }, decimal('1.5'), 3)).toBe('1.500');
    expect(shown({ type: 'quantity' }, decimal('1.5'), 0)).toBe('1.50');
  });

  it('is empty where a row lacks the column', () => {
    const column: Column = { key: 'b', title: 'B', type: 'money' };
    expect(shownTable(tableOf([column], [{ a: 'x' }]), identity)[0]?.cells).toEqual(['']);
  });

  it('passes texts and heads through the guard, and figures not', () => {
    const [first, second] = shownTable(
      tableOf(
        [
          { key: 'a', title: 'Name', type: 'text' },
          { key: 'b', title: 'Energy', type: 'money', unit: 'kWh' },
        ],
        [{ a: 'x', b: decimal('1') }],
      ),
      (text) => `<${text}>`,
    );
    expect([first?.head, first?.cells]).toEqual(['<Name>', ['<x>']]);
    expect([second?.head, second?.cells]).toEqual(['<Energy (kWh)>', ['1.00']]);
  });
});

describe('shown parts', () => {
  const third = decimal('33.333333');
  const column: Column = { key: 'a', title: 'A', type: 'money' };

  it('add up to the shown total', () => {
    const table = tableOf([column], [{ a: third }, { a: null }, { a: third }, { a: third }], {
      totals: { a: sum([third, third, third]) },
    });
    const [shownColumn] = shownTable(table, identity);
    expect(shownColumn?.cells).toEqual(['33.34', '', '33.33', '33.33']);
    expect(shownColumn?.total).toBe('100.00');
  });

  it('add up for quantities too', () => {
    const table = tableOf(
      [{ ...column, type: 'quantity', places: 0 }],
      [{ a: decimal('1.5') }, { a: decimal('1.5') }],
      { totals: { a: decimal('3') } },
    );
    expect(shownTable(table, identity)[0]?.cells).toEqual(['2', '1']);
  });

  it('are rounded each by itself where there is no total, or it is no sum', () => {
    const rows = [{ a: decimal('0.005') }, { a: decimal('0.005') }];
    const cells = (totals: object): readonly string[] | undefined =>
      shownTable(tableOf([column], rows, totals), identity)[0]?.cells;
    expect(cells({})).toEqual(['0.01', '0.01']);
    expect(cells({ totals: { a: decimal('0.005') } })).toEqual(['0.01', '0.01']);
    expect(cells({ totals: { a: decimal('0.01') } })).toEqual(['0.01', '0.00']);
  });

  it('add up in any table, and are less than a unit off', () => {
    const exact = (text: string): ReturnType<typeof decimal> => decimal(text.replaceAll(',', ''));
    fc.assert(
      fc.property(anyTable, (table) => {
        const money = shownTable(table, identity).filter(
          ({ column: { type, key } }) => type === 'money' && table.totals?.[key] !== undefined,
        );
        for (const {
          cells,
          total,
          column: { key },
        } of money.filter((each) => each.total !== 'Total')) {
          expect(sum(cells.filter((cell) => cell !== '').map(exact)).toFixed(2)).toBe(
            exact(total).toFixed(2),
          );
          cells.forEach((cell, at) => {
            const off =
              cell === '' ? 0 : Number(exact(cell).toString()) - Number(table.rows[at]?.[key]);
            expect(Math.abs(off)).toBeLessThan(0.01);
          });
        }
      }),
    );
  });
});

describe('withZeros', () => {
  it.each([
    ['5', 2, '5.00'],
    ['-5.5', 3, '-5.500'],
    ['5.25', 2, '5.25'],
    ['5', 0, '5'],
    ['0', 1, '0.0'],
  ])('%s at %i places is %s', (text, places, padded) => {
    expect(withZeros(decimal(text), places)).toBe(padded);
  });
});

describe('the shown table', () => {
  it('has no columns that are for programs only', () => {
    expect(shownTable(SMALL, identity).map(({ column }) => column.key)).not.toContain('file');
  });

  it('says Total in the first column unless that has a total of its own', () => {
    expect(shownTable(SMALL, identity)[0]?.total).toBe('Total');
    expect(shownTable({ ...SMALL, totals: { sale: 'All' } }, identity)[0]?.total).toBe('All');
    const without = tableOf(SMALL.columns, SMALL.rows);
    expect(shownTable(without, identity)[0]?.total).toBe('');
  });

  it('has a caption without gaps', () => {
    expect(caption(SMALL)).toBe('Willow Bend Pottery · as of 2026-03-31 · USD');
    expect(caption({ ...SMALL, studio: '', currency: '' })).toBe('as of 2026-03-31');
  });
});
