/** The day's page where it hangs and is held: on a wall, on a phone, on a sheet of paper. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runCommand } from '../helpers/studio-commands.ts';
import { HAS_BROWSER, accessibilityFaults, lookAt, openBrowser, openFile } from './browser.ts';

/** A thumb's breadth, in CSS pixels. */
const THUMB = 44;

const SCREENS = [360, 768, 1280].flatMap((width) =>
  (['light', 'dark'] as const).map((scheme) => ({ width, scheme })),
);

interface Measured {
  readonly across: number;
  /** Of links and of what opens. */
  readonly lows: readonly number[];
  readonly firstSize: number;
  readonly firstBottom: number;
  readonly dead: readonly string[];
  readonly shares: readonly number[];
}

const MEASURE = `(() => {
  const all = (selector) => [...document.querySelectorAll(selector)];
  const first = document.querySelector('.verdict p');
  const widthOf = (element) => element.getBoundingClientRect().width;
  return {
    across: document.documentElement.scrollWidth,
    lows: all('.sheet a, .sheet summary').map((each) => each.getBoundingClientRect().height).filter((height) => height > 0),
    firstSize: parseFloat(getComputedStyle(first).fontSize),
    firstBottom: first.getBoundingClientRect().bottom,
    dead: all('.sheet a').map((each) => each.getAttribute('href')).filter((href) => !document.getElementById(href.slice(1))),
    shares: all('svg.share').map((each) => widthOf(each.querySelector('.bar')) / widthOf(each)),
  };
})()`;

describe.skipIf(!HAS_BROWSER)("the day's page (skipped without a browser)", () => {
  let browser: Browser;
  let folder: string;
  let address: string;

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'saggar-day-'));
    browser = await openBrowser();
    const file = join(folder, 'day.html');
    writeFileSync(file, (await runCommand('day', { as: 'html' })).out);
    address = pathToFileURL(file).href;
  });

  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true });
  });

  it.each(SCREENS)(
    'at $width pixels, $scheme, is led by one sentence, under the thumb, with no way across',
    async (look) => {
      const { page, complaints } = await openFile(browser, address);
      await lookAt(page, look);
      const { across, lows, firstSize, firstBottom, dead } = (await page.evaluate(
        MEASURE,
      )) as Measured;
      expect(across).toBeLessThanOrEqual(look.width);
      expect(lows.length).toBeGreaterThan(10);
      expect(Math.min(...lows)).toBeGreaterThanOrEqual(THUMB);
      expect(firstSize).toBeGreaterThanOrEqual(look.width > 1000 ? 45 : 25);
      expect(firstBottom).toBeLessThan(640);
      expect(dead).toEqual([]);
      expect(await accessibilityFaults(page, look)).toEqual([]);
      expect(complaints).toEqual([]);
      await page.close();
    },
  );

  it('draws the load of each kiln as its row says it', async () => {
    const { out } = await runCommand('day', { as: 'json' });
    const { rows } = JSON.parse(out) as { rows: { section: string; share: string }[] };
    const loads = rows.filter(({ section }) => section === 'kiln-load');
    const { page } = await openFile(browser, address);
    await lookAt(page, { width: 768, scheme: 'light' });
    const { shares } = (await page.evaluate(MEASURE)) as Measured;
    expect(loads.length).toBeGreaterThan(1);
    expect(shares.length).toBe(loads.length);
    loads.forEach(({ share }, at) => {
      expect(shares[at]).toBeCloseTo(Math.min(1, Number(share)), 3);
    });
    await page.close();
  });

  it.each(['A4', 'Letter'] as const)('goes on one sheet of %s', async (format) => {
    const { page } = await openFile(browser, address);
    const pdf = Buffer.from(await page.pdf({ format })).toString('latin1');
    expect(pdf.match(/\/Type \/Page\b/g)?.length).toBe(1);
    await page.close();
  });
});
