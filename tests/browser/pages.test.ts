import { pathToFileURL } from 'node:url';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { EXAMPLE, runCommand } from '../helpers/studio-commands.ts';
import {
  HAS_BROWSER,
  LOOKS,
  SHEETS,
  accessibilityFaults,
  drawnContrasts,
  lookAt,
  openBrowser,
  openFile,
} from './browser.ts';
import { IS_LONG } from '../helpers/tier.ts';

const PAGES = [
  { name: 'income', command: 'income', options: { year: '2025' } },
  { name: 'losses', command: 'losses', options: {} },
  { name: 'firings', command: 'firings', options: { from: '2026-04-01' } },
  { name: 'quarter', command: 'quarter', options: {} },
  { name: 'costs', command: 'costs', options: {} },
  { name: 'materials', command: 'materials', options: {} },
  { name: 'pieces-place', command: 'pieces', options: { by: 'place' } },
  { name: 'kiln', command: 'kilns', argument: 'big-kiln', options: {} },
  { name: 'kilns', command: 'kilns', options: {} },
  { name: 'recipe', command: 'recipes', argument: 'linen', options: {} },
  { name: 'recipes', command: 'recipes', options: {} },
  { name: 'plan', command: 'plan', options: {} },
  { name: 'orders', command: 'orders', options: {} },
  { name: 'order', command: 'orders', argument: 'o260512hl', options: {} },
  { name: 'bring', command: 'fairs', options: { bring: true } },
  { name: 'weigh', command: 'weigh', argument: 'linen', more: ['5', 'kg'], options: {} },
  { name: 'trace', command: 'trace', argument: 'CB3711', options: {} },
  { name: 'fault', command: 'trace', options: { fault: 'crazed' } },
  { name: 'claims', command: 'claims', options: {} },
  { name: 'tests', command: 'tests', options: {} },
  { name: 'clays', command: 'clays', options: {} },
  { name: 'day', command: 'day', options: {} },
  { name: 'check', command: 'check', options: {} },
  { name: 'handover', command: 'export', options: { year: '2025' } },
] as const;

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
const written = new Map<string, Promise<string>>();

/** The address of a page; the first page of an export leads to the others. */
function pageOf(asked: (typeof PAGES)[number]): Promise<string> {
  const known = written.get(asked.name) ?? writePage(asked);
  written.set(asked.name, known);
  return known;
}

async function writePage(asked: (typeof PAGES)[number]): Promise<string> {
  const { name, command, options } = asked;
  if (command === 'export') {
    await runCommand(command, options, { argument: join(folder, name) });
    return pathToFileURL(join(folder, name, 'index.html')).href;
  }
  const words = {
    ...('argument' in asked && { argument: asked.argument }),
    ...('more' in asked && { more: asked.more }),
  };
  const { out } = await runCommand(command, { ...options, as: 'html' }, words);
  const file = join(folder, `${name}.html`);
  writeFileSync(file, out);
  return pathToFileURL(file).href;
}

/** Both widths and both schemes, if not each with each. */
const SOME_LOOKS = LOOKS.filter(({ width, scheme }) => width > 1000 === (scheme === 'light'));

/** Takes what is like what is above it off a page: most lines of long tables and lists. */
const SHORTER = `for (const list of document.querySelectorAll('tbody, ul'))
  [...list.children].slice(12).forEach((line) => line.remove());
  [...document.querySelectorAll('.records details')].slice(6).forEach((list) => list.remove());`;

/** What is closed has its faults only once it is opened. */
const OPENED = `document.querySelectorAll('.records, .records details').forEach((each) => { each.open = true; })`;

/** What lies beyond the right edge, outside the regions that scroll by themselves. */
function widerThanScreen(page: Page): Promise<unknown> {
  return page.evaluate(`[...document.querySelectorAll('body *')]
    .filter((element) => !element.closest('.scroll > *, svg > *, .unseen'))
    .filter((element) => element.getBoundingClientRect().right > innerWidth + 0.5)
    .map((element) => element.outerHTML.slice(0, 80))`);
}

describe.skipIf(!HAS_BROWSER)(
  'pages in a browser (skipped where no Chromium or Chrome is on the PATH)',
  () => {
    beforeAll(async () => {
      folder = mkdtempSync(join(tmpdir(), 'saggar-pages-'));
      browser = await openBrowser();
    });

    afterAll(async () => {
      await browser.close();
      rmSync(folder, { recursive: true, force: true });
    });

    it.each(PAGES)(
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
          expect(await accessibilityFaults(page, look)).toEqual([]);
          const { texts, marks } = await drawnContrasts(page);
          expect(texts).toBeGreaterThanOrEqual(4.5);
          expect(marks).toBeGreaterThanOrEqual(3);
        }
        expect(complaints).toEqual([]);
        expect(fetched).toEqual([url]);
        await page.close();
      },
    );

    it.each(PAGES)('$name goes on paper', async (asked) => {
      const { page } = await openFile(browser, await pageOf(asked));
      await page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: 'dark' }]);
      await page.emulateMediaType('print');
      for (const width of Object.values(SHEETS)) {
        await page.setViewport({ width, height: 900 });
        expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
      }
      const look = `const { backgroundColor, color } = getComputedStyle(document.body); [backgroundColor, color]`;
      expect(await page.evaluate(look)).toEqual(['rgb(255, 255, 255)', 'rgb(0, 0, 0)']);
      await page.close();
    });

    // Where the links of an export's first page lead is tested with the export.
    it.each(PAGES.filter(({ command }) => command !== 'export'))(
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
      const { page } = await openFile(browser, await pageOf(PAGES[0]));
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

    it('has few stops for the Tab key, and leaves out those in what is closed', async () => {
      const { page } = await openFile(browser, await pageOf(PAGES[3]));
      const stops = `[...document.querySelectorAll('a[href], summary, [tabindex]')].filter((each) =>
        each.tabIndex >= 0 && each.checkVisibility({ contentVisibilityAuto: true })).length`;
      expect(await page.evaluate(stops)).toBeLessThanOrEqual(60);
      await page.close();
    });

    it('says what a chart shows to those who cannot see it', async () => {
      const { page } = await openFile(browser, await pageOf(PAGES[1]));
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
