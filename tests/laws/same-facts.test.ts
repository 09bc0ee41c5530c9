/** What a day's end, a review and an export say is what the reports say, figure by figure. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book, Day } from '../../src/book.ts';
import { yearOf } from '../../src/number/date.ts';
import { decimal, type Decimal } from '../../src/number/decimal.ts';
import { total, type Money } from '../../src/number/money.ts';
import { digitsOf } from '../../src/reckon/booked.ts';
import { USAGE_WINDOW } from '../../src/reckon/stock/depletion.ts';
import { flow } from '../../src/reckon/flow.ts';
import type { Flows } from '../../src/reckon/flows.ts';
import { taxPeriod, type TaxPeriod } from '../../src/reckon/tax/tax-period.ts';
import { renderCsv } from '../../src/render/csv.ts';
import { dayReport } from '../../src/report/day/day.ts';
import { galleriesTable } from '../../src/report/galleries.ts';
import { materialsTable } from '../../src/report/materials.ts';
import { piecesTable } from '../../src/report/pieces.ts';
import type { Cell, Row, Table } from '../../src/report/table.ts';
import { csvRows } from '../export/database.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';
import { everyReport } from './support/reports.ts';

interface Studio {
  readonly book: Book;
  readonly flows: Flows;
  readonly asOf: Day;
  readonly quarters: readonly TaxPeriod[];
}

function law(look: (studio: Studio) => void): () => Promise<void> {
  const plans = studioPlan({ days: 150, breaks: 'some' });
  const property = fc.asyncProperty(plans, async (plan) => {
    const { asOf } = growStudio(plan);
    const { book } = await openFiles(filesOf(plan, undefined), asOf);
    const { yearStarts } = book.studio;
    const year = yearOf(asOf, yearStarts);
    const quarters = ['Q1', 'Q2', 'Q3', 'Q4'].flatMap(
      (name) => taxPeriod(`${year}-${name}`, yearStarts) ?? [],
    );
    look({ book, asOf, flows: flow(book, asOf), quarters });
  });
  return () => holds(property, 2);
}

/** Cells of rows that have something, by what each is about. */
function cells(table: Table, [key, of]: readonly [string, string]): Record<string, string> {
  const told = table.rows.flatMap((row) => {
    const cell = row[of] ?? null;
    return cell === null ? [] : [[String(row[key]), words(cell)] as const];
  });
  return Object.fromEntries(told);
}

function words(cell: Cell | Decimal): string {
  return typeof cell === 'object' && cell !== null ? cell.toFixed() : String(cell);
}

function counts(rows: readonly Row[], keys: readonly string[], of: string): Record<string, number> {
  const all: Record<string, number> = {};
  for (const row of rows)
    for (const key of keys) all[String(row[of])] = (all[String(row[of])] ?? 0) + Number(row[key]);
  return Object.fromEntries(Object.entries(all).filter(([, count]) => count > 0));
}

describe("a day's end", () => {
  it(
    'has the stock, ware and debts of the reports',
    law(({ book, flows }) => {
      const around = { errors: 0, warnings: 0, uncommitted: 0, typed: () => 'next' };
      const table = dayReport(book, flows, around);
      const of = (...sections: string[]): Row[] =>
        table.rows.filter(({ section }) => sections.includes(String(section)));
      const materials = materialsTable(book, flows, USAGE_WINDOW);
      const stock = { ...table, rows: of('to-order', 'low') };
      expect(cells(materials, ['material', 'onHand'])).toMatchObject(
        cells(stock, ['what', 'quantity']),
      );
      const byPlace = piecesTable(book, flows, 'place').rows;
      const finished = byPlace.filter(({ grade }) => grade !== null);
      const here = finished.filter(({ place }) => place === 'studio');
      expect(counts(of('ready'), ['count'], 'what')).toEqual(counts(here, ['count'], 'product'));
      const there = finished.filter(({ place }) => place !== 'studio');
      expect(counts(of('at-galleries'), ['count'], 'what')).toEqual(
        counts(there, ['count'], 'place'),
      );
      const galleries = galleriesTable(book, flows);
      const owed = of('owed-to-you').filter(({ what }) => {
        const { channel } = book.sales.get(String(what)) ?? book.consigned.get(String(what)) ?? {};
        return book.channels.get(channel ?? '')?.kind === 'consignment';
      });
      expect(total(owed.map(({ amount }) => amount as Money))).toBe(galleries.totals?.['unpaid']);
    }),
  );
});

function minor(amount: string, digits: number): bigint {
  return amount === ''
    ? 0n
    : BigInt(
        decimal(amount)
          .times(decimal(10 ** digits))
          .toFixed(),
      );
}

describe('an export', () => {
  it(
    'has columns of money that sum to the totals of the reports',
    law(({ book, asOf }) => {
      const digits = digitsOf(book);
      for (const [name, table] of Object.entries(everyReport(book, asOf))) {
        const [heads = [], ...rows] = csvRows(renderCsv({ ...table, totals: {} }));
        const summed = table.columns.filter(({ type, key }) => {
          return type === 'money' && typeof table.totals?.[key] === 'bigint';
        });
        for (const { key } of summed) {
          const at = heads.indexOf(key);
          const amounts = rows.map((row) => minor(row[at] ?? '', digits));
          const sum = amounts.reduce((all, amount) => all + amount, 0n);
          expect([name, key, sum]).toEqual([name, key, table.totals?.[key]]);
        }
      }
    }),
  );
});
