import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { strFromU8, unzipSync } from 'fflate';
import type { Database } from 'sql.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { decimal, sum } from '../../src/number/decimal.ts';
import { EXAMPLE, runCommand, type Ran } from '../helpers/studio-commands.ts';
import { filesIn } from '../helpers/temp-studio.ts';
import { csvRows, loadPackage, query, type PackageDocument, type Resource } from './database.ts';

let folder: string;
let ran: Ran;
let zips: Ran[];
let database: Database;
let document: PackageDocument;

function file(path: string): string {
  return readFileSync(join(folder, 'handover', path), 'utf8');
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'saggar-export-'));
  const to = join(folder, 'handover');
  ran = await runCommand('export', { year: '2025' }, { argument: to });
  zips = [];
  for (const name of ['a.zip', 'b.zip'])
    zips.push(await runCommand('export', { year: '2025', archive: join(folder, name) }));
  document = JSON.parse(file('datapackage.json')) as PackageDocument;
  database = await loadPackage(document, file);
});

afterAll(() => {
  database.close();
  rmSync(folder, { recursive: true, force: true });
});

/** The texts of a zip by their paths. */
function packed(name: string): Record<string, string> {
  const files = unzipSync(readFileSync(join(folder, name)));
  return Object.fromEntries(Object.entries(files).map(([path, bytes]) => [path, strFromU8(bytes)]));
}

/** Links of a page that lead to no file, or to no place in it. */
function deadLinks(page: string, files: Readonly<Record<string, string>>): string[] {
  const links = [...(files[page] ?? '').matchAll(/href="([^"]*)"/g)].map(([, href = '']) => href);
  return links.filter((link) => {
    const [path = '', id] = link.split('#');
    const target = path === '' ? page : join(dirname(page), decodeURIComponent(path));
    return !idsOf(files[target], target).has(id ?? '');
  });
}

const idsByText = new Map<string, ReadonlySet<string>>();

