/** The first page of an export: what each of its files is for, with a link and its size. */
import { documentOf } from './document.ts';
import { lines, markup, NO_MARKUP, type Markup } from './markup.ts';

/** A file of an export. */
export interface FileLink {
  /** Path from the page. */
  readonly path: string;
  readonly title: string;
  /** How much it is: `312 rows, 24 KB`. */
  readonly size: string;
}

/** A file with what it is for, and the same in another form. */
export interface FileItem extends FileLink {
  /** A sentence; empty where the title says it. */
  readonly about: string;
  readonly also?: FileLink;
}

/** Files that belong together. */
export interface FileGroup {
  readonly title: string;
  readonly about: string;
  readonly items: readonly FileItem[];
}

/** What stands on the page. */
interface FileList {
  readonly title: string;
  readonly caption: string;
  readonly groups: readonly FileGroup[];
  readonly footer: string;
}

/** The page with a link to every file, as `renderPage` makes pages. */
export function renderFileList({ title, groups, ...parts }: FileList): string {
  const main = lines(groups.map((group, at) => groupMarkup(group, `group-${at + 1}`)));
  return [...documentOf({ title, heading: title, ...parts }, [main])].join('');
}

function groupMarkup({ title, about, items }: FileGroup, id: string): Markup {
  return markup`<section aria-labelledby="${id}">
    <h2 id="${id}">${title}</h2>
    <p class="about">${about}</p>
    <ul class="contents">
    ${lines(items.map(itemMarkup))}
    </ul>
  </section>`;
}

function itemMarkup({ about, also, ...file }: FileItem): Markup {
  const words = about === '' ? NO_MARKUP : markup`<br/>${about}`;
  const other = also ? markup`<br/>${fileMarkup(also)}` : NO_MARKUP;
  return markup`<li>${fileMarkup(file)}${words}${other}</li>`;
}

function fileMarkup({ path, title, size }: FileLink): Markup {
  return markup`<a href="./${path}">${title}</a> <small>${size}</small>`;
}
