/** The contrast of texts as they are seen: measured from the pixels of a picture of the page. */
import type { Page } from 'puppeteer-core';

/** A place with text, in CSS pixels from the picture's corner. */
interface TextPlace {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Pixels of the picture to a CSS pixel: the strokes of small letters are whole ones then. */
const SHARPNESS = 3;

/** How much of a long page is in the picture. */
const TALLEST = 2400;

/** One line of each look of text that is on the page, by element, class, colours and size. */
const TEXT_PLACES = `(() => {
  const places = new Map();
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const range = document.createRange();
  while (walker.nextNode()) {
    const node = walker.currentNode;
    if (node.data.trim() === '' || !node.parentElement.checkVisibility()) continue;
    const style = getComputedStyle(node.parentElement);
    const grounds = [...ancestors(node)].map((each) => getComputedStyle(each).backgroundColor);
    const key = [node.parentElement.tagName, style.color, style.fill, style.fontSize, ...grounds].join();
    if (places.has(key) || parseFloat(style.fontSize) < 4 || node.parentElement.closest('.unseen, .skip')) continue;
    range.selectNodeContents(node);
    const { x, y, width, height } = range.getClientRects()[0] ?? {};
    if (!(width > 4) || x < 0 || x + width > innerWidth || y + height > ${TALLEST}) continue;
    places.set(key, { text: node.data.trim().slice(0, 40), x: x + scrollX, y: y + scrollY, width, height });
  }
  return [...places.values()];
  function* ancestors(node) { for (let at = node.parentElement; at; at = at.parentElement) yield at; }
})()`;

/** The contrast of the commonest pixel of each place with the one that is most unlike it (WCAG 2.2). */
const MEASURE = `async (picture, places, sharpness) => {
  const image = await createImageBitmap(await (await fetch('data:image/png;base64,' + picture)).blob());
  const canvas = new OffscreenCanvas(image.width, image.height);
  const context = canvas.getContext('2d');
  context.drawImage(image, 0, 0);
  const part = (value) => { const share = value / 255; return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4; };
  const luminance = (sign) => 0.2126 * part(sign >> 16) + 0.7152 * part((sign >> 8) & 255) + 0.0722 * part(sign & 255);
  return places.map(({ x, y, width, height }) => {
    const box = [x, y, width, height].map((each) => Math.round(each * sharpness));
    const { data } = context.getImageData(...box);
    const counts = new Map();
    for (let at = 0; at < data.length; at += 4) {
      const sign = (data[at] << 16) | (data[at + 1] << 8) | data[at + 2];
      counts.set(sign, (counts.get(sign) ?? 0) + 1);
    }
    const [[ground]] = [...counts].sort((one, other) => other[1] - one[1]);
    const below = luminance(ground) + 0.05;
    return Math.max(...[...counts.keys()].map((sign) => {
      const above = luminance(sign) + 0.05;
      return Math.max(above, below) / Math.min(above, below);
    }));
  });
}`;

/** The texts whose contrast with what is around them is less than 4.5 to 1, and how much it is. */
export async function faintTexts(page: Page): Promise<string[]> {
  const { width, height } = page.viewport() ?? { width: 800, height: 900 };
  await page.setViewport({ width, height, deviceScaleFactor: SHARPNESS });
  const tall = (await page.evaluate('document.documentElement.scrollHeight')) as number;
  const clip = { x: 0, y: 0, width, height: Math.min(tall, TALLEST) };
  const places = (await page.evaluate(TEXT_PLACES)) as TextPlace[];
  const picture = await page.screenshot({ clip, encoding: 'base64', captureBeyondViewport: true });
  const canvas = await page.browser().newPage();
  const args = [picture, places, SHARPNESS].map((each) => JSON.stringify(each)).join(', ');
  const contrasts = (await canvas.evaluate(`(${MEASURE})(${args})`)) as number[];
  await canvas.close();
  await page.setViewport({ width, height });
  return places.flatMap(({ text }, at) => {
    const contrast = contrasts[at] ?? 0;
    return contrast < 4.5 ? [`${text}: ${contrast.toFixed(2)}`] : [];
  });
}
