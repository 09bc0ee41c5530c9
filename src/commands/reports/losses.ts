/** `saggar losses`: loss rates, or each firing beside its limits. */
import { flow } from '../../reckon/flow.ts';
import { lossChart } from '../../report/charts.ts';
import { lossChartTable, lossesTable } from '../../report/losses.ts';
import type { OptionsOf } from '../catalogue.ts';
import type { Report } from './show.ts';
import { askedSpan } from './span.ts';
import { isRefusal } from '../world.ts';

/** Loss rates by what is asked for, or with `--chart` which firings are out of line. */
export const losses: Report<OptionsOf<'losses'>> = {
  table: ({ book, asOf }, { options }) => {
    const span = askedSpan(options, book, asOf);
    if (isRefusal(span)) return span;
    const flows = flow(book, asOf);
    if (options.chart) return lossChartTable(book, flows, span);
    return lossesTable(book, flows, { by: options.by ?? 'firing', span });
  },
  charts: ({ book, asOf }, { options }) => {
    const span = askedSpan(options, book, asOf);
    return options.chart || isRefusal(span) ? [] : [lossChart(book, flow(book, asOf), span)];
  },
};
