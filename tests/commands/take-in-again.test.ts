/** A list that comes again: what changed in it, in the book, or was taken out; and a whole bringing taken back. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { remove } from '../../src/commands/records/remove.ts';
import { takeInList } from '../../src/commands/lists/take-in.ts';
import { run, type Said } from '../helpers/command-world.ts';
import { LIST_STUDIO } from '../helpers/list-studio.ts';
import { filesIn, tempStudio } from '../helpers/temp-studio.ts';

const MAP =
  'kind: sales\nunique: Order\ndates: year-month-day\n' +
  'columns: { date: Day, product: Item, count: Qty, price: Price, total: Total }\nfixed: { channel: shop }\n';
const HEAD = 'Order,Day,Item,Qty,Price,Total\n';
const ROWS = [
  '1,2026-05-01,mug,1,28.00,28.00\n',
  '2,2026-05-02,mug,2,28.00,56.00\n',
  '3,2026-05-04,bowl,1,40.00,40.00\n',
];

function studio(files: Readonly<Record<string, string>> = {}): string {
  const folder = tempStudio({ ...LIST_STUDIO, 'lists/shop.yaml': MAP, ...files });
  return folder;
}

function take(folder: string, rows: readonly string[], options: object = {}): Promise<Said> {
  writeFileSync(join(folder, 'list.csv'), HEAD + rows.join(''));
  return run(takeInList, folder, {
    words: ['list.csv'],
    options: { by: 'shop', write: true, ...options },
    today: '2026-07-02',
  });
}

const SALES = 'sales/2026-05.yaml';

function edit(folder: string, from: string, to: string): void {
  const path = join(folder, SALES);
  const text = readFileSync(path, 'utf8');
  expect(text).toContain(from);
  writeFileSync(path, text.replace(from, to));
}

function sales(folder: string): string {
  return filesIn(folder)[SALES] ?? '';
}

describe('a list that comes again', () => {
  it('leaves a record that was changed by hand, quietly', async () => {
    const folder = studio();
    await take(folder, ROWS);
    edit(folder, 'count: 2, price: 28.00', 'count: 2, price: 25.00');
    const before = sales(folder);
    const { status, out } = await take(folder, ROWS);
    expect([status, sales(folder)]).toEqual([0, before]);
    expect(out).toContain('there already   3');
    expect(out).not.toContain('Changed');
  });

  it('shows what a row says otherwise now, and overwrites nothing', async () => {
    const folder = studio();
    await take(folder, ROWS);
    const before = sales(folder);
    const { out } = await take(folder, [
      ROWS[0] ?? '',
      '2,2026-05-02,mug,3,28.00,84.00\n',
      ROWS[2] ?? '',
    ]);
    expect(sales(folder)).toBe(before);
    expect(out).toContain('changed since   1, left as they are in the book');
    expect(out).toMatch(/2 is s260502\w\w:\n {4}lines\.1\.count: 2 in the book, 3 in the list/);
  });

  it('adds the rows that are new, and no other', async () => {
    const folder = studio();
    await take(folder, ROWS.slice(0, 2));
    const before = sales(folder);
    const { out } = await take(folder, ROWS);
    expect(out).toContain('new             1 sale, 2026-05-04 to 2026-05-04, 40.00 EUR');
    expect(sales(folder).startsWith(before)).toBe(true);
    expect(sales(folder).match(/row: /g)).toHaveLength(3);
  });

  it('holds back what was removed, says how to skip it, and takes it in when told to', async () => {
    const folder = studio();
    await take(folder, ROWS);
    const [id = ''] = /s260502\w\w/.exec(sales(folder)) ?? [];
    await run(remove, folder, { words: [id], options: {}, today: '2026-07-02' });
    const before = sales(folder);
    const { out } = await take(folder, ROWS);
    expect(sales(folder)).toBe(before);
    expect(out).toContain('held back       1');
    const [, line = ''] = /add under skip in the map:\n {4}(.*)\n/.exec(out) ?? [];
    expect(line).toBe('Order: ["2"]');
    writeFileSync(join(folder, 'lists/shop.yaml'), `${MAP}skip:\n  ${line}\n`);
    expect((await take(folder, ROWS)).out).toContain('skipped         1 by the map');
    writeFileSync(join(folder, 'lists/shop.yaml'), MAP);
    await take(folder, ROWS, { late: true });
    expect(sales(folder)).toContain(`row: '2'`);
  });

  it('says what seems to be in the book already from elsewhere', async () => {
    const typed =
      's1:\n  date: 2026-05-02\n  channel: shop\n  lines:\n    - { product: mug, count: 2, price: 28 }\n';
    const { out } = await take(studio({ [SALES]: typed }), ROWS, { write: false });
    expect(out).toContain('2 looks like s1');
  });
});

describe('remove --from', () => {
  it('takes a whole bringing back, to the very bytes', async () => {
    const folder = studio({
      [SALES]:
        's1:\n  date: 2026-05-03\n  channel: door\n  lines:\n    - { product: mug, count: 1, price: 28 }\n',
    });
    const before = filesIn(folder);
    const { out } = await take(folder, ROWS);
    expect(out).toContain('Undo: saggar remove --from shop --on 2026-07-02\n');
    const { status } = await run(remove, folder, {
      words: [],
      options: { from: 'shop', on: '2026-07-02' },
      today: '2026-07-03',
    });
    expect(status).toBe(0);
    const { 'list.csv': list, ...after } = filesIn(folder);
    expect([list, after]).toEqual([HEAD + ROWS.join(''), before]);
  });

  it.each([
    [
      { from: 'shp', on: '2026-07-02' },
      'there is no list "shp" in this studio; did you mean shop?',
    ],
    [{ from: 'shop' }, 'say on which day shop was taken in, with --on: 2026-07-02'],
    [{ on: '2026-07-02' }, 'say which list too, such as --from shop'],
  ])('refuses %j', async (options, words) => {
    const folder = studio();
    await take(folder, ROWS);
    const { status, err } = await run(remove, folder, { words: [], options, today: '2026-07-03' });
    expect([status, err]).toEqual([2, `saggar: ${words}\n`]);
  });
});

describe('what is not clear', () => {
  it.each([
    [
      'a total that is not met',
      '4,2026-05-05,mug,2,28.00,60.00\n',
      'its total is 60.00, and what is understood of it comes to 56.00',
    ],
    [
      'a day that is none',
      '4,2026-02-30,mug,1,28.00,28.00\n',
      '"2026-02-30" is not a day in the order year-month-day',
    ],
    [
      'a decimal comma',
      '4,2026-05-05,mug,1,"28,00","28,00"\n',
      '"28,00" is not a number with a decimal point',
    ],
    [
      'another product',
      '4,2026-05-05,mugg,1,28.00,28.00\n',
      'add under words, product: the line mugg: mug',
    ],
    ['a row cut short', '4,2026-05-05,mug\n', 'it has 3 values, and the head names 6 columns'],
    [
      'two days in one order',
      '4,2026-05-05,mug,1,28.00,56.00\n4,2026-05-06,mug,1,28.00,56.00\n',
      'date is 2026-05-06 here',
    ],
  ])('%s is said with its row, and nothing is written', async (_, row, words) => {
    const folder = studio();
    const before = filesIn(folder);
    const { status, err } = await take(folder, [...ROWS, row]);
    expect([status, { ...filesIn(folder), 'list.csv': '' }]).toEqual([
      1,
      { ...before, 'list.csv': '' },
    ]);
    expect(err.replaceAll(/\s+/g, ' ')).toContain(words);
    expect(err).toMatch(/list\.csv:[56]:/);
  });

  it('of a map is said at its place in the map', async () => {
    const folder = studio({
      'lists/shop.yaml': MAP.replace('product: Item', 'produkt: Item'),
    });
    const { status, err } = await take(folder, ROWS);
    expect(status).toBe(1);
    expect(err).toContain('lists/shop.yaml:4:');
    expect(err).toContain('did you mean product?');
  });

  it('is a column that the list does not have', async () => {
    const folder = studio({ 'lists/shop.yaml': MAP.replace('Price', 'Each') });
    expect((await take(folder, ROWS)).err).toContain('the list has no column Each');
  });
});

describe('--draft', () => {
  it('proposes a map that takes the list in', async () => {
    const folder = studio();
    writeFileSync(
      join(folder, 'web.csv'),
      'Order ID;Order date;SKU;Qty;Unit price;Order total\n7;31.05.2026;mug;1;28,00;28,00\n',
    );
    const told = { words: ['web.csv'], today: '2026-07-02' };
    const { status } = await run(takeInList, folder, {
      ...told,
      options: { by: 'web', draft: true, write: true },
    });
    expect(status).toBe(0);
    const map = readFileSync(join(folder, 'lists/web.yaml'), 'utf8');
    expect(map).toContain('dates: day-month-year\ndecimals: comma\ndelimiter: ";"\n');
    expect(map).toContain('channel: CHANNEL');
    writeFileSync(join(folder, 'lists/web.yaml'), map.replace('CHANNEL', 'shop'));
    const taken = await run(takeInList, folder, { ...told, options: { by: 'web', write: true } });
    expect([taken.status, taken.err]).toEqual([0, '']);
    expect(sales(folder)).toContain('{ product: mug, count: 1, price: 28.00 }');
  });

  it('says which order of dates it could not tell', async () => {
    const folder = studio();
    writeFileSync(join(folder, 'web.csv'), 'Order ID,Date,Item,Price\n7,03/04/2026,mug,28.00\n');
    const { out } = await run(takeInList, folder, { words: ['web.csv'], options: { draft: true } });
    expect(out).toContain(
      '# dates: day-month-year or month-day-year (the list does not show which)',
    );
    expect(out).toContain('unique: "Order ID"');
  });
});
