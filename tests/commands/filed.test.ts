/** What was filed: written, shown beside what there is now, and told of where it has moved. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Asked } from '../../src/commands/world.ts';
import { inGit } from '../helpers/git.ts';
import { runCommand, type Ran } from '../helpers/studio-commands.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const DAY = '2026-06-30';

// A first quarter: 100.00 sold and paid in it, 30.00 sold in it and paid after it, 40.00 of rent.
const FILES = {
  'studio.yaml': 'format: 1\nname: Hill\ncurrency: EUR\ntax-sheet: plain\n',
  'channels.yaml': 'door: { name: Door, kind: direct, tax-place: Town }\n',
  'sales.yaml':
    's1: { date: 2026-02-05, channel: door, lines: [{ for: work, count: 1, price: 100 }] }\n' +
    's2: { date: 2026-03-30, channel: door, paid: 2026-04-20, lines: [{ for: work, count: 1, price: 30 }] }\n',
  'spent.yaml': 'e1: { date: 2026-01-02, to: Landlord, for: rent-place, amount: 40 }\n',
};

const FILED = { filed: true, on: '2026-04-12' };

async function run(
  name: string,
  folder: string,
  ...[options = {}, argument]: [options?: Asked['options'], argument?: string]
): Promise<Ran> {
  const all = { asOf: DAY, ...options };
  return runCommand(name, all, {
    folder,
    width: 200,
    ...(argument === undefined ? {} : { argument }),
  });
}

async function fileQuarter(files: Record<string, string> = FILES): Promise<string> {
  const folder = tempStudio(files);
  const { status, complaints } = await run('quarter', folder, FILED, '2026-Q1');
  expect([status, complaints]).toEqual([0, '']);
  return folder;
}

function written(folder: string): string {
  return readFileSync(`${folder}/filed/2026.yaml`, 'utf8');
}

interface Row {
  readonly item: string;
  readonly amount: string | null;
  readonly filed?: string | null;
  readonly difference?: string | null;
}

/** Filed, now and difference of a line. */
async function line(folder: string, key: string, period = '2026-Q1'): Promise<unknown[]> {
  const { out } = await run('quarter', folder, { as: 'json' }, period);
  const { rows } = JSON.parse(out) as { rows: readonly Row[] };
  const row = rows.find(({ item }) => item.startsWith('filed.') && item.endsWith(`.${key}`));
  return [row?.filed, row?.amount, row?.difference];
}

