/** Drawings where they are looked at: no text lies over another, nothing stands out of the page. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { decimal } from '../../src/number/decimal.ts';
import { renderPage } from '../../src/render/html/page.ts';
import { type Chart, type ChartShape, bareTable } from '../../src/report/page.ts';
import type { Column, Row } from '../../src/report/table.ts';
import { SMALL } from '../render/sample.ts';
import { HAS_BROWSER, drawnContrasts, lookAt, openBrowser, openFile } from './browser.ts';

const SHAPES: readonly ChartShape[] = [
  'columns',
  'bars',
  'intervals',
  'course',
  'control',
  'spots',
];

const COLUMNS: readonly Column[] = [
  { key: 'name', title: 'Name', type: 'text' },
  { key: 'value', title: 'Net', type: 'rate' },
  { key: 'low', title: 'Floor at galleries', type: 'rate' },
  { key: 'high', title: 'Price', type: 'rate' },
  { key: 'count', title: 'Pieces', type: 'count' },
  { key: 'named', title: 'Out of line', type: 'text' },
];

/** Crowded rows: near each other, far from each other, gains and losses, none, and long names. */
function rowsOf(count: number, scale: number): Row[] {
  return Array.from({ length: count }, (_, at): Row => {
    const value = Math.sin(at * 1.7) * scale + (at % 5 === 0 ? scale * 4 : scale / 3);
    const figure = (times: number) => (at % 7 === 6 ? null : decimal((value * times).toFixed(2)));
    return {
      name:
        count > 13
          ? `2025-03-${String(at + 1).padStart(2, '0')}`
          : `Covered casserole, no ${String(at)}`,
      ...{ value: figure(1), low: figure(0.8), high: figure(1.25), count: (at * 37) % 90 },
      named: at % 6 === 0 ? `f2503${String(at)}py` : null,
    };
  });
}

function chartOf(shape: ChartShape, rows: readonly Row[]): Chart {
  const common = { title: `A ${shape} chart`, span: 'a year', label: 'name', value: 'value' };
  const bounds = { low: 'low', high: 'high' };
  const also: Partial<Record<ChartShape, Partial<Chart>>> = {
    columns: { against: 'high' },
    bars: { parts: ['low', 'count'], marks: ['high', 'low'] },
    intervals: { bounds, count: 'count' },
    control: { bounds, named: 'named' },
    spots: { across: 'count' },
  };
  return { shape, ...common, ...also[shape], table: { ...SMALL, columns: COLUMNS, rows } };
}

/** Texts of a drawing that lie over each other by more than the edges of their signs. */
const OVERLAPS = `[...document.querySelectorAll('svg[role=img]')].flatMap((drawing) => {
  const texts = [...drawing.querySelectorAll('text')].filter(({ textContent }) => textContent !== '')
    .map((each) => ({ said: each.textContent, at: each.getBoundingClientRect() }));
  const doMeet = (one, other) => one.left < other.right - 1 && other.left < one.right - 1 &&
    one.top < other.bottom - 3 && other.top < one.bottom - 3;
  return texts.flatMap((one, at) => texts.slice(at + 1).filter((other) => doMeet(one.at, other.at))
    .map((other) => drawing.querySelector('title').textContent + ': ' + one.said + ' / ' + other.said));
})`;

describe.skipIf(!HAS_BROWSER)('drawings (skipped without a browser)', () => {
  let browser: Browser;
  let folder: string;

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'saggar-drawings-'));
    browser = await openBrowser();
  });

  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true });
  });

  it.each([
    { count: 1, scale: 40 },
    { count: 12, scale: 900 },
    { count: 28, scale: 2_000_000 },
  ])('of $count rows keep their texts apart on every screen', async ({ count, scale }) => {
    const rows = rowsOf(count, scale);
    const charts = SHAPES.map((shape) => chartOf(shape, rows));
    const file = join(folder, `${String(count)}.html`);
    writeFileSync(file, renderPage({ ...bareTable(SMALL), charts }));
    const { page } = await openFile(browser, pathToFileURL(file).href);
    for (const width of [360, 768, 1280]) {
      for (const scheme of ['light', 'dark'] as const) {
        await lookAt(page, { width, scheme });
        expect(await page.evaluate(OVERLAPS)).toEqual([]);
        expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
        const { texts, marks } = await drawnContrasts(page);
        expect(texts).toBeGreaterThanOrEqual(4.5);
        expect(marks).toBeGreaterThanOrEqual(3);
      }
    }
    await page.close();
  });
});
