import { describe, expect, it } from 'vitest';
import { decimal, type Decimal } from '../../src/number/decimal.ts';
import type { Money } from '../../src/number/money.ts';
import type { Cell, Column } from '../../src/report/table.ts';
import { caption, drawnSize, plainFigure, shownTable } from '../../src/render/shown.ts';
import { money } from '../helpers/minor.ts';
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
    ['money at the minor digits', { type: 'money' }, money('12345.60'), '12,345.60'],
    ['negative money', { type: 'money' }, money('-1234.05'), '-1,234.05'],
    ['money of less than a unit', { type: 'money' }, money('-0.05'), '-0.05'],
    ['large money', { type: 'money' }, money('1234567890.10'), '1,234,567,890.10'],
    ['a rate half up', { type: 'rate' }, decimal('1234.565'), '1,234.57'],
    ['a negative rate half away from zero', { type: 'rate' }, decimal('-0.005'), '-0.01'],
    ['no negative zero', { type: 'rate' }, decimal('-0.004'), '0.00'],
    ['a rate at its own places', { type: 'rate', places: 4 }, decimal('0.18475'), '0.1848'],
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
    expect(shown({ type: 'money' }, money('1235'), 0)).toBe('1,235');
    expect(shown({ type: 'money' }, money('1.500'), 3)).toBe('1.500');
    expect(shown({ type: 'rate' }, decimal('1234.5'), 0)).toBe('1,235');
    expect(shown({ type: 'rate' }, decimal('1.5'), 3)).toBe('1.500');
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
        [{ a: 'x', b: money('1.00') }],
      ),
      (text) => `<${text}>`,
    );
    expect([first?.head, first?.cells]).toEqual(['<Name>', ['<x>']]);
    expect([second?.head, second?.cells]).toEqual(['<Energy (kWh)>', ['1.00']]);
  });
});

describe('a shown column', () => {
  const third = decimal('33.333333');

  it('is rounded cell by cell, whatever stands below it', () => {
    const cells = (type: 'rate' | 'quantity'): readonly string[] | undefined => {
      const column: Column = { key: 'a', title: 'A', type };
      const rows = [{ a: third }, { a: null }, { a: third }, { a: third }];
      const totals = { a: decimal('99.999999') };
      const [only] = shownTable(tableOf([column], rows, { totals }), identity);
      return only && [...only.cells, only.total];
    };
    expect(cells('rate')).toEqual(['33.33', '', '33.33', '33.33', '100.00']);
    expect(cells('quantity')).toEqual(['33.33', '', '33.33', '33.33', '100.00']);
  });
});

describe('a plain figure', () => {
  function plain(type: Column['type'], cell: Decimal | Money, minorDigits = 2): string {
    return plainFigure(cell, { type }, minorDigits);
  }

  it('has all decimals of the currency where it is money', () => {
    expect(plain('money', money('1234.50'))).toBe('1234.50');
    expect(plain('money', money('1235'), 0)).toBe('1235');
    expect(plain('money', money('-0.005'), 3)).toBe('-0.005');
  });

  it('has at most eight decimals where it is a rate, and twelve where it is a fraction', () => {
    const third = decimal('0.333333333333333333');
    expect([plain('rate', third), plain('fraction', third)]).toEqual([
      '0.33333333',
      '0.333333333333',
    ]);
    expect(plain('rate', decimal('-0.000000005'))).toBe('-0.00000001');
    expect([plain('rate', decimal('12.5')), plain('fraction', decimal('0.5'))]).toEqual([
      '12.5',
      '0.5',
    ]);
  });

  it('has every digit where it is a quantity', () => {
    expect(plain('quantity', decimal('0.00000000012345678901234'))).toBe(
      '0.00000000012345678901234',
    );
  });
});

describe('a drawn size', () => {
  it('is in units of the currency, or the figure itself', () => {
    const drawn = (cell: Cell, minorDigits = 2): number | undefined =>
      drawnSize(cell, { minorDigits });
    expect(drawn(money('12.50'))).toBe(12.5);
    expect(drawn(money('1250'), 0)).toBe(1250);
    expect([drawn(decimal('0.5')), drawn(7), drawn('x'), drawn(null)]).toEqual([
      0.5,
      7,
      undefined,
      undefined,
    ]);
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
