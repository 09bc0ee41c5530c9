/** Charts as drawings with a title, a sentence on what they show, and the figures in a table beside them. */
import { counted, setApart } from '../../in-words.ts';
import { type Day, addDays, weekdayOf } from '../../number/date.ts';
import { decimal } from '../../number/decimal.ts';
import {
  type Chart,
  type ChartShape,
  type ReportPage,
  chartTables,
  drawnKeys,
} from '../../report/page.ts';
import type { Column, Row, Table } from '../../report/table.ts';
import { NOTHING_TO_SHOW, drawnSize, forReading, shownColumn, shownTable } from '../shown.ts';
import { lines, markup, NO_MARKUP, type Markup } from './markup.ts';
import { figureLeads, leadsOn } from './leads.ts';
import { tableMarkup } from './table.ts';
import { outline, stroke } from './drawing/marks.ts';
import { patternsMarkup } from './drawing/patterns.ts';
import { bars, intervals, partKind, strip } from './drawing/lying.ts';
import { type ChartPlan, type Drawing, type DrawnFigure, type Point } from './drawing/plan.ts';
import { spots } from './drawing/spots.ts';
import { columns, control, course } from './drawing/upright.ts';

const DRAW: Readonly<Record<ChartShape, (plan: ChartPlan) => Drawing>> = {
  columns,
  bars,
  intervals,
  course,
  control,
  spots,
  strip,
};

