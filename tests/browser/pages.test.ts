import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { EXAMPLE } from '../helpers/studio-commands.ts';
import { IS_LONG, some } from '../helpers/tier.ts';
import {
  HAS_BROWSER,
  LOOKS,
  accessibilityFaults,
  markContrast,
  lookAt,
  openBrowser,
  openFile,
} from './browser.ts';
import { faintTexts } from './contrast.ts';
import { firstsOf, widerThanScreen } from './first-look.ts';
import { PAGES, type PageMaker, pageMaker } from './made-pages.ts';

/** Whether a link to a record leads to no file, or to a line that no record begins on. */
function leadsAstray(link: string): boolean {
  const [path = '', line = ''] = link.split('#L');
  const file = join(EXAMPLE, decodeURIComponent(path));
  if (!existsSync(file)) return true;
  const text = readFileSync(file, 'utf8').split('\n')[Number(line) - 1];
  return text === undefined || !/^[A-Za-z][\w-]*:/.test(text);
}

let browser: Browser;
let folder: string;
let pageOf: PageMaker;

function pageNamed(wanted: string): Promise<string> {
  return pageOf(PAGES.find(({ name }) => name === wanted)!);
}

const SOME_PAGES = some(PAGES, 18);

/** The least and the greatest width and both schemes, if not each with each. */
const SOME_LOOKS = LOOKS.filter(
  ({ width, scheme }) => width !== 768 && width > 1000 === (scheme === 'light'),
);

/** Takes what is like what is above it off a page: most lines of long tables and lists. */
const SHORTER = `for (const list of document.querySelectorAll('tbody, ul'))
  [...list.children].slice(12).forEach((line) => line.remove());
  [...document.querySelectorAll('.records details')].slice(6).forEach((list) => list.remove());`;

/** What is closed has its faults only once it is opened. */
const OPENED = `document.querySelectorAll('.records, .records details').forEach((each) => { each.open = true; })`;

describe.skipIf(!HAS_BROWSER)(
  'pages in a browser (skipped where no Chromium or Chrome is on the PATH)',
  () => {
    beforeAll(async () => {
      folder = mkdtempSync(join(tmpdir(), 'saggar-pages-'));
      browser = await openBrowser();
      pageOf = pageMaker(folder);
    });

    afterAll(async () => {
      await browser.close();
      rmSync(folder, { recursive: true, force: true });
    });

    it.each(SOME_PAGES)(
      '$name fits every screen, reads without sight, and needs nothing else',
      async (asked) => {
        const url = await pageOf(asked);
        const { page, complaints, fetched } = await openFile(browser, url);
        if (!IS_LONG) await page.evaluate(SHORTER);
        await page.evaluate(OPENED);
        for (const look of IS_LONG ? LOOKS : SOME_LOOKS) {
          await lookAt(page, look);
          expect(await widerThanScreen(page)).toEqual([]);
          expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(look.width);
          if (look.width > 1000 && look.scheme === 'light')
            expect(await accessibilityFaults(page)).toEqual([]);
          expect(await faintTexts(page)).toEqual([]);
          expect(await markContrast(page)).toBeGreaterThanOrEqual(3);
        }
        expect(complaints).toEqual([]);
        expect(fetched).toEqual([url]);
        await page.close();
      },
    );

    it.each(SOME_PAGES)('$name answers on the first screen of a phone', async (asked) => {
      const { page } = await openFile(browser, await pageOf(asked));
      await lookAt(page, { width: 360, scheme: 'light' });
      const { answerEnds, levels, stops } = await firstsOf(page);
      expect(answerEnds).toBeLessThanOrEqual(640);
      const skips = levels.filter((level, at) => level > (levels[at - 1] ?? 0) + 1);
      expect(skips, levels.join()).toEqual([]);
      // An export's contents have a link for each of its files.
      if (asked.command !== 'export') expect(stops).toBeLessThanOrEqual(60);
      await page.close();
    });

    // Where the links of an export's first page lead is tested with the export.
    it.each(SOME_PAGES.filter(({ command }) => command !== 'export'))(
      'every link of $name leads somewhere',
      async (asked) => {
        const { page } = await openFile(browser, await pageOf(asked));
        const links = (await page.evaluate(
          `[...document.links].map((link) => link.getAttribute('href'))`,
        )) as string[];
        const ids = (await page.evaluate(
          `[...document.querySelectorAll('[id]')].map(({ id }) => id)`,
        )) as string[];
        expect(new Set(ids).size).toBe(ids.length);
        const within = links.filter((link) => link.startsWith('#'));
        expect(within.filter((link) => !ids.includes(link.slice(1)))).toEqual([]);
        expect(links.filter((link) => !link.startsWith('#')).filter(leadsAstray)).toEqual([]);
        await page.close();
      },
    );

    it('leads from a figure to its records, which are closed until then, and back', async () => {
      const { page } = await openFile(browser, await pageNamed('income'));
      const isSeen = `document.querySelector('#r-1-2-cost').checkVisibility({ contentVisibilityAuto: true })`;
      expect(await page.evaluate(isSeen)).toBe(false);
      const shown = await page.evaluate(
        `document.querySelector('[href="#r-1-2-cost"]').textContent`,
      );
      await page.click('[href="#r-1-2-cost"]');
      expect(await page.evaluate(`document.querySelector(':target').textContent`)).toBe(shown);
      expect(await page.evaluate(isSeen)).toBe(true);
      const heading = `document.querySelector('#r-1-2 summary').textContent`;
      expect(await page.evaluate(heading)).toMatch(/2 teapot, Teapot, 1 qt\s+\d+ records$/);
      await page.click('#r-1-2 .back a');
      expect(await page.evaluate(`document.querySelector(':target th a').textContent`)).toBe(
        'Teapot, 1 qt',
      );
      await page.close();
    });

    it('says what a chart shows to those who cannot see it', async () => {
      const { page } = await openFile(browser, await pageNamed('losses'));
      const texts = `[...document.querySelectorAll('svg[role=img]')].map(({ textContent }) => textContent)`;
      const charts = (await page.evaluate(texts)) as string[];
      expect(charts).toHaveLength(1);
      expect(charts[0]).toContain('Loss rate by kind of firing, with its 95 % interval');
      expect(charts[0]).toContain(
        'Highest: glaze, 4.9%; lowest: glaze refire, 0.0%. All figures are in the table below.',
      );
      await page.close();
    });
  },
);
