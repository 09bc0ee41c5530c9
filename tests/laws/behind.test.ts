/** The records behind a row are all that its figures need: without the others they stay the same. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { KINDS, type Book } from '../../src/book.ts';
import { flow } from '../../src/reckon/flow.ts';
import { incomeTable } from '../../src/report/income.ts';
import { lossesTable } from '../../src/report/losses.ts';
import type { Row, Table } from '../../src/report/table.ts';
import { growStudio, studioPlan, type StudioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';
import { everyReport } from './support/reports.ts';

async function bookOf(plan: StudioPlan): Promise<{ book: Book; asOf: string }> {
  const { asOf } = growStudio(plan);
  const { book } = await openFiles(filesOf(plan, undefined), asOf);
  return { book, asOf };
}

/** The book without the records of some kinds that are not named. */
function only(
  book: Book,
  ids: readonly string[],
  kinds: readonly ('sales' | 'advances' | 'firings' | 'pieces')[],
): Book {
  const kept = kinds.map((kind) => [
    kind,
    new Map<string, unknown>([...book[kind]].filter(([id]) => ids.includes(id))),
  ]);
  return { ...book, ...(Object.fromEntries(kept) as unknown as Partial<Book>) };
}

function pick(row: Row | undefined, keys: readonly string[]): Record<string, string> {
  return Object.fromEntries(keys.map((key) => [key, String(row?.[key] ?? '')]));
}

/** Each row of a table, beside the same row of a table made of only the records behind it. */
function pairs(
  table: Table,
  names: readonly string[],
  remade: (ids: readonly string[]) => Table,
): [Row, Row | undefined][] {
  return table.rows.map((row, at) => {
    const alone = remade(table.behind?.()?.[at] ?? []);
    const same = alone.rows.find((other) => names.every((name) => other[name] === row[name]));
    return [row, same];
  });
}

describe('the records behind a row', () => {
  it('are there for each row of a report, and in the book', async () => {
    const property = fc.asyncProperty(studioPlan({ breaks: 'none' }), async (plan) => {
      const { book, asOf } = await bookOf(plan);
      const known = new Set(KINDS.flatMap((kind) => [...book[kind].keys()]));
      const reports = Object.entries(everyReport(book, asOf));
      for (const [name, { rows, behind: ids }] of reports.filter(([, table]) => table.behind)) {
        const behind = ids?.();
        expect([name, behind?.length]).toEqual([name, rows.length]);
        expect([name, behind?.flat().filter((id) => !known.has(id))]).toEqual([name, []]);
      }
    });
    await holds(property, 2);
  });

  it('are all that a row of income is made of', async () => {
    const keys = ['count', 'gross', 'discounts', 'returns', 'net', 'fees'];
    const property = fc.asyncProperty(studioPlan({ breaks: 'none' }), async (plan) => {
      const { book, asOf } = await bookOf(plan);
      const made = (from: Book): Table =>
        incomeTable(from, flow(from, asOf), {
          by: 'product',
          period: { from: '0000-01-01', to: asOf },
        });
      const table = made(book);
      expect(table.rows.length).toBeGreaterThan(0);
      const remade = (ids: readonly string[]): Table =>
        made(only(book, ids, ['sales', 'advances']));
      for (const [row, same] of pairs(table, ['item', 'name'], remade))
        expect(pick(same, keys)).toEqual(pick(row, keys));
    });
    await holds(property, 2);
  });

  it('are all that a row of losses counts', async () => {
    const keys = ['in', 'first', 'second', 'lost', 'lossRate'];
    const property = fc.asyncProperty(studioPlan({ breaks: 'none' }), async (plan) => {
      const { book, asOf } = await bookOf(plan);
      const made = (from: Book): Table =>
        lossesTable(from, flow(book, asOf), { by: 'month', span: { to: asOf } });
      const table = made(book);
      const remade = (ids: readonly string[]): Table => {
        const isMaking = ids.some((id) => book.pieces.has(id));
        return made(only(book, ids, isMaking ? ['pieces', 'firings'] : ['firings']));
      };
      for (const [row, same] of pairs(table, ['group', 'firing'], remade))
        expect(pick(same, keys)).toEqual(pick(row, keys));
    });
    await holds(property, 2);
  });
});
