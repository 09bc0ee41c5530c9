/** What matters on a page: a sentence, and up to three figures set large, each below its name. */
import { plainly } from '../paint.ts';
import { shownVerdict } from '../verdict.ts';
import type { Table } from '../../report/table.ts';
import { lines, markup, NO_MARKUP, type Markup } from './markup.ts';

/** What the table has to say before its figures: its verdict, and the caution that they are read with. */
export function verdictSection(table: Table): Markup {
  const said = [verdictMarkup(table), cautionOf(table)].filter(({ markup }) => markup !== '');
  if (said.length === 0) return NO_MARKUP;
  return markup`<section aria-labelledby="verdict" class="verdict">
    <h2 id="verdict" class="unseen">What matters</h2>
    ${lines(said)}
  </section>`;
}

function verdictMarkup(table: Table): Markup {
  const verdict = shownVerdict(table, plainly);
  if (verdict === undefined) return NO_MARKUP;
  const { sentence, figures } = verdict;
  const items = figures.map(
    ({ label, text }) => markup`<div><dt>${label}</dt><dd>${text}</dd></div>`,
  );
  return lines([
    markup`<p>${sentence}</p>`,
    ...(items.length === 0 ? [] : [markup`<dl>${items}</dl>`]),
  ]);
}

function cautionOf({ notes, notesFirst }: Table): Markup {
  const [caution] = notes;
  if (notesFirst !== true || caution === undefined) return NO_MARKUP;
  return markup`<p class="caution">${caution}</p>`;
}
