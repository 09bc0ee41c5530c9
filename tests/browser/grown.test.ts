/** Pages of a studio that has been kept for years: ten in the long tier. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { AS_OF, grow } from '../bench/grow.js';
import { cases } from '../helpers/tier.ts';
import { type StudioFolder, writeStudio } from '../helpers/write-studio.ts';
import { HAS_BROWSER, lookAt, openBrowser, openFile } from './browser.ts';
import { firstsOf, widerThanScreen } from './first-look.ts';
import { type PageMaker, pageMaker } from './made-pages.ts';

const PAGES = [
  { name: 'quarter', command: 'quarter', options: { asOf: AS_OF } },
  { name: 'income', command: 'income', options: { asOf: AS_OF, year: AS_OF.slice(0, 4) } },
  { name: 'materials', command: 'materials', options: { asOf: AS_OF } },
] as const;

describe.skipIf(!HAS_BROWSER)('pages of a grown studio', () => {
  let browser: Browser;
  let folder: string;
  let studio: StudioFolder;
  let pageOf: PageMaker;

  beforeAll(async () => {
    const grown = [...grow({ years: cases(1) })].map(({ path, text }) => [path, text] as const);
    studio = writeStudio(Object.fromEntries(grown));
    folder = mkdtempSync(join(tmpdir(), 'saggar-grown-'));
    browser = await openBrowser();
    pageOf = pageMaker(folder, studio.folder);
  });

  afterAll(async () => {
    await browser.close();
    studio.remove();
    rmSync(folder, { recursive: true, force: true });
  });

  it.each(PAGES)('$name answers on a phone, and is small without its records', async (asked) => {
    const url = await pageOf(asked);
    const { page } = await openFile(browser, url);
    await lookAt(page, { width: 360, scheme: 'light' });
    const { answerEnds, stops } = await firstsOf(page);
    expect(answerEnds).toBeLessThanOrEqual(640);
    expect(stops).toBeLessThanOrEqual(60);
    expect(await widerThanScreen(page)).toEqual([]);
    await page.close();
    const [before = '', records = ''] = readFileSync(fileURLToPath(url), 'utf8').split(
      /<section[^>]*class="records"/,
    );
    expect(records).not.toBe('');
    expect(before.length).toBeLessThanOrEqual(200_000);
  });
});
