import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { renderPage, renderTablePage } from '../../../src/render/html/page.ts';
import {
  type Chart,
  type ReportPage,
  type RecordLine,
  bareTable,
} from '../../../src/report/page.ts';
import type { Table } from '../../../src/report/table.ts';
import { decimal } from '../../../src/number/decimal.ts';
import { money } from '../../helpers/minor.ts';
import { SMALL } from '../sample.ts';
import { holds } from '../../helpers/law.ts';

const PARTED: Table = {
  report: 'sample',
  title: 'Money',
  studio: 'Willow Bend Pottery',
  asOf: '2026-03-31',
  currency: 'USD',
  minorDigits: 2,
  columns: [
    { key: 'part', title: 'Part', type: 'text' },
    { key: 'line', title: 'Line', type: 'text' },
    { key: 'amount', title: 'Amount', type: 'money' },
  ],
  rows: [
    { part: 'income', line: 'sales', amount: money('10.01') },
    { part: 'income', line: 'classes', amount: money('20.00') },
    { part: 'spent', line: 'clay', amount: money('4.50') },
  ],
  totals: { amount: money('34.51') },
  notes: ['As & where.'],
  partedBy: 'part',
  behind: () => [['s1', 's2'], ['s1'], []],
};

function record(id: string, more: Partial<RecordLine> = {}): [string, RecordLine] {
  const line = {
    id,
    kind: 'sale',
    date: '2026-03-01',
    what: '2 mugs',
    file: 'sales.yaml',
    line: 7,
  };
  return [id, { ...line, ...more }];
}

function pageOf(more: Partial<ReportPage> = {}): string {
  return renderPage({
    ...bareTable(PARTED),
    records: new Map([record('s2', { date: '2026-02-01' }), record('s1', { line: undefined })]),
    ...more,
  });
}

