/** `saggar income`: what a year earned by product, channel, month, class or buyer. */
import { yearOf } from '../../number/date.ts';
import { flow } from '../../reckon/flow.ts';
import { taxView } from '../../reckon/tax/tax-view.ts';
import { firingCourseChart } from '../../report/charts/firings.ts';
import { hourCharts, incomeCharts } from '../../report/charts/income.ts';
import { lossChart } from '../../report/charts/losses.ts';
import { expenseChart } from '../../report/charts/tax.ts';
import { incomeTable } from '../../report/income.ts';
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
  charts: (opened, { options }, table) => {
    const { book, asOf } = opened;
    const period = askedYear(options, book, asOf);
    if (isRefusal(period)) return [];
    const { by = 'product' } = options;
    const flows = flow(book, asOf);
    const own = incomeCharts({ book, flows, period }, table, by);
    if (by !== 'product') return own;
    const sheet = usedSheet(opened, yearOf(period.from, book.studio.yearStarts));
    return [
      ...own,
      ...hourCharts({ book, flows, period }, table),
      expenseChart({ ...taxView(book, flows), sheet }, period),
      lossChart(book, flows, period),
      firingCourseChart(book, flows, period),
    ];
  },
};
