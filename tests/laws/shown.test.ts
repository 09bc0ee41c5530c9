/** What is shown is what is booked: in every report the same amount in every format, and rows that add up. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { moneyText, total } from '../../src/number/money.ts';
import { renderCsv } from '../../src/render/csv.ts';
import { renderJson } from '../../src/render/json.ts';
import { renderMarkdown } from '../../src/render/markdown.ts';
import { renderText } from '../../src/render/terminal/text.ts';
import type { Cell, Column, Table } from '../../src/report/table.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { dayIn } from './support/days.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';
import { everyReport } from './support/reports.ts';

function moneyOf({ columns }: Table): Column[] {
  return columns.filter(({ type }) => type === 'money');
}

/** The columns of money that have a total. */
function summed(table: Table): Column[] {
  return moneyOf(table).filter(({ key }) => typeof table.totals?.[key] === 'bigint');
}

/** One column as it is shown: the cells of its rows and of its total. */
interface Shown {
  readonly cells: readonly string[];
  /** Undefined in a format without totals. */
  readonly total: string | undefined;
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
function inCsv(table: Table): ReadColumn {
  return (column) => {
    const lines = renderCsv({ ...table, columns: [column] }).split('\r\n');
    return { cells: lines.slice(1, -1), total: undefined };
  };
}

interface Document {
  readonly rows: readonly Readonly<Record<string, string | null>>[];
  readonly totals?: Readonly<Record<string, string | null>>;
}

function inJson(table: Table): ReadColumn {
  const { rows, totals = {} } = JSON.parse(renderJson(table)) as Document;
  return ({ key }) => ({
    cells: rows.map((row) => row[key] ?? ''),
    total: totals[key] ?? '',
  });
}

/** Every figure with the currency's decimals, and what isn't there empty. */
function written(table: Table, cell: Cell | undefined): string {
  return typeof cell === 'bigint' ? moneyText(cell, table.minorDigits) : '';
}

/** With a mark at every thousand, as people read it. */
function marked(text: string): string {
  const [whole = '', ...decimals] = text.split('.');
  return [whole.replace(/\B(?=(?:\d{3})+$)/g, ','), ...decimals].join('.');
}

/** The columns of a report that some format shows otherwise than they are booked. */
async function wrong(name: string, report: Table): Promise<string[]> {
  const table = { ...report, totals: report.totals ?? {} };
  const text = await inText(table);
  const formats = [
    { format: 'text', read: text, shown: marked },
    { format: 'markdown', read: inMarkdown(table), shown: marked },
    { format: 'csv', read: inCsv(table), shown: (plain: string) => plain },
    { format: 'json', read: inJson(table), shown: (plain: string) => plain },
  ];
  return moneyOf(table).flatMap((column) => {
    const { key, dataOnly = false } = column;
    const exact = table.rows.map((row) => written(table, row[key]));
    const sum = written(table, table.totals[key]);
    return formats.flatMap(({ format, read, shown }) => {
      if (dataOnly && (format === 'text' || format === 'markdown')) return [];
      const { cells, total: last = shown(sum) } = read(column);
      const is = [...cells, last].join(' ');
      const ought = [...exact, sum].map(shown).join(' ');
      return is === ought ? [] : [`${name}, ${key} in ${format}: ${is} in place of ${ought}`];
    });
  });
}

/** The columns of a report whose cells don't add up to their total. */
function unequal(name: string, table: Table): string[] {
  return summed(table).flatMap(({ key }) => {
    const cells = table.rows.map((row) => row[key]).filter((cell) => typeof cell === 'bigint');
    const whole = table.totals?.[key];
    return total(cells) === whole
      ? []
      : [`${name}, ${key}: ${cells.join(' + ')} = ${String(whole)}`];
  });
}

const cases = fc.tuple(
  studioPlan({ breaks: 'some', days: 90 }),
  fc.option(fc.nat(), { nil: undefined }),
);

async function reportsOf([plan, seed]: typeof cases extends fc.Arbitrary<infer T>
  ? T
  : never): Promise<[string, Table][]> {
  const { book } = await openFiles(filesOf(plan, seed), growStudio(plan).asOf);
  const reports = Object.entries(everyReport(book, dayIn(plan, 1)));
  return reports.filter(([, table]) => table.rows.length > 0);
}

describe('money that is shown', () => {
  it('is the booked amount in every format', async () => {
    const property = fc.asyncProperty(cases, async (one) => {
      const reports = (await reportsOf(one)).filter(([, table]) => table.leavesOutZeros !== true);
      const all = await Promise.all(reports.map(([name, table]) => wrong(name, table)));
      expect(all.flat()).toEqual([]);
    });
    await holds(property, 2);
  });

  it('adds down to the total of its column', async () => {
    const property = fc.asyncProperty(cases, async (one) => {
      const reports = await reportsOf(one);
      expect(reports.flatMap(([name, table]) => unequal(name, table))).toEqual([]);
    });
    await holds(property, 2);
  });

  it('has a total in every report whose rows can be added', async () => {
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
      .filter(([name]) => !/^(?:day|losses|materials [a-z]|costs|quarter)/.test(name))
      .filter(([, table]) => summed(table).length === 0);
    expect(without.map(([name]) => name)).toEqual([]);
  });
});
