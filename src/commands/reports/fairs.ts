/** `saggar fairs`: what fairs brought in; all of a span, or one line by line. */
import { flow } from '../../reckon/flow.ts';
import { fairTable, fairsTable } from '../../report/fairs.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownId } from '../ids.ts';
import type { Report } from './show.ts';
import { askedSpan } from './span.ts';
import { isRefusal } from '../world.ts';

/** Every fair of a span of days, or with an id one fair line by line. */
export const fairs: Report<OptionsOf<'fairs'>> = {
  table: ({ book, asOf }, { argument, options }) => {
    const flows = flow(book, asOf);
    if (argument !== undefined)
      return fairTable(book, flows, argument) ?? unknownId('fair', argument, book.fairs.values());
    const span = askedSpan(options, book, asOf);
    return isRefusal(span) ? span : fairsTable(book, flows, span);
  },
};