describe('a page', () => {
  it('parts its rows under heads of their own, without the column, and sums in the last row', () => {
    const body = pageOf().slice(pageOf().indexOf('<thead>'));
    const texts = body.slice(0, body.indexOf('</table>')).replace(/<[^>]+>/g, ' ');
    expect(texts.split(/\s+/).join(' ').trim()).toBe(
      'Line Amount income sales 1 10.01 classes 2 20.00 spent clay 4.50 Total 34.51',
    );
    expect(body).toContain('<th scope="rowgroup" colspan="2"><span>income</span></th>');
    expect(body).not.toContain('>Part<');
  });

  it('says what matters, then draws, then has tables with their notes, then records', () => {
    const verdict = {
      sentence: 'Sales & classes earned 30.01.',
      figures: [
        { label: 'Spent', column: { type: 'money' }, cell: money('4.50') },
        { label: 'Fired', column: { type: 'quantity', unit: 'kg' }, cell: decimal('2.5') },
      ],
    } as const;
    const chart: Chart = {
      shape: 'bars',
      title: 'Money drawn',
      span: 'March',
      table: PARTED,
      label: 'line',
      value: 'amount',
    };
    const page = pageOf({ tables: [{ ...PARTED, verdict }], charts: [chart] });
    expect(page).toContain('<p>Sales &amp; classes earned 30.01.</p>');
    expect(page).toContain('<dt>Spent</dt><dd>4.50</dd>');
    expect(page).toContain('<dt>Fired (kg)</dt><dd>2.50</dd>');
    const order = [
      'id="verdict"',
      '<svg',
      'id="table-1"',
      '<thead>',
      'As &amp; where',
      'id="records"',
    ];
    const places = order.map((each) => page.indexOf(each));
    expect(places).toEqual(places.filter((at) => at >= 0).toSorted((a, b) => a - b));
    expect(page).toContain('<a class="skip" href="#table-1">Skip to the figures</a>');
    expect(pageOf()).not.toContain('id="verdict"');
  });

  it('has contents where it has many sections, with how much is in each', () => {
    const many = ['sales', 'classes', 'clay', 'glaze', 'glaze', 'rent'];
    const rows = many.map((part) => ({ part, line: 'x', amount: money('1.00') }));
    const page = pageOf({ tables: [{ ...PARTED, rows }] });
    expect(page).toContain('<summary>Contents <small>6 sections</small></summary>');
    expect(page).toContain('<a href="#p-1-4">glaze</a> <small>2 rows</small>');
    expect(page).toContain('<tr class="part" id="p-1-4">');
    expect(page).toContain('<a href="#records">Records</a>');
    expect(pageOf()).not.toContain('Contents');
  });

  it('stops the Tab key few times before its records, however long its table is', () => {
    const rows = Array.from({ length: 400 }, (_, at) => ({
      part: `part ${Math.floor(at / 20)}`,
      line: `line ${at}`,
      amount: money('1.00'),
    }));
    const page = pageOf({ tables: [{ ...PARTED, rows, behind: () => rows.map(() => ['s1']) }] });
    const before = page
      .slice(0, page.indexOf('id="records"'))
      .replaceAll(/<summary>Contents.*?<\/details>/gs, '<summary>');
    expect(page.match(/<summary>Contents/g)).toHaveLength(1);
    const stops = before.match(
      /<a (?:[^>]* )?href="[^"]*"(?![^>]*tabindex="-1")|<summary|tabindex="0"/g,
    );
    expect(stops?.length).toBeLessThanOrEqual(60);
    expect(before).toContain('tabindex="-1">line 399</a>');
  });

  it('names in its foot the commit, or else a digest of the files', () => {
    const foot = (more: Partial<Table>): string | undefined =>
      /<footer>\s*<p>([^<]*)/.exec(pageOf({ tables: [{ ...PARTED, ...more }] }))?.[1];
    expect(foot({ digest: () => '0a1b2c3d4e5f' })).toBe(
      'Made by saggar from the book of Willow Bend Pottery as it stood on 2026-03-31. The digest of its files is 0a1b2c3d4e5f: the same files give the same signs.',
    );
    const revision = { name: 'filed', id: '4f2a1c9d00' };
    expect(foot({ digest: () => '0a1b2c3d4e5f', revision })).toBe(
      'Made by saggar from the book of Willow Bend Pottery as it stood on 2026-03-31, at filed (4f2a1c9).',
    );
  });

  it('leads from each figure to what it is made of, and only where there is anything', () => {
    const page = pageOf();
    expect(page).toContain('<a href="#r-1-1">sales</a>');
    expect(page).toContain('<a href="#r-1-1-amount" tabindex="-1">10.01</a>');
    expect(page).toContain('<li id="r-1-1-amount">Amount 10.01: from the records below</li>');
    expect(page).toContain('<td class="figure">4.50</td>');
    expect(page).toContain('<a href="#r-1-amount" tabindex="-1">34.51</a>');
    expect(page).toContain('<li id="r-1-amount">Amount 34.51: 3 rows of the table together</li>');
    expect(page).not.toContain('id="r-1-3"');
  });

  it('says above the records what they bring together, once for all of them', () => {
    const brought = () => [
      new Map([
        ['s1', money('4.01')],
        ['s2', money('6.00')],
      ]),
    ];
    const page = pageOf({ tables: [{ ...PARTED, brought: { amount: brought } }] });
    const list = page.slice(page.indexOf('id="r-1-1"'), page.indexOf('id="r-1-2"'));
    expect(list).toContain('2 records together</th><td id="r-1-1-amount">10.01</td>');
    expect(list).toMatch(/2026-02-01.*<td>6\.00<\/td><\/tr>/);
    // One record alone brings all, and is told with its own line.
    const alone = page.slice(page.indexOf('id="r-1-2"'));
    expect(alone).toContain('<td id="r-1-2-amount">20.00</td>');
    expect(alone).not.toContain('together</th>');
  });

  it('closes long lists, and counts what is long ago in one line', () => {
    const ids = Array.from({ length: 15 }, (_, at) => `s${at}`);
    const records = new Map(ids.map((id) => record(id)));
    const table = { ...PARTED, behind: () => [ids, ['s1'], []] };
    const page = pageOf({ tables: [table], records });
    expect(page).toContain('<details id="r-1-1">');
    expect(page).toContain('<details open id="r-1-2">');
    expect(page).toContain('<h2 id="records">Records</h2> <small>15 records</small>');
    const earlier = {
      before: '2026-01-01',
      behind: () => [ids.slice(3), [], []],
      brought: { amount: () => [money('9.00'), money('0.00'), money('0.00')] },
    };
    const brought = () => [new Map([['s1', money('1.01')]])];
    const short = pageOf({
      tables: [{ ...table, earlier, brought: { amount: brought } }],
      records,
    });
    const list = short.slice(short.indexOf('id="r-1-1"'), short.indexOf('id="r-1-2"'));
    expect(list).toContain('<td>12 earlier records, before 2026-01-01</td><td>9.00</td>');
    expect(list).toContain('<th scope="row">15 records together</th>');
    expect(list.match(/<time>/g)).toHaveLength(3);
  });

  it('lists records by day, each once, with file and line', () => {
    const page = pageOf();
    const list = page.slice(page.indexOf('id="r-1-1"'), page.indexOf('id="r-1-2"'));
    expect([...list.matchAll(/<span class="id">(\w+)/g)].map(([, id]) => id)).toEqual(['s2', 's1']);
    expect(list).toContain('<a class="at" href="./sales.yaml#L7">sales.yaml:7</a>');
    expect(list).toContain('<a class="at" href="./sales.yaml">sales.yaml</a>');
    expect(list).toContain('</span> income, sales</h3> <small>2 records</small>');
    expect(list).toContain('<a href="#t-1-1">Back to the row</a>');
  });

  it('says which rows a row is reckoned from, and sets off what adds up', () => {
    const plus = { plus: [0], less: [2], of: [], words: undefined };
    const page = pageOf({
      tables: [{ ...PARTED, reckoned: [undefined, plus, undefined] }],
    });
    const list = page.slice(page.indexOf('id="r-1-2"'));
    expect(list).toContain(
      'Amount 20.00 = <a href="#t-1-1">sales</a> 10.01 less <a href="#t-1-3">clay</a> (spent) 4.50',
    );
    expect(page).toContain('<tr id="t-1-2" class="sum">');
    expect(page.match(/class="sum"/g)).toHaveLength(1);
  });

  it('lists records of some columns apart, where those are seen', () => {
    const further = {
      columns: ['amount'],
      words: 'And to date',
      behind: () => [['s2'], [], ['s2']],
    };
    const page = pageOf({ tables: [{ ...PARTED, behind: () => [['s1'], [], []], further }] });
    const list = page.slice(page.indexOf('id="r-1-1"'), page.indexOf('id="r-1-3"'));
    expect(list).toContain('<small>2 records</small>');
    expect(list.indexOf('And to date:')).toBeGreaterThan(list.indexOf('>s1<'));
    expect(list.indexOf('>s2<')).toBeGreaterThan(list.indexOf('And to date:'));
    expect(page).toContain('<a href="#r-1-3-amount" tabindex="-1">4.50</a>');
    const unseen = pageOf({
      tables: [{ ...PARTED, further: { ...further, columns: ['other'] } }],
    });
    expect(unseen).not.toContain('And to date');
  });

  it('says that there is nothing to show', () => {
    const page = renderTablePage({ ...PARTED, rows: [], behind: () => [] });
    expect(page).toContain('<p>Nothing to show.</p>');
    expect(page).not.toContain('<table');
  });

  it('has no heading of records where none are known', () => {
    expect(renderTablePage(PARTED)).not.toContain('Records');
  });

  it('asks for nothing outside itself and runs nothing', () => {
    const page = pageOf();
    expect(page).toContain(`content="default-src 'none'; style-src 'unsafe-inline'"`);
    expect(page).not.toMatch(/<script|<link|<img|src=|url\((?!#)|@import|https?:|\son\w+=/);
  });
});

describe('text from the book', () => {
  const HOSTILE = `</td><script>alert("1")</script>&'\u202e\u0007`;
  const SHOWN =
    '&lt;/td&gt;&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt;&amp;&#39;\\u{202E}\\u{7}';

  it('is shown and never acts, wherever it stands', () => {
    const table: Table = {
      ...PARTED,
      title: HOSTILE,
      studio: HOSTILE,
      currency: HOSTILE,
      rows: [{ part: HOSTILE, line: HOSTILE, amount: money('1.00') }],
      notes: [HOSTILE],
      behind: () => [['x']],
    };
    const words = { kind: HOSTILE, what: HOSTILE, date: HOSTILE, file: HOSTILE, id: 'x' };
    const chart: Chart = {
      shape: 'bars',
      title: HOSTILE,
      span: HOSTILE,
      table,
      label: 'line',
      value: 'amount',
    };
    const page = renderPage({
      tables: [table],
      charts: [chart],
      records: new Map([record('x', words)]),
    });
    expect(page.split(SHOWN).length).toBeGreaterThan(12);
    expect(page).not.toMatch(/<script|<\/td>&|"1"|\p{Cf}|\p{Cc}(?<!\n)/u);
  });
  it('leaves no page without its end, whatever it is', () => {
    holds(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const page = renderTablePage({ ...SMALL, title: text, notes: [text] });
        const stripped = page.replace(/<style>[\s\S]*?<\/style>/, '');
        const count = (pattern: RegExp): number => [...stripped.matchAll(pattern)].length;
        return (
          count(/<(?!meta|!doctype|\/)[a-z]/g) === count(/<\//g) &&
          !/[\p{Cf}\p{Cs}]/u.test(stripped)
        );
      }),
    );
  });
});
