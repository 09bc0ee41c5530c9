/** `saggar losses`: loss rates, or each firing beside its limits. */
import { flow } from '../../reckon/flow.ts';
import {
  groupLimitCharts,
  limitCharts,
  lossChart,
  lossRateCharts,
} from '../../report/charts/losses.ts';
import { spanInWords } from '../../report/head.ts';
import { chartedGroups, lossChartTable, lossChartsTable } from '../../report/loss-charts.ts';
import { lossesTable } from '../../report/losses.ts';
import type { OptionsOf } from '../catalogue.ts';
import type { Report } from './show.ts';
import { askedSpan } from './span.ts';
import { isRefusal } from '../world.ts';

/** Loss rates by what is asked for, or with `--chart` which firings are out of line, of each group too. */
export const losses: Report<OptionsOf<'losses'>> = {
  table: ({ book, asOf }, { options }) => {
    const span = askedSpan(options, book, asOf);
    if (isRefusal(span)) return span;
    const flows = flow(book, asOf);
    const { by = 'firing', chart } = options;
    if (!chart) return lossesTable(book, flows, { by, span });
    if (by === 'firing') return lossChartTable(book, flows, span);
    if (by === 'cause' || by === 'month') return { refused: NOT_CHARTED[by] };
    return lossChartsTable(book, flows, { by, span });
  },
  charts: ({ book, asOf }, { options }, table) => {
    const span = askedSpan(options, book, asOf);
    if (isRefusal(span)) return [];
    const { by = 'firing', chart } = options;
    const flows = flow(book, asOf);
    const words = spanInWords(span);
    if (!chart)
      return by === 'firing' ? [lossChart(book, flows, span)] : lossRateCharts(table, by, words);
    if (by === 'firing') return limitCharts(table, words);
    if (by === 'cause' || by === 'month') return [];
    return groupLimitCharts(table, chartedGroups(book, flows, { by, span }), words);
  },
};

const NOT_CHARTED = {
  cause:
    '--chart is of all that a firing lost, whatever the cause; leave out --by cause, or --chart',
  month: '--chart has the firings in the order of their days; leave out --by month, or --chart',
} as const;
