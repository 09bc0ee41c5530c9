import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runCommand } from '../helpers/studio-commands.ts';
import { exampleCopy, filesIn, tempStudio } from '../helpers/temp-studio.ts';

describe('where an export may go', () => {
  async function refused(argument: string, studio: string): Promise<string> {
    const before = filesIn(studio);
    const { status, complaints, out } = await runCommand(
      'export',
      {},
      { argument, folder: studio },
    );
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(filesIn(studio)).toEqual(before);
    return complaints;
  }

  it('is not among the records, nor where anything is', async () => {
    const studio = exampleCopy();
    expect(await refused('sales', studio)).toContain("is among the studio's own records");
    expect(await refused('firings/2025/out', studio)).toContain(
      "is among the studio's own records",
    );
    expect(await refused('.git/x', studio)).toContain("is among the studio's own records");
    expect(await refused('.', studio)).toContain("is among the studio's own records");
    const full = tempStudio({ 'letter.txt': 'Dear accountant' });
    expect(await refused(full, studio)).toContain('is not empty');
    expect(filesIn(full)).toEqual({ 'letter.txt': 'Dear accountant' });
    expect(await refused(join(full, 'letter.txt'), studio)).toContain(
      'is a file, or leads through one',
    );
  });

  it('is an empty folder, or one of the studio that is no kind of record', async () => {
    const studio = exampleCopy();
    mkdirSync(join(studio, 'handover'));
    const { status } = await runCommand('export', {}, { argument: 'handover', folder: studio });
    expect(status).toBe(0);
    expect(existsSync(join(studio, 'handover/index.html'))).toBe(true);
    // Nothing in it is taken for a record or a stray file afterwards.
    const { out } = await runCommand('check', { as: 'json' }, { folder: studio });
    expect(
      (JSON.parse(out) as { rows: { rule: string }[] }).rows.filter(
        ({ rule }) => rule === 'stray-file',
      ),
    ).toEqual([]);
  });

  it('is no file that is there already', async () => {
    const studio = exampleCopy();
    writeFileSync(join(studio, 'handover.zip'), 'mine');
    const { status, complaints } = await runCommand(
      'export',
      { archive: 'handover.zip' },
      { folder: studio },
    );
    expect(status).toBe(2);
    expect(complaints).toContain('is there already');
    expect(readFileSync(join(studio, 'handover.zip'), 'utf8')).toBe('mine');
    expect(
      readdirSync(dirname(join(studio, 'x'))).filter((name) => name.startsWith('.handover')),
    ).toEqual([]);
  });

  it('says how many errors there are, and ends with their status', async () => {
    const studio = exampleCopy();
    writeFileSync(
      join(studio, 'used/2026-07.yaml'),
      'u260601zz: { date: 2026-06-01, material: no-such-clay, quantity: 1 kg }\n',
    );
    const { status, complaints } = await runCommand(
      'export',
      {},
      { argument: 'out', folder: studio },
    );
    expect(status).toBe(1);
    expect(complaints).toMatch(/^saggar: 1 error: records with errors are left out/);
    expect(readFileSync(join(studio, 'out/index.html'), 'utf8')).toContain(
      '1 error: records with errors are left out',
    );
  });

  it('has to be said', async () => {
    const { status, complaints } = await runCommand('export', {});
    expect({ status, complaints }).toEqual({
      status: 2,
      complaints: 'saggar: say where to, as in saggar export handover, or --archive handover.zip\n',
    });
  });
});
