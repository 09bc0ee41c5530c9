import { describe, expect, it } from 'vitest';
import type { Table } from '../../src/report/table.ts';
import { renderCsv } from '../../src/render/csv.ts';
import { renderJson } from '../../src/render/json.ts';
import { renderMarkdown } from '../../src/render/markdown.ts';
import { forReading } from '../../src/render/shown.ts';
import { renderText } from '../../src/render/terminal/text.ts';
import { money } from '../helpers/minor.ts';

const ROWS = [
  ['Came in', 'door', '40.00'],
  ['Came in', 'fair', '0.00'],
  ['Went out', 'clay', '12.50'],
  ['Went out', 'salt\u0007', '2.00'],
] as const;

const TABLE: Table = {
  report: 'parts',
  title: 'Parts',
  studio: 'Hill',
  asOf: '2026-01-31',
  currency: 'USD',
  minorDigits: 2,
  columns: [
    { key: 'part', title: 'Part', type: 'text' },
    { key: 'item', title: 'Item', type: 'text' },
    { key: 'amount', title: 'Amount', type: 'money' },
  ],
  rows: ROWS.map(([part, item, amount]) => ({ part, item, amount: money(amount) })),
  totals: { item: 'all', amount: money('54.50') },
  notes: [],
  partedBy: 'part',
  leavesOutZeros: true,
  behind: () => [['a'], ['b'], ['c'], ['d']],
};

describe('a table in parts', () => {
  it('has a heading for each part in text, in place of the column', async () => {
    expect(await renderText(TABLE, { width: 40, colour: false })).toBe(
      [
        'Parts',
        'Hill · as of 2026-01-31 · USD',
        '',
        'Item       Amount',
        'Came in ─────────',
        'door        40.00',
        '',
        'Went out ────────',
        'clay        12.50',
        'salt\\u{7}    2.00',
        '─────────────────',
        'all         54.50',
        '',
      ].join('\n'),
    );
  });

  it('has them where what does not fit goes below its row too', async () => {
    const text = await renderText(TABLE, { width: 12, colour: false });
    expect(text).toContain('Came in ─\ndoor\n  Amount\n  40.00\n');
    expect(text).toContain('Went out\nclay\n  Amount\n  12.50\n');
    expect(text.split('\n').every((line) => line.length <= 12)).toBe(true);
  });

  it('wraps a heading that is wider than the line', async () => {
    const part = 'A heading of quite a few words';
    const table = { ...TABLE, rows: TABLE.rows.map((row) => ({ ...row, part })) };
    const lines = (await renderText(table, { width: 22, colour: false })).split('\n');
    expect(lines).toContain('A heading of quite a');
    expect(lines.some((line) => line.startsWith('few words'))).toBe(true);
    expect(lines.every((line) => line.length <= 22)).toBe(true);
  });

  it('has a grid under a heading each in markdown, and the totals in the last', () => {
    expect(renderMarkdown(TABLE)).toBe(
      [
        '# Parts',
        '',
        'Hill · as of 2026-01-31 · USD',
        '',
        '## Came in',
        '',
        '| Item | Amount |',
        '| --- | ---: |',
        '| door | 40.00 |',
        '',
        '## Went out',
        '',
        '| Item | Amount |',
        '| --- | ---: |',
        '| clay | 12.50 |',
        '| salt\\\\u{7} | 2.00 |',
        '| **all** | **54.50** |',
        '',
      ].join('\n'),
    );
  });

  it('keeps the column and every row in json and csv', () => {
    const { rows } = JSON.parse(renderJson(TABLE)) as { rows: { part: string; item: string }[] };
    expect(rows.map(({ part, item }) => [part, item])).toEqual(
      ROWS.map(([part, item]) => [part, item]),
    );
    expect(renderCsv(TABLE).split('\r\n').slice(0, 3)).toEqual([
      'part,item,amount',
      'Came in,door,40.00',
      'Came in,fair,0.00',
    ]);
  });
});

describe('rows of zeros', () => {
  it('are left out for people with the records behind them', () => {
    expect(forReading(TABLE).table.behind?.()).toEqual([['a'], ['c'], ['d']]);
  });

  it('stay where the table does not leave them out, as do rows without figures', () => {
    expect(forReading({ ...TABLE, leavesOutZeros: false }).table.rows).toHaveLength(4);
    const words = { ...TABLE, rows: [{ part: 'Words', item: 'closed', amount: null }] };
    expect(forReading({ ...words, behind: () => [[]] }).table.rows).toHaveLength(1);
  });

  it('may leave nothing', async () => {
    const rows = [{ part: 'Came in', item: 'fair', amount: money('0.00') }];
    const empty = { ...TABLE, rows, behind: () => [[]] };
    expect(await renderText(empty, { width: 40, colour: false })).toContain('Nothing to show.');
    expect(renderMarkdown(empty)).toContain('Nothing to show.');
  });
});
