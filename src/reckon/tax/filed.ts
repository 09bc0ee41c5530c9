/** What was filed for a period beside what the book comes to now. */
import type { Book, Filed } from '../../book.ts';
import { addTo } from '../../grouping.ts';
import { NO_MONEY, less, type Money } from '../../number/money.ts';
import { booked } from '../booked.ts';
import { type TaxPeriod, periodFiled } from './tax-period.ts';
import { sheetAmounts, taxAccount } from './tax-profit.ts';
import { NET_PROFIT, lineAmounts, type TaxLine, type TaxSheet } from './tax-sheet.ts';
import { factsIn, taxView, type TaxView } from './tax-view.ts';
import type { Flows } from '../flows.ts';
import { byDate } from '../../text-order.ts';

/** One line of a filing; difference = now − filed. */
export interface FiledLine {
  /** As the filing names it: the line's number or its key. */
  readonly name: string;
  readonly line: TaxLine;
  readonly filed: Money;
  readonly now: Money;
  readonly difference: Money;
}

/** A filing that counts: the last one by date of its period and sheet. */
export interface FiledPeriod {
  readonly filing: Filed;
  readonly period: TaxPeriod;
  readonly sheet: TaxSheet;
  /** In the order of the sheet; lines that the sheet does not have are left out. */
  readonly lines: readonly FiledLine[];
  /** Earlier filings of the same, which no longer count. */
  readonly replaced: readonly Filed[];
}

/** The sheet of a filing; undefined where there is none that can be used. */
export type SheetOf = (filing: Filed) => TaxSheet | undefined;

/** The line that is meant, by its key or its number. */
export function lineNamed({ lines }: TaxSheet, name: string): TaxLine | undefined {
  return lines.find(({ key }) => key === name) ?? lines.find(({ number }) => number === name);
}

/** What a filing calls a line: its number, unless that means another line. */
export function nameOfLine(sheet: TaxSheet, line: TaxLine): string {
  return lineNamed(sheet, line.number) === line ? line.number : line.key;
}

/** A filing with what it is of. */
type Counting = Omit<FiledPeriod, 'lines'>;

/**
 * The filings that count by the flows' day, each line beside what it is now on the studio's basis; in
 * the order of their periods. Those of a period that was not over, or without a sheet, are left out.
 */
export function filedPeriods(book: Book, flows: Flows, sheetOf: SheetOf): FiledPeriod[] {
  const counting = countingFilings(book, flows.stock.asOf, sheetOf);
  const view = taxView(book, flows);
  const froms = counting.map(({ period }) => period.from).sort();
  const tos = counting.map(({ period }) => period.to).sort();
  const [from, to] = [froms[0], tos.at(-1)];
  // Once over all of them, and then each takes its own.
  if (from !== undefined && to !== undefined) factsIn(view, { from, to });
  return counting.map((each) => ({ ...each, lines: filedLines(view, each) }));
}

function countingFilings(book: Book, asOf: string, sheetOf: SheetOf): Counting[] {
  const groups = new Map<string, Counting[]>();
  for (const filing of book.filed.values()) {
    const period = filing.date <= asOf ? periodFiled(book, filing) : undefined;
    const sheet = period && sheetOf(filing);
    if (sheet) addTo(groups, `${period.name} ${sheet.id}`, { filing, period, sheet, replaced: [] });
  }
  return [...groups.values()].flatMap(lastOf).sort(byPeriod);
}

function lastOf(group: readonly Counting[]): Counting[] {
  const inTurn = group.toSorted((a, b) => byDate(a.filing, b.filing));
  const last = inTurn.at(-1);
  return last ? [{ ...last, replaced: inTurn.slice(0, -1).map(({ filing }) => filing) }] : [];
}

function byPeriod(a: Counting, b: Counting): number {
  const [one, other] = [a, b].map(({ period, sheet }) => `${period.from} ${period.to} ${sheet.id}`);
  return (one ?? '') < (other ?? '') ? -1 : 1;
}

function filedLines(view: TaxView, { filing, period, sheet }: Counting): FiledLine[] {
  const now = sheetLines(view, { period, sheet });
  const lines = Object.entries(filing.lines).flatMap(([name, amount]) => {
    const line = lineNamed(sheet, name);
    if (!line) return [];
    const [filed, is] = [booked(view.book, amount), now.get(line.key) ?? NO_MONEY];
    return [{ name, line, filed, now: is, difference: less(is, filed) }];
  });
  return lines.sort((a, b) => sheet.lines.indexOf(a.line) - sheet.lines.indexOf(b.line));
}

/** What each line of a sheet comes to in a period, by its key. */
export function sheetLines(
  view: TaxView,
  { period, sheet }: Pick<FiledPeriod, 'period' | 'sheet'>,
): ReadonlyMap<string, Money> {
  const account = taxAccount({ ...view, sheet }, { from: period.from, to: period.to });
  return lineAmounts(sheet, sheetAmounts(account), view.book.studio.categories);
}

/** The lines that are no longer what was filed, that of the net profit first. */
export function movedLines({ lines }: Pick<FiledPeriod, 'lines'>): FiledLine[] {
  return profitFirst(lines).filter(({ difference }) => difference !== NO_MONEY);
}

/** The lines with that of the net profit before all others. */
export function profitFirst(lines: readonly FiledLine[]): FiledLine[] {
  const isProfit = ({ line }: FiledLine): boolean => line.key === NET_PROFIT;
  return [...lines.filter(isProfit), ...lines.filter((each) => !isProfit(each))];
}
