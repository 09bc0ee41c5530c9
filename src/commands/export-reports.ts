/** The reports of an export: every table that a command shows, of the days that are asked for. */
import type { Book } from '../book.ts';
import { countOf } from '../fold.ts';
import { dayReport } from '../report/day.ts';
import type { Chart } from '../report/page.ts';
import { chartsFor } from './charts.ts';
import type { NamedReport } from '../export/records.ts';
import { flow } from '../reckon/flow.ts';
import { quartersOf, taxPeriod } from '../reckon/tax-period.ts';
import type { Opened } from './open.ts';
import type { MakeTable } from './show.ts';
import { costs } from './tables/costs.ts';
import { fairs } from './tables/fairs.ts';
import { firings } from './tables/firings.ts';
import { galleries } from './tables/galleries.ts';
import { income } from './tables/income.ts';
import { losses } from './tables/losses.ts';
import { materials } from './tables/materials.ts';
import { pieces } from './tables/pieces.ts';
import { quarter } from './tables/quarter.ts';
import { isRefusal, type Asked, type Refusal } from './world.ts';

/** A stretch of days, both ends within. */
export interface ExportSpan {
  readonly from: string;
  readonly to: string;
}

/** A report with the charts of its page: of each command, its usual report has them. */
export interface PagedReport extends NamedReport {
  readonly charts: readonly Chart[];
}

interface Wanted {
  readonly name: string;
  readonly command: string;
  readonly make: MakeTable;
  readonly argument?: string;
  readonly options?: Asked['options'];
  /** Whether it is of a span, and not of how things stand on the day. */
  readonly spans?: boolean;
}

/** The day's page without what only its own command can say: what git holds. */
const day: MakeTable = ({ book, asOf, findings, errors }) =>
  dayReport(book, flow(book, asOf), {
    errors,
    warnings: countOf(findings) - errors,
    uncommitted: undefined,
    typed: ({ program, words }) => `${program} ${words}`,
  }).table;

const REPORTS: readonly Wanted[] = [
  ...['product', 'month', 'channel', 'class', 'buyer'].map((by) => ({
    name: by === 'product' ? 'income' : `income-${by}`,
    command: 'income',
    make: income,
    options: { by },
    spans: true,
  })),
  { name: 'costs', command: 'costs', make: costs },
  { name: 'firings', command: 'firings', make: firings, spans: true },
  ...['firing', 'product', 'recipe', 'cause', 'month'].map((by) => ({
    name: by === 'firing' ? 'losses' : `losses-${by}`,
    command: 'losses',
    make: losses,
    options: { by },
    spans: true,
  })),
  { name: 'losses-chart', command: 'losses', make: losses, options: { chart: true }, spans: true },
  { name: 'materials', command: 'materials', make: materials },
  {
    name: 'materials-where',
    command: 'materials',
    make: materials,
    options: { where: true },
    spans: true,
  },
  { name: 'pieces', command: 'pieces', make: pieces },
  { name: 'pieces-place', command: 'pieces', make: pieces, options: { by: 'place' } },
  { name: 'galleries', command: 'galleries', make: galleries },
  { name: 'day', command: 'day', make: day },
  { name: 'fairs', command: 'fairs', make: fairs, spans: true },
];

/** All reports of a book, or why one of them can't be made; says which one is being made. */
export function exportReports(
  opened: Opened,
  span: ExportSpan,
  say: (name: string) => void,
): readonly PagedReport[] | Refusal {
  const reports: PagedReport[] = [];
  for (const wanted of [...quarterReports(opened.book, span), ...REPORTS]) {
    const { name, command, make, argument, options = {}, spans } = wanted;
    const days = spans === true ? { from: span.from, to: span.to } : {};
    const asked = { command, argument, words: [], options: { ...options, ...days } };
    say(name);
    const table = make(opened, asked);
    if (isRefusal(table)) return table;
    const charts = name === command ? chartsFor(asked, opened) : [];
    reports.push({ name, table, charts });
  }
  return reports;
}

/** The summary of the year or the quarter, where the span is just that. */
function quarterReports({ studio }: Book, { from, to }: ExportSpan): readonly Wanted[] {
  const years = [Number(from.slice(0, 4)) - 1, Number(from.slice(0, 4))].map(String);
  const periods = years.flatMap((year) => {
    const whole = taxPeriod(year, studio.yearStarts);
    return [...(whole ? [whole] : []), ...quartersOf(year, studio.yearStarts)];
  });
  const period = periods.find((each) => each.from === from && each.to === to);
  if (period === undefined) return [];
  return [{ name: 'quarter', command: 'quarter', make: quarter, argument: period.name }];
}
