/** Files of the studio as they are written, one after the other, with an address for each line. */
import type { PageLink } from '../../report/page.ts';
import { documentOf } from './document.ts';
import { markup, type Markup } from './markup.ts';

/** A file as it is written. */
export interface WrittenFile {
  readonly file: string;
  readonly text: string;
}

interface WrittenPage {
  readonly title: string;
  readonly caption: string;
  readonly footer: string;
  readonly up: PageLink;
  readonly files: Iterable<WrittenFile>;
}

/** The id of a line, counted from 1 through all files of the page; that of a file by its number from 1. */
export function writtenId(of: 'line' | 'file', number: number): string {
  return of === 'line' ? `L${number}` : `file-${number}`;
}

/** The lines of a text; what is empty at its end is none. */
export function writtenLines(text: string): readonly string[] {
  return text.trimEnd().split(/\r?\n/);
}

/** The page in pieces, so that of a long book it need not be there all at once. */
export function writtenInPieces({ files, title, ...parts }: WrittenPage): Generator<string> {
  return documentOf({ title, heading: title, ...parts }, sectionsOf(files));
}

function* sectionsOf(files: Iterable<WrittenFile>): Generator<Markup> {
  let [number, above] = [0, 0];
  for (const { file, text } of files) {
    number += 1;
    const id = writtenId('file', number);
    const texts = writtenLines(text);
    yield markup`<section aria-labelledby="${id}">
      <h2 id="${id}">${file}</h2>
      <pre class="written">${lineMarkups(texts, above)}</pre>
    </section>
    `;
    above += texts.length;
  }
}

function lineMarkups(texts: readonly string[], above: number): readonly Markup[] {
  return texts.map(
    (text, at) => markup`<span id="${writtenId('line', above + at + 1)}">${text}</span>\n`,
  );
}
