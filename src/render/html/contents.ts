/** The first page of an export: what is in it, and where. */
import { documentOf } from './document.ts';
import { lines, markup, type Markup } from './markup.ts';

/** A file of an export. */
export interface ContentsItem {
  /** Path from the page. */
  readonly path: string;
  readonly title: string;
  /** What more there is to say: `312 rows`. */
  readonly about: string;
}

/** Files that belong together. */
interface ContentsGroup {
  readonly title: string;
  readonly about: string;
  readonly items: readonly ContentsItem[];
}

/** What stands on the page. */
interface ContentsPage {
  readonly title: string;
  readonly caption: string;
  readonly groups: readonly ContentsGroup[];
}

/** The page with a link to every file, as `renderPage` makes pages. */
export function renderContents({ title, caption, groups }: ContentsPage): string {
  const main = lines(groups.map((group, at) => groupMarkup(group, `group-${at + 1}`)));
  const parts = { title, heading: title, caption, footer: 'Made by saggar.' };
  return [...documentOf(parts, [main])].join('');
}

function groupMarkup({ title, about, items }: ContentsGroup, id: string): Markup {
  return markup`<section aria-labelledby="${id}">
    <h2 id="${id}">${title}</h2>
    <p class="about">${about}</p>
    <ul class="contents">
    ${lines(items.map(itemMarkup))}
    </ul>
  </section>`;
}

function itemMarkup({ path, title, about }: ContentsItem): Markup {
  const more = about === '' ? '' : markup` <small>${about}</small>`;
  return markup`<li><a href="./${path}">${title}</a>${more}</li>`;
}
