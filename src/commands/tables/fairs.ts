/** Which table `saggar fairs` shows: all fairs of a span, or one. */
import { flow } from '../../reckon/flow.ts';
import { fairTable, fairsTable } from '../../report/fairs.ts';
import { unknownId } from '../ids.ts';
import type { MakeTable } from '../show.ts';
import { askedSpan } from '../span.ts';
import { isRefusal } from '../world.ts';

/** Shows every fair of a span of days, or with an id one fair line by line. */
export const fairs: MakeTable = ({ book, asOf }, asked) => {
  const flows = flow(book, asOf);
  const { argument } = asked;
  if (argument !== undefined)
    return fairTable(book, flows, argument) ?? unknownId('fair', argument, [...book.fairs.keys()]);
  const span = askedSpan(asked, book, asOf);
  return isRefusal(span) ? span : fairsTable(book, flows, span);
};
