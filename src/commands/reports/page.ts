/** A report's page: its table, the charts that go with it, and where the records behind it stand. */
import { recordLines } from '../../read/place.ts';
import { renderPage } from '../../render/html/page.ts';
import { idsBehind, type Chart } from '../../report/page.ts';
import { recordWords } from '../../report/record-words.ts';
import type { Table } from '../../report/table.ts';
import type { OpenedBook } from '../studio/open.ts';

/** The text of the page, from which nothing leads to the studio's folder. */
export async function pageText(
  table: Table,
  charts: readonly Chart[],
  { book, textOf }: OpenedBook,
): Promise<string> {
  const tables = [table, ...(table.below ? [table.below] : [])] as const;
  const words = recordWords(book, idsBehind({ tables, charts }));
  const lines = await recordLines(textOf, words);
  const records = new Map(
    words.map((record) => [record.id, { ...record, line: lines.get(record.id) }]),
  );
  return renderPage({ tables, charts, records });
}
