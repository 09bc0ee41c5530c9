/** A list held against the book: what is on one side only, payouts, months, and the way from a payment to the tax page. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { takeInList } from '../../src/commands/lists/take-in.ts';
import { match } from '../../src/commands/lists/match.ts';
import { quarter } from '../../src/commands/reports/quarter.ts';
import { run, type Said } from '../helpers/command-world.ts';
import { LIST_STUDIO } from '../helpers/list-studio.ts';
import { exampleCopy, tempStudio } from '../helpers/temp-studio.ts';
import { loadCommand } from '../../src/commands/load.ts';
import type { Asked } from '../../src/commands/world.ts';

const LISTS = resolve(import.meta.dirname, '../lists');
const BANK =
  'unique: No\ndates: year-month-day\ncolumns: { date: Day, note: Text, amount: Amount }\n';
const HEAD = 'No,Day,Text,Amount\n';

const BOOK = {
  'sales/2026-05.yaml': [
    ['s1', '05-01', 'market', '28', ''],
    ['s2', '05-02', 'market', '40', ''],
    ['s3', '05-02', 'shop', '100', ''],
    ['s4', '05-03', 'shop', '50', ''],
    ['s5', '05-20', 'market', '28', '  statement: MH-2605\n'],
  ]
    .map(
      ([id = '', day = '', channel = '', price = '', more = '']) =>
        `${id}:\n  date: 2026-${day}\n  channel: ${channel}\n${more}  lines:\n    - { for: pots, count: 1, price: ${price} }\n`,
    )
    .join(''),
  'spent.yaml': 'e1: { date: 2026-05-06, to: Town hall, for: booth, amount: 60 }\n',
};

const ENDINGS = { text: 'txt', json: 'json', csv: 'csv', markdown: 'md' };

const SCHEMA = resolve(import.meta.dirname, '../../schema/output/report.json');
const validate = new Ajv2020({ allowUnionTypes: true }).compile(
  JSON.parse(readFileSync(SCHEMA, 'utf8')) as object,
);

function faultsOfReport(text: string): unknown[] {
  return validate(JSON.parse(text)) ? [] : (validate.errors ?? []);
}

interface Matched {
  readonly rows: readonly Readonly<Record<string, string | null>>[];
}

async function matched(rows: string, options: object = {}, map = BANK): Promise<Matched['rows']> {
  const folder = tempStudio({ ...LIST_STUDIO, ...BOOK, 'lists/bank.yaml': map });
  writeFileSync(join(folder, 'bank.csv'), HEAD + rows);
  const { status, out, err } = await run(match, folder, {
    words: ['bank.csv'],
    options: { by: 'bank', as: 'json', all: true, ...options },
    today: '2026-07-02',
  });
  expect([status, err]).toEqual([0, '']);
  return (JSON.parse(out) as Matched).rows;
}

function partOf(rows: Matched['rows'], part: string): (string | null | undefined)[][] {
  return rows
    .filter((row) => row['part'] === part)
    .map(({ row, records, difference }) => [row, records, difference]);
}

describe('match', () => {
  it('finds single amounts on near days, and money that went out', async () => {
    const rows = await matched('1,2026-05-02,CARD,28.00\n2,2026-05-08,TOWN HALL,-60.00\n');
    expect(partOf(rows, 'On both sides')).toEqual([
      ['1', 's1', '0.00'],
      ['2', 'e1', '0.00'],
    ]);
    expect(partOf(rows, 'Only in the book').map(([, records]) => records)).toEqual([
      's2',
      's3',
      's4',
    ]);
  });

  it('finds a payout of several sales of one channel less their fees', async () => {
    // 150 less 2 % of each.
    const rows = await matched('1,2026-05-06,WEB SHOP,147.00\n');
    expect(partOf(rows, 'On both sides')).toEqual([['1', 's3 s4', '0.00']]);
  });

  it('goes by a number first, and says what differs', async () => {
    const rows = await matched('1,2026-05-25,GALLERY mh-2605,27.50\n2,2026-05-26,TRANSFER,28.00\n');
    expect(partOf(rows, 'Amounts differ')).toEqual([['1', 's5', '-0.50']]);
    expect(partOf(rows, 'Only in the list')).toEqual([['2', '', '28.00']]);
  });

  it('says of a row which sale it names that is not paid, and how to record it', async () => {
    const folder = tempStudio({
      ...LIST_STUDIO,
      ...BOOK,
      'sales/2026-04.yaml':
        "s0:\n  date: 2026-04-01\n  channel: market\n  paid: no\n  number: 'TM-0001'\n  lines:\n    - { for: pots, count: 1, price: 90 }\n",
      'lists/bank.yaml': BANK,
    });
    // An invoice is paid long after it; of a row that names none nothing is said.
    const rows = '1,2026-06-28,TRANSFER tm-0001,90.00\n2,2026-06-28,TRANSFER,90.00\n';
    writeFileSync(join(folder, 'bank.csv'), HEAD + rows);
    const matched = (options = {}): Promise<Said> =>
      run(match, folder, {
        words: ['bank.csv'],
        options: { by: 'bank', as: 'json', ...options },
        today: '2026-07-02',
      });
    const { out } = await matched();
    const told = JSON.parse(out) as Matched & { readonly notes: readonly string[] };
    expect(partOf(told.rows, 'Only in the list')).toEqual([
      ['1', 's0', '90.00'],
      ['2', '', '90.00'],
    ]);
    expect(told.notes).toContain(
      'Row 1 names s0, which is not paid in the book. If this is its payment: saggar amend s0 paid=2026-06-28',
    );
    const day = await matched({ asOf: '2026-03-31' });
    expect(day.out).not.toContain('s0');
  });

  it.each([
    ['match', {}],
    ['match-all', { all: true }],
    ['match-month', { byMonth: true }],
  ])('%s is as kept, and its JSON fits the schema of reports', async (name, options) => {
    const folder = tempStudio({ ...LIST_STUDIO, ...BOOK, 'lists/bank.yaml': BANK });
    writeFileSync(
      join(folder, 'bank.csv'),
      `${HEAD}1,2026-05-02,CARD,28.00\n2,2026-05-06,WEB SHOP,147.00\n3,2026-05-25,GALLERY mh-2605,27.50\n4,2026-06-01,=1+1,5.00\n`,
    );
    for (const [as, ending] of Object.entries(ENDINGS)) {
      const { out, err } = await run(match, folder, {
        words: ['bank.csv'],
        options: { by: 'bank', ...options, as },
        today: '2026-07-02',
      });
      expect(err).toBe('');
      if (as === 'json') expect(faultsOfReport(out)).toEqual([]);
      await expect(out).toMatchFileSnapshot(`../golden/${name}.${ending}`);
    }
  });

  it('takes no record twice, and none that is too far away', async () => {
    const rows = await matched(
      '1,2026-05-01,A,40.00\n2,2026-05-02,B,40.00\n3,2026-06-20,C,50.00\n',
    );
    expect(partOf(rows, 'On both sides').map(([, records]) => records)).toEqual(['s2']);
    expect(partOf(rows, 'Only in the list').map(([row]) => row)).toEqual(['2', '3']);
  });

  it('adds up month by month: both sides and one side are the list, and the book', async () => {
    const months = await matched('1,2026-05-02,CARD,28.00\n2,2026-06-01,?,5.00\n', {
      byMonth: true,
    });
    expect(months).toEqual([
      expect.objectContaining({ month: '2026-05', list: '28.00', both: '28.00', book: '183.00' }),
      expect.objectContaining({ month: '2026-06', list: '5.00', onlyList: '5.00', book: '0.00' }),
    ]);
  });

  it.each([
    ['1,2026-05-40,CARD,28.00\n', '"2026-05-40" is not a day'],
    ['1,2026-05-04,CARD,28.00.1\n', 'no amount is on this row'],
  ])('says at its row what is not clear in %j', async (rows, words) => {
    const folder = tempStudio({ ...LIST_STUDIO, ...BOOK, 'lists/bank.yaml': BANK });
    writeFileSync(join(folder, 'bank.csv'), HEAD + rows);
    const { status, err } = await run(match, folder, {
      words: ['bank.csv'],
      options: { by: 'bank' },
    });
    expect(status).toBe(2);
    expect(err).toContain(words);
    expect(err).toContain('bank.csv:2:');
  });

  it.each([
    [{ by: 'bnk' }, 'there is no map lists/bnk.yaml in this studio; did you mean bank?'],
    [{}, 'say by which map bank.csv is to be read: --by bank'],
    [
      { by: 'bank', days: 'ten' },
      '--days is how many days may lie between the two, such as 10; not "ten"',
    ],
  ])('refuses %j', async (options, words) => {
    const folder = tempStudio({ ...LIST_STUDIO, 'lists/bank.yaml': BANK });
    writeFileSync(join(folder, 'bank.csv'), `${HEAD}1,2026-05-01,A,1.00\n`);
    const { status, err } = await run(match, folder, { words: ['bank.csv'], options });
    expect([status, err]).toEqual([2, `saggar: ${words}\n`]);
  });
});

describe('numbers', () => {
  const told = { today: '2026-07-02' };

  it('lead from the order of a shop to the payment at the bank and the line of the tax page', async () => {
    const maps = Object.fromEntries(
      ['shop-orders', 'bank-columns'].map((name) => [
        `lists/${name}.yaml`,
        readFileSync(join(LISTS, name, 'map.yaml'), 'utf8'),
      ]),
    );
    const folder = tempStudio({ ...LIST_STUDIO, ...maps });
    const list = (name: string): string => join(LISTS, name, 'list.csv');
    const taken = await run(takeInList, folder, {
      ...told,
      words: [list('shop-orders')],
      options: { by: 'shop-orders', write: true },
    });
    expect(taken.status).toBe(0);
    const bank: Said = await run(match, folder, {
      ...told,
      words: [list('bank-columns')],
      options: { by: 'bank-columns', all: true, as: 'json' },
    });
    const row = (JSON.parse(bank.out) as Matched).rows.find(({ row: number }) => number === '2');
    expect(row).toMatchObject({
      part: 'On both sides',
      list: '97.50',
      what: 'ORDER #1001 ANA REED',
    });
    const page = await run(quarter, folder, {
      ...told,
      words: ['2026-Q1'],
      options: { as: 'html', sheet: 'plain' },
    });
    expect(page.out).toContain(String(row?.['records']));
  });

  it('lead from a pot by its label, the list of a gallery and an invoice to the payment', async () => {
    const folder = exampleCopy();
    const day = { today: '2026-07-20' };
    const done = async (
      words: readonly string[],
      options: Asked['options'] = {},
    ): Promise<string> => {
      const [command = '', ...rest] = words;
      const { status, out, err } = await run(await loadCommand(command), folder, {
        ...day,
        words: rest,
        options,
      });
      expect(status, err).toBe(0);
      return out;
    };
    const pot = '1 moon-jar oatmeal lot p260519dg at 240';
    const mark = 'p260519dg (SF 26)';
    expect(await done(['paper', 'labels', pot])).toContain(mark);
    const sent = ['--channel', 'gallery', '--date', '2026-06-25', '--sent', pot];
    await done(['add', 'consigned', ...sent], { id: 'c1' });
    expect(await done(['paper', 'sent', 'c1'])).toContain(mark);
    const sold = ['--channel', 'gallery', '--date', '2026-07-15', '--paid', 'no', '--line', pot];
    await done(['add', 'sales', ...sold], { id: 's1' });
    await done(['paper', 'invoice', 's1'], { number: true });
    const invoice = await done(['paper', 'invoice', 's1']);
    for (const number of [mark, 'INVOICE SF-0001', 's1']) expect(invoice).toContain(number);
    mkdirSync(join(folder, 'lists'));
    writeFileSync(join(folder, 'lists/bank.yaml'), BANK);
    writeFileSync(join(folder, 'bank.csv'), `${HEAD}1,2026-07-18,GALLERY SF-0001,132.00\n`);
    const asked = { by: 'bank', all: true, as: 'csv' };
    expect(await done(['match', 'bank.csv'], asked)).toContain('Only in the list,2026-07-18,1');
    await done(['amend', 's1', 'paid=2026-07-18']);
    expect(await done(['match', 'bank.csv'], asked)).toContain(
      'On both sides,2026-07-18,1,GALLERY SF-0001,s1,132.00,132.00,0.00',
    );
    const page = await done(['quarter', '2026-Q3'], { sheet: 'plain', as: 'html' });
    expect(page).toContain('>s1<');
    expect(await done(['trace', 'p260519dg'], { as: 'csv' })).toContain('s1');
  });
});