describe('quarter --filed', () => {
  it('shows each line and writes it, with the way back and how to close the book', async () => {
    const folder = tempStudio(FILES);
    const { status, out } = await run('quarter', folder, FILED, '2026-Q1');
    expect(status).toBe(0);
    expect(out).toMatch(/^ {2}1 +Sales and other income +100\.00$/m);
    expect(out).toMatch(/^ {2}20 +Net profit or loss +60\.00$/m);
    expect(out).toMatch(/^Added d260412\w\w to filed\/2026\.yaml\.\nUndo: saggar remove/m);
    expect(out).toContain('write in studio.yaml: closed-through: 2026-03-31');
    const text = written(folder);
    expect(text).toMatch(
      /^d260412\w\w:\n {2}date: 2026-04-12\n {2}period: 2026-Q1\n {2}sheet: plain\n/,
    );
    expect(text).toContain("    '1': 100.00\n");
    expect(text).toContain("    '20': 60.00\n");
    expect((await run('check', folder)).out).toBe('No problems found.\n');
  });

  it('takes the day that is looked at where none is named, and a year', async () => {
    const folder = tempStudio(FILES);
    expect((await run('quarter', folder, { filed: true }, '2025')).status).toBe(0);
    expect(written(folder)).toContain('  date: 2026-06-30\n  period: 2025\n');
  });

  it('says nothing of closing where the period is closed, and that its day is', async () => {
    const closed = {
      ...FILES,
      'studio.yaml': `${FILES['studio.yaml']}closed-through: 2026-04-30\n`,
    };
    const { out } = await run('quarter', tempStudio(closed), FILED, '2026-Q1');
    expect(out).toContain('2026-04-12 is closed');
    expect(out).not.toContain('To close it');
  });

  it('refuses a car by its rate where the sheet has none for the year', async () => {
    const settings = 'format: 1\nname: Hill\ncurrency: EUR\ntax-sheet: plain\ncar: mileage\n';
    const folder = tempStudio({ ...FILES, 'studio.yaml': settings });
    const { status, complaints } = await run('quarter', folder, FILED, '2026-Q1');
    expect([status, complaints]).toEqual([2, expect.stringContaining('has no rate for 2026')]);
    expect(existsSync(`${folder}/filed`)).toBe(false);
  });

  it('says as json what it wrote', async () => {
    const folder = tempStudio(FILES);
    const { status, out } = await run('quarter', folder, { ...FILED, as: 'json' }, '2026-Q1');
    const { written: isWritten, records } = JSON.parse(out) as {
      written: boolean;
      records: readonly { id: string; file: string; became: string }[];
    };
    expect([status, isWritten, records.length]).toEqual([0, true, 1]);
    expect(records[0]).toMatchObject({ became: 'added', file: 'filed/2026.yaml' });
    expect(written(folder)).toContain(`${records[0]?.id ?? ''}:\n  date: 2026-04-12\n`);
  });

  it('writes nothing in a dry run', async () => {
    const folder = tempStudio(FILES);
    const { out } = await run('quarter', folder, { ...FILED, dryRun: true }, '2026-Q1');
    expect(out).toContain("+    '20': 60.00");
    expect(() => written(folder)).toThrow();
  });

  it.each([
    [FILED, undefined, 'say which period was filed, as in saggar quarter 2026-Q1 --filed'],
    [
      FILED,
      '2026-Q2',
      '2026-Q2 runs to 2026-06-30, and is not over on 2026-04-12; it can be filed from 2026-07-01 on',
    ],
    [{ filed: true, on: 'May' }, '2026-Q1', '--on takes a day such as 2026-03-08, and not "May"'],
    [
      { ...FILED, basis: 'accrual' },
      '2026-Q1',
      "what is filed goes by the studio's basis, which is cash",
    ],
    [{ ...FILED, as: 'csv' }, '2026-Q1', 'leave out --as csv'],
    [
      { ...FILED, sheet: 'plian' },
      '2026-Q1',
      'there is no tax sheet "plian" (did you mean plain?)',
    ],
    [{ on: '2026-04-12' }, '2026-Q1', '--on 2026-04-12 goes with --filed'],
    [{ dryRun: true }, '2026-Q1', '--dry-run goes with --filed'],
  ])('refuses %j %s in one line', async (options, period, words) => {
    const folder = tempStudio(FILES);
    const { status, out, complaints } = await run('quarter', folder, options, period);
    expect([status, out]).toEqual([2, '']);
    expect(complaints).toContain(words);
    expect(complaints.split('\n')).toHaveLength(2);
  });

  it('refuses a form that is of no such year, unless it is named', async () => {
    const files = { ...FILES, 'studio.yaml': 'format: 1\nname: Hill\ncurrency: USD\n' };
    const folder = tempStudio(files);
    const { complaints } = await run('quarter', folder, FILED, '2020');
    expect(complaints).toContain('there is no sheet for 2020: us-schedule-c-2024 is for 2024');
    const named = { ...FILED, sheet: 'us-schedule-c-2024' };
    expect((await run('quarter', folder, named, '2020')).status).toBe(0);
  });

  it('writes no figures of a book with errors', async () => {
    const folder = tempStudio({ ...FILES, 'used.yaml': 'u1: { date: 2026-01-01 }\n' });
    const { complaints } = await run('quarter', folder, FILED, '2026-Q1');
    expect(complaints).toContain('the book has errors');
  });
});

