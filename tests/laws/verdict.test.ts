/** What a report says above its table is never other than what the table says. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shownTable } from '../../src/render/shown.ts';
import type { Cell, Table } from '../../src/report/table.ts';
import { holds } from '../helpers/law.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { openFiles } from './support/open.ts';
import { everyReport, type Reports } from './support/reports.ts';

/** Every law is held against the same reports. */
const known = new Map<string, Promise<Reports>>();

function law(look: (table: Table, report: string) => void): () => Promise<void> {
  const property = fc.asyncProperty(studioPlan({ days: 150, breaks: 'some' }), async (plan) => {
    const key = JSON.stringify(plan);
    const reports = known.get(key) ?? reportsOf(plan);
    known.set(key, reports);
    for (const [report, table] of Object.entries(await reports)) look(table, report);
  });
  return () => holds(property, 2);
}

async function reportsOf(plan: Parameters<typeof growStudio>[0]): Promise<Reports> {
  const { asOf } = growStudio(plan);
  const { book } = await openFiles(filesOf(plan, undefined), asOf);
  return everyReport(book, asOf);
}

function cellsOf({ columns, rows, totals = {} }: Table): Set<Cell> {
  return new Set([...rows, totals].flatMap((row) => columns.map(({ key }) => row[key] ?? null)));
}

/** Everything that people see of a table, and what only programs do, as it would be shown. */
function textsOf(table: Table): Set<string> {
  const columns = table.columns.map((column) => ({ ...column, dataOnly: false }));
  const shown = shownTable({ ...table, columns }, (text) => text);
  return new Set(shown.flatMap(({ cells, total }) => [...cells, total]));
}

const RECORD_ID = /\b[a-z]\d{6}[a-z]{2}\b/;

/** Reports whose sentence has amounts, and has them all from the table. */
const OF_AMOUNTS =
  /^(materials|firings|income|galleries|quarter)( --\S+( \S+)?)*$|^quarter |^fairs( --\S+)?$/;

describe('what is said above a table', () => {
  it(
    'is one sentence in words that people know',
    law(({ verdict }, report) => {
      if (!verdict) return;
      const said = `${report}: ${verdict.sentence}`;
      expect(said).toMatch(/^[^\n]+\.$/);
      expect(said).not.toMatch(/undefined|null|NaN|\[object| {2}|\(\)|\.\.$|[,;:] *\.$/);
      // A lot of clay has no other name than its purchase's.
      expect(verdict.sentence.replace(/clay lot \S+/, '')).not.toMatch(RECORD_ID);
      expect(verdict.sentence).toMatch(/^[^\s-]/);
    }),
  );

  it(
    'has its figures from the rows and the totals',
    law((table, report) => {
      // A sheet has figures of its own lines.
      if (table.sheet) return;
      const cells = cellsOf(table);
      for (const { label, cell } of table.verdict?.figures ?? [])
        expect({ report, label, isThere: cells.has(cell) }).toEqual({
          report,
          label,
          isThere: true,
        });
    }),
  );

  it(
    'names no amount that the table does not have',
    law((table, report) => {
      if (!OF_AMOUNTS.test(report)) return;
      const amounts =
        table.verdict?.sentence.match(/(?<![\d.,-])-?\d[\d,]*\.\d{2}(?![\d%])/g) ?? [];
      const texts = textsOf(table);
      for (const amount of amounts)
        expect({ report, amount, texts: texts.has(amount) }).toMatchObject({ texts: true });
    }),
  );

  it(
    'and rows that ask for something have the word that says why',
    law(({ alerts, rows, columns }, report) => {
      if (!alerts) return;
      expect({ report, rows: alerts.of.length }).toEqual({ report, rows: rows.length });
      expect(columns.map(({ key }) => key)).toContain(alerts.column);
      const wordless = rows.filter((row, at) => alerts.of[at] !== undefined && !row[alerts.column]);
      expect({ report, wordless }).toEqual({ report, wordless: [] });
    }),
  );
});
