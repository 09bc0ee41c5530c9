/** Pages as they come out of a printer, on both papers: printed by a real browser, and measured. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, PaperFormat } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isInstalled } from '../helpers/needed.ts';
import { IS_LONG, some } from '../helpers/tier.ts';
import { HAS_BROWSER, openBrowser, openFile } from './browser.ts';
import { PAGES, type PageMaker, pageMaker } from './made-pages.ts';

/** A word on a sheet, in points from its corner. */
interface Word {
  readonly text: string;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

interface Sheet {
  readonly width: number;
  readonly height: number;
  /** What stands between head and foot. */
  readonly words: readonly Word[];
  /** What stands at the head and the foot of each sheet. */
  readonly edges: string;
}

/** Points at the head and foot of a sheet that hold its title and number. */
const EDGE = 40;
const SIDE = (14 / 25.4) * 72;

function sheetsOf(pdf: string): Sheet[] {
  const { stdout } = spawnSync('pdftotext', ['-bbox', pdf, '-'], { encoding: 'utf8' });
  return stdout.split('<page ').slice(1).map(sheetOf);
}

function sheetOf(text: string): Sheet {
  const [, width = 0, height = 0] = (/width="([\d.]+)" height="([\d.]+)"/.exec(text) ?? []).map(
    Number,
  );
  const found = text.matchAll(
    /<word xMin="(.+?)" yMin="(.+?)" xMax="(.+?)" yMax="(.+?)">([^<]*)</g,
  );
  const all = [...found].map(([, left, top, right, bottom, word = '']): Word => ({
    text: word,
    left: Number(left),
    top: Number(top),
    right: Number(right),
    bottom: Number(bottom),
  }));
  const isBetween = ({ top, bottom }: Word): boolean => top > EDGE && bottom < height - EDGE;
  const edges = all.filter((word) => !isBetween(word)).map((word) => word.text);
  return { width, height, words: all.filter(isBetween), edges: edges.join(' ') };
}

/** How tall letters of 8 points are at least from the top of the tallest to the foot of the lowest. */
const EIGHT_POINTS = 8 * 1.1;

function lineEnds({ words }: Sheet): string {
  const lowest = Math.max(...words.map(({ bottom }) => bottom));
  return words
    .filter(({ bottom }) => bottom > lowest - 2)
    .map(({ text }) => text)
    .join(' ');
}

const AMOUNT = /^-?[\d,]+\.\d\d$/;

/** Amounts that stand so close beside each other that they read as one. */
function touching({ words }: Sheet): string[] {
  const amounts = words.filter(({ text }) => AMOUNT.test(text));
  const merged = words
    .filter(({ text }) => /\d\.\d\d-?\d+[,.]\d\d/.test(text))
    .map(({ text }) => text);
  const close = amounts.filter((one) =>
    amounts.some(
      ({ left, top }) => Math.abs(top - one.top) < 1 && left > one.left && left - one.right < 3,
    ),
  );
  return [...merged, ...close.map(({ text }) => text)];
}

const FORMATS: readonly PaperFormat[] = ['A4', 'Letter'];
const PRINTED = some(
  PAGES.filter(({ command }) => command !== 'export'),
  6,
).flatMap((asked, at) =>
  (IS_LONG ? FORMATS : [FORMATS[at % 2]!]).map((format) => ({ asked, format, name: asked.name })),
);

/** Pages of which a sheet ends early still: what comes after a high picture is kept whole. */
const ENDS_EARLY: ReadonlySet<string> = new Set(['recipes']);

describe.skipIf(!HAS_BROWSER || !isInstalled('pdftotext'))('pages on paper', () => {
  let browser: Browser;
  let folder: string;
  let pageOf: PageMaker;

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'saggar-sheets-'));
    browser = await openBrowser();
    pageOf = pageMaker(folder);
  });

  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it.each(PRINTED)('$name on $format', async ({ asked, format }) => {
    const { page } = await openFile(browser, await pageOf(asked));
    const path = join(folder, 'printed.pdf');
    await page.pdf({ path, format, preferCSSPageSize: true });
    const headings = (await page.evaluate(
      `[...document.querySelectorAll('h2:not(.unseen), h3, tr.part')].map(({ textContent }) => textContent.trim())`,
    )) as string[];
    const title = (await page.evaluate('document.title')) as string;
    await page.close();
    const sheets = sheetsOf(path);
    for (const [at, sheet] of sheets.entries()) {
      const where = `sheet ${at + 1}`;
      expect(sheet.edges, where).toContain(`Page ${at + 1} of ${sheets.length}`);
      expect(sheet.edges.replace(/\s/g, ''), where).toContain(
        title.replace(/\s/g, '').slice(0, 30),
      );
      const small = sheet.words.filter(({ top, bottom }) => bottom - top < EIGHT_POINTS);
      expect(
        small.map(({ text }) => text),
        where,
      ).toEqual([]);
      const outside = sheet.words.filter(
        ({ left, right }) => left < SIDE - 1 || right > sheet.width - SIDE + 1,
      );
      expect(
        outside.map(({ text }) => text),
        where,
      ).toEqual([]);
      expect(touching(sheet), where).toEqual([]);
      // Paper that turns for a wide table leaves room on the sheet before it.
      const isTurning = sheets[at + 1]?.width !== sheet.width;
      if (at === sheets.length - 1 || isTurning || ENDS_EARLY.has(asked.name)) continue;
      const lowest = Math.max(...sheet.words.map(({ bottom }) => bottom));
      expect(lowest / sheet.height, where).toBeGreaterThan(0.5);
      expect(headings, where).not.toContain(lineEnds(sheet));
    }
  });
});