/** The places of a page, with an empty one for its beginning; none of a file that isn't there. */
function idsOf(text: string | undefined, path: string): ReadonlySet<string> {
  if (text === undefined) return new Set();
  if (!path.endsWith('.html')) return new Set(['']);
  const known = idsByText.get(text);
  const ids =
    known ?? new Set(['', ...[...text.matchAll(/ id="([^"]+)"/g)].map(([, id = '']) => id)]);
  idsByText.set(text, ids);
  return ids;
}

/** The totals of a report as JSON. */
async function totals(
  command: string,
  options: Record<string, string | boolean>,
): Promise<Record<string, string>> {
  const { out } = await runCommand(command, { ...options, as: 'json' });
  return (JSON.parse(out) as { totals: Record<string, string> }).totals;
}

function total(sql: string): string {
  const values = query(database, sql).map(({ value }) => decimal(String(value)));
  return sum(values).toFixed(2);
}

describe('an export of the example studio', () => {
  it('says what it wrote, and leaves nothing half-written', () => {
    expect(ran).toMatchObject({ status: 0, complaints: '' });
    expect(ran.out).toMatch(/handover: \d+ files; begin with index\.html\n$/);
    expect(readdirSync(folder).sort()).toEqual(['a.zip', 'b.zip', 'handover']);
  });

  it('loads into a database by its own description, with every key holding', () => {
    const count = (table: string): unknown =>
      query(database, `SELECT count(*) AS n FROM "${table}"`)[0]?.['n'];
    expect(document.resources.length).toBeGreaterThan(60);
    expect(count('firings')).toBe(79);
    expect(count('sales-lines')).toBeGreaterThan(300);
    expect(count('recipes-versions-base')).toBeGreaterThan(20);
  });

  it('would not load with a key that leads nowhere, a lost value or a wrong type', async () => {
    const spoilt = (path: string, from: RegExp, to: string) => (asked: string) =>
      asked === path ? file(asked).replace(from, to) : file(asked);
    const records = document.resources.filter(({ path }) => path.startsWith('records/'));
    const load = (read: (path: string) => string): Promise<Database> =>
      loadPackage({ ...document, resources: records }, read);
    await expect(load(spoilt('records/firings.csv', /big-kiln/, 'no-kiln'))).rejects.toThrow(
      'foreign keys',
    );
    await expect(load(spoilt('records/firings.csv', /,\d{4}-\d\d-\d\d,/, ',,'))).rejects.toThrow(
      'NOT NULL',
    );
    await expect(load(spoilt('records/spent.csv', /,(\d+\.\d\d),/, ',$1x,'))).rejects.toThrow(
      'is no number',
    );
  });

  it('adds up to the reports to the cent', async () => {
    const income = await totals('income', { year: '2025' });
    const firings = await totals('firings', { year: '2025' });
    const materials = await totals('materials', { asOf: '2025-12-31' });
    const rounded = (text: string | undefined): string => decimal(text ?? 'x').toFixed(2);
    for (const key of ['gross', 'discounts', 'returns', 'net', 'fees', 'cost', 'margin'])
      expect([key, total(`SELECT ${key} AS value FROM "report-income"`)]).toEqual([
        key,
        rounded(income[key]),
      ]);
    expect(total('SELECT total AS value FROM "report-firings"')).toBe(rounded(firings['total']));
    expect(total('SELECT value FROM "report-materials"')).toBe(rounded(materials['value']));
  });

  const YEAR = { year: '2025' };
  const END = { asOf: '2025-12-31' };

  it.each([
    ['quarter', 'quarter', { argument: '2025' }, {}],
    ['income', 'income', {}, YEAR],
    ['income-month', 'income', {}, { ...YEAR, by: 'month' }],
    ['income-channel', 'income', {}, { ...YEAR, by: 'channel' }],
    ['income-class', 'income', {}, { ...YEAR, by: 'class' }],
    ['income-buyer', 'income', {}, { ...YEAR, by: 'buyer' }],
    ['costs', 'costs', {}, YEAR],
    ['firings', 'firings', {}, YEAR],
    ['losses', 'losses', {}, YEAR],
    ['losses-product', 'losses', {}, { ...YEAR, by: 'product' }],
    ['losses-recipe', 'losses', {}, { ...YEAR, by: 'recipe' }],
    ['losses-cause', 'losses', {}, { ...YEAR, by: 'cause' }],
    ['losses-month', 'losses', {}, { ...YEAR, by: 'month' }],
    ['losses-chart', 'losses', {}, { ...YEAR, chart: true }],
    ['materials-where', 'materials', {}, { ...YEAR, where: true }],
    ['fairs', 'fairs', {}, YEAR],
    ['materials', 'materials', {}, END],
    ['pieces', 'pieces', {}, END],
    ['pieces-place', 'pieces', {}, { ...END, by: 'place' }],
    ['galleries', 'galleries', {}, END],
  ])('keeps to the year in the report %s', async (...[name, command, scene, options]) => {
    const { out } = await runCommand(command, { ...options, as: 'csv' }, scene);
    // Figures, so that a report of no rows would not do.
    expect(out).toMatch(/\d/);
    // An export says nothing of git, as what changed since a period was closed.
    expect(file(`reports/${name}.csv`)).toBe(out.replace(/^Closed,closed\..*\r\n/gm, ''));
  });

  it("keeps to the year in the day's end, and has no report besides", async () => {
    const { out } = await runCommand('day', { ...END, as: 'csv' });
    // Its warnings are those of the book as it is now, and it plans nothing.
    const said = (csv: string): string[] =>
      csv.split('\r\n').filter((line) => !/^(?:uncommitted|problems|next|plan),/.test(line));
    expect(said(file('reports/day.csv'))).toEqual(said(out));
    expect(readdirSync(join(folder, 'handover/reports'))).toHaveLength(27);
    expect(file('index.html')).toContain('galleries and the day are as of 2025-12-31');
  });

  it('has records that come to the same sums as the reports', async () => {
    const spent = query(
      database,
      `SELECT 'expense.' || "for" AS item, group_concat(amount, ' ') AS amounts FROM spent
       WHERE coalesce(paid, date) BETWEEN '2025-01-01' AND '2025-12-31' GROUP BY "for" ORDER BY "for"`,
    );
    const expenses = query(
      database,
      `SELECT item, amount FROM "report-quarter" WHERE item LIKE 'expense.%' ORDER BY item`,
    );
    const sums = spent.map(({ item, amounts }) => ({
      item,
      amount: sum(String(amounts).split(' ').map(decimal)).toFixed(2),
    }));
    expect(sums.length).toBeGreaterThan(10);
    expect(expenses.filter(({ item }) => sums.some((each) => each.item === item))).toEqual(sums);
    const pieces = query(
      database,
      `SELECT sum("in") AS n FROM "firings-load" l JOIN firings f ON f.id = l.record WHERE f.date LIKE '2025%'`,
    );
    expect(pieces[0]?.['n']).toBe((await totals('firings', { year: '2025' }))['pieces']);
  });

  it('leads from the rows of reports to records and their lines', () => {
    const rows = query(database, `SELECT * FROM sources WHERE report = 'income' AND row = 1`);
    expect(rows.length).toBeGreaterThan(20);
    for (const { record, file: path, line } of rows) {
      const text = readFileSync(join(EXAMPLE, String(path)), 'utf8').split('\n');
      expect(text[Number(line) - 1]).toMatch(new RegExp(`^${String(record)}:`));
    }
    expect(rows[0]).toMatchObject({ key: 'mug, Mug, 12 oz', report: 'income', row: 1 });
    expect(String(rows[0]?.['columns'])).toMatch(
      /^count gross discounts returns net fees cost margin/,
    );
  });

  it('is described by the words of the standard', () => {
    const names = document.resources.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    expect(names.filter((name) => !/^[-a-z0-9._/]+$/.test(name))).toEqual([]);
    for (const resource of document.resources) expect(faultsOf(resource, document)).toEqual([]);
  });

  it('speaks of every file on its first page, says what each is for, and how much it is', () => {
    const files = Object.keys(filesIn(join(folder, 'handover')));
    const items = [...file('index.html').matchAll(/<li>.*<\/li>/g)].map(([item]) => item);
    const links = items.flatMap((item) => [...item.matchAll(/href="\.\/([^"]+)"/g)]);
    expect(links.map(([, path]) => path).toSorted()).toEqual(
      files.filter((path) => path !== 'index.html').toSorted(),
    );
    const told =
      /<\/a> <small>(?:[\d,]+ (?:rows?|files?), )?(?:under 1 KB|\d+ KB|[\d.]+ MB)<\/small><br\/>[A-Z][^<]+/;
    expect(items.filter((item) => !told.test(item))).toEqual([]);
    expect(items.find((item) => item.includes('income-month.html'))).toMatch(
      /Income by month<\/a> <small>\d+ KB<\/small><br\/>What a year earned, down to the margin, by month\.<br\/><a href="\.\/reports\/income-month\.csv">/,
    );
  });

  it('has no dead link, as a folder or packed, and each page leads back to the first', () => {
    for (const files of [filesIn(join(folder, 'handover')), packed('a.zip')]) {
      const pages = Object.keys(files).filter((path) => path.endsWith('.html'));
      expect(pages.length).toBeGreaterThan(45);
      expect(pages.flatMap((page) => deadLinks(page, files))).toEqual([]);
      const others = pages.filter((page) => page !== 'index.html');
      expect(others.filter((page) => !files[page]?.includes('href="../index.html"'))).toEqual([]);
    }
  });

  it('leads from the records of a page to the line where each begins, as it is written', () => {
    const links = [...file('pages/income.html').matchAll(/class="at" href="\.\.\/(book\/[^"]+)"/g)];
    expect(links.length).toBeGreaterThan(100);
    for (const [, link = ''] of links.slice(0, 50)) {
      const [page = '', id] = link.split('#');
      expect(file(page)).toMatch(new RegExp(`<span id="${id}">\\w[\\w-]*:`));
    }
    const text = readFileSync(join(EXAMPLE, 'kilns.yaml'), 'utf8').trimEnd();
    const written = /<pre class="written">(.*)<\/pre>/s.exec(file('book/kilns.html'))?.[1] ?? '';
    expect(written.replaceAll(/<[^>]+>/g, '').trimEnd()).toBe(text);
  });

  it('is the same zip to the byte each time, with the book for the pages to lead to', () => {
    expect(zips.map(({ status }) => status)).toEqual([0, 0]);
    const [a, b] = ['a.zip', 'b.zip'].map((name) => readFileSync(join(folder, name)));
    expect(a?.equals(b ?? Buffer.alloc(0))).toBe(true);
    const files = unzipSync(a ?? Buffer.alloc(0));
    expect(strFromU8(files['records/sales.csv'] ?? new Uint8Array())).toBe(
      file('records/sales.csv'),
    );
    expect(strFromU8(files['book/studio.yaml'] ?? new Uint8Array())).toBe(
      readFileSync(join(EXAMPLE, 'studio.yaml'), 'utf8'),
    );
  });
});

/** What the standard says of a resource with a Table Schema, held against one. */
function faultsOf(resource: Resource, { resources }: PackageDocument): string[] {
  const { name, path, schema } = resource;
  const fields = schema.fields.map((field) => field.name);
  const text = file(path);
  const keys = (schema.foreignKeys ?? []).flatMap(({ fields: own, reference }) => {
    const target = resources.find((each) => each.name === reference.resource);
    const theirs = target?.schema.fields.map((field) => field.name) ?? [];
    // A key that leads to a table leads to the columns that its rows are known by.
    const isKey = target?.schema.primaryKey?.join() === reference.fields.join();
    const isFine =
      isKey &&
      own.every((each) => fields.includes(each)) &&
      reference.fields.every((each) => theirs.includes(each));
    return isFine ? [] : [`${name}: foreign key ${own.join()}`];
  });
  return [
    ...keys,
    ...(path.startsWith('/') || path.includes('..') ? [`${name}: path`] : []),
    ...(new Set(fields).size === fields.length ? [] : [`${name}: fields alike`]),
    ...((schema.primaryKey ?? []).every((key) => fields.includes(key))
      ? []
      : [`${name}: primary key`]),
    ...(schema.missingValues.join() === '' ? [] : [`${name}: missing values`]),
    ...(Buffer.byteLength(text) === resource.bytes ? [] : [`${name}: bytes`]),
    ...(`sha256:${createHash('sha256').update(text).digest('hex')}` === resource.hash
      ? []
      : [`${name}: hash`]),
    ...(csvRows(text)[0]?.join() === fields.join() ? [] : [`${name}: head`]),
  ];
}
