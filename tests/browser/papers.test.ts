/** Papers as they come out of a printer: made by a real browser on both sizes of paper, and measured. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { spawnSync } from 'node:child_process';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadCommand } from '../../src/commands/load.ts';
import { labelSheets } from '../../src/report/papers/label-sheets.ts';
import { run } from '../helpers/command-world.ts';
import { isInstalled } from '../helpers/needed.ts';
import { EXAMPLE, EXAMPLE_DAY } from '../helpers/studio-commands.ts';
import { writeStudio } from '../helpers/write-studio.ts';
import { HAS_BROWSER, accessibilityFaults, lookAt, openBrowser, openFile } from './browser.ts';

const FORMATS = ['A4', 'Letter'] as const;

const LETTERS = [
  ['invoice', 's260617ku'],
  ['receipt', 's260628ce'],
  ['credit', 's2'],
  ['order', 'o260624of'],
  ['sent', 'c260520fj'],
  ['owed', 'gallery'],
  ['care', 'mug'],
] as const;

/** What is on the sheets of a PDF, each with its size in points and its words with their places. */
interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly words: readonly { readonly text: string; readonly x: number; readonly y: number }[];
}

function sheetsOf(pdf: string): Sheet[] {
  const { stdout } = spawnSync('pdftotext', ['-bbox', pdf, '-'], { encoding: 'utf8' });
  return stdout
    .split('<page ')
    .slice(1)
    .map((page) => {
      const [, width, height] = /width="([\d.]+)" height="([\d.]+)"/.exec(page) ?? [];
      const words = [...page.matchAll(/<word xMin="([\d.]+)" yMin="([\d.]+)"[^>]*>([^<]*)</g)];
      return {
        width: Number(width),
        height: Number(height),
        words: words.map(([, x, y, text = '']) => ({ text, x: Number(x), y: Number(y) })),
      };
    });
}

const MARKUP = '<script>alert(1)</script><img src=x onerror=alert(2)>';
const FORMULA = '=HYPERLINK("http://example.invalid")';

/** A studio with names that would act on a page, and a sale of returns. */
const HOSTILE = {
  'studio.yaml': `format: 1\nname: ${JSON.stringify(MARKUP)}\ncurrency: EUR\npapers: { letterhead: [${JSON.stringify(FORMULA)}], terms: ${JSON.stringify(MARKUP)} }\n`,
  'channels.yaml': 'shop:\n  name: Shop\n  kind: wholesale\n',
  'products.yaml': `mug:\n  name: ${JSON.stringify(MARKUP)}\n  price: 20\n  care: [ornamental]\n`,
  'sales.yaml': `s1:
  date: 2026-04-10
  channel: shop
  buyer: ${JSON.stringify(MARKUP)}
  paid: no
  number: A0001
  lines:
    - { product: mug, count: 90, price: 20 }
s2:
  date: 2026-04-11
  channel: shop
  credits: s1
  lines:
    - { for: ${JSON.stringify(FORMULA)}, count: 1, price: 20, returned: yes }
`,
};

const MM = 25.4 / 96;

