/** A trace in short: how many are where and who has them; and long parts told by what is alike. */
import { grouped } from '../../grouping.ts';
import { counted } from '../../in-words.ts';
import { sumOfBounds, type Trace } from '../../reckon/tracing/trace.ts';
import type { Bounds } from '../../reckon/tracing/whereabouts.ts';
import { TRACE_HEADINGS, type TraceLine } from './trace-lines.ts';

/** A row of a trace: one line, or several that are alike. */
export interface TraceRow extends TraceLine {
  /** How many lines are told in it, where it is of several. */
  readonly times?: number;
  /** Ids of the records that it stands for, where it is of several. */
  readonly records?: readonly string[];
}

const IN_SHORT = 'In short';

/** How many pieces there are of it, and where; of the parts that are shown. */
export function inShort(found: Trace, lines: readonly TraceLine[]): TraceRow[] {
  const all = sumOfBounds(found.lots, 'most');
  const parts = grouped(lines, ({ part }) => part);
  const of = (part: keyof typeof TRACE_HEADINGS): readonly TraceLine[] =>
    parts.get(TRACE_HEADINGS[part]) ?? [];
  const told = (what: string, some: readonly TraceLine[], where = ''): TraceRow[] =>
    some.length === 0 ? [] : [shortRow({ what, where }, some, all)];
  const sold = of('sold').filter(({ kind }) => kind !== 'returned');
  const known = sold.filter(({ buyer }) => buyer !== undefined);
  const buyers = new Set(known.map(({ buyer }) => buyer));
  return [
    ...told(`pieces with it (${counted(of('lots').length, 'lot')})`, of('lots')),
    ...told('still in the studio', of('standing'), 'studio'),
    ...[...grouped(of('galleries'), ({ where = '' }) => where)].flatMap(([where, some]) =>
      told('at a gallery', some, where),
    ),
    ...told(`sold to ${counted(buyers.size, 'buyer')} on record`, known),
    ...told(
      'sold to nobody on record',
      sold.filter(({ buyer }) => buyer === undefined),
    ),
    ...told(
      'brought back',
      of('sold').filter(({ kind }) => kind === 'returned'),
    ),
    ...told('gone without a sale', of('gone')),
  ];
}

/** No more pieces can be anywhere than there are with it. */
function shortRow(
  { what, where }: Pick<TraceRow, 'what' | 'where'>,
  some: readonly TraceLine[],
  all: number,
): TraceRow {
  const { records = [] } = inOneLine(some);
  const line = { part: IN_SHORT, kind: 'summary', of: what, what, where: where ?? '' };
  return { ...line, record: '', depth: 0, link: '', records, ...boundsOf(some, all) };
}

/** So many lines are told one by one, whatever the parts. */
const FEW_LINES = 60;
/** So many lines of a part are told one by one; so many of what is alike at the most. */
const FEW = 8;
const MOST_GROUPS = 12;

/** Long parts are told by what is alike, the largest first; what is left over in one line. */
export function toldTogether(lines: readonly TraceLine[]): TraceRow[] {
  if (lines.length <= FEW_LINES) return [...lines];
  return [...grouped(lines, ({ part }) => part).values()].flatMap((part) =>
    part.length <= FEW ? part : cutShort(byLikeness(part)),
  );
}

function byLikeness(part: readonly TraceLine[]): TraceRow[] {
  const alike = [...grouped(part, ({ of, where = '' }) => `${of}\n${where}`).values()];
  const rows = alike.map((some): TraceRow => {
    const [only, ...others] = some;
    return others.length === 0 && only ? { ...only, depth: 0, times: 1 } : inOneLine(some);
  });
  return rows.sort((a, b) => (b.most ?? 0) - (a.most ?? 0));
}

function cutShort(rows: readonly TraceRow[]): TraceRow[] {
  const rest = rows.slice(MOST_GROUPS);
  if (rest.length < 2) return [...rows];
  const all = inOneLine(rest);
  return [...rows.slice(0, MOST_GROUPS), { ...all, what: `and ${rest.length} more`, where: '' }];
}

/** Several lines as one. */
function inOneLine(some: readonly TraceRow[]): TraceRow {
  const {
    part = '',
    kind = '',
    of = '',
    where = '',
    link = '',
  } = some[0] ?? ({} as Partial<TraceRow>);
  const ids = some.flatMap(({ record, lots = '', records = [] }) => [
    record,
    ...lots.split(' '),
    ...records,
  ]);
  return {
    ...{ part, kind, of, where, link },
    record: '',
    depth: 0,
    what: of,
    times: some.reduce((all, { times = 1 }) => all + times, 0),
    records: [...new Set(ids.filter((id) => id !== ''))],
    ...(some.some(({ most }) => most !== undefined) && boundsOf(some, Infinity)),
  };
}

function boundsOf(some: readonly TraceRow[], all: number): Bounds {
  const bounds = some.map(({ least = 0, most = 0 }) => ({ least, most }));
  return { least: sumOfBounds(bounds, 'least'), most: Math.min(all, sumOfBounds(bounds, 'most')) };
}
