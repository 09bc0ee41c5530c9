/** Every figure of every report's page leads to what it is made of, and that comes to the figure. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { KINDS, type Book } from '../../src/book.ts';
import { exportReports } from '../../src/commands/reports/export-reports.ts';
import { isRefusal } from '../../src/commands/world.ts';
import { addDays } from '../../src/number/date.ts';
import { decimal, isDecimal } from '../../src/number/decimal.ts';
import { renderPage } from '../../src/render/html/page.ts';
import { isNothing, summed, type Summable } from '../../src/number/summable.ts';
import { broughtTo } from '../../src/report/brought.ts';
import { chartTables, idsBehind, type ReportPage } from '../../src/report/page.ts';
import { recordWords } from '../../src/report/record-words.ts';
import type { Table } from '../../src/report/table.ts';
import { holds } from '../helpers/law.ts';
import { ledFigures, numberOf } from '../helpers/led-figures.ts';
import { growStudio, studioPlan, type StudioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { openFiles } from './support/open.ts';

interface Named {
  readonly name: string;
  readonly page: ReportPage;
}

describe('the figures of pages', () => {
  it('lead to records, columns or rows that come to them', async () => {
    await holds(fc.asyncProperty(studioPlan({ breaks: 'none' }), expectFiguresToLead), 3);
  });
});

async function expectFiguresToLead(plan: StudioPlan): Promise<void> {
  const { asOf } = growStudio(plan);
  const { book } = await openFiles(filesOf(plan, undefined), asOf);
  for (const { name, page } of await pagesOf(book, asOf)) {
    for (const table of tablesOn(page)) expect(notBrought(book, table), name).toEqual([]);
    const led = ledFigures(renderPage(page));
    expect(
      led.filter(({ shown, target = '' }) => !target.includes(shown)),
      name,
    ).toEqual([]);
    const exact = exactColumns(page);
    const wrong = led.filter(
      ({ id, shown, sum }) =>
        exact.has(columnOf(id)) && sum !== undefined && sum !== numberOf(shown),
    );
    expect(wrong, name).toEqual([]);
  }
}

/** Quantities and rates are rounded where they are shown, so what is seen of them need not add up. */
function exactColumns(page: ReportPage): ReadonlySet<string> {
  const columns = tablesOn(page).flatMap((table) => table.columns);
  const rounded = columns.filter(({ type }) => type !== 'money' && type !== 'count');
  const others = new Set(rounded.map(({ key }) => key));
  return new Set(columns.map(({ key }) => key).filter((key) => !others.has(key)));
}

function columnOf(id: string): string {
  return id.slice(id.lastIndexOf('-') + 1);
}

async function pagesOf(book: Book, asOf: string): Promise<Named[]> {
  const opened = { book, asOf, findings: [], errors: 0 } as never;
  const span = { from: addDays(asOf, -400), to: asOf };
  const reports = await exportReports(opened, span, () => undefined);
  if (isRefusal(reports)) throw new Error(reports.refused);
  return reports.map(({ name, table, charts }) => {
    const tables = [table] as const;
    const words = recordWords(book, idsBehind({ tables, charts }));
    const records = new Map(words.map((each) => [each.id, { ...each, line: 1 }]));
    return { name, page: { tables, charts, records } };
  });
}

function tablesOn(page: ReportPage): Table[] {
  return [...page.tables, ...chartTables(page).map(({ table }) => table)];
}

/** Figures to which it is known what each record brings, where that is another sum, or of records that are not listed. */
function notBrought(book: Book, table: Table): unknown[] {
  const known = new Set(KINDS.flatMap((kind) => [...book[kind].keys()]));
  return Object.keys(table.brought ?? {}).flatMap((key) =>
    table.rows.flatMap((row, at) => {
      const cell = row[key] ?? null;
      const brought = broughtTo(table, key, at);
      if (brought === undefined || cell === null) return [];
      const behind = new Set(
        [table.behind?.()?.[at] ?? [], table.further?.behind()?.[at] ?? []].flat(),
      );
      const bringing = [...brought].filter(([, each]) => !isNothing(each)).map(([id]) => id);
      const unlisted = bringing.filter((id) => !behind.has(id) || !known.has(id));
      const before = table.earlier?.brought[key]?.()[at];
      const sum = [...(before === undefined ? [] : [before]), ...brought.values()].reduce<
        Summable | undefined
      >((all, each) => (all === undefined ? each : summed(all, each)), undefined);
      const isWrong = !isSame(sum ?? 0, cell as Summable);
      const isReckoned = table.reckoned?.[at] !== undefined;
      return isWrong || (unlisted.length > 0 && !isReckoned)
        ? [{ key, at, cell: String(cell), sum: String(sum), unlisted }]
        : [];
    }),
  );
}

/** Quantities that were converted may be some billionths of a unit off. */
function isSame(sum: Summable, cell: Summable): boolean {
  if (!isDecimal(sum) || !isDecimal(cell)) return String(sum) === String(cell);
  return sum.minus(cell).abs().lt(decimal('0.000000001'));
}
