/** Shown parts add up to the shown total: in every column of money, of every report and format. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ZERO, decimal, isDecimal, sum, type Decimal } from '../../src/number/decimal.ts';
import { renderCsv } from '../../src/render/csv.ts';
import { renderMarkdown } from '../../src/render/markdown.ts';
import { renderText } from '../../src/render/text.ts';
import type { Column, Table } from '../../src/report/table.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { dayIn } from './support/days.ts';
import { PATIENCE, holds } from './support/law.ts';
import { openFiles } from './support/open.ts';
import { everyReport } from './support/reports.ts';

/** Money for one thing: its total is no sum. */
const RATES = ['perPiece', 'unitCost', 'marginPerHour'];

/** The columns of money that have a total which is the sum of their cells. */
function summed({ columns, totals }: Table): Column[] {
  return columns.filter(
    ({ key, type }) => type === 'money' && !RATES.includes(key) && isDecimal(totals?.[key]),
  );
}

function hasSums(table: Table): boolean {
  return summed(table).length > 0;
}

/** One column as it is shown: the cells of its rows and of its total. */
interface Shown {
  readonly cells: readonly string[];
  readonly total: string;
}

/** Reads a column out of a whole rendered table. */
type ReadColumn = (column: Column) => Shown;

async function inText(table: Table): Promise<ReadColumn> {
  const lines = (await renderText(table, { width: 2000, colour: false })).split('\n');
  // A rule ends the heads, and the headings of parts.
  const rules = lines.flatMap((line, at) => (/(?:^| )─+$/.test(line) ? [at] : []));
  const [first = 0, last = 0] = [rules[0], rules.at(-1)];
  const isRow = (line: string, at: number): boolean => line !== '' && !rules.includes(at);
  const body = lines.slice(0, last).filter((line, at) => at > first && isRow(line, at));
  return ({ title }) => {
    // Figures stand at the right: a cell ends where the head of its column ends.
    const end = ` ${lines[first - 1] ?? ''}  `.indexOf(`  ${title}  `) + 1 + title.length;
    const cellIn = (line = ''): string => /\S*$/.exec(line.padEnd(end).slice(0, end))?.[0] ?? '';
    return { cells: body.map(cellIn), total: cellIn(lines[last + 1]) };
  };
}

/** Texts of a random studio have no bars in them, which would be escaped. */
function inMarkdown(table: Table): ReadColumn {
  const rows = renderMarkdown(table)
    .split('\n')
    .filter((line) => line.startsWith('|'))
    .map((line) => line.split('|').map((cell) => cell.trim().replaceAll('**', '')));
  return ({ title }) => {
    const at = rows[0]?.indexOf(title) ?? -1;
    const cells = rows
      .filter((row) => row.join() !== rows[0]?.join() && row.join() !== rows[1]?.join())
      .map((row) => row[at] ?? 'no such column');
    return { total: cells.pop() ?? '', cells };
  };
}

/** CSV has no totals: people see them in the text. */
function inCsv(table: Table, text: ReadColumn): ReadColumn {
  return (column) => {
    const lines = renderCsv({ ...table, columns: [column] }).split('\r\n');
    return { cells: lines.slice(1, -1), total: text(column).total };
  };
}

function figure(shown: string): Decimal {
  return shown === '' ? ZERO : decimal(shown.replaceAll(',', ''));
}

/** The columns of a report whose shown cells don't add up, with what is shown. */
async function wrong(name: string, table: Table): Promise<string[]> {
  const text = await inText(table);
  const formats = { text, csv: inCsv(table, text), markdown: inMarkdown(table) };
  return summed(table).flatMap((column) =>
    Object.entries(formats).flatMap(([format, read]) => {
      const { cells, total } = read(column);
      const all = sum(cells.map(figure));
      if (all.eq(figure(total)) && cells.length === table.rows.length) return [];
      return [`${name}, ${column.key} in ${format}: ${cells.join(' + ')} = ${total}`];
    }),
  );
}

describe('shown parts of money', () => {
  it(
    'add up to the shown total in text, CSV and markdown of every report',
    { timeout: PATIENCE },
    async () => {
      const property = fc.asyncProperty(
        studioPlan({ breaks: 'some' }),
        fc.option(fc.nat(), { nil: undefined }),
        async (plan, seed) => {
          const { book } = await openFiles(filesOf(plan, seed), growStudio(plan).asOf);
          const reports = Object.entries(everyReport(book, dayIn(plan, 1)));
          const some = reports.filter(([, table]) => table.rows.length > 0 && hasSums(table));
          const all = await Promise.all(some.map(([name, table]) => wrong(name, table)));
          expect(all.flat()).toEqual([]);
        },
      );
      await holds(property, 12);
    },
  );

  it('are looked for in every report that has money and a total', async () => {
    const { files, asOf } = growStudio({
      seed: 1,
      days: 90,
      products: 4,
      pace: 3,
      features: [],
      breaks: [],
    });
    const { book } = await openFiles(files, asOf);
    const without = Object.entries(everyReport(book, asOf))
      .filter(([name]) => !/^(?:day|losses|materials [a-z]|firings f|costs -|quarter)/.test(name))
      .filter(([, table]) => !hasSums(table));
    expect(without.map(([name]) => name)).toEqual([]);
  });
});
