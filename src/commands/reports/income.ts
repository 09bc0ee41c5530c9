/** `saggar income`: what a year earned by product, channel, month, class or buyer. */
import { yearOf, type Span } from '../../number/date.ts';
import { flow } from '../../reckon/flow.ts';
import { taxView, type TaxView } from '../../reckon/tax/tax-view.ts';
import { expenseChart, firingCourseChart, incomeCharts, lossChart } from '../../report/charts.ts';
import { incomeTable } from '../../report/income.ts';
import type { Chart } from '../../report/page.ts';
import type { OptionsOf } from '../catalogue.ts';
import type { Report } from './show.ts';
import { askedYear } from './span.ts';
import { usedSheet } from './tax-sheets.ts';
import { isRefusal } from '../world.ts';

/** The income of the business year, or of the days that are asked for. */
export const income: Report<OptionsOf<'income'>> = {
  table: ({ book, asOf }, { options }) => {
    const period = askedYear(options, book, asOf);
    if (isRefusal(period)) return period;
    return incomeTable(book, flow(book, asOf), { by: options.by ?? 'product', period });
  },
  charts: (opened, { options }) => {
    const { book, asOf } = opened;
    const period = askedYear(options, book, asOf);
    if (isRefusal(period)) return [];
    const sheet = usedSheet(opened, yearOf(period.from, book.studio.yearStarts));
    return handoverCharts({ ...taxView(book, flow(book, asOf)), sheet }, period);
  },
};

/** What whoever takes the books over asks for at a glance. */
export function handoverCharts(view: TaxView, period: Span): readonly Chart[] {
  const { book, flows } = view;
  return [
    ...incomeCharts(book, flows, period),
    expenseChart(view, period),
    lossChart(book, flows, period),
    firingCourseChart(book, flows, period),
  ];
}
