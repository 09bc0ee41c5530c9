import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimal } from '../../../src/number/decimal.ts';
import { renderPage } from '../../../src/render/html/page.ts';
import { type Chart, bareTable } from '../../../src/report/page.ts';
import type { Row, Table } from '../../../src/report/table.ts';
import { holds } from '../../helpers/law.ts';
import {
  type DrawnElement,
  type Ruler,
  elementsOf,
  ofKind,
  rowsOf,
  rulerAlong,
} from '../../helpers/read-drawing.ts';
import { SMALL } from '../sample.ts';

const KEYS = ['value', 'one', 'two', 'three', 'against', 'low', 'high', 'across'] as const;
type Key = (typeof KEYS)[number];
type Figures = Readonly<Record<Key, number | null>>;

/** Hundredths: none, ordinary ones, losses, a few, and so many that nobody has them. */
const FIGURE = fc.oneof(
  { weight: 6, arbitrary: fc.integer({ min: -20_000, max: 1_000_000 }) },
  { weight: 1, arbitrary: fc.constant(0) },
  { weight: 1, arbitrary: fc.integer({ min: -10_000_000_000_00, max: 10_000_000_000_00 }) },
  { weight: 2, arbitrary: fc.integer({ min: 0, max: 20 }) },
);
const SOME_FIGURE = fc.option(FIGURE.map((hundredths) => hundredths / 100));
const ROW = fc.record(
  Object.fromEntries(KEYS.map((key) => [key, SOME_FIGURE])) as Record<Key, typeof SOME_FIGURE>,
);
const ROWS = fc.array(ROW, { minLength: 1, maxLength: 30 });

function chartOf(rows: readonly Figures[], more: Pick<Chart, 'shape'> & Partial<Chart>): Chart {
  const table: Table = {
    ...SMALL,
    columns: [
      { key: 'name', title: 'Name', type: 'text' },
      ...KEYS.map((key) => ({ key, title: key, type: 'quantity' as const })),
      { key: 'named', title: 'Named', type: 'text' },
    ],
    rows: rows.map((row, at): Row => {
      const cell = (key: Key) => (row[key] === null ? null : decimal(String(row[key])));
      const cells: Row = Object.fromEntries(KEYS.map((key) => [key, cell(key)]));
      return { ...cells, name: `row ${String(at)}`, named: namedAt(at) };
    }),
  };
  return { title: 'A chart', span: 'a year', table, label: 'name', value: 'value', ...more };
}

/** Every third row is out of line. */
function namedAt(at: number): string | null {
  return at % 3 === 0 ? `out ${String(at)}` : null;
}

function drawingOf(chart: Chart): string {
  const page = renderPage({ ...bareTable(SMALL), charts: [chart] });
  const figure = page.slice(page.indexOf('<figure>'));
  const start = figure.indexOf('<svg width="100%"');
  return figure.slice(start, figure.indexOf('<details'));
}

function known(figures: readonly (number | null)[]): number[] {
  return figures.filter((figure) => figure !== null);
}

/** Positions are written with two decimals, so what is read is as near as two of them, one at each mark. */
function expectFigures(read: readonly number[], figures: readonly number[], ruler: Ruler): void {
  expect(read).toHaveLength(figures.length);
  const near = 0.05 * Math.abs(ruler(1) - ruler(0)) + 1e-9;
  read.forEach((figure, at) => {
    expect(Math.abs(figure - figures[at]!)).toBeLessThanOrEqual(near);
  });
}

/** What an upright bar stands for: the end that isn't on the line of zero. */
function upright(bar: DrawnElement, ruler: Ruler): number {
  const [top, bottom] = [ruler(bar.is('y')), ruler(bar.is('y') + bar.is('height'))];
  return Math.abs(top) > Math.abs(bottom) ? top : bottom;
}

