/** The contents of a long page, closed until they are asked for: a link to each section, with how much is in it. */
import { counted } from '../../in-words.ts';
import type { ReportPage } from '../../report/page.ts';
import type { Table } from '../../report/table.ts';
import { forReading } from '../shown.ts';
import { lines, markup, NO_MARKUP, type Markup } from './markup.ts';
import { partId, partsOf } from './table.ts';

/** As many sections are seen without a list of them. */
const FEW_SECTIONS = 4;

interface SectionLink {
  readonly to: string;
  readonly title: string;
  /** How much is in it: `24 rows`. */
  readonly count: string;
}

/** Nothing where there are few sections. */
export function contentsMarkup(page: ReportPage, hasRecords: boolean): Markup {
  const sections = [
    ...picturesLink(page),
    ...page.tables.flatMap((table, at) => tableLinks(table, at + 1)),
    ...(hasRecords ? [{ to: 'records', title: 'Records', count: '' }] : []),
  ];
  if (sections.length <= FEW_SECTIONS) return NO_MARKUP;
  const items = sections.map(
    ({ to, title, count }) =>
      markup`<li><a href="#${to}">${title}</a>${count === '' ? NO_MARKUP : markup` <small>${count}</small>`}</li>`,
  );
  return markup`<nav aria-label="Contents" class="sections">
    <details>
    <summary>Contents <small>${counted(sections.length, 'section')}</small></summary>
    <ul>
    ${lines(items)}
    </ul>
    </details>
  </nav>`;
}

function picturesLink({ charts }: ReportPage): SectionLink[] {
  if (charts.length === 0) return [];
  return [{ to: 'charts', title: 'At a glance', count: counted(charts.length, 'picture') }];
}

function tableLinks(table: Table, number: number): readonly SectionLink[] {
  return partsOf(forReading(table)).map(({ title, rows }, nth) => ({
    to: title === undefined ? `table-${number}` : partId(number, nth),
    title: title ?? table.title,
    count: counted(rows.length, 'row'),
  }));
}
