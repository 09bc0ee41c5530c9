/** What somebody finds who opens a page, before reading on. */
import type { Page } from 'puppeteer-core';

/** How far down in pixels what a page says first ends, its headings' levels, and the Tab key's stops. */
interface FirstLook {
  readonly answerEnds: number;
  readonly levels: readonly number[];
  /** How often the Tab key stops before it comes to the records. */
  readonly stops: number;
}

const MEASURE = `(() => {
  const all = (selector) => [...document.querySelectorAll(selector)];
  const answer = document.querySelector('.verdict p, main .sheet p, main .contents li') ?? document.querySelector('main');
  return {
    answerEnds: answer.getBoundingClientRect().bottom,
    levels: all('h1, h2, h3, h4, h5, h6').map(({ tagName }) => Number(tagName[1])),
    stops: all('a, summary, [tabindex]').filter((each) =>
      each.tabIndex >= 0 && each.checkVisibility() && !each.closest('.records')).length,
  };
})()`;

export async function firstsOf(page: Page): Promise<FirstLook> {
  return (await page.evaluate(MEASURE)) as FirstLook;
}

/** What lies beyond the right edge, outside the regions that scroll by themselves. */
export function widerThanScreen(page: Page): Promise<unknown> {
  return page.evaluate(`[...document.querySelectorAll('body *')]
    .filter((element) => !element.closest('.scroll > *, svg > *, .unseen'))
    .filter((element) => element.getBoundingClientRect().right > innerWidth + 0.5)
    .map((element) => element.outerHTML.slice(0, 80))`);
}
