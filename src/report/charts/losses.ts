/** Charts of losses: rates between their bounds, and each firing beside the limits for its kind. */
import type { DaysUpTo } from '../../among.ts';
import type { Book } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import type { LossGroup } from '../../groups.ts';
import { counted } from '../../in-words.ts';
import { ZERO, isDecimal, type Decimal } from '../../number/decimal.ts';
import type { Flows } from '../../reckon/flows.ts';
import { spanInWords } from '../head.ts';
import { loneGroup } from '../loss-words.ts';
import { lossesTable } from '../losses.ts';
import type { Chart } from '../page.ts';
import type { Cell, Column, Row, Table } from '../table.ts';
import { chartOfRows, firstRows, isSome, lastRows, whatColumn } from './drawn-rows.ts';

/** Loss rates by kind of firing, each between its 95 % bounds. */
export function lossChart(book: Book, flows: Flows, span: DaysUpTo): Chart {
  return {
    shape: 'intervals',
    title: 'Loss rate by kind of firing, with its 95 % interval',
    span: spanInWords(span),
    table: lossesTable(book, flows, { by: 'firing', span }),
    label: 'group',
    value: 'lossRate',
    count: 'in',
    bounds: { low: 'low', high: 'high' },
  };
}

/** The same of whatever losses are counted by; of months their course, since they follow on each other. */
export function lossRateCharts(table: Table, by: LossGroup, span: string): Chart[] {
  return by === 'month' ? monthCourses(table, span) : [groupRates(table, by, span)];
}

/** Of many groups those with the most pieces, for the others say little; what loses most on top. */
function groupRates(table: Table, by: LossGroup, span: string): Chart {
  const value = by === 'cause' ? 'faultRate' : 'lossRate';
  const rows = table.rows.filter((row) => isDecimal(row[value]));
  const most = firstRows(
    rows.toSorted((one, other) => Number(other['in']) - Number(one['in'])),
    'largest',
  );
  const named = most.rows.map((row) => ({ ...row, what: groupInWords(row, by) }));
  const rate = by === 'cause' ? 'Share of pieces with each fault' : 'Loss rate';
  return chartOfRows(table, {
    shape: 'intervals',
    title: `${rate}, with its 95 % interval`,
    span,
    label: 'what',
    value,
    more: [whatColumn('Of')],
    also: { count: 'in', bounds: { low: 'low', high: 'high' } },
    some: {
      ...most,
      rows: named.toSorted((one, other) => rateIn(other, value).cmp(rateIn(one, value))),
    },
  });
}

function rateIn(row: Row, key: string): Decimal {
  const cell: Cell | undefined = row[key];
  return isDecimal(cell) ? cell : ZERO;
}

/** `mug, glaze`; a product has all its firings in one row. */
function groupInWords({ group, firing }: Row, by: LossGroup): string {
  return [loneGroup(String(group), by), firing]
    .filter((each) => typeof each === 'string' && each !== '')
    .join(', ');
}

/** A course for each kind of firing that ran in several months and lost something. */
function monthCourses(table: Table, span: string): Chart[] {
  const kinds = grouped(table.rows, ({ firing }) => String(firing));
  return [...kinds]
    .filter(([, rows]) => rows.length > 1 && rows.some(({ lost }) => isSome(lost)))
    .map(([kind, rows]) =>
      chartOfRows(table, {
        shape: 'course',
        title: `Loss rate by month: ${kind}`,
        span,
        ...{
          label: 'group',
          value: 'lossRate',
          also: { count: 'in' },
          some: lastRows(rows, MOST_POINTS),
        },
      }),
    );
}

/** So many points can be told from each other on a telephone. */
const MOST_POINTS = 60;

const OUT: Column = { key: 'out', title: 'Out of line', type: 'text' };

/** A control chart for each kind of firing that lost something: rates between limits that step, first those with one out of line. */
export function limitCharts(table: Table, span: string): Chart[] {
  return [...grouped(table.rows, ({ kind }) => String(kind))]
    .filter(([, rows]) => rows.length > 1 && rows.some(({ lost }) => isSome(lost)))
    .toSorted(([, one], [, other]) => Number(hasOut(other)) - Number(hasOut(one)))
    .map(([kind, rows]) => limitChart(table, rows, { title: `Losses in ${kind} firings`, span }));
}

function hasOut(rows: readonly Row[]): boolean {
  return rows.some(({ outOfLine }) => outOfLine);
}

/** One control chart of firings in their order. */
function limitChart(
  table: Table,
  rows: readonly Row[],
  { title, span }: Pick<Chart, 'title' | 'span'>,
): Chart {
  const named = rows.map((row): Row => ({ ...row, out: row['outOfLine'] ? row['firing'] : null }));
  const some = lastRows(named, MOST_POINTS);
  const earlier = named
    .slice(0, -some.rows.length)
    .filter(({ out }) => typeof out === 'string').length;
  const words = earlier === 0 ? '' : `; ${counted(earlier, 'earlier one')} out of line too`;
  return chartOfRows(table, {
    shape: 'control',
    title: `${title}, each beside its limits`,
    span,
    label: 'date',
    value: 'lossRate',
    more: [OUT],
    also: { named: OUT.key, count: 'in', bounds: { low: 'lower', high: 'upper' } },
    some: { ...some, words: `${some.words}${words}` },
  });
}

/** The small charts of a report that are drawn at full size: those with a firing out of line, then the largest. */
const MOST_GROUPS = 6;

/** A group's firings of one kind, as the table of all firings has them. */
interface GroupFirings extends Pick<Table, 'columns' | 'rows'> {
  readonly name: string;
}

/** Control charts of the groups that most ask to be looked at. */
export function groupLimitCharts(
  table: Table,
  groups: readonly GroupFirings[],
  span: string,
): Chart[] {
  return groups
    .filter(({ rows }) => rows.length > 1 && rows.some(({ lost }) => isSome(lost)))
    .toSorted(
      (one, other) =>
        Number(hasOut(other.rows)) - Number(hasOut(one.rows)) ||
        other.rows.length - one.rows.length,
    )
    .slice(0, MOST_GROUPS)
    .map(({ name, columns, rows }) =>
      limitChart({ ...table, columns }, rows, { title: name, span }),
    );
}
