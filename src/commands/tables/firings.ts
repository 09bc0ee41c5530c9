/** Which table `saggar firings` shows: the cost of firings, or the load of one. */
import { flow } from '../../reckon/flow.ts';
import { firingLoad, firingsTable } from '../../report/firings.ts';
import type { Table } from '../../report/table.ts';
import { unknownId } from '../ids.ts';
import type { Opened } from '../open.ts';
import { askedSpan } from '../span.ts';
import { isRefusal, type Asked, type Refusal } from '../world.ts';
import type { MakeTable } from '../show.ts';

/** Shows every firing's cost in a span of days, or with an id one firing's load. */
export const firings: MakeTable = (opened, asked) =>
  asked.argument === undefined ? costTable(asked, opened) : loadTable(opened, asked.argument);

function costTable(asked: Asked, { book, asOf }: Opened): Table | Refusal {
  const span = askedSpan(asked, book, asOf);
  return isRefusal(span) ? span : firingsTable(book, flow(book, asOf), span);
}

function loadTable({ book, asOf }: Opened, id: string): Table | Refusal {
  const load = firingLoad(book, flow(book, asOf), id);
  return load ?? unknownId('firing', id, [...book.firings.keys()]);
}
