/** Makes a report's page: its table, the charts that go with it, and where the records behind it stand. */
import { recordLines } from '../read/place.ts';
import { idsBehind, type ReportPage, type RecordLine } from '../report/page.ts';
import { recordWords } from '../report/record-words.ts';
import type { Table } from '../report/table.ts';
import { chartsFor } from './charts.ts';
import type { Opened } from './open.ts';
import type { Asked } from './world.ts';

/** The page of a report; `root` leads from the page to the studio's folder. */
export async function makePage(
  table: Table,
  opened: Opened,
  { asked, root }: { readonly asked: Asked; readonly root: string },
): Promise<ReportPage> {
  const tables = [table] as const;
  const charts = chartsFor(asked, opened);
  const records = await recordsBehind(idsBehind({ tables, charts }), opened);
  return { tables, charts, records, root };
}

/** The records of those ids, each with its place. */
export async function recordsBehind(
  ids: readonly string[],
  { book, folder, commit }: Opened,
): Promise<ReadonlyMap<string, RecordLine>> {
  const words = recordWords(book, ids);
  // The lines on the disk are none of another commit.
  const lines = commit === undefined ? await recordLines(folder, words) : new Map<string, number>();
  return new Map(words.map((record) => [record.id, { ...record, line: lines.get(record.id) }]));
}
