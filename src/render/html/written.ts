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

/** The id of a line of a file, by the file's number on the page from 1: `L12`, `L12-2`; without a line that of the file. */
export function writtenId(file: number, line: number | undefined): string {
  if (line === undefined) return `file-${file}`;
  return file === 1 ? `L${line}` : `L${line}-${file}`;
}

/** The page in pieces, so that of a long book it need not be there all at once. */
export function writtenInPieces({ files, title, ...parts }: WrittenPage): Generator<string> {
  return documentOf({ title, heading: title, ...parts }, sectionsOf(files));
}

function* sectionsOf(files: Iterable<WrittenFile>): Generator<Markup> {
  let number = 0;
  for (const { file, text } of files) {
    number += 1;
    const id = writtenId(number, undefined);
    yield markup`<section aria-labelledby="${id}">
      <h2 id="${id}">${file}</h2>
      <pre class="written">${linesOf(text, number)}</pre>
    </section>
    `;
  }
}

function linesOf(text: string, file: number): readonly Markup[] {
  return text
    .trimEnd()
    .split(/\r?\n/)
    .map((line, at) => markup`<span id="${writtenId(file, at + 1)}">${line}</span>\n`);
}