describe('what is read from a drawing equals its table', () => {
  it('of columns, and of what they are held against', () => {
    holds(
      fc.property(ROWS, (rows) => {
        const elements = elementsOf(
          drawingOf(chartOf(rows, { shape: 'columns', against: 'against' })),
        );
        const ruler = rulerAlong('y', elements);
        const bars = ofKind(elements, 'bar');
        const [against, own] = [ofKind(bars, 'against'), bars.filter(({ kind }) => kind === 'bar')];
        const read = (some: readonly DrawnElement[]) => some.map((bar) => upright(bar, ruler));
        const isDrawn = (figure: number) => figure !== 0;
        expectFigures(read(own), known(rows.map(({ value }) => value)).filter(isDrawn), ruler);
        expectFigures(read(against), known(rows.map((row) => row.against)).filter(isDrawn), ruler);
      }),
    );
  });

  it('of bars, from zero', () => {
    holds(
      fc.property(ROWS, (rows) => {
        const drawing = drawingOf(chartOf(rows, { shape: 'bars' }));
        const ruler = rulerAlong('x', elementsOf(drawing));
        rowsOf(drawing).forEach((row, at) => {
          const value = rows[at]!.value;
          const read = ofKind(row, 'bar').map((bar) => farEnd(bar, ruler));
          expectFigures(
            read,
            known([value]).filter((figure) => figure !== 0),
            ruler,
          );
        });
      }),
    );
  });

  it('of the parts of bars, gains to one side and losses to the other, and of the marks across', () => {
    const marks = ['low', 'high'] as const;
    const parts = ['one', 'two', 'three'] as const;
    holds(
      fc.property(ROWS, (rows) => {
        const drawing = drawingOf(chartOf(rows, { shape: 'bars', parts, marks }));
        const ruler = rulerAlong('x', elementsOf(drawing));
        const drawn = rowsOf(drawing);
        expect(drawn).toHaveLength(rows.length);
        drawn.forEach((row, at) => {
          const figures = rows[at]!;
          parts.forEach((key, part) => {
            const read = ofKind(row, `part-${String(part + 1)}`).map((bar) => lengthOf(bar, ruler));
            expectFigures(
              read,
              known([figures[key]]).filter((figure) => figure !== 0),
              ruler,
            );
          });
          marks.forEach((key, mark) => {
            const ticks = ofKind(row, `tick-${String(mark + 1)}`);
            expectFigures(
              ticks.map((tick) => ruler(tick.is('x1'))),
              known([figures[key]]),
              ruler,
            );
          });
        });
      }),
    );
  });

  it('of intervals, and of the bound that an arrow says lies beyond', () => {
    holds(
      fc.property(
        ROWS.map((rows) => rows.map(ordered)),
        (rows) => {
          const drawing = drawingOf(
            chartOf(rows, { shape: 'intervals', bounds: { low: 'low', high: 'high' } }),
          );
          const ruler = rulerAlong('x', elementsOf(drawing));
          rowsOf(drawing).forEach((row, at) => {
            const { value, low, high } = rows[at]!;
            const beyond = ofKind(row, 'beyond').map(({ text }) =>
              Number(text.replaceAll(',', '')),
            );
            expectFigures(
              ofKind(row, 'dot').map((dot) => ruler(dot.is('cx'))),
              known([value]),
              ruler,
            );
            const ends = ofKind(row, 'end').map((end) => ruler(end.is('x1')));
            if (value === null) return;
            expectFigures([...ends, ...beyond], [low ?? value, high ?? value], ruler);
          });
        },
      ),
    );
  });

  it('of a course, and of the limits beside one with what is out of line', () => {
    holds(
      fc.property(ROWS, fc.boolean(), (rows, hasLimits) => {
        const bounds = { low: 'low', high: 'high' };
        const chart = hasLimits
          ? chartOf(rows, { shape: 'control', bounds, named: 'named' })
          : chartOf(rows, { shape: 'course' });
        const elements = elementsOf(drawingOf(chart));
        const ruler = rulerAlong('y', elements);
        const at = (kind: string, attribute: string) =>
          ofKind(elements, kind).map((each) => ruler(each.is(attribute)));
        const values = rows.map(({ value }) => value);
        expectFigures(at('dot', 'cy'), known(values), ruler);
        if (!hasLimits) return;
        expectFigures(
          at('limit', 'y1'),
          known([...rows.map(({ low }) => low), ...rows.map(({ high }) => high)]),
          ruler,
        );
        const out = values.filter((_, row) => namedAt(row) !== null);
        expectFigures(at('out', 'y'), known(out), ruler);
      }),
    );
  });

  it('of spots, both ways', () => {
    holds(
      fc.property(ROWS, (rows) => {
        const whole = rows.filter(({ value, across }) => value !== null && across !== null);
        fc.pre(whole.length > 0);
        const elements = elementsOf(
          drawingOf(chartOf(whole, { shape: 'spots', across: 'across' })),
        );
        const dots = ofKind(elements, 'dot');
        const [wide, high] = [rulerAlong('x', elements), rulerAlong('y', elements)];
        const read = {
          across: dots.map((dot) => wide(dot.is('cx'))),
          value: dots.map((dot) => high(dot.is('cy'))),
        };
        expectFigures(read.across, known(whole.map(({ across }) => across)), wide);
        expectFigures(read.value, known(whole.map(({ value }) => value)), high);
      }),
    );
  });

  it('of days, from the first to the last of a row', () => {
    const days = fc.tuple(fc.integer({ min: 0, max: 13 }), fc.integer({ min: 0, max: 13 }));
    holds(
      fc.property(fc.array(days, { minLength: 1, maxLength: 10 }), (spans) => {
        const none = Object.fromEntries(KEYS.map((key) => [key, null])) as Figures;
        const rows = spans.map(([one, other]) => ({
          ...{ ...none, low: Math.min(one, other), high: Math.max(one, other) },
        }));
        const bounds = { low: 'low', high: 'high' };
        const drawing = drawingOf(
          chartOf(rows, { shape: 'strip', bounds, firstDay: '2026-02-26' }),
        );
        const lines = ofKind(elementsOf(drawing), 'grid').map((line) => line.is('x1'));
        rowsOf(drawing).forEach((row, at) => {
          const [bar] = ofKind(row, 'bar');
          const [from, to] = [rows[at]!.low, rows[at]!.high + 1];
          expect(bar!.is('x')).toBeCloseTo(lines[from]!, 1);
          expect(bar!.is('x') + bar!.is('width')).toBeCloseTo(lines[to] ?? 100, 1);
        });
      }),
    );
  });
});

function farEnd(bar: DrawnElement, ruler: Ruler): number {
  const [left, right] = [ruler(bar.is('x')), ruler(bar.is('x') + bar.is('width'))];
  return Math.abs(left) > Math.abs(right) ? left : right;
}

/** How long a part is, less than zero where it lies before the line of zero. */
function lengthOf(bar: DrawnElement, ruler: Ruler): number {
  const [left, right] = [ruler(bar.is('x')), ruler(bar.is('x') + bar.is('width'))];
  return left + right < 0 ? left - right : right - left;
}

/** Bounds on either side of the figure. */
function ordered(row: Figures): Figures {
  const { value, low, high } = row;
  const [least, middle, most] = [value ?? 0, low ?? 0, high ?? 0].toSorted(
    (one, other) => one - other,
  );
  return { ...row, value: value === null ? null : middle!, low: least!, high: most! };
}
