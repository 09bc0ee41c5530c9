/** The reports of an export: every table that a command shows, of the days that are asked for. */
import { earlierDay } from '../../number/date.js';
import type { Book, Day } from '../../book.ts';
import type { ExportedReport } from '../../export/index-page.ts';
import { countOf } from '../../fold.ts';
import type { Span } from '../../number/date.ts';
import { flow } from '../../reckon/flow.ts';
import { quartersOf, taxPeriod } from '../../reckon/tax/tax-period.ts';
import { dayReport } from '../../report/day/day.ts';
import { isToCompare, type Chart } from '../../report/page.ts';
import type { Table } from '../../report/table.ts';
import type { OpenedBook } from '../studio/open.ts';
import type { Report } from './show.ts';
import { COMMANDS } from '../catalogue.ts';
import { claims } from '../tracing/claims.ts';
import { clays } from '../tracing/clays.ts';
import { costs } from './costs.ts';
import { fairs } from './fairs.ts';
import { firings } from './firings.ts';
import { galleries } from './galleries.ts';
import { income } from './income.ts';
import { kilns } from './kilns.ts';
import { losses } from './losses.ts';
import { orders } from './orders.ts';
import { materials } from './materials.ts';
import { pieces } from './pieces.ts';
import { plainQuarter } from './quarter-table.ts';
import { recipes } from './recipes.ts';
import { tests } from '../tracing/tests.ts';
import { isRefusal, type Asked, type Refusal } from '../world.ts';

/** A report with the charts of its page. */
export interface PagedReport extends ExportedReport {
  readonly charts: readonly Chart[];
}

/** One of them, still to be made. */
interface ReportToExport {
  readonly name: string;
  /** What it says, in a sentence. */
  readonly about: string;
  readonly table: (opened: OpenedBook) => ReturnType<Report<object>['table']>;
  readonly charts?: (
    opened: OpenedBook,
    table: Table,
  ) => ReturnType<NonNullable<Report<object>['charts']>>;
}

/** What a report shows by some options. */
function reportBy<O extends object>(
  name: string,
  { table, charts }: Report<O>,
  { argument, options = {} }: Partial<Asked<Partial<O>>> = {},
): ReportToExport {
  const asked = { argument, words: [], options };
  return {
    name,
    about: aboutReport(name, options),
    table: (opened) => table(opened, asked),
    charts: (opened, of) => charts?.(opened, asked, of) ?? [],
  };
}

/** What the command says of itself, and by what this one is; or what it says of the option that it is by. */
function aboutReport(name: string, options: object): string {
  const [command = '', by] = name.split('-');
  const spec = COMMANDS.find((each) => each.name === command);
  const option = spec?.options.find(({ flags }) => flags === `--${by ?? ''}`);
  const [about = ''] = (option ?? spec)?.about.split(';') ?? [];
  const said = about.replace(/^say /, '').replace(/^sum up (.*) for/, '$1 summed up for');
  const how = by !== undefined && 'by' in options ? `, by ${by}` : '';
  return `${said.charAt(0).toUpperCase()}${said.slice(1)}${how}.`;
}

/** The day's page without what only its own command can say: what git holds. */
function dayTable({ book, asOf, findings, errors }: OpenedBook): Table {
  return dayReport(book, flow(book, asOf), {
    errors,
    warnings: countOf(findings) - errors,
    uncommitted: undefined,
    typed: ({ program, words }) => `${program} ${words}`,
  });
}

const BY_INCOME = ['product', 'month', 'channel', 'class', 'buyer'] as const;
const BY_LOSS = ['firing', 'product', 'recipe', 'cause', 'month'] as const;

/** What happened in the days. */
function reportsOf({ studio }: Book, { from, to }: Span): readonly ReportToExport[] {
  const days = { from, to };
  const argument = periodOf(studio, days);
  return [
    ...(argument === undefined ? [] : [reportBy('quarter', plainQuarter, { argument })]),
    ...BY_INCOME.map((by) =>
      reportBy(by === 'product' ? 'income' : `income-${by}`, income, { options: { by, ...days } }),
    ),
    reportBy('costs', costs, { options: days }),
    reportBy('firings', firings, { options: days }),
    ...BY_LOSS.map((by) =>
      reportBy(by === 'firing' ? 'losses' : `losses-${by}`, losses, { options: { by, ...days } }),
    ),
    reportBy('losses-chart', losses, { options: { chart: true, ...days } }),
    reportBy('materials-where', materials, { options: { where: true, ...days } }),
    reportBy('fairs', fairs, { options: days }),
  ];
}

/** How things are at the end of the days. A plan is left out: it is a forecast, and no record of them. */
const REPORTS_OF_THE_END: readonly ReportToExport[] = [
  reportBy('materials', materials),
  reportBy('pieces', pieces),
  reportBy('pieces-place', pieces, { options: { by: 'place' } }),
  reportBy('galleries', galleries),
  reportBy('recipes', recipes),
  reportBy('kilns', kilns),
  reportBy('orders', orders),
  reportBy('claims', claims),
  reportBy('tests', tests),
  reportBy('clays', clays),
  { name: 'day', about: aboutReport('day', {}), table: dayTable },
];

/** All reports of a book, or why one of them can't be made; says which one is being made. */
export async function exportReports(
  opened: OpenedBook,
  span: Span,
  say: (name: string) => void,
): Promise<readonly PagedReport[] | Refusal> {
  const reports: PagedReport[] = [];
  const atTheEnd = { ...opened, asOf: endOf(span, opened.asOf) };
  const all = [
    ...reportsOf(opened.book, span).map((report) => ({ report, of: opened })),
    ...REPORTS_OF_THE_END.map((report) => ({ report, of: atTheEnd })),
  ];
  for (const { report, of } of all) {
    const { name, charts, about } = report;
    say(name);
    const table = await report.table(of);
    if (isRefusal(table)) return table;
    const drawn = ((await charts?.(of, table)) ?? []).filter(isToCompare);
    reports.push({ name, about, isOfEnd: of === atTheEnd, table, charts: drawn });
  }
  return reports;
}

/** The day of the reports on how things are: the last of the days, where the book goes on after them. */
export function endOf({ to }: Span, asOf: Day): Day {
  return earlierDay(to, asOf);
}

/** The summary of the year or the quarter, where the span is just that. */
function periodOf(studio: Book['studio'], { from, to }: Span): string | undefined {
  const years = [Number(from.slice(0, 4)) - 1, Number(from.slice(0, 4))].map(String);
  const periods = years.flatMap((year) => {
    const whole = taxPeriod(year, studio.yearStarts);
    return [...(whole ? [whole] : []), ...quartersOf(year, studio.yearStarts)];
  });
  return periods.find((each) => each.from === from && each.to === to)?.name;
}
