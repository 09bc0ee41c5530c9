/** The page of tests with photos, as a class would see it: real pictures, made by the browser itself. */
import { Buffer } from 'node:buffer';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { SECRET, asFromCamera } from '../helpers/camera.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { tempStudio } from '../helpers/temp-studio.ts';
import {
  HAS_BROWSER,
  LOOKS,
  SHEETS,
  accessibilityFaults,
  lookAt,
  openBrowser,
  openFile,
  type OpenPage,
} from './browser.ts';

/** A wide picture, red at the left and blue at the right: upright it is what a camera held on its side saw. */
const DRAWN = `(type) => {
  const canvas = Object.assign(document.createElement('canvas'), { width: 64, height: 32 });
  const drawing = canvas.getContext('2d');
  drawing.fillStyle = 'red'; drawing.fillRect(0, 0, 32, 32);
  drawing.fillStyle = 'blue'; drawing.fillRect(32, 0, 32, 32);
  return canvas.toDataURL(type);
}`;

const TYPES = { jpg: 'image/jpeg', png: 'image/png', webp: 'image/webp' } as const;
/** The browser turns these; a WebP it shows as it lies, the camera's own file too. */
const UPRIGHT = { size: [32, 64], top: 'red', bottom: 'blue' };
const LYING = { size: [64, 32] };
/** Turned by a quarter to the right: what was at the left is at the top. */
const TURNED = 6;

async function drawn(page: Page, type: string): Promise<Buffer> {
  const url = (await page.evaluate(`(${DRAWN})('${type}')`)) as string;
  expect(url.startsWith(`data:${type};base64,`)).toBe(true);
  return Buffer.from(url.slice(url.indexOf(',') + 1), 'base64');
}

const tile = (id: string, photo: string): string =>
  `${id}: { date: 2026-05-18, kind: tile, recipe: blue, photo: ${photo}, verdict: good }\n`;

function studioOfTiles(): string {
  const ids = [...Object.keys(TYPES), 'large', 'absent', 'script'];
  return tempStudio({
    'studio.yaml': 'format: 1\nname: Tiles\ncurrency: USD\n',
    'materials.yaml': 'quartz: { name: Quartz, kind: dry, unit: g }\n',
    'recipes.yaml':
      'blue: { name: Blue, kind: glaze, versions: [{ from: 2026-01-01, base: [{ material: quartz, parts: 100 }] }] }\n',
    'tests.yaml': ids.map((id) => tile(id, `photos/${id}.${id in TYPES ? id : 'jpg'}`)).join(''),
  });
}

/** Of each picture on the page: its size as it is seen, and whether it is red at the top and blue at the bottom. */
const SEEN = `Promise.all([...document.images].map(async (image) => {
  await image.decode();
  const { naturalWidth: width, naturalHeight: height } = image;
  const canvas = Object.assign(document.createElement('canvas'), { width, height });
  const drawing = canvas.getContext('2d');
  drawing.drawImage(image, 0, 0);
  const at = (y) => { const [r, , b] = drawing.getImageData(width / 2, y, 1, 1).data; return r > b ? 'red' : 'blue'; };
  return { size: [width, height], top: at(4), bottom: at(height - 4), alt: image.alt };
}))`;

describe.skipIf(!HAS_BROWSER)('photos on the page of tests (skipped without a browser)', () => {
  let browser: Browser;

  beforeAll(async () => {
    browser = await openBrowser();
  });

  afterAll(async () => {
    await browser.close();
  });

  /** The page of a studio with a photo of each type that a camera held on its side took, and three that are none. */
  async function openTests(): Promise<OpenPage & { readonly url: string; readonly text: string }> {
    const folder = studioOfTiles();
    mkdirSync(join(folder, 'photos'));
    const blank = await browser.newPage();
    for (const [ending, type] of Object.entries(TYPES)) {
      const photo = asFromCamera(type, await drawn(blank, type), TURNED);
      writeFileSync(join(folder, 'photos', `${ending}.${ending}`), photo);
    }
    await blank.close();
    writeFileSync(join(folder, 'photos', 'large.jpg'), Buffer.alloc(400 * 1024));
    writeFileSync(join(folder, 'photos', 'script.jpg'), '<svg><script>alert(1)</script></svg>');
    const { out } = await runCommand('tests', { as: 'html' }, { folder, argument: 'blue' });
    const file = join(folder, 'page.html');
    writeFileSync(file, out);
    const url = pathToFileURL(file).href;
    return { ...(await openFile(browser, url)), url, text: out };
  }

  it('are seen upright, whatever their type, and say nothing of where they were taken', async () => {
    const { page, text } = await openTests();
    const seen = (await page.evaluate(SEEN)) as { readonly alt: string }[];
    expect(seen.sort((a, b) => a.alt.localeCompare(b.alt))).toMatchObject([
      { alt: 'tile jpg blue', ...UPRIGHT },
      { alt: 'tile png blue', ...UPRIGHT },
      { alt: 'tile webp blue', ...LYING },
    ]);
    const inside = [...text.matchAll(/base64,([^"]+)"/g)].map(([, data = '']) =>
      Buffer.from(data, 'base64'),
    );
    expect(inside.filter((bytes) => bytes.includes(SECRET))).toEqual([]);
    await page.close();
  });

  it('stand in a page that fits every screen and each sheet, and fetches nothing', async () => {
    const { page, complaints, fetched, url } = await openTests();
    for (const look of LOOKS) {
      await lookAt(page, look);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(look.width);
      expect(await accessibilityFaults(page)).toEqual([]);
    }
    await page.emulateMediaType('print');
    for (const width of Object.values(SHEETS)) {
      await page.setViewport({ width, height: 900 });
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
      const edges = '[...document.images].map((image) => image.getBoundingClientRect().right)';
      const widest = Math.max(...((await page.evaluate(edges)) as number[]));
      expect(widest).toBeLessThanOrEqual(width);
    }
    expect(complaints).toEqual([]);
    expect(fetched.filter((each) => !each.startsWith('data:'))).toEqual([url]);
    await page.close();
  });

  it('that a page has not are named, with why', async () => {
    const { page } = await openTests();
    const text = (await page.evaluate('document.body.textContent')) as string;
    expect(text).toContain('photos/large.jpg (400 KB: pages have pictures of up to 300 KB)');
    expect(text).toContain('photos/absent.jpg (not in this copy of the studio)');
    expect(text).toContain('photos/script.jpg (not a JPEG, PNG or WebP picture');
    expect(text).not.toContain('alert(1)');
    await page.close();
  });
});
