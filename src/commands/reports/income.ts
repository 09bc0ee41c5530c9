/** `saggar income`: what a year earned by product, channel, month, class or buyer. */
import type { Book } from '../../book.ts';
import type { Span } from '../../number/date.ts';
import { flow } from '../../reckon/flow.ts';
import type { Flows } from '../../reckon/flows.ts';
import { expenseChart, firingCourseChart, incomeCharts, lossChart } from '../../report/charts.ts';
import { incomeTable } from '../../report/income.ts';
import type { Chart } from '../../report/page.ts';
import type { OptionsOf } from '../catalogue.ts';
import type { Report } from './show.ts';
import { askedYear } from './span.ts';
import { isRefusal } from '../world.ts';

/** The income of the business year, or of the days that are asked for. */
export const income: Report<OptionsOf<'income'>> = {
  table: ({ book, asOf }, { options }) => {
    const period = askedYear(options, book, asOf);
    if (isRefusal(period)) return period;
    return incomeTable(book, flow(book, asOf), { by: options.by ?? 'product', period });
  },
  charts: ({ book, asOf }, { options }) => {
    const period = askedYear(options, book, asOf);
    return isRefusal(period) ? [] : handoverCharts(book, flow(book, asOf), period);
  },
};

/** What whoever takes the books over asks for at a glance. */
export function handoverCharts(book: Book, flows: Flows, period: Span): readonly Chart[] {
  return [
    ...incomeCharts(book, flows, period),
    expenseChart(book, flows, period),
    lossChart(book, flows, period),
    firingCourseChart(book, flows, period),
  ];
}
