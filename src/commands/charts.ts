/** The charts that go on a report's page, by its command. */
import { flow } from '../reckon/flow.ts';
import type { Chart } from '../report/chart.ts';
import { firingCourseChart, incomeCharts, lossChart } from '../report/charts.ts';
import type { Opened } from './open.ts';
import { askedSpan, askedYear } from './span.ts';
import { isRefusal, type Asked } from './world.ts';

/** The charts of a command's page; none where it has none, or shows something else than its main table. */
export function chartsFor(asked: Asked, { book, asOf }: Opened): readonly Chart[] {
  if (asked.argument !== undefined || asked.options['chart'] === true) return [];
  const flows = flow(book, asOf);
  const year = askedYear(asked, book, asOf);
  const span = askedSpan(asked, book, asOf);
  if (isRefusal(year) || isRefusal(span)) return [];
  switch (asked.command) {
    case 'income':
      return [
        ...incomeCharts(book, flows, year),
        lossChart(book, flows, year),
        firingCourseChart(book, flows, year),
      ];
    case 'losses':
      return [lossChart(book, flows, span)];
    case 'firings':
      return [firingCourseChart(book, flows, span)];
    default:
      return [];
  }
}
