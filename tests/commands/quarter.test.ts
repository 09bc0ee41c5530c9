import { symlinkSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Asked } from '../../src/commands/world.ts';
import { inGit } from '../helpers/git.ts';
import { runCommand, type Ran } from '../helpers/studio-commands.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const FILES = {
  'studio.yaml':
    'format: 1\nname: Hill\ncurrency: EUR\nyear-starts: "04-06"\ntax-sheet: own.yaml\n',
  'own.yaml':
    'title: Own sheet\nlines:\n  sold: { number: A1, title: Sold, takes: [sales, other-income] }\n  net-profit: { number: B2, title: Left, adds: [sold] }\n',
  'channels.yaml': 'door: { name: Door, kind: direct, tax-place: Town }\n',
  'sales.yaml':
    's1: { date: 2026-04-05, channel: door, lines: [{ for: work, count: 1, price: 70 }] }\ns2: { date: 2026-04-06, channel: door, lines: [{ for: work, count: 1, price: 30 }] }\n',
};

const OTHER_SHEET =
  '{ "title": "Own", "lines": { "net-profit": { "number": "7", "title": "Left", "takes": ["other-income"] } } }';

interface Summary {
  readonly rows: readonly { item: string; amount: string | null; sheetLine: string | null }[];
}

async function quarter(
  folder: string,
  options: Asked['options'] = {},
  argument?: string,
): Promise<Ran> {
  const all = { asOf: '2026-04-30', as: 'json', ...options };
  return runCommand('quarter', all, { folder, ...(argument === undefined ? {} : { argument }) });
}

function figure({ out }: Ran, item: string): string | null | undefined {
  return (JSON.parse(out) as Summary).rows.find((row) => row.item === item)?.amount;
}

describe('saggar quarter', () => {
  it('takes the quarter that the day is in, by the studio’s own year and sheet', async () => {
    const ran = await quarter(tempStudio(FILES));
    expect(ran.status).toBe(0);
    expect([figure(ran, 'income'), figure(ran, 'line.net-profit')]).toEqual(['30.00', '30.00']);
  });

  it('takes a quarter or a year by its name', async () => {
    const folder = tempStudio(FILES);
    expect(figure(await quarter(folder, {}, '2025-Q4'), 'income')).toBe('70.00');
    expect(figure(await quarter(folder, {}, '2025'), 'income')).toBe('70.00');
  });

  it('takes another sheet, basis and rate by its options', async () => {
    const ran = await quarter(tempStudio(FILES), {
      sheet: 'plain',
      basis: 'accrual',
      taxRate: '22%',
    });
    expect(ran.out).toContain('accrual basis');
    expect(figure(ran, 'line.takings')).toBe('30.00');
  });

  it('follows a change of its own sheet, whatever was answered before', async () => {
    const own = tempStudio(FILES);
    await quarter(own);
    writeFileSync(`${own}/own.yaml`, FILES['own.yaml'].replace('A1', 'C9'));
    const { rows } = JSON.parse((await quarter(own)).out) as Summary;
    expect(rows.find(({ item }) => item === 'line.sold')?.sheetLine).toBe('C9');
  });

  it('takes its own sheet of the commit that is asked for, and not the one on the disk', async () => {
    const own = inGit(tempStudio({ ...FILES, 'sheets/b.json': OTHER_SHEET }));
    writeFileSync(`${own}/own.yaml`, FILES['own.yaml'].replace('A1', 'C9'));
    writeFileSync(`${own}/sheets/b.json`, OTHER_SHEET.replace('"7"', '"8"'));
    writeFileSync(`${own}/new.yaml`, FILES['own.yaml']);
    const lineOf = async (item: string, options: Asked['options']): Promise<unknown> => {
      const { rows } = JSON.parse((await quarter(own, options)).out) as Summary;
      return rows.find((row) => row.item === item)?.sheetLine;
    };
    expect(await lineOf('line.sold', { at: 'HEAD' })).toBe('A1');
    expect(await lineOf('line.sold', {})).toBe('C9');
    const json = { sheet: './sheets/b.json' };
    expect(await lineOf('line.net-profit', { ...json, at: 'HEAD' })).toBe('7');
    expect(await lineOf('line.net-profit', json)).toBe('8');
    const none = await quarter(own, { at: 'HEAD', sheet: 'new.yaml' });
    expect([none.status, none.complaints]).toEqual([
      2,
      expect.stringContaining('new.yaml:1:1 there is no such file in the studio'),
    ]);
  });

  it('follows no link in a commit to a sheet elsewhere', async () => {
    const own = tempStudio(FILES);
    symlinkSync('own.yaml', `${own}/linked.yaml`);
    inGit(own);
    expect((await quarter(own, { sheet: 'linked.yaml' })).status).toBe(0);
    const { complaints } = await quarter(own, { sheet: 'linked.yaml', at: 'HEAD' });
    expect(complaints).toContain('there is no such file in the studio');
  });

  it('takes a sheet in JSON', async () => {
    const own = tempStudio({
      ...FILES,
      'sheets/own.json': OTHER_SHEET,
    });
    expect(figure(await quarter(own, { sheet: 'sheets/own.json' }), 'line.net-profit')).toBe(
      '30.00',
    );
  });

  it.each([
    [{ sheet: 'plian' }, undefined, 'there is no tax sheet "plian" (did you mean plain?)'],
    [{ sheet: '../own.yaml' }, undefined, 'it lies outside the studio'],
    [{ sheet: '/etc/own.yaml' }, undefined, 'it lies outside the studio'],
    [{ sheet: 'none.yaml' }, undefined, 'there is no such file in the studio'],
    [{ sheet: 'channels.yaml' }, undefined, 'channels.yaml:1:1 a sheet has no field "door" here'],
    [
      { basis: 'cahs' },
      undefined,
      '"cahs" is not a choice for --basis: use cash, accrual; did you mean cash?',
    ],
    [{ taxRate: '101' }, undefined, '--tax-rate takes a percentage from 0 to 100'],
    [{}, '2026-Q5', 'a quarter is named 2026-Q2, a year 2026, and not "2026-Q5"'],
    [{}, '2026-Q2', '2026-Q2 starts on 2026-07-06, after 2026-04-30'],
  ])('refuses %j %s', async (options, argument, words) => {
    const { status, out, complaints } = await quarter(tempStudio(FILES), options, argument);
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(complaints).toContain(words);
  });

  it('is no stray file, the sheet that the settings name', async () => {
    const { out } = await runCommand(
      'check',
      { asOf: '2026-04-30' },
      { folder: tempStudio(FILES) },
    );
    expect(out).not.toContain('own.yaml');
  });
});
