import fc from 'fast-check';
import CliTable from 'cli-table3';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { visible } from '../../src/render/escape.ts';
import { fit } from '../../src/render/terminal/fit.ts';
import { countsAlike, drawnTable } from '../../src/render/terminal/cli-table.ts';
import { gridOf, padded, type Grid } from '../../src/render/terminal/grid.ts';
import { paints } from '../../src/render/paint.ts';
import { isFigure, shownTable } from '../../src/render/shown.ts';
import { renderText } from '../../src/render/terminal/text.ts';
import { wrap } from '../../src/render/terminal/width.ts';
import type { Row, Table } from '../../src/report/table.ts';
import { anyTable } from './arbitrary.ts';
import { MATERIALS } from './materials.ts';
import { FIRINGS, LOSSES, SMALL } from './sample.ts';
import { holds } from '../helpers/law.ts';

function gridFor(table: Table, width: number, colour: boolean): Grid {
  const fitted = fit(shownTable(table, visible), width);
  const columns = fitted.columns.map(({ shown, width: cells, tight }) => ({
    ...shown,
    width: cells,
    tight,
    right: isFigure(shown.column),
  }));
  // Every fifth row begins a part; a heading of the longest title takes two lines of its own.
  const starts = table.rows.flatMap((_, at) => (at % 5 === 0 ? [at] : []));
  const heading = wrap(visible(table.title), { width: 20 });
  const headings = new Map(starts.map((at) => [at, heading]));
  const parts = { totals: table.totals !== undefined, ...(table.rows.length > 3 && { headings }) };
  return gridOf(columns, parts, paints(colour));
}

/** The table with words that both ways measure alike. */
function inPlainWords(table: Table): Table {
  const plain = (text: string): string => text.replace(/[^\x20-\x7e]/g, 'a b');
  const row = (cells: Row): Row =>
    Object.fromEntries(
      Object.entries(cells).map(([key, cell]) => [
        key,
        typeof cell === 'string' ? plain(cell) : cell,
      ]),
    );
  return {
    ...table,
    title: plain(table.title).slice(0, 30),
    columns: table.columns.map((column) => ({ ...column, title: plain(column.title) })),
    rows: table.rows.map(row),
  };
}

describe('the two ways to draw a table', () => {
  it.each([
    ['materials', MATERIALS],
    ['firings', FIRINGS],
    ['losses', LOSSES],
    ['a small table', SMALL],
  ])('give the same bytes for %s', (_, table) => {
    for (const width of [60, 80, 120]) {
      const grid = gridFor(table, width, width === 80);
      expect(countsAlike(grid)).toBe(true);
      if (grid.columns.length > 0) expect(drawnTable(grid)).toBe(padded(grid));
    }
  });

  it('give the same bytes for any table', () => {
    let [drawn, folded, parted] = [0, 0, 0];
    const shown = fc.oneof(anyTable, anyTable.map(inPlainWords));
    holds(
      fc.property(shown, fc.constantFrom(40, 80, 120), fc.boolean(), (table, width, colour) => {
        const grid = gridFor(table, width, colour);
        fc.pre(grid.columns.length > 0);
        expect(drawnTable(grid)).toBe(padded(grid));
        if (!countsAlike(grid)) return;
        drawn += 1;
        folded += Number(padded(grid).split('\n').length > grid.lines.length);
        parted += Number(grid.lines.some((line) => 'across' in line && /\w/.test(line.across)));
      }),
      300,
    );
    expect([drawn > 40, folded > 10, parted > 10]).toEqual([true, true, true]);
  });

  it.each(['釉', '🏺', '⌚', 'e\u0301', 'कि', '한'])(
    'go by signs: %s is measured by us alone',
    (sign) => {
      const rows = [{ ...LOSSES.rows[0], group: sign }];
      expect(countsAlike(gridFor({ ...LOSSES, rows }, 80, false))).toBe(false);
    },
  );
});

describe('a table on a terminal', () => {
  afterEach(() => {
    vi.restoreAllMocks();
  });

  function longer(rows: number): Table {
    const pick = (_: unknown, at: number): Table['rows'][number] =>
      LOSSES.rows[at % LOSSES.rows.length] ?? {};
    return { ...LOSSES, rows: Array.from({ length: rows }, pick) };
  }

  /** Whether cli-table3 had a part in it, and whether it comes out as it does in a pipe. */
  async function shown(table: Table, terminal: boolean): Promise<readonly boolean[]> {
    const draws = vi.spyOn(CliTable.prototype, 'toString');
    const options = { width: 80, colour: false };
    const text = await renderText(table, { ...options, terminal });
    return [draws.mock.calls.length > 0, text === (await renderText(table, options))];
  }

  it('is drawn by cli-table3 as long as a screen, and padded where it is longer or in a pipe', async () => {
    expect(await shown(longer(40), true)).toEqual([true, true]);
    vi.restoreAllMocks();
    expect(await shown(longer(41), true)).toEqual([false, true]);
    vi.restoreAllMocks();
    expect(await shown(longer(40), false)).toEqual([false, true]);
  });
});
