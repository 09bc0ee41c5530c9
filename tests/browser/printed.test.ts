/** The tax summary as it comes out of a printer: made by a real browser, and read as whoever files reads it. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isInstalled } from '../helpers/needed.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { HAS_BROWSER, openBrowser, openFile } from './browser.ts';

const CAN_READ = HAS_BROWSER && isInstalled('pdftotext');
const FORMATS = ['A4', 'Letter'] as const;

describe.skipIf(!CAN_READ)('a printed year (skipped without a browser and pdftotext)', () => {
  let browser: Browser;
  let folder: string;
  const printed = new Map<string, string[]>();

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'saggar-printed-'));
    browser = await openBrowser();
    const { out } = await runCommand('quarter', { as: 'html' }, { argument: '2025' });
    const file = join(folder, 'quarter.html');
    writeFileSync(file, out);
    const { page } = await openFile(browser, pathToFileURL(file).href);
    for (const format of FORMATS) {
      const path = join(folder, `${format}.pdf`);
      await page.pdf({ path, format });
      const { stdout } = spawnSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' });
      printed.set(format, stdout.split('\f').slice(0, -1));
    }
  });

  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  });

  function sheetsOf(format: string): readonly string[] {
    return printed.get(format) ?? [];
  }

  it.each(FORMATS)('has its title and its number on every sheet of %s', (format) => {
    const sheets = sheetsOf(format);
    expect(sheets.length).toBeGreaterThan(5);
    for (const [at, sheet] of sheets.entries()) {
      expect(sheet.trimStart().startsWith('Tax summary 2025, 2025-01-01 to 2025-12-31')).toBe(true);
      expect(sheet).toContain(`Page ${at + 1} of ${sheets.length}`);
    }
  });

  it.each(FORMATS)('says what it is before any figure on %s', (format) => {
    const [first = ''] = sheetsOf(format);
    const caution = first.indexOf('A summary for a tax preparer, not advice');
    expect(caution).toBeGreaterThan(0);
    expect(caution).toBeLessThan(first.indexOf('Schedule C, Part I: Income'));
  });

  it.each(FORMATS)('has the forms on the first five sheets of %s, whole', (format) => {
    const front = sheetsOf(format).slice(0, 5).join('');
    const wanted = ['1', '7', '12', '28', '31', '33', '42', '44a', '48'];
    const lines = front.split('\n').map((line) => /\s(\d+[a-d]?)$/.exec(line)?.[1]);
    expect(wanted.filter((line) => !lines.includes(line))).toEqual([]);
    for (const part of ['Schedule SE', 'Ask before filing', 'Estimated tax'])
      expect(front).toContain(part);
  });

  it.each(FORMATS)('has the records after them, each with what it brings, on %s', (format) => {
    const sheets = sheetsOf(format);
    const start = sheets.findIndex((sheet) => /^\s*Records\s*$/m.test(sheet));
    expect(start).toBeGreaterThan(3);
    const records = sheets.slice(start).join('');
    const advertising = records.slice(records.indexOf('Expenses, Advertising'));
    // The three bills for advertising of the example, and the figure on line 8.
    expect(/Together\s+298\.00/.test(advertising)).toBe(true);
  });
});
