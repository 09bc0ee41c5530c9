/** Charts as drawings with a title, a sentence on what they show, and the figures in a table beside them. */
import { counted, setApart } from '../../in-words.ts';
import { addDays, weekdayOf } from '../../number/date.ts';
import { decimal } from '../../number/decimal.ts';
import { type Chart, type ChartShape, type ReportPage, chartTables } from '../../report/page.ts';
import type { Column, Table } from '../../report/table.ts';
import { NOTHING_TO_SHOW, type ShownColumn, drawnSize, forReading, shownTable } from '../shown.ts';
import {
  type Drawing,
  type ChartPlan,
  type Point,
  bars,
  columns,
  control,
  course,
  dayScale,
  intervals,
  scaleOf,
  scaleOver,
  strip,
} from './drawing.ts';
import { lines, markup, NO_MARKUP, type Markup } from './markup.ts';
import { figureLeads, leadsOn } from './leads.ts';
import { tableMarkup } from './table.ts';

const DRAW: Readonly<Record<ChartShape, (plan: ChartPlan) => Drawing>> = {
  columns,
  bars,
  intervals,
  course,
  control,
  spots: course,
  strip,
};

/** The charts of a page below one heading; nothing where it has none. */
export function chartsSection(page: ReportPage): Markup {
  if (page.charts.length === 0) return NO_MARKUP;
  const beside = new Set(chartTables(page).map(({ number }) => number));
  const figures = page.charts.map((chart, at) => {
    const number = page.tables.length + at + 1;
    const isAbove = !beside.has(number);
    const hasRecords = (row: number): boolean => !isAbove && leadsOn(page, chart.table, row);
    const leads: ChartPlace['leads'] = (column, row) =>
      !isAbove && figureLeads(page, chart.table, { column, row });
    return figure(chart, { number, isAbove, hasRecords, leads });
  });
  return markup`<section aria-labelledby="charts" class="charts">
    <h2 id="charts">At a glance</h2>
    <div class="figures">
    ${lines(figures)}
    </div>
  </section>`;
}

interface ChartPlace {
  /** That of the chart's table on its page. */
  readonly number: number;
  /** Whether the table stands on the page by itself. */
  readonly isAbove: boolean;
  readonly hasRecords: (row: number) => boolean;
  readonly leads: (column: string, row: number | undefined) => boolean;
}

function figure(chart: Chart, place: ChartPlace): Markup {
  const { number, isAbove } = place;
  const id = `chart-${number}`;
  if (chart.table.rows.length === 0)
    return markup`<figure>
      <figcaption><h3>${chart.title}</h3><p>${chart.span}${totalOf(chart)}</p></figcaption>
      <p>${NOTHING_TO_SHOW}</p>
    </figure>`;
  const { drawing, about } = drawn(chart);
  const table = isAbove ? NO_MARKUP : tableBeside(chart, place);
  return markup`<figure>
    <figcaption><h3>${chart.title}</h3><p>${chart.span}${totalOf(chart)}</p></figcaption>
    <svg width="100%" height="${drawing.height}" role="img" aria-labelledby="${id}-title ${id}-about">
      <title id="${id}-title">${chart.title}</title>
      <desc id="${id}-about">${about}All figures are in the table below.</desc>
      ${drawing.content}
    </svg>
    ${table}
  </figure>`;
}

/** A table closed until somebody asks for it, for who can't see the drawing or wants its figures. */
function tableBeside(chart: Chart, { number, hasRecords, leads }: ChartPlace): Markup {
  const place = { number, titled: true, hasRecords, leads, isSum: () => false };
  return markup`<details class="beside">
      <summary>The figures of this picture</summary>
      ${tableMarkup(forReading(drawnColumns(chart)), place)}
    </details>`;
}

/** What bars add up to. */
function totalOf(chart: Chart): string {
  const figures = drawnColumns(chart);
  const total = shownTable(figures, (text) => text).find(
    ({ column }) => column.key === chart.value,
  );
  return chart.shape === 'bars' && total !== undefined && total.total !== ''
    ? `; in all ${total.total} ${chart.table.currency}`
    : '';
}

/** The columns of the table that the drawing shows. */
function drawnColumns({ table, title, label, value, bounds }: Chart): Table {
  const keys = [label, value, ...(bounds ? [bounds.low, bounds.high] : [])];
  const shown = table.columns.filter(({ key }) => keys.includes(key));
  const { report, studio, asOf, currency, minorDigits, rows, totals } = table;
  const head = { report, title, studio, asOf, currency, minorDigits };
  return { ...head, columns: shown, rows, ...(totals ? { totals } : {}), notes: [] };
}

function drawn(chart: Chart): { readonly drawing: Drawing; readonly about: string } {
  const all = shownTable(drawnColumns(chart), (text) => text);
  const column = all.find((each) => each.column.key === chart.value);
  const points = chart.table.rows.map((_, at) => pointOf(chart, all, at));
  if (chart.firstDay !== undefined) return drawnStrip(points, chart.firstDay);
  const values = points.flatMap(({ value, low, high }) => [value, low, high]);
  const figures = values.filter((value) => value !== undefined);
  const scale = chart.shape === 'control' ? scaleOver(figures) : scaleOf(figures);
  const plan = { points, scale, mark: markFor(column?.column) };
  return { drawing: DRAW[chart.shape](plan), about: aboutOf(chart, points) };
}

const STRIP_DAYS = 14;

function drawnStrip(
  points: readonly Point[],
  first: string,
): { readonly drawing: Drawing; readonly about: string } {
  const mark = (value: number): string => {
    const day = addDays(first, value);
    return weekdayOf(day) === 'mon' ? 'Mon' : String(Number(day.slice(8)));
  };
  const drawing = strip({ points, scale: dayScale(STRIP_DAYS), mark });
  return { drawing, about: `${counted(points.length, 'row')} over ${STRIP_DAYS} days. ` };
}

function pointOf(chart: Chart, all: readonly ShownColumn[], at: number): Point {
  const row = chart.table.rows[at] ?? {};
  const text = (key: string): string =>
    all.find(({ column }) => column.key === key)?.cells[at] ?? '';
  const size = (key: string): number | undefined => drawnSize(row[key] ?? null, chart.table);
  const { bounds } = chart;
  return {
    label: text(chart.label),
    value: size(chart.value),
    shown: text(chart.value),
    low: bounds && size(bounds.low),
    high: bounds && size(bounds.high),
  };
}

/** Writes marks of the scale as short as they are. */
function markFor(column: Column | undefined): (value: number) => string {
  const isFraction = column?.type === 'fraction';
  return (value) => {
    const rounded = decimal((isFraction ? value * 100 : value).toFixed(4)).toNumber();
    return isFraction ? `${rounded}%` : setApart(String(rounded));
  };
}

/** The highest and the lowest figure in a sentence. */
function aboutOf({ table }: Chart, points: readonly Point[]): string {
  const known = points.filter(({ value }) => value !== undefined);
  const sorted = known.toSorted((a, b) => (b.value ?? 0) - (a.value ?? 0));
  const [highest, lowest] = [sorted[0], sorted.at(-1)];
  if (highest === undefined || lowest === undefined) return '';
  const unit = table.currency === '' ? '' : ` (${table.currency})`;
  const extremes =
    highest === lowest
      ? `${highest.label}: ${highest.shown}`
      : `Highest: ${highest.label}, ${highest.shown}; lowest: ${lowest.label}, ${lowest.shown}`;
  return `${extremes}${highest.shown.endsWith('%') ? '' : unit}. `;
}