/** Pixels that a drawing may be high below the heading of a page, on paper that lies and that stands. */
const LOW_ENOUGH = { lying: 400, standing: 750 };

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
    <h2 id="charts">At a glance</h2>${hasPatterns(page.charts) ? patternsMarkup() : ''}
    <div class="figures">
    ${lines(figures)}
    </div>
  </section>`;
}

/** Whether any of them is of bars beside each other that only a pattern tells apart. */
function hasPatterns(charts: readonly Chart[]): boolean {
  return charts.some(({ parts, against }) => (parts ?? against) !== undefined);
}

interface ChartPlace {
  /** That of the chart's table on its page. */
  readonly number: number;
  /** Whether the table stands on the page by itself. */
  readonly isAbove: boolean;
  readonly hasRecords: (row: number) => boolean;
  readonly leads: (column: string, row: number | undefined) => boolean;
}

/** What is higher than a sheet goes on on the next one, which is better than an empty one. */
function lookOf(height: number): Markup {
  if (height <= LOW_ENOUGH.lying) return NO_MARKUP;
  return height <= LOW_ENOUGH.standing ? markup` class="tall"` : markup` class="tall cut"`;
}

function figure(chart: Chart, place: ChartPlace): Markup {
  const { number, isAbove } = place;
  const id = `chart-${number}`;
  const head = markup`<figcaption><h3>${chart.title}</h3><p>${spanAndUnit(chart)}</p></figcaption>`;
  if (chart.table.rows.length === 0)
    return markup`<figure>
      ${head}
      <p>${NOTHING_TO_SHOW}</p>
    </figure>`;
  const plan = planOf(chart);
  const { height, content } = DRAW[chart.shape](plan);
  const table = isAbove ? NO_MARKUP : tableBeside(chart, place);
  return markup`<figure${lookOf(height)}>
    ${head}${legend(plan)}
    <svg width="100%" height="${height}" role="img" aria-labelledby="${id}-title ${id}-about">
      <title id="${id}-title">${chart.title}</title>
      <desc id="${id}-about">${aboutOf(plan)}All figures are in the table below.</desc>
      ${content}
    </svg>
    ${table}
  </figure>`;
}

/** What the marks of a drawing mean, in the order in which they are drawn; where all are of one kind, its title says it. */
function legend({ chart, points, headOf }: ChartPlan): Markup {
  const { shape, value, parts = [], against, bounds } = chart;
  const ofParts =
    shape === 'bars'
      ? parts.map((key, at) => ({ text: headOf(key), mark: patch(partKind(at)) }))
      : [];
  const beside =
    against === undefined
      ? []
      : [
          { text: headOf(against), mark: patch('bar against') },
          { text: headOf(value), mark: patch('bar') },
        ];
  const limits =
    shape === 'control' && bounds
      ? [
          {
            text: `${headOf(bounds.low)} and ${headOf(bounds.high).toLowerCase()} limit`,
            mark: DASHES,
          },
        ]
      : [];
  const out = points.some(({ named }) => named !== undefined)
    ? [{ text: 'Out of line', mark: DIAMOND }]
    : [];
  const items = [...ofParts, ...beside, ...limits, ...out].map(
    ({ text, mark }) =>
      markup`<li><svg width="16" height="12" aria-hidden="true">${mark}</svg> ${text}</li>`,
  );
  return items.length === 0 ? NO_MARKUP : markup`<ul class="legend">${items}</ul>`;
}

function patch(kind: string): Markup {
  return markup`<rect class="${kind}" width="16" height="12"/>`;
}

const DASHES = stroke('limit', { x: 0, y: 6 }, { x: 100, y: 6 });
const DIAMOND = outline('out', { x: 50, y: 6 }, 'M0-6 6 0 0 6-6 0z');

/** A table closed until somebody asks for it, for who can't see the drawing or wants its figures. */
function tableBeside(chart: Chart, { number, hasRecords, leads }: ChartPlace): Markup {
  const place = { number, titled: true, hasRecords, leads, isSum: () => false };
  return markup`<details class="beside">
      <summary>The figures of this picture</summary>
      ${tableMarkup(forReading(drawnColumns(chart)), place)}
    </details>`;
}

/** The days, and what bars add up to or else what figures are in. */
function spanAndUnit(chart: Chart): string {
  const { shape, span, table, value } = chart;
  const column = table.columns.find(({ key }) => key === value);
  const total = column && shownColumn(table, column, (text) => text).total;
  const unit = unitOf(column, table);
  const all = shape === 'bars' && total ? `in all ${total}` : unit === '' ? '' : 'in';
  return all === '' || shape === 'strip' ? span : `${span}; ${all}${unit === '' ? '' : ` ${unit}`}`;
}

/** What figures of a column are in; a percentage says so itself. */
function unitOf(column: Column | undefined, { currency }: Table): string {
  if (column?.type === 'money' || column?.type === 'rate') return currency;
  return column?.unit ?? '';
}

/** The columns of the table that the drawing shows. */
function drawnColumns(chart: Chart): Table {
  const { table, title } = chart;
  const keys = new Set(drawnKeys(chart));
  const shown = table.columns.filter(({ key }) => keys.has(key));
  const { report, studio, asOf, currency, minorDigits, rows, totals } = table;
  const head = { report, title, studio, asOf, currency, minorDigits };
  return { ...head, columns: shown, rows, ...(totals ? { totals } : {}), notes: [] };
}

function planOf(chart: Chart): ChartPlan {
  const all = new Map(
    shownTable(drawnColumns(chart), (text) => text).map((each) => [each.column.key, each]),
  );
  const headOf = (key: string): string => all.get(key)?.head ?? '';
  const points = chart.table.rows.map((row, at) =>
    pointOf(chart, row, (key) => all.get(key)?.cells[at] ?? ''),
  );
  return { chart, points, headOf, markOf: (key) => markFor(chart, all.get(key)?.column) };
}

function pointOf(chart: Chart, row: Row, shown: (key: string) => string): Point {
  const { bounds } = chart;
  const figure = (key: string | undefined): DrawnFigure | undefined => {
    const size = key === undefined ? undefined : drawnSize(row[key] ?? null, chart.table);
    return size === undefined ? undefined : { size, shown: shown(key ?? '') };
  };
  return {
    label: shown(chart.label),
    value: figure(chart.value),
    low: figure(bounds?.low),
    high: figure(bounds?.high),
    parts: (chart.parts ?? []).map(figure),
    against: figure(chart.against),
    marks: (chart.marks ?? []).map(figure),
    count: figure(chart.count),
    across: figure(chart.across),
    named: chart.named === undefined ? undefined : nonEmpty(shown(chart.named)),
  };
}

function nonEmpty(text: string): string | undefined {
  return text === '' ? undefined : text;
}

/** Writes marks of the scale as short as they are; those of days by their weekday or date. */
function markFor(
  { shape, firstDay }: Chart,
  column: Column | undefined,
): (value: number) => string {
  if (shape === 'strip' && firstDay !== undefined)
    return (value) => dayMark(addDays(firstDay, value));
  const isFraction = column?.type === 'fraction';
  return (value) => {
    const rounded = decimal((isFraction ? value * 100 : value).toFixed(MARK_PLACES)).toFixed();
    return isFraction ? `${rounded}%` : setApart(rounded);
  };
}

/** More decimals of a mark than these are noise. */
const MARK_PLACES = 8;

function dayMark(day: Day): string {
  return weekdayOf(day) === 'mon' ? 'Mon' : String(Number(day.slice(8)));
}

/** The highest and the lowest figure in a sentence, and what is out of line. */
function aboutOf({ chart, points }: ChartPlan): string {
  if (chart.shape === 'strip') return `${counted(points.length, 'row')} over 14 days. `;
  const known = points.flatMap(({ label, value }) =>
    value === undefined ? [] : [{ label, ...value }],
  );
  const sorted = known.toSorted((a, b) => b.size - a.size);
  const [highest, lowest] = [sorted[0], sorted.at(-1)];
  if (highest === undefined || lowest === undefined) return '';
  const column = chart.table.columns.find(({ key }) => key === chart.value);
  const unit = unitOf(column, chart.table);
  const extremes =
    highest === lowest
      ? `${highest.label}: ${highest.shown}`
      : `Highest: ${highest.label}, ${highest.shown}; lowest: ${lowest.label}, ${lowest.shown}`;
  return `${extremes}${unit === '' ? '' : ` (${unit})`}. ${outInWords(points)}`;
}

function outInWords(points: readonly Point[]): string {
  const named = points.flatMap((each) => each.named ?? []);
  return named.length === 0 ? '' : `Out of line: ${named.join(', ')}. `;
}
