/** A page of labelled lines as HTML: each label a heading, what is said of it beside it. */
import { ended } from '../../in-words.ts';
import type { Sheet, SheetLine } from '../../report/day/sheet.ts';
import { lines, markup, type Markup } from './markup.ts';

/** All lines, those of one group together. */
export function sheetMarkup({ lines: all }: Sheet): Markup {
  return markup`<div class="sheet">
    ${lines(all.map((line, at) => lineMarkup(line, line.group !== all[at - 1]?.group)))}
  </div>`;
}

function lineMarkup(line: SheetLine, isFirst: boolean): Markup {
  return markup`<div class="${isFirst ? 'first' : 'next'}">
    <h3>${line.label}</h3>
    <div>${said(line)}</div>
  </div>`;
}

function said({ lead, list, bare }: SheetLine): Markup {
  if (bare === true) return markup`<p><code>${lead}</code> ${list.join(' ')}</p>`;
  if (list.length === 0) return markup`<p>${ended(lead)}</p>`;
  const first = lead === '' ? undefined : markup`<p>${lead}:</p>`;
  return markup`${first}<ul>${lines(list.map((item) => markup`<li>${item}</li>`))}</ul>`;
}
