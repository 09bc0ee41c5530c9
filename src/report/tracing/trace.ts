/** A trace as a table: what is in it, what it went into, where the pieces are, and who has them. */
import type { Book } from '../../book.ts';
import type { TracePart } from '../../groups.ts';
import { sentences } from '../../in-words.ts';
import type { Flows } from '../../reckon/flows.ts';
import type { TraceStart } from '../../reckon/tracing/start.ts';
import { traced } from '../../reckon/tracing/trace.ts';
import { backed, cellsOf, tableHead, type BackedRow } from '../head.ts';
import type { ColumnOf, Table } from '../table.ts';
import { inShort, toldTogether, type TraceRow } from './trace-summary.ts';
import { traceVerdict } from './trace-verdict.ts';
import { TRACE_HEADINGS, traceLines } from './trace-lines.ts';

const TRACE_COLUMNS: readonly ColumnOf<Required<TraceRow>>[] = [
  { key: 'part', title: 'Part', type: 'text' },
  { key: 'kind', title: 'Kind', type: 'text', dataOnly: true },
  { key: 'record', title: 'Record', type: 'id' },
  { key: 'depth', title: 'Depth', type: 'count', dataOnly: true },
  { key: 'date', title: 'Date', type: 'date' },
  { key: 'what', title: 'What', type: 'text', stepsFrom: 'depth' },
  { key: 'lots', title: 'Lots', type: 'text', dataOnly: true },
  { key: 'where', title: 'Where', type: 'text' },
  { key: 'place', title: 'Place', type: 'text', dataOnly: true },
  { key: 'buyer', title: 'Buyer', type: 'text', dataOnly: true },
  { key: 'link', title: 'Link', type: 'text', dataOnly: true },
  { key: 'least', title: 'Recorded', type: 'count' },
  { key: 'most', title: 'Possible', type: 'count' },
];

/** Of what is told together the records have no room. */
const FOLDED_COLUMNS: readonly ColumnOf<Required<TraceRow>>[] = [
  { key: 'part', title: 'Part', type: 'text' },
  { key: 'what', title: 'What', type: 'text' },
  { key: 'where', title: 'Where', type: 'text' },
  { key: 'times', title: 'Records', type: 'count' },
  { key: 'least', title: 'Recorded', type: 'count' },
  { key: 'most', title: 'Possible', type: 'count' },
];

/** How much of a trace is told. */
export interface TraceAsked {
  readonly origin: TraceStart;
  readonly only?: TracePart | undefined;
  /** `lines`: for programs, each line alone; `whole`: with a summary; `folded`: what is alike in one line. */
  readonly told: 'lines' | 'whole' | 'folded';
}

/** Everything that a trace finds, or one part of it. */
export function traceTable(book: Book, flows: Flows, { origin, only, told }: TraceAsked): Table {
  const found = traced(book, flows, origin);
  const lines = traceLines(book, found).filter(
    ({ part }) => only === undefined || part === SHOWN[only],
  );
  const short = told === 'lines' ? [] : inShort(found, lines);
  const rows = [...short, ...(told === 'folded' ? toldTogether(lines) : lines)];
  const isFolded = rows.length < short.length + lines.length;
  const columns = isFolded ? FOLDED_COLUMNS : TRACE_COLUMNS;
  return {
    report: 'trace',
    title: `What happened to ${origin.title}`,
    ...tableHead(book, flows.stock.asOf),
    columns,
    ...backed(rows.map((row) => backedRow(row, columns))),
    emphases: rows.map((_, at) => ({ kept: undefined, strong: at < short.length })),
    partedBy: 'part',
    toTick: true,
    verdict: only === undefined && told !== 'lines' ? traceVerdict(lines, short) : undefined,
    notes: traceNotes(isFolded),
  };
}

function backedRow(line: TraceRow, columns: typeof TRACE_COLUMNS): BackedRow {
  const { record, lots = '', records = [] } = line;
  const ids = [record, ...lots.split(' '), ...records].filter((id) => id !== '');
  return { row: cellsOf(columns, line), behind: [...new Set(ids)] };
}

const SHOWN: Readonly<Record<TracePart, string>> = {
  sold: TRACE_HEADINGS.sold,
  standing: TRACE_HEADINGS.standing,
  galleries: TRACE_HEADINGS.galleries,
};

function traceNotes(isFolded: boolean): string[] {
  return sentences(
    'Recorded: a record names it. Possible: no record rules it out, so it may be so many or none.',
    isFolded &&
      'What is alike is told in one line. Every record: --full. A list to tick: --as html, or --as csv.',
    'Whether ware is to be called back, and who is to be told, is for local rules and a laboratory to say.',
  );
}
