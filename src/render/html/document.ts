/** The frame of every page: a document of HTML that needs nothing else, with its landmarks. */
import { type Markup, NO_MARKUP, lines, markup } from './markup.ts';
import { STYLE, runningTitle } from './style.ts';

/** What stands between the landmarks. */
interface DocumentParts {
  readonly title: string;
  readonly heading: string;
  /** Below the heading. */
  readonly caption: string;
  readonly footer: string;
  /** Whether pictures stand in the page itself. */
  readonly hasPictures?: boolean;
  /** Where the Tab key's first stop leads, past what is only to be looked at. */
  readonly skip?: { readonly to: string; readonly words: string };
}

/** Signs of a piece: enough that writing it takes longer than its making. */
const PIECE_LENGTH = 1 << 16;

/** The whole document with a line end, in pieces: no scripts, no outside resources, styles within. */
export function* documentOf(
  { title, heading, caption, footer, hasPictures = false, skip }: DocumentParts,
  main: Iterable<Markup>,
): Generator<string> {
  const head = markup`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8"/>
        <meta name="viewport" content="width=device-width, initial-scale=1"/>
        <meta name="color-scheme" content="light dark"/>
        <meta name="generator" content="saggar"/>
        <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'${hasPictures ? '; img-src data:' : ''}"/>
        <title>${title}</title>
        <style>
          ${STYLE}
          ${runningTitle(title)}
        </style>
      </head>
      <body>
        ${skip ? markup`<a class="skip" href="#${skip.to}">${skip.words}</a>` : NO_MARKUP}
        <header>
          <h1>${heading}</h1>
          <p>${caption}</p>
        </header>
        <main>`;
  let text = head.markup;
  for (const { markup: piece } of main) {
    text += piece;
    if (text.length < PIECE_LENGTH) continue;
    yield text;
    text = '';
  }
  const end = markup`</main>
        <footer>
          <p>${footer}</p>
        </footer>
      </body>
    </html>
    `;
  yield text + end.markup;
}

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
