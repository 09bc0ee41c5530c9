/** Quarters that are closed, or whose summary was due, of which a change moves a figure. */
import type { Day } from '../../book.ts';
import { counted } from '../../in-words.ts';
import { addDays } from '../../number/date.ts';
import type { TaxPeriod } from '../../reckon/tax/tax-period.ts';
import { signedText } from '../figures.ts';
import { TOTAL, type MovedFigure } from '../report-figures.ts';

/** A quarter of which a figure moves. */
export interface MovedPeriod {
  readonly period: TaxPeriod;
  readonly isClosed: boolean;
  /** Whether a line of its tax summary moves, and not only what ware cost or the like. */
  readonly isOfSummary: boolean;
  /** The figure that says most of what moves. */
  readonly figure: MovedFigure;
}

/** The earliest a summary is due is so many days after its quarter (US estimated tax, *from memory*). */
const DUE_AFTER = 15;

/** What is known of the old book's quarters. */
interface KnownPeriods {
  readonly periods: ReadonlyMap<string, TaxPeriod>;
  readonly closedThrough: Day | undefined;
  readonly asOf: Day;
}

/** The quarters that are closed, or over for long enough to be filed, with what moves in them. */
export function movedPeriods(
  moved: readonly MovedFigure[],
  { periods, closedThrough = '', asOf }: KnownPeriods,
): MovedPeriod[] {
  return [...periods.values()].flatMap((period) => {
    const isClosed = period.to <= closedThrough;
    const isDue = addDays(period.to, DUE_AFTER) < asOf;
    if (!isClosed && !isDue) return [];
    const own = moved.filter((each) => each.period === period.name && isCounted(each));
    const figure = foremost(own);
    const isOfSummary = own.some(({ report, by }) => report === 'quarter' && by === '');
    return figure ? [{ period, isClosed, isOfSummary, figure }] : [];
  });
}

/** Rows of the summary that estimate, compare or remind, and so were not filed. */
const NOT_FILED = /^(?:estimate\.|missing\.|basis\.|line\.|distance)/;

const COUNTED: ReadonlySet<string> = new Set(['money', 'count', 'quantity']);

/** What says most of a quarter, the first first: report, by, column and the beginning of the row. */
const FOREMOST: readonly (readonly [string, string, string, RegExp])[] = [
  ['quarter', '', 'amount', /^net-profit$/],
  ['income', 'product', 'net', /^total$/],
  ['quarter', '', 'amount', /^sales-tax\../],
  ['quarter', '', 'amount', /^sales-tax/],
  ['income', 'channel', 'net', /./],
  ['quarter', '', 'amount', /^expense\./],
  ['quarter', '', 'amount', /^purchases$/],
  ['quarter', '', 'amount', /^closing$/],
  ['quarter', '', 'amount', /./],
  ['income', 'product', 'net', /./],
  ['income', 'product', 'margin', /^total$/],
  ['losses', 'firing', 'lost', /./],
  ['firings', '', 'total', /./],
];

function isCounted({ type, row, column }: MovedFigure): boolean {
  return COUNTED.has(type) && !NOT_FILED.test(row) && column !== 'toDate';
}

function foremost(counted: readonly MovedFigure[]): MovedFigure | undefined {
  for (const [report, by, column, row] of FOREMOST) {
    const found = counted.find(
      (each) =>
        each.report === report && each.by === by && each.column === column && row.test(each.row),
    );
    if (found) return found;
  }
  return counted[0];
}

/** How amounts are written, and whether they may be shown. */
interface AmountWriting {
  readonly minorDigits: number;
  readonly isHidden: boolean;
}

/** So many quarters are said with what moves in them. */
const MOST_PERIODS = 6;

/** `profit of 2026-Q1, closed, would change by -113.15, of 2025-Q4 by -2.00`; the first first. */
export function periodsWords(
  [first, ...others]: readonly MovedPeriod[],
  writing: AmountWriting,
): string {
  if (!first) return '';
  const name = figureName(first.figure);
  const state = first.isClosed ? closedWords(first) : `over since ${first.period.to}`;
  const more = others.slice(0, MOST_PERIODS - 1).map((each) => {
    const own = figureName(each.figure);
    return `${own === name ? '' : `${own} `}of ${quarterName(each)}${byWords(each.figure, writing)}`;
  });
  const left = others.length - more.length;
  return [
    `${name} of ${quarterName(first)}, ${state}, would change${byWords(first.figure, writing)}`,
    ...more,
    ...(left > 0 ? [`and ${counted(left, 'more quarter')}`] : []),
    ...([first, ...others].some(({ isOfSummary }) => isOfSummary)
      ? []
      : ['while no line of a tax summary does']),
  ].join(', ');
}

/** Of a quarter that is closed in part only, the name of all of it. */
export function quarterName({ period: { name } }: MovedPeriod): string {
  return name.replace(/ .*/, '');
}

function closedWords(moved: MovedPeriod): string {
  const { name, to } = moved.period;
  return name === quarterName(moved) ? 'closed' : `closed through ${to}`;
}

function byWords(figure: MovedFigure, { minorDigits, isHidden }: AmountWriting): string {
  const by = signedText(figure, minorDigits);
  return by === '' || isHidden ? '' : ` by ${by}`;
}

const ITEM_WORDS: readonly (readonly [RegExp, string])[] = [
  [/^net-profit$/, 'profit'],
  [/^closing$/, 'stock at the end'],
  [/^closing\.(.+)/, '$1 at the end'],
  [/^opening\.(.+)/, '$1 at the start'],
  [/^expense\./, 'expenses for '],
  [/^sales-tax\.$/, 'sales tax without a place'],
  [/^sales-tax\./, 'sales tax for '],
  [/^sales-taxed\./, 'sales with tax for '],
  [/^sales-untaxed\./, 'sales without tax for '],
  [/^cost-of-goods-sold$/, 'cost of goods sold'],
];

function figureName({ report, by, row, column }: MovedFigure): string {
  if (report === 'quarter') {
    const [item, words] = ITEM_WORDS.find(([pattern]) => pattern.test(row)) ?? [/\.$/, ''];
    return row.replace(item, words).replaceAll(/[.-](?=[a-z])/g, ' ');
  }
  const what = column === 'net' ? report : `${column} in ${report}`;
  if (row === TOTAL) return column === 'net' ? report : column;
  return by === 'channel' ? `${what} through ${row}` : `${what} (${row})`;
}
