/** Charts of income: by month beside the year before, by what earned it, and what an hour of work was left. */
import type { Book } from '../../book.ts';
import type { IncomeGroup } from '../../groups.ts';
import { daysBetween, type Day, type Span } from '../../number/date.ts';
import type { Flows } from '../../reckon/flows.ts';
import { spanInWords } from '../head.ts';
import { incomeTable } from '../income.ts';
import type { Chart } from '../page.ts';
import type { Column, Row, Table } from '../table.ts';
import { chartOfRows, firstRows, isSome, nameIn, whatColumn } from './drawn-rows.ts';

/** The book of a report on income, and the days that it is of. */
interface IncomeAsked {
  readonly book: Book;
  readonly flows: Flows;
  readonly period: Span;
}

/** Net income month by month, and of each item, channel or whatever the report is by, with the margin in it. */
export function incomeCharts(asked: IncomeAsked, table: Table, by: IncomeGroup): readonly Chart[] {
  if (by === 'month') return [incomeMonths(asked, table)];
  const group = groupChart(asked, table, by);
  // Of classes alone the report has no months.
  return by === 'class' ? [group] : [incomeMonths(asked, monthsOf(asked)), group];
}

function monthsOf({ book, flows, period }: IncomeAsked): Table {
  return incomeTable(book, flows, { by: 'month', period });
}

const NET_BEFORE: Column = { key: 'before', title: 'Year before', type: 'money' };

/** Each month beside that of the year before, where there was one. */
function incomeMonths(asked: IncomeAsked, table: Table): Chart {
  const before = beforeByMonth(asked);
  const own = new Map(table.rows.map((row) => [String(row['item']), row]));
  const months = [...new Set([...own.keys(), ...before.keys()])].sort();
  const rows = months.map((item): Row => ({
    item,
    net: null,
    ...own.get(item),
    before: before.get(item),
  }));
  const isBeside = before.size > 0;
  return chartOfRows(table, {
    shape: 'columns',
    title: isBeside ? 'Net income by month, beside the year before' : 'Net income by month',
    span: spanInWords(asked.period),
    label: 'item',
    value: 'net',
    ...(isBeside && { also: { against: NET_BEFORE.key }, more: [NET_BEFORE] }),
    some: { rows, words: '' },
    totals: { item: 'total', net: table.totals?.['net'] },
  });
}

/** Net income of the year before by the month that it stands beside; nothing for more than a year. */
function beforeByMonth(asked: IncomeAsked): ReadonlyMap<string, Row['net']> {
  const { from, to } = asked.period;
  if (daysBetween(from, to) > LONGEST_YEAR) return new Map();
  const { rows } = monthsOf({ ...asked, period: { from: yearOff(from, -1), to: yearOff(to, -1) } });
  return new Map(rows.map(({ item, net }) => [yearOff(String(item), 1), net]));
}

const LONGEST_YEAR = 366;

/** The same day or month so many years later. */
function yearOff(day: Day, years: number): string {
  const year = String(Number(day.slice(0, 4)) + years).padStart(4, '0');
  return `${year}${day.slice(4)}`.replace('-02-29', '-02-28');
}

const TITLES: Readonly<Record<IncomeGroup, string>> = {
  product: 'What each item brought in, and the margin in it',
  channel: 'What each channel brought in, and the margin in it',
  month: 'What each month brought in, and the margin in it',
  class: 'What each class brought in, and the margin in it',
  buyer: 'What each buyer brought in, and the margin in it',
};

function groupChart({ period }: IncomeAsked, table: Table, by: IncomeGroup): Chart {
  const rows = table.rows.map((row) => ({ ...row, what: nameIn(row, 'name', 'item') }));
  const some = firstRows(rows);
  return chartOfRows(table, {
    shape: 'bars',
    title: TITLES[by],
    span: spanInWords(period),
    label: 'what',
    value: 'net',
    more: [whatColumn('Item')],
    some,
    also: { parts: ['margin', 'cost', 'fees'] },
    ...(some.words === '' && { totals: { ...table.totals, what: 'total' } }),
  });
}

/** What to make more of and what to drop, and what an hour was left in each month. */
export function hourCharts(asked: IncomeAsked, items: Table): readonly Chart[] {
  const timed = items.rows.filter(
    ({ marginPerHour, count }) => isSome(marginPerHour) && isSome(count),
  );
  const months = monthsOf(asked);
  const worked = months.rows.filter(({ marginPerHour }) => isSome(marginPerHour));
  const span = spanInWords(asked.period);
  const spots = chartOfRows(items, {
    ...{
      shape: 'spots',
      title: 'What to make more of: left for an hour of work, against pieces sold',
    },
    span,
    label: 'what',
    value: 'marginPerHour',
    also: { across: 'count', corners: CORNERS },
    ...{
      more: [whatColumn('Item'), HOUR, SOLD],
      some: firstRows(timed.map((row) => ({ ...row, what: nameIn(row, 'name', 'item') }))),
    },
  });
  const course = chartOfRows(months, {
    shape: 'course',
    title: 'Left for an hour of work, by month of the sale',
    span,
    label: 'item',
    value: 'marginPerHour',
    more: [HOUR],
    some: { rows: worked, words: '' },
  });
  return [spots, course];
}

const CORNERS = {
  topLeft: 'pays well, sells little',
  topRight: 'make more',
  bottomLeft: 'drop, or ask more',
  bottomRight: 'sells well, pays little',
};
const SOLD: Column = { key: 'count', title: 'Pieces sold', type: 'count' };
const HOUR: Column = { key: 'marginPerHour', title: 'Left for an hour', type: 'rate' };
