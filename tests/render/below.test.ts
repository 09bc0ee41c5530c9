import { describe, expect, it } from 'vitest';
import { decimal } from '../../src/number/decimal.ts';
import { renderText } from '../../src/render/terminal/text.ts';
import type { Column, Table } from '../../src/report/table.ts';
import { money } from '../helpers/minor.ts';
import { tableOf } from './sample.ts';

/** The lines below title and caption. */
async function body(table: Table, width: number): Promise<string[]> {
  const lines = (await renderText(table, { width, colour: false })).split('\n');
  return lines.slice(lines.indexOf('') + 1, -1);
}

describe('below a row', () => {
  it('says what adds up as a sum, all of it together', async () => {
    const columns: readonly Column[] = [
      { key: 'sale', title: 'Sale', type: 'id' },
      { key: 'name', title: 'Name', type: 'text', isName: true, drop: 1 },
      { key: 'gross', title: 'Gross', type: 'money' },
      { key: 'fees', title: 'Fees', type: 'money' },
      { key: 'tax', title: 'Tax', type: 'money' },
      { key: 'left', title: 'Left', type: 'money' },
      { key: 'used', title: 'Used', type: 'quantity', unitFrom: 'unit', drop: 2 },
      { key: 'unit', title: 'Unit', type: 'text' },
      { key: 'guess', title: 'Guess', type: 'flag', drop: 3 },
    ];
    const row = { gross: money('1200.00'), fees: money('12.50'), tax: money('0.00') };
    const rows = [
      {
        sale: 's1',
        name: 'Spring fair',
        ...row,
        left: money('1187.50'),
        used: decimal('2'),
        unit: 'kg',
        guess: true,
      },
      { sale: 's2', ...row, fees: money('-3.00'), left: money('1203.00') },
    ];
    const table = {
      ...tableOf(columns, rows),
      sums: [{ total: 'left', plus: ['gross'], less: ['fees', 'tax'] }],
    };
    // 1,200.00 - 12.50 - 0.00 = 1,187.50; 1,200.00 + 3.00 = 1,203.00
    expect(await body(table, 42)).toMatchInlineSnapshot(`
      [
        "Sale     Gross   Fees   Tax      Left",
        "─────────────────────────────────────",
        "s1    1,200.00  12.50  0.00  1,187.50",
        "  Spring fair · Used 2.00 kg · Guess",
        "s2    1,200.00  -3.00  0.00  1,203.00",
      ]
    `);
    expect(await body(table, 36)).toMatchInlineSnapshot(`
      [
        "Sale  Name             Left  Guess",
        "──────────────────────────────────",
        "s1    Spring fair  1,187.50  yes",
        "  Used 2.00 kg · Gross 1,200.00",
        "  - Fees 12.50",
        "s2                 1,203.00",
        "  Gross 1,200.00 - Fees -3.00",
      ]
    `);
    expect(await body(table, 20)).toMatchInlineSnapshot(`
      [
        "Sale      Left",
        "──────────────",
        "s1    1,187.50",
        "  Spring fair",
        "  Used 2.00 kg",
        "  Guess",
        "  Gross 1,200.00",
        "  - Fees 12.50",
        "s2    1,203.00",
        "  Gross 1,200.00",
        "  - Fees -3.00",
      ]
    `);
  });
});
