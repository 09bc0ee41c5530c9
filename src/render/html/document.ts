/** The frame of every page: a document of HTML that needs nothing else, with its landmarks. */
import type { PageLink } from '../../report/page.ts';
import { type Markup, NO_MARKUP, markup } from './markup.ts';
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
  /** Where the Tab key's first stop leads, past what is only to be looked at: an id. */
  readonly skip?: PageLink;
  /** The page that leads to this one. */
  readonly up?: PageLink | undefined;
}

/** Signs of a piece: enough that writing it takes longer than its making. */
const PIECE_LENGTH = 1 << 16;

/** The whole document with a line end, in pieces: no scripts, no outside resources, styles within. */
export function* documentOf(
  { title, heading, caption, footer, hasPictures = false, skip, up }: DocumentParts,
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
          ${up ? markup`<p class="up"><a href="${up.to}">${up.words}</a></p>` : NO_MARKUP}
          <h1>${wholeDates(heading)}</h1>
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

/** Days are not broken at the end of a line. */
function wholeDates(text: string): readonly Markup[] {
  return text
    .split(/(\d{4}-\d\d-\d\d)/)
    .map((part, at) =>
      at % 2 === 1 ? markup`<span class="whole">${part}</span>` : markup`${part}`,
    );
}
