/** The tax summary as it comes out of a printer: made by a real browser, and read as whoever files reads it. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Files } from '../helpers/book.ts';
import { isInstalled } from '../helpers/needed.ts';
import {
  BRITISH,
  BRITISH_FILLED,
  COMMISSIONS,
  COMMISSIONS_FILLED,
} from '../report/invented-years.ts';
import { EXAMPLE, runCommand } from '../helpers/studio-commands.ts';
import { HAS_BROWSER, openBrowser, openFile } from './browser.ts';

const CAN_READ = HAS_BROWSER && isInstalled('pdftotext');
const FORMATS = ['A4', 'Letter'] as const;

/** Writes a studio of texts by kind into a new folder. */
function writeStudio(folder: string, files: Files): string {
  mkdirSync(folder);
  for (const [kind, text] of Object.entries(files))
    writeFileSync(join(folder, `${kind}.yaml`), text);
  return folder;
}

/** What is filled in and asked for is on the first sheets, before what it is made of. */
const FRONT = [
  'Schedule SE',
  'Estimated tax',
  'Ask before filing',
  'Check before sending',
  'From the cash basis to the accrual basis',
  'Sales tax return, Tansy County, 2025-Q4',
  'Through the card reader or shop: Online shop',
];

describe.skipIf(!CAN_READ)('a printed year (skipped without a browser and pdftotext)', () => {
  let browser: Browser;
  let folder: string;
  const printed = new Map<string, string[]>();

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'saggar-printed-'));
    browser = await openBrowser();
    await print('US', EXAMPLE);
    await print('US car', writeStudio(join(folder, 'us'), COMMISSIONS));
    await print('UK', writeStudio(join(folder, 'uk'), BRITISH));
  });

  /** Prints the year of a studio on each format, and keeps the text of each sheet. */
  async function print(name: string, studio: string): Promise<void> {
    const { out } = await runCommand(
      'quarter',
      { as: 'html' },
      { argument: '2025', folder: studio },
    );
    const file = join(folder, `${name}.html`);
    writeFileSync(file, out);
    const { page } = await openFile(browser, pathToFileURL(file).href);
    for (const format of FORMATS) {
      const path = join(folder, `${name} ${format}.pdf`);
      await page.pdf({ path, format });
      const { stdout } = spawnSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' });
      printed.set(`${name} ${format}`, stdout.split('\f').slice(0, -1));
    }
  }

  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  });

  function sheetsOf(format: string, name = 'US'): readonly string[] {
    return printed.get(`${name} ${format}`) ?? [];
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
    expect(caution).toBeLessThan(sheetsOf(format).join('').indexOf('Schedule C, Part I: Income'));
  });

  it.each(FORMATS)('has the forms on the first five sheets of %s, whole', (format) => {
    const front = sheetsOf(format).slice(0, 5).join('');
    const wanted = ['1', '7', '12', '28', '31', '33', '42', '44a', '48'];
    const lines = front.split('\n').map((line) => /\s(\d+[a-d]?)$/.exec(line)?.[1]);
    expect(wanted.filter((line) => !lines.includes(line))).toEqual([]);
    expect(FRONT.filter((part) => !front.includes(part))).toEqual([]);
    // What all of it is made of comes after it, and is short.
    const records = sheetsOf(format).findIndex((sheet) => /^\s*At a glance\s*$/m.test(sheet));
    expect(records).toBeLessThanOrEqual(7);
  });

  /** Every line or box of a form in a printed text: its number with its amount, `ask`, or its words. */
  function filledIn(text: string): string[] {
    const lines = text.matchAll(/^(.*?)\s{2,}(?:([\d,.-]+) )?(1 to 8|F|\d+(?:\.\d|[a-d])?)$/gm);
    return [...lines].map(([, words = '', amount, number = '']) => {
      const said = words.startsWith('Ask: ') ? 'ask' : words;
      return `${number} ${amount?.replaceAll(',', '') ?? said}`;
    });
  }

  const isAmount = (line: string): boolean => /\d\.\d\d$/.test(line) && !line.endsWith(' 0.00');

  it.each(FORMATS)('fills in SA103S from the first sheets of %s, box by box', (format) => {
    const front = sheetsOf(format, 'UK').slice(0, 5).join('');
    const boxes = filledIn(front.split('Update of the year so far')[0] ?? '');
    expect(boxes.filter(isAmount)).toEqual(BRITISH_FILLED);
    expect(boxes.filter((box) => !isAmount(box))).toEqual([
      '1 to 8 Last day of the accounts: 2026-04-05',
      '1 to 8 Cash basis, or traditional accounting (accrual basis): accrual basis',
      ...['10.1 ask', '13 0.00', '23 ask', '24 ask', '25 ask', '26 ask', '29 ask', '30 ask'],
    ]);
  });

  it.each(FORMATS)('fills in Schedule C, SE and the payments from those of %s', (format) => {
    const front = sheetsOf(format, 'US car').slice(0, 5).join('');
    const [forms = '', payments = ''] = front.split('Estimated tax on', 2);
    const lines = filledIn(forms);
    expect(lines.filter(isAmount)).toEqual(COMMISSIONS_FILLED);
    expect(lines.filter((line) => line.endsWith(' ask')).map((line) => line.split(' ')[0])).toEqual(
      ['32', '34', '43', '44b', '44c', '45', '46', '47', '8d'],
    );
    expect(lines).toContain('44a Business miles: 1234 mi');
    expect(lines).toContain('F Accounting method: cash basis');
    expect(/Annualized method: this payment\s+1,525\.99/.test(payments)).toBe(true);
  });

  it.each(FORMATS)('has the records after them, each with what it brings, on %s', (format) => {
    const sheets = sheetsOf(format);
    const start = sheets.findIndex((sheet) => /^\s*Records\s+[\d,]+ records\s*$/m.test(sheet));
    expect(start).toBeGreaterThan(3);
    const records = sheets.slice(start).join('');
    // The four bills for advertising of the example, and the figure on line 8.
    const advertising = /Expenses, Advertising +4 records\s[^]{0,200}4 records together +298\.00/;
    expect(records).toMatch(advertising);
  });
});
