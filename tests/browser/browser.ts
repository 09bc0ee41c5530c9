/** A real browser for pages: found on the machine, closed when the tests are over. */
import { accessSync, constants, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { delimiter, join } from 'node:path';
import puppeteer, { type Browser, type Page } from 'puppeteer-core';
import { needed } from '../helpers/needed.ts';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];

/** Path of a browser on the PATH; undefined where none is installed. */
export const BROWSER: string | undefined = (process.env['PATH'] ?? '')
  .split(delimiter)
  .flatMap((folder) => NAMES.map((name) => join(folder, name)))
  .find(canRun);

/** Whether there is one; CI has to have one. */
export const HAS_BROWSER = BROWSER !== undefined || needed('chromium');

function canRun(file: string): boolean {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** Opens the browser; it asks nothing of any network. */
export async function openBrowser(): Promise<Browser> {
  if (BROWSER === undefined) throw new Error('no browser on the PATH');
  const offline = '--host-resolver-rules=MAP * ~NOTFOUND';
  return puppeteer.launch({ executablePath: BROWSER, args: ['--no-sandbox', offline] });
}

/** How a page is looked at. */
export interface Look {
  readonly width: number;
  readonly scheme: 'light' | 'dark';
}

/** Every look that pages are tested in. */
export const LOOKS: readonly Look[] = [360, 1280].flatMap((width) =>
  (['light', 'dark'] as const).map((scheme) => ({ width, scheme })),
);

/** A page, and all that the browser had to complain of or to fetch while it was open. */
export interface OpenPage {
  readonly page: Page;
  readonly complaints: string[];
  readonly fetched: string[];
}

/** Opens a file of HTML. */
export async function openFile(browser: Browser, url: string): Promise<OpenPage> {
  const page = await browser.newPage();
  const complaints: string[] = [];
  const fetched: string[] = [];
  page.on('console', (message) => complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('request', (request) => fetched.push(request.url()));
  await page.goto(url);
  return { page, complaints, fetched };
}

/** Shows the page as somebody would see it. */
export async function lookAt(page: Page, { width, scheme }: Look): Promise<void> {
  await page.setViewport({ width, height: 900 });
  await page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: scheme }]);
}

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

// The texts of drawings stand on no background of their own; `drawnContrasts` measures those. What a wide
// table scrolls out of sight can't be measured where it is.
const UNMEASURED = `incomplete.filter(({ id }) => id === 'color-contrast').map(({ id, nodes }) =>
  ({ id, nodes: nodes.filter(({ target }) => isMeant(document.querySelector(target[0]))) }))
  .filter(({ nodes }) => nodes.length > 0)`;
const IS_MEANT = `var edge = (element) => element?.getBoundingClientRect().right ?? Infinity;
  var isMeant = (element) => !element.closest('svg') && edge(element) <= edge(element.closest('.scroll'));`;

/**
 * What axe-core finds wrong: the rule, and where. All rules on a wide screen in daylight; else only
 * contrast, for nothing but colours changes with the scheme, and no element with the width. Contrast
 * that it can't measure is wrong too, but not on a narrow screen, where cells are scrolled out of sight.
 */
export async function accessibilityFaults(page: Page, look: Look): Promise<string[]> {
  await page.evaluate(AXE);
  const isWide = look.width > 1000;
  const only = isWide && look.scheme === 'light' ? '{}' : `{ runOnly: ['color-contrast'] }`;
  const unmeasured = isWide ? UNMEASURED : '[]';
  const run = `${IS_MEANT} axe.run(document, ${only}).then(({ violations, incomplete }) =>
    [...violations, ...${unmeasured}].map(({ id, nodes }) =>
      id + ': ' + nodes.slice(0, 3).map(({ target, any }) => target.join(' ') + ' ' + (any[0]?.message ?? '')).join(', ')))`;
  return (await page.evaluate(run)) as string[];
}

/** The least contrast of texts and of other marks in drawings with the page (WCAG 2.2, relative luminance). */
export async function drawnContrasts(page: Page): Promise<{ texts: number; marks: number }> {
  const colours = `(() => {
    const styleOf = (element) => getComputedStyle(element);
    const all = (selector, key) => [...document.querySelectorAll(selector)].map((each) => styleOf(each)[key]);
    return { page: styleOf(document.body).backgroundColor, texts: all('svg text', 'fill'),
      marks: [...all('svg .bar:not(.against), svg .dot, svg .on, svg .out', 'fill'),
        ...all('svg .line, svg .end, svg .zero, svg .limit, svg .step, svg .tick, svg .part, svg .against', 'stroke')] };
  })()`;
  const found = (await page.evaluate(colours)) as {
    page: string;
    texts: string[];
    marks: string[];
  };
  const least = (of: string[]): number => Math.min(...of.map((each) => contrast(each, found.page)));
  return { texts: least(found.texts), marks: least(found.marks) };
}

function contrast(one: string, other: string): number {
  const [dark = 0, light = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

function luminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = (colour.match(/\d+/g) ?? []).map((text) => {
    const share = Number(text) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** Sheets of paper, in CSS pixels between the margins of pages: 14 mm at each side. */
export const SHEETS = {
  A4: Math.floor(((210 - 28) / 25.4) * 96),
  Letter: Math.floor(8.5 * 96 - (28 / 25.4) * 96),
};
