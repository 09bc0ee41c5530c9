/** `saggar fairs`: what fairs brought in; all of a span, or one line by line. */
import { flow } from '../../reckon/flow.ts';
import type { Book, Fair } from '../../book.ts';
import type { Flows } from '../../reckon/flows.ts';
import { fairCharts, fairItemCharts } from '../../report/charts/selling.ts';
import { fairTable, fairsTable } from '../../report/fairs.ts';
import { byDate } from '../../text-order.ts';
import { bringTable } from '../../report/making/bring.ts';
import type { Table } from '../../report/table.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownId } from '../ids.ts';
import type { Report } from './show.ts';
import { askedSpan } from './span.ts';
import { isRefusal, type Refusal } from '../world.ts';

/** Every fair of a span of days, or with an id one fair line by line. */
export const fairs: Report<OptionsOf<'fairs'>> = {
  table: ({ book, asOf }, { argument, options }) => {
    const flows = flow(book, asOf);
    if (options.bring === true) return bringTo(book, flows, argument);
    if (argument !== undefined)
      return fairTable(book, flows, argument) ?? unknownId('fair', argument, book.fairs.values());
    const span = askedSpan(options, book, asOf);
    return isRefusal(span) ? span : fairsTable(book, flows, span);
  },
  charts: (_, { argument, options }, table) => {
    if (options.bring === true) return [];
    return argument === undefined ? fairCharts(table) : fairItemCharts(table);
  },
};

/** What to bring to the fair that is named, else to the next one. */
function bringTo(book: Book, flows: Flows, id: string | undefined): Table | Refusal {
  const fair = id === undefined ? nextFair(book, flows) : book.fairs.get(id);
  if (fair) return bringTable(book, flows, fair);
  return id === undefined
    ? { refused: 'no fair is on record yet; record one with saggar add fairs' }
    : unknownId('fair', id, book.fairs.values());
}

/** The first that is not over; where none is to come, the last. */
function nextFair(book: Book, { stock: { asOf } }: Flows): Fair | undefined {
  const fairs = [...book.fairs.values()].sort(byDate);
  return fairs.find(({ date, last = date }) => last >= asOf) ?? fairs.at(-1);
}
