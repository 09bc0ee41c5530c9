/** A page of labelled lines as HTML: each label a heading, what is said of it below, all of a list, shares as bars. */
import { ended } from '../../in-words.ts';
import type { Sheet, SheetItem, SheetLine } from '../../report/day/sheet.ts';
import { lines, markup, NO_MARKUP, type Markup } from './markup.ts';

/** The id of the list of a row's records, and that of the row, to be led back to; undefined where the page has none. */
type LeadsTo = (row: number) => { readonly to: string; readonly id: string } | undefined;

/** So many items of a list are seen at once. */
const MOST_ITEMS = 8;

/** The command that goes with what the page leads with, then all lines. */
export function sheetMarkup({ first, lines: all }: Sheet, leadsTo: LeadsTo): Markup {
  const command =
    first?.command === undefined
      ? NO_MARKUP
      : markup`<p class="command"><code>${first.command}</code></p>
    `;
  return markup`${command}<div class="sheet">
    ${lines(all.map((line) => lineMarkup(line, leadsTo)))}
  </div>`;
}

function lineMarkup(line: SheetLine, leadsTo: LeadsTo): Markup {
  return markup`<div>
    <h3>${line.label}</h3>
    ${said(line, leadsTo)}
  </div>`;
}

function said({ lead, list, bare, share, items }: SheetLine, leadsTo: LeadsTo): Markup {
  if (bare === true) return markup`<p><code>${lead}</code></p>`;
  const all = items ?? [];
  if (share !== undefined) {
    const [row] = all;
    return lines([barMarkup(share), markup`<p>${row ? itemMarkup(row, leadsTo) : lead}</p>`]);
  }
  if (all.length === 0) return markup`<p>${ended([lead, ...list].join(' '))}</p>`;
  const sum = lead === '' ? [] : [markup`<p class="sum">${lead}</p>`];
  return lines([...sum, listMarkup(all, leadsTo)]);
}

/** What is left of a long list opens. */
function listMarkup(items: readonly SheetItem[], leadsTo: LeadsTo): Markup {
  const isLong = items.length > MOST_ITEMS + 1;
  const seen = isLong ? items.slice(0, MOST_ITEMS) : items;
  const list = (some: readonly SheetItem[]): Markup =>
    markup`<ul>${lines(some.map((item) => markup`<li>${itemMarkup(item, leadsTo)}</li>`))}</ul>`;
  if (!isLong) return list(seen);
  const rest = items.slice(MOST_ITEMS);
  return markup`${list(seen)}
    <details><summary>${rest.length} more</summary>${list(rest)}</details>`;
}

function itemMarkup({ text, row }: SheetItem, leadsTo: LeadsTo): Markup {
  const leads = leadsTo(row);
  if (leads === undefined) return markup`<span>${text}</span>`;
  return markup`<a id="${leads.id}" href="#${leads.to}">${text}</a>`;
}

/** How full it is; what is beyond full is said beside it. */
function barMarkup(share: number): Markup {
  const width = Math.round(Math.max(0, Math.min(1, share)) * 10000) / 100;
  return markup`<svg class="share" width="100%" height="24" aria-hidden="true"><rect class="bar" width="${width}%" height="100%"/><rect class="room" width="100%" height="100%"/></svg>`;
}
