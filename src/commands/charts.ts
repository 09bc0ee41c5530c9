/** The charts that go on a report's page, by its command. */
import type { Book } from '../book.ts';
import { flow } from '../reckon/flow.ts';
import type { Flows } from '../reckon/flows.ts';
import type { Span } from '../number/date.ts';
import { expenseChart, firingCourseChart, incomeCharts, lossChart } from '../report/charts.ts';
import type { Opened } from './open.ts';
import { askedSpan, askedYear } from './span.ts';
import { askedBasis, askedPeriod } from './tables/quarter.ts';
import { isRefusal, type Asked } from './world.ts';
import type { Chart } from '../report/page.ts';

/** The charts of a command's page; none where it has none, or shows something else than its main table. */
export function chartsFor(asked: Asked, opened: Opened): readonly Chart[] {
  const { book, asOf } = opened;
  const flows = flow(book, asOf);
  if (asked.command === 'quarter') return quarterCharts(asked, opened, flows);
  if (asked.argument !== undefined || asked.options['chart'] === true) return [];
  const year = askedYear(asked, book, asOf);
  const span = askedSpan(asked, book, asOf);
  if (isRefusal(year) || isRefusal(span)) return [];
  switch (asked.command) {
    case 'income':
      return handoverCharts(book, flows, year);
    case 'losses':
      return [lossChart(book, flows, span)];
    case 'firings':
      return [firingCourseChart(book, flows, span)];
    default:
      return [];
  }
}

/** What whoever takes the books over asks for at a glance. */
export function handoverCharts(book: Book, flows: Flows, period: Span): readonly Chart[] {
  return [
    ...incomeCharts(book, flows, period),
    expenseChart(book, flows, period),
    lossChart(book, flows, period),
    firingCourseChart(book, flows, period),
  ];
}

/** Of the business year up to the end of the quarter, on the basis that is asked for. */
function quarterCharts(asked: Asked, opened: Opened, flows: Flows): readonly Chart[] {
  const period = askedPeriod(opened, asked);
  const basis = askedBasis(asked);
  if (isRefusal(period) || (typeof basis === 'object' && isRefusal(basis))) return [];
  const { studio } = opened.book;
  const book = basis === undefined ? opened.book : { ...opened.book, studio: { ...studio, basis } };
  return handoverCharts(book, flows, { from: period.yearFrom, to: period.to });
}
