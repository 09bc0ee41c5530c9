import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { exportReports } from '../../src/commands/reports/export-reports.ts';
import { openFound } from '../../src/commands/studio/open.ts';
import { isRefusal } from '../../src/commands/world.ts';
import { flow } from '../../src/reckon/flow.ts';
import { visible } from '../../src/render/escape.ts';
import { forReading, shownTable } from '../../src/render/shown.ts';
import { renderText } from '../../src/render/terminal/text.ts';
import { displayWidth } from '../../src/render/terminal/width.ts';
import { fairTable } from '../../src/report/fairs.ts';
import { firingLoad } from '../../src/report/firings.ts';
import { galleryHistory } from '../../src/report/galleries.ts';
import { galleryTable } from '../../src/report/gallery.ts';
import { materialHistory } from '../../src/report/materials.ts';
import type { Row, Table } from '../../src/report/table.ts';
import { onLine, seenRows, type SeenRow } from '../helpers/shown-rows.ts';

const EXAMPLE = join(import.meta.dirname, '../../example-studio');

const WIDTHS = [40, 60, 80, 100, 120, 200];

/** Every report of the example studio, and one of each that has an id. */
async function allTables(): Promise<readonly (readonly [string, Table])[]> {
  const opened = await openFound({ folder: EXAMPLE, asOf: '2026-06-30', store: undefined });
  if (isRefusal(opened)) throw new Error(opened.refused);
  const { book } = opened;
  const flows = flow(book, '2026-06-30');
  const reports = await exportReports(
    opened,
    { from: '2025-01-01', to: '2026-06-30' },
    () => undefined,
  );
  if (isRefusal(reports)) throw new Error(reports.refused);
  const single = {
    fair: fairTable(book, flows, 'k251206hd'),
    load: firingLoad(book, flows, 'f260216py'),
    gallery: galleryTable(book, flows, 'gallery'),
    deliveries: galleryHistory(book, flows, 'gallery'),
    history: materialHistory(book, flows, 'kaolin'),
  };
  return [
    ...reports.map(({ name, table }) => [name, table] as const),
    ...Object.entries(single).flatMap(([name, table]) => (table ? [[name, table] as const] : [])),
  ];
}

const TABLES = await allTables();
const ADDED = TABLES.filter(([, { sums = [] }]) => sums.length > 0);

/** What is seen of the parts of a sum, less what is seen of its total, where that is seen. */
function offBy(
  row: SeenRow,
  { plus, less = [], total }: NonNullable<Table['sums']>[number],
): number {
  const seen = (key: string): number => row.figures.get(key) ?? 0;
  const whole = row.figures.get(total);
  if (whole === undefined) return 0;
  const sum = plus.reduce((all, key) => all + seen(key), 0);
  const rest = less.reduce((all, key) => all - seen(key), sum);
  return Math.round((rest - whole) * 1000) / 1000 || 0;
}

/** Whether all parts of a total are known; where one is not, neither is what it adds up to. */
function isKnown(row: Row, { plus, less = [] }: NonNullable<Table['sums']>[number]): boolean {
  return [...plus, ...less].every((key) => row[key] !== null && row[key] !== undefined);
}

describe.each(WIDTHS)('on a line of %i columns', (width) => {
  // Fairs: takings - discounts - returns - fees - cost - booth - travel - other - broken = profit, and so on.
  it.each(ADDED)('%s shows what adds up to each total that it shows', async (_, whole) => {
    const table = await onLine(whole, width);
    const rows = await seenRows(table, width);
    const all = [...forReading(table).table.rows, ...(table.totals ? [table.totals] : [])];
    expect(rows).toHaveLength(all.length);
    for (const sum of table.sums ?? []) {
      const known = rows.filter((_row, at) => isKnown(all[at] ?? {}, sum));
      expect(known.map((row) => offBy(row, sum))).toEqual(known.map(() => 0));
      const totals = all.map((row) => Number(row[sum.total] ?? 0));
      const unseen = rows.filter((row) => !row.figures.has(sum.total));
      expect(unseen.map((row) => totals[rows.indexOf(row)])).toEqual(unseen.map(() => 0));
    }
  });

  it.each(TABLES)('%s shows every figure and every name of each row', async (_, whole) => {
    const table = await onLine(whole, width);
    const { table: read } = forReading(table);
    const text = (await renderText(table, { width, colour: false })).replaceAll(/\s+/g, '');
    const texts = shownTable(read, visible).flatMap(({ cells, total }) => [...cells, total]);
    const lost = texts.filter(
      (cell) => !/^-?0(\.0+)?%?$/.test(cell) && !text.includes(cell.replaceAll(/\s+/g, '')),
    );
    // A mark is said by its head.
    expect(lost.filter((cell) => cell !== 'yes' && displayWidth(cell) < 8)).toEqual([]);
  });
});
