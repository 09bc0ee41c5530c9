import { describe, expect, it } from 'vitest';
import { renderTablePage } from '../../../src/render/html/page.ts';
import type { Column, Row, Table } from '../../../src/report/table.ts';
import { money } from '../../helpers/minor.ts';
import { tableOf } from '../sample.ts';

const COLUMNS: readonly Column[] = [
  { key: 'item', title: 'Item', type: 'id' },
  { key: 'name', title: 'Name', type: 'text' },
  { key: 'count', title: 'Count', type: 'count' },
  { key: 'gross', title: 'Gross', type: 'money' },
  { key: 'returns', title: 'Returns', type: 'money' },
  { key: 'net', title: 'Net', type: 'money' },
  { key: 'state', title: 'State', type: 'text' },
  { key: 'remark', title: 'Remark', type: 'text' },
];

const SUMS = [{ total: 'net', plus: ['gross'], less: ['returns'] }];

function row(item: string, more: Row = {}): Row {
  const [gross, net] = [money('10.00'), money('10.00')];
  return { item, name: '', count: 0, gross, returns: money('0.00'), net, state: '', ...more };
}

/** The table on its page: each row as the texts of its cells, classes before them. */
function tableOn(rows: readonly Row[], more: Partial<Table> = {}): string[][] {
  const page = renderTablePage(tableOf(COLUMNS, rows, { sums: SUMS, ...more }));
  const body = page.slice(page.indexOf('<thead>'), page.indexOf('</table>'));
  return body
    .split('<tr')
    .slice(1)
    .map((line) => {
      const cells = [...line.matchAll(/<t[hd][^>]*class="([^"]*)"[^>]*>(.*?)<\/t[hd]>/g)];
      const of = /^[^>]*class="([^"]*)"/.exec(line)?.[1] ?? '';
      return [of, ...cells.map(([, look = '', text = '']) => `${look}: ${text}`)];
    });
}

describe('a table on a page', () => {
  it('heads a row with the name, its id small beside it, and with the id where there is no name', () => {
    const [heads = [], named = [], unnamed = []] = tableOn([
      row('mug', { name: 'Mug & saucer' }),
      row('deposit'),
    ]);
    expect(heads[1]).toBe('text: Item');
    expect(heads.some((head) => head.includes('Name'))).toBe(false);
    expect(named[1]).toBe('text: Mug &amp; saucer <small>mug</small>');
    expect(unnamed[1]).toBe('text: deposit');
  });

  it('leaves out a column without a word, and a part of a sum that is zero in all rows', () => {
    const heads = (rows: Row[]): string => (tableOn(rows)[0] ?? []).join();
    expect(heads([row('mug')])).not.toMatch(/Remark|Returns/);
    expect(heads([row('mug')])).toMatch(/Count.*Gross.*Net/);
    expect(heads([row('mug'), row('jar', { returns: money('0.01') })])).toContain('Returns');
    expect(heads([row('mug', { remark: 'chipped' })])).toContain('Remark');
  });

  it('marks zeros, which are seen as dashes and read as they are, and nothing that is only near zero', () => {
    const [, first = [], second = [], total = []] = tableOn(
      [row('mug'), row('jar', { count: 2, net: money('-0.01') })],
      { totals: { count: 2, net: money('0.00') } },
    );
    expect(first[2]).toBe('figure zero: 0');
    expect(second.slice(2)).toEqual(['figure: 2', 'figure money: 10.00', 'figure lead: -0.01']);
    expect(total.at(-1)).toBe('figure lead zero: 0.00');
  });

  it('has what money adds up to first on a phone, then other money, and changes nothing that is so already', () => {
    const [heads = []] = tableOn([row('mug')]);
    expect(heads.slice(2)).toEqual(['figure: Count', 'figure money: Gross', 'figure lead: Net']);
    const inOrder = renderTablePage(tableOf([COLUMNS[0]!, COLUMNS[5]!], [row('mug')]));
    expect(inOrder).not.toContain('class="money-first"');
    expect(renderTablePage(tableOf(COLUMNS, [row('mug')]))).toContain('class="money-first"');
  });

  it('tints the rows that ask for something, and sets off the word that says why', () => {
    const rows = [row('mug', { state: 'late' }), row('jar', { state: 'soon due' }), row('cup')];
    const [, late = [], soon = [], cup = []] = tableOn(rows, {
      alerts: { column: 'state', of: ['now', 'soon', undefined] },
    });
    expect([late[0], soon[0], cup[0]]).toEqual(['now', 'soon', '']);
    expect(late.at(-1)).toBe('text lead alert: late');
  });

  it('wants paper that lies where its columns do not go beside each other upright', () => {
    const more = Array.from({ length: 10 }, (_, at): Column => ({
      key: `m${at}`,
      title: 'Amount',
      type: 'money',
    }));
    const wide = {
      ...row('mug'),
      ...Object.fromEntries(more.map(({ key }) => [key, money('99999.00')])),
    };
    expect(renderTablePage(tableOf([...COLUMNS, ...more], [wide]))).toContain(
      '<table class="wide ',
    );
    expect(renderTablePage(tableOf(COLUMNS, [wide]))).not.toContain('<table class="wide');
  });
});
