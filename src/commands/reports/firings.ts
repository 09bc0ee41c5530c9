/** `saggar firings`: what firings cost, or the load of one. */
import { flow } from '../../reckon/flow.ts';
import { firingCharts, loadCharts } from '../../report/charts/firings.ts';
import { firingLoad, firingsTable } from '../../report/firings.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownId } from '../ids.ts';
import type { Report } from './show.ts';
import { askedSpan } from './span.ts';
import { isRefusal } from '../world.ts';

/** Every firing's cost in a span of days, or with an id one firing's load. */
export const firings: Report<OptionsOf<'firings'>> = {
  table: ({ book, asOf }, { argument, options }) => {
    const flows = flow(book, asOf);
    if (argument !== undefined)
      return (
        firingLoad(book, flows, argument) ?? unknownId('firing', argument, book.firings.keys())
      );
    const span = askedSpan(options, book, asOf);
    return isRefusal(span) ? span : firingsTable(book, flows, span);
  },
  charts: ({ book, asOf }, { argument, options }, table) => {
    if (argument !== undefined) return loadCharts(table);
    const span = askedSpan(options, book, asOf);
    return isRefusal(span) ? [] : firingCharts(book, flow(book, asOf), span);
  },
};