describe('a filed period', () => {
  it('has the record of a later day beside what was filed', async () => {
    const folder = await fileQuarter();
    expect(await line(folder, 'net-profit')).toEqual(['60.00', '60.00', '0.00']);
    // 12.50 more sold in February: 100 + 12.50 on line 1, 60 + 12.50 of profit.
    const more =
      's3: { date: 2026-02-28, channel: door, lines: [{ for: work, count: 1, price: 12.5 }] }\n';
    writeFileSync(`${folder}/sales.yaml`, FILES['sales.yaml'] + more);
    expect(await line(folder, 'net-profit')).toEqual(['60.00', '72.50', '12.50']);
    expect(await line(folder, 'takings')).toEqual(['100.00', '112.50', '12.50']);
    expect(await line(folder, 'expenses')).toEqual(['40.00', '40.00', '0.00']);
    const { out } = await run('quarter', folder, {}, '2026-Q1');
    expect(out).toContain('4 lines of 2026-Q1 differ from what was filed on 2026-04-12');
    const day = await run('day', folder);
    expect(day.out).toContain('2026-Q1: profit is 12.50 more than was filed');
    const check = await run('check', folder);
    expect(check.out).toMatch(
      /^filed\/2026\.yaml:25:11: warning: line 20 of 2026-Q1 differs: 60\.00 was filed, 72\.50 is what the book has now; so do 3 other lines; .*\[filed-differs\]$/m,
    );
    expect(check.status).toBe(0);
  });

  it('goes by the day that it was paid on the cash basis, and by its date on the other', async () => {
    const accrual = { ...FILES, 'studio.yaml': `${FILES['studio.yaml']}basis: accrual\n` };
    // 100 paid in the quarter less 40; on the other basis 30 that were sold in it, too.
    expect(await line(await fileQuarter(), 'net-profit')).toEqual(['60.00', '60.00', '0.00']);
    const folder = await fileQuarter(accrual);
    expect(await line(folder, 'net-profit')).toEqual(['90.00', '90.00', '0.00']);
    writeFileSync(`${folder}/studio.yaml`, FILES['studio.yaml']);
    expect(await line(folder, 'net-profit')).toEqual(['90.00', '60.00', '-30.00']);
  });

  it('follows the studio’s own year', async () => {
    const own = { ...FILES, 'studio.yaml': `${FILES['studio.yaml']}year-starts: "04-06"\n` };
    const folder = tempStudio(own);
    // 2025-Q4 runs from 6 January to 5 April: the rent of 2 January is before it.
    expect((await run('quarter', folder, FILED, '2025-Q4')).status).toBe(0);
    expect(await line(folder, 'net-profit', '2025-Q4')).toEqual(['100.00', '100.00', '0.00']);
    expect((await run('quarter', folder, { filed: true, on: '2026-04-05' }, '2025')).status).toBe(
      2,
    );
  });

  it('is told by a sheet of the studio’s own, and follows a change of it', async () => {
    const sheet =
      'title: Own\nlines:\n  net-profit: { number: B2, title: Left, takes: [other-income] }\n';
    const folder = tempStudio({ ...FILES, 'sheets/own.yaml': sheet });
    const options = { ...FILED, sheet: 'sheets/own.yaml' };
    expect((await run('quarter', folder, options, '2026-Q1')).complaints).toBe('');
    expect(written(folder)).toContain("  sheet: sheets/own.yaml\n  lines: { B2: '100.00' }\n");
    expect((await run('check', folder)).out).toBe('No problems found.\n');
    expect((await run('day', folder)).out).not.toContain('Filed');
    // Without the rent, which the sheet does not take, 100 were filed; with it there are 60.
    writeFileSync(
      `${folder}/sheets/own.yaml`,
      sheet.replace('takes:', 'takes-off: [rent-place], takes:'),
    );
    expect(await line(folder, 'net-profit')).toEqual(['100.00', '60.00', '-40.00']);
    expect((await run('day', folder)).out).toContain(
      '2026-Q1: profit is 40.00 less than was filed',
    );
  });

  it('counts by its last filing, and only from that day on', async () => {
    const folder = await fileQuarter();
    writeFileSync(`${folder}/spent.yaml`, FILES['spent.yaml'].replace('40', '45'));
    expect((await run('check', folder)).out).toContain('filed-differs');
    expect(
      (await run('quarter', folder, { filed: true, on: '2026-05-02' }, '2026-Q1')).status,
    ).toBe(0);
    expect((await run('check', folder)).out).toBe('No problems found.\n');
    const { out } = await run('quarter', folder, {}, '2026-Q1');
    expect(out).toContain(
      'The filing of 2026-05-02 counts, and takes the place of that of 2026-04-12.',
    );
    const before = await run('check', folder, { asOf: '2026-05-01' });
    expect(before.out).toContain('filed-differs');
  });

  it('can be filed once a day', async () => {
    const folder = await fileQuarter();
    const again = await run('quarter', folder, FILED, '2026-Q1');
    expect(again.status).toBe(1);
    expect(again.complaints).toMatch(/filing-unfit error: d260412\w\w was filed on 2026-04-12 for/);
    expect(written(folder).match(/^d/gm)).toHaveLength(1);
  });

  it('warns whoever writes a change that moves it', async () => {
    const folder = await fileQuarter();
    const { status, complaints } = await run('remove', folder, {}, 'e1');
    expect(status).toBe(0);
    expect(complaints.replace(/\s+/g, ' ')).toContain(
      '60.00 was filed, 100.00 is what the book has now',
    );
  });

  it('is reviewed: a branch that moves a line says what was filed, before and after', async () => {
    const folder = inGit(await fileQuarter());
    writeFileSync(`${folder}/spent.yaml`, FILES['spent.yaml'].replace('40', '50'));
    const { out } = await runCommand(
      'review',
      { asOf: DAY },
      { folder, argument: 'HEAD', width: 200 },
    );
    expect(out).toMatch(/^ {2}filing d260412\w\w, 2026-Q1, plain \(filed\/2026\.yaml:1\)$/m);
    expect(out).toContain('line 20 (Net profit or loss): 60.00 filed, 60.00 before, 50.00 after');
    expect(out).toContain('line 12 (Rent, power and home): 40.00 filed, 40.00 before, 50.00 after');
    expect(out).not.toContain('line 1 (');
    const hidden = await runCommand(
      'review',
      { asOf: DAY, without: 'prices' },
      { folder, argument: 'HEAD', width: 200 },
    );
    expect(hidden.out).not.toMatch(/60\.00|50\.00/);
  });

  it('is reviewed where the filing itself is changed', async () => {
    const folder = inGit(await fileQuarter());
    const file = `${folder}/filed/2026.yaml`;
    writeFileSync(file, readFileSync(file, 'utf8').replace("'20': 60.00", "'20': 55.00"));
    const { out } = await runCommand(
      'review',
      { asOf: DAY },
      { folder, argument: 'HEAD', width: 200 },
    );
    expect(out).toContain('line 20 (Net profit or loss): filed as 60.00 before, as 55.00 after');
  });
});
