import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { visible } from '../../src/render/escape.ts';
import { fit } from '../../src/render/fit.ts';
import { gridOf, padded, readsAsPage } from '../../src/render/grid.ts';
import type { Grid } from '../../src/render/grid.ts';
import { page } from '../../src/render/page.ts';
import { paints } from '../../src/render/paint.ts';
import { isFigure, shownTable } from '../../src/render/shown.ts';
import type { Table } from '../../src/report/table.ts';
import { anyTable } from './arbitrary.ts';
import { MATERIALS } from './materials.ts';
import { FIRINGS, LOSSES, SMALL } from './sample.ts';
import { holds } from '../helpers/law.ts';

function gridFor(table: Table, width: number, colour: boolean): Grid {
  const fitted = fit(shownTable(table, visible), width);
  const columns = (fitted?.columns ?? []).map(({ shown, width: cells, tight }) => ({
    ...shown,
    width: cells,
    tight,
    right: isFigure(shown.column),
  }));
  return gridOf(columns, { totals: table.totals !== undefined }, paints(colour));
}

function longer(table: Table, rows: number): Table {
  const pick = (_: unknown, at: number): Table['rows'][number] =>
    table.rows[at % table.rows.length] ?? {};
  return { ...table, rows: Array.from({ length: rows }, pick) };
}

describe('the two ways to lay out a grid', () => {
  it.each([
    ['materials', MATERIALS],
    ['firings', FIRINGS],
    ['losses', LOSSES],
    ['a small table', SMALL],
  ])('give the same bytes for %s', (_, table) => {
    for (const width of [60, 80, 120]) {
      const grid = gridFor(table, width, width === 80);
      expect(readsAsPage(grid)).toBe(true);
      if (grid.columns.length > 0) expect(page(grid)).toBe(padded(grid));
    }
  });

  it('give the same bytes for any table that reads as a page', () => {
    let pages = 0;
    holds(
      fc.property(anyTable, fc.boolean(), (table, colour) => {
        const grid = gridFor(table, 120, colour);
        fc.pre(grid.columns.length > 0 && readsAsPage(grid));
        pages += 1;
        expect(page(grid)).toBe(padded(grid));
      }),
    );
    expect(pages).toBeGreaterThan(20);
  });

  it('go by length: a long listing is no page', () => {
    expect(readsAsPage(gridFor(longer(LOSSES, 95), 80, false))).toBe(true);
    expect(readsAsPage(gridFor(longer(LOSSES, 101), 80, false))).toBe(false);
  });

  it.each(['釉', '🏺', '⌚', 'e\u0301', 'कि', '한'])(
    'go by signs: %s is measured by us alone',
    (sign) => {
      const rows = [{ ...LOSSES.rows[0], group: sign }];
      expect(readsAsPage(gridFor({ ...LOSSES, rows }, 80, false))).toBe(false);
    },
  );
});
