import { describe, expect, it } from 'vitest';
import { renderPage } from '../../../src/render/html/page.ts';
import { type Chart, type ChartShape, bareTable } from '../../../src/report/page.ts';
import type { Row, Table } from '../../../src/report/table.ts';
import { money } from '../../helpers/minor.ts';
import { SMALL } from '../sample.ts';

const ROWS: readonly Row[] = [
  { month: '2025-12', net: money('50.00'), low: money('25.00'), high: money('75.00') },
  { month: '2026-01', net: money('-25.00'), low: null, high: null },
  { month: '2026-02', net: null, low: null, high: null },
];

function chartOf(shape: ChartShape, rows = ROWS): Chart {
  const table: Table = {
    ...SMALL,
    title: 'By month',
    columns: [
      { key: 'month', title: 'Month', type: 'text' },
      { key: 'net', title: 'Net', type: 'money' },
      { key: 'low', title: 'Low', type: 'money' },
      { key: 'high', title: 'High', type: 'money' },
    ],
    rows,
    totals: { net: money('25.00') },
  };
  const chart = { shape, title: 'A chart', span: 'a year', table, label: 'month', value: 'net' };
  return shape === 'intervals' ? { ...chart, bounds: { low: 'low', high: 'high' } } : chart;
}

/** The drawing of a page's chart. */
function drawn(chart: Chart, isMain = false): string {
  const page = renderPage({ ...bareTable(isMain ? chart.table : SMALL), charts: [chart] });
  const start = page.indexOf('<figure>');
  return page.slice(start, page.indexOf('</figure>'));
}

describe('a chart', () => {
  it('of columns stands on the line of zero, up for gains and down for losses', () => {
    // From -25 to 50 in 168 pixels, below 20: zero lies at two thirds of them.
    const drawing = drawn(chartOf('columns'));
    expect(drawing.match(/<rect/g)).toHaveLength(2);
    expect(drawing).toContain('y="20" height="112"');
    expect(drawing).toContain('y="132" height="56"');
    expect(drawing).toContain('<line class="zero" x1="0%" x2="100%" y1="132" y2="132"/>');
  });

  it('names months by their numbers, and years once', () => {
    const labels = [...drawn(chartOf('columns')).matchAll(/class="label"[^>]*>([^<]*)</g)];
    expect(labels.map(([, text]) => text)).toEqual(['12', '2025', '01', '2026', '02']);
  });

  it('of bars begins at zero to both sides', () => {
    const drawing = drawn(chartOf('bars'));
    expect(drawing).toContain('<rect class="bar" x="33.33%" width="66.67%"');
    expect(drawing).toContain('<rect class="bar" x="0%" width="33.33%"');
  });

  it('of intervals draws from bound to bound with a dot between', () => {
    const drawing = drawn(chartOf('intervals', ROWS.slice(0, 1)));
    // From 0 to 75 in 84 % of the width.
    expect(drawing).toContain('x1="28%" x2="84%"');
    expect(drawing).toContain('<circle class="dot" cx="56%"');
  });

  it('of a course breaks where a figure is missing', () => {
    const drawing = drawn(chartOf('course', [...ROWS, { month: '2026-03', net: money('1.00') }]));
    expect(drawing.match(/<circle/g)).toHaveLength(3);
    expect(drawing.match(/<line class="line"/g)).toHaveLength(1);
  });

  it('has its figures in a folded table, unless the page has them by themselves', () => {
    const folded = drawn(chartOf('columns'));
    expect(folded.slice(folded.indexOf('<details class="beside">'))).toContain(
      '<th scope="row" class="text">2025-12</th>',
    );
    expect(drawn(chartOf('columns'))).toContain('All figures are in the table below.');
    expect(drawn(chartOf('columns'), true)).not.toContain('<table');
    expect(drawn(chartOf('columns'), true)).toContain('All figures are in the table below.');
  });

  it('is described by its highest and lowest figure', () => {
    expect(drawn(chartOf('columns'))).toContain(
      'Highest: 2025-12, 50.00; lowest: 2026-01, -25.00 (USD).',
    );
  });

  it('without rows draws nothing', () => {
    expect(drawn(chartOf('bars', []))).not.toContain('<svg');
  });
});