describe.skipIf(!HAS_BROWSER || !isInstalled('pdftotext'))('papers in a browser', () => {
  let browser: Browser;
  let folder: string;
  let hostile: ReturnType<typeof writeStudio>;

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'saggar-papers-'));
    browser = await openBrowser();
    hostile = writeStudio(HOSTILE);
  });

  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
    hostile.remove();
  });

  interface Opened {
    readonly page: Page;
    readonly text: string;
    readonly fetched: readonly string[];
    readonly complaints: readonly string[];
    readonly url: string;
  }

  async function open(
    words: readonly string[],
    { studio = EXAMPLE, ...more }: { studio?: string; labelSheet?: string; start?: string } = {},
  ): Promise<Opened> {
    const options = { as: 'html', asOf: EXAMPLE_DAY, ...more };
    const { out, err } = await run(await loadCommand('paper'), studio, { words, options });
    expect(out, err).not.toBe('');
    const file = join(folder, `${words.join('-').replace(/\W+/g, '-')}.html`);
    writeFileSync(file, out);
    const url = pathToFileURL(file).href;
    return { ...(await openFile(browser, url)), text: out, url };
  }

  async function printedOn(page: Page, format: (typeof FORMATS)[number]): Promise<Sheet[]> {
    const path = join(folder, 'printed.pdf');
    await page.pdf({ path, format, preferCSSPageSize: false });
    return sheetsOf(path);
  }

  function studioOf(kind: string): { studio: string } {
    return { studio: kind === 'credit' ? hostile.folder : EXAMPLE };
  }

  it.each(LETTERS)('%s goes on one sheet of both sizes, within its margins', async (kind, id) => {
    const { page } = await open([kind, id], studioOf(kind));
    for (const format of FORMATS) {
      const sheets = await printedOn(page, format);
      expect(sheets.length).toBe(1);
      const [{ width, height, words } = { width: 0, height: 0, words: [] }] = sheets;
      const margin = (15 / 25.4) * 72;
      for (const { text, x, y } of words) {
        expect(x, text).toBeGreaterThan(margin);
        expect(x, text).toBeLessThan(width - margin);
        expect(y, text).toBeLessThan(height - margin);
      }
    }
    await page.close();
  });

  it.each(LETTERS)('%s asks nothing of any network and is read without sight', async (kind, id) => {
    const { page, fetched, complaints, url } = await open([kind, id], studioOf(kind));
    expect(fetched).toEqual([url]);
    expect(complaints).toEqual([]);
    await lookAt(page, { width: 1280, scheme: 'light' });
    expect(await accessibilityFaults(page)).toEqual([]);
    await page.close();
  });

  it('an invoice is a heading, facts and a table with heads to a screen reader', async () => {
    const { page } = await open(['invoice', 's260617ku']);
    const { children = [] } = (await page.accessibility.snapshot({ interestingOnly: false })) ?? {};
    const told = JSON.stringify(children);
    for (const role of ['banner', 'main', 'heading', 'table', 'columnheader', 'rowheader'])
      expect(told).toContain(`"role":"${role}"`);
    expect(told).toContain('"name":"Invoice"');
    await page.close();
  });

  it('a long list goes on to further sheets, its heads on each', async () => {
    const lines = Array.from(
      { length: 90 },
      (_, at) => `    - { for: thing ${at}, count: 1, price: 5 }`,
    );
    const long = writeStudio({
      'studio.yaml': 'format: 1\nname: Long\ncurrency: EUR\n',
      'channels.yaml': 'shop:\n  name: Shop\n  kind: wholesale\n',
      'sales.yaml': `s1:\n  date: 2026-04-10\n  channel: shop\n  lines:\n${lines.join('\n')}\n`,
    });
    const { page } = await open(['invoice', 's1'], { studio: long.folder });
    for (const format of FORMATS) {
      const sheets = await printedOn(page, format);
      expect(sheets.length).toBeGreaterThan(2);
      for (const { words } of sheets)
        expect(words.filter(({ text }) => text === 'Amount').length).toBe(1);
      const all = sheets.flatMap(({ words }) => words.map(({ text }) => text));
      expect(all.filter((text) => text === 'thing').length).toBe(90);
    }
    await page.close();
    long.remove();
  });

  it('names with markup stay text, and formulas words', async () => {
    for (const words of [
      ['invoice', 's1'],
      ['credit', 's2'],
      ['labels', '3 mug'],
      ['care', 'mug'],
    ]) {
      const { page, complaints, fetched, url } = await open(words, { studio: hostile.folder });
      expect(complaints).toEqual([]);
      expect(fetched).toEqual([url]);
      const found = await page.evaluate(
        `[document.querySelectorAll('script, img, a').length, document.body.textContent]`,
      );
      const [count, text] = found as [number, string];
      expect(count).toBe(0);
      expect(text).toContain(words[0] === 'credit' ? FORMULA : '<script>alert(1)</script>');
      await page.close();
    }
  });

  describe.each(labelSheets())('labels of $name', (sheet) => {
    const each = sheet.columns * sheet.rows;

    it('are within 0.5 mm of their places, on sheets of that size', async () => {
      const { page } = await open(['labels', `${each + 3} mug oatmeal`, '2 bud-vase linen'], {
        labelSheet: sheet.name,
        start: '3',
      });
      const path = join(folder, 'labels.pdf');
      await page.pdf({ path, preferCSSPageSize: true });
      const sheets = sheetsOf(path);
      expect(sheets.length).toBe(2);
      const size = sheet.paper === 'A4' ? [210, 297] : [215.9, 279.4];
      for (const { width, height } of sheets) {
        expect(Math.abs((width / 72) * 25.4 - (size[0] ?? 0))).toBeLessThan(0.5);
        expect(Math.abs((height / 72) * 25.4 - (size[1] ?? 0))).toBeLessThan(0.5);
      }
      // The first word of each label as it is printed, against where the label begins.
      const firsts = sheets.map(({ words }) =>
        words.filter(({ text }) => /^(Mug,|Bud)$/.test(text)),
      );
      expect(firsts.map(({ length }) => length)).toEqual([each - 2, 7]);
      const inset = await insetOf(page);
      for (const [at, words] of firsts.entries())
        for (const [index, word] of words.entries()) {
          const place = index + (at === 0 ? 2 : 0);
          const x = sheet.left + (place % sheet.columns) * (sheet.width + sheet.across);
          const y = sheet.top + Math.floor(place / sheet.columns) * (sheet.height + sheet.down);
          expect(Math.abs((word.x / 72) * 25.4 - x - inset.x)).toBeLessThan(0.5);
          expect(Math.abs((word.y / 72) * 25.4 - y - inset.y)).toBeLessThan(0.5);
        }
      await page.close();
    });

    it('have the size of the sheet, and room for what is on them', async () => {
      const words = ['labels', '1 mug oatmeal', '1 gilt-cup linen', 'p260519dg'];
      const { page } = await open(words, { labelSheet: sheet.name });
      const boxes = (await page.evaluate(`[...document.querySelectorAll('li')].map((li) => {
        const { width, height } = li.getBoundingClientRect();
        return [width, height, li.scrollHeight - li.clientHeight, li.scrollWidth - li.clientWidth];
      })`)) as [number, number, number, number][];
      for (const [width, height, over, beside] of boxes) {
        expect(Math.abs(width * MM - sheet.width)).toBeLessThan(0.1);
        expect(Math.abs(height * MM - sheet.height)).toBeLessThan(0.1);
        expect([over, beside]).toEqual([0, 0]);
      }
      await page.close();
    });

    it('never cut off that ware is not for food, however long its name', async () => {
      const { page } = await open(['labels', '2 mug'], {
        studio: hostile.folder,
        labelSheet: sheet.name,
      });
      const over = (await page.evaluate(`[...document.querySelectorAll('.caution')].map((each) =>
        each.getBoundingClientRect().bottom - each.parentElement.getBoundingClientRect().bottom)`)) as number[];
      expect(over.length).toBe(2);
      for (const each of over) expect(each).toBeLessThanOrEqual(0);
      await page.close();
    });

    it('are a list to a screen reader, without faults', async () => {
      const { page } = await open(['labels', '4 mug oatmeal'], { labelSheet: sheet.name });
      const look = { width: 1280, scheme: 'light' } as const;
      await lookAt(page, look);
      expect(await accessibilityFaults(page)).toEqual([]);
      await page.close();
    });
  });

  /** How far the first word of a label is from its corner: its padding and the air above the letters. */
  async function insetOf(page: Page): Promise<{ x: number; y: number }> {
    const [x, y] = (await page.evaluate(`(() => {
      const li = document.querySelector('li');
      const range = document.createRange();
      range.selectNodeContents(li.querySelector('.name'));
      const [box, text] = [li.getBoundingClientRect(), range.getBoundingClientRect()];
      return [text.left - box.left, text.top - box.top];
    })()`)) as [number, number];
    return { x: x * MM, y: y * MM };
  }
});
