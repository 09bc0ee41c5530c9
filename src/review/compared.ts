/** What a change moves of all that the reports show: the reports of both states, subtracted. */
import { KINDS, type Book, type Day } from '../book.ts';
import type { Basis } from '../reckon/sales/income-fact.ts';
import { quarterOn, type TaxPeriod } from '../reckon/tax/tax-period.ts';
import { allReports, type MadeReport, type ReportedBook } from './all-reports.ts';
import { changedSheets } from './changed-sheets.ts';
import type { RecordChange } from './changes.ts';
import { movedPeriods, type MovedPeriod } from './closed/moved-periods.ts';
import { periodsNamed, quartersOfBooks, quartersReached, reachesFigures } from './reach.ts';
import { movedFigures, type MovedFigure } from './report-figures.ts';
import { NOT_SHOWN, type Withheld } from './value.ts';

/** Both states as they are compared on one day. */
interface ToCompare {
  readonly old: ReportedBook;
  readonly now: ReportedBook;
  readonly asOf: Day;
}

/** What moved. */
export interface ComparedReports {
  /** Every figure of every report that is not the same. */
  readonly moved: readonly MovedFigure[];
  /** Quarters that are closed, or over, in which something moved. */
  readonly periods: readonly MovedPeriod[];
  /** Whether every quarter that was compared has a tax summary on both sides. */
  readonly isSummed: boolean;
}

const NOTHING_MOVED: ComparedReports = { moved: [], periods: [], isSummed: true };

/** Makes the reports that the changes reach on both sides, and subtracts them. */
export function compareReports(
  { old, now, asOf }: ToCompare,
  changes: readonly RecordChange[],
): ComparedReports {
  const books = { old: old.book, now: now.book };
  const sheets = changedSheets({ old, now });
  if (sheets.length === 0 && !changes.some(reachesFigures)) return NOTHING_MOVED;
  const names =
    sheets.length > 0 ? quartersOfBooks(books, asOf) : quartersReached(changes, books, asOf);
  const part = closedPart(old.book, names);
  const reportsOf = (side: ReportedBook): MadeReport[] => {
    const quarters = periodsNamed(side.book, names, asOf);
    const periods = [...quarters, ...(part ? [part] : [])];
    return allReports(side, { asOf, periods, otherBasis: otherBasis(old.book, now.book) });
  };
  const all = movedFigures(reportsOf(old), reportsOf(now), renaming(changes));
  const isPart = ({ period }: MovedFigure): boolean => period === part?.name;
  const periods = new Map(
    [...periodsNamed(old.book, names, asOf), ...(part ? [part] : [])].map((each) => [
      each.name,
      each,
    ]),
  );
  const { closedThrough } = old.book.studio;
  return {
    moved: all.filter((each) => !isPart(each)),
    periods: movedPeriods(all, { periods, closedThrough, asOf }),
    isSummed: [old, now].every(({ sheetOf }) =>
      [...periods.values()].every(({ year }) => sheetOf(year) !== undefined),
    ),
  };
}

/** The basis that both books do not go by; none where a change is from one to the other. */
function otherBasis(old: Book, now: Book): Basis | undefined {
  const [was, is] = [old, now].map(({ studio: { basis = 'cash' } }) => basis);
  if (was !== is) return undefined;
  return is === 'cash' ? 'accrual' : 'cash';
}

/** The closed part of a quarter that is not closed as a whole. */
function closedPart({ studio }: Book, names: readonly string[]): TaxPeriod | undefined {
  const { closedThrough: to, yearStarts } = studio;
  const quarter = to === undefined ? undefined : quarterOn(to, yearStarts);
  if (to === undefined || !quarter || quarter.to === to || !names.includes(quarter.name))
    return undefined;
  return { ...quarter, to, name: `${quarter.name} to ${to}` };
}

/** The words of a row in which ids are those that records have now. */
function renaming(changes: readonly RecordChange[]): (words: string) => string {
  const ids = new Map(changes.flatMap(({ was, id }) => (was === undefined ? [] : [[was, id]])));
  if (ids.size === 0) return (words) => words;
  return (words) => words.replace(/[A-Za-z][A-Za-z0-9-]*/g, (word) => ids.get(word) ?? word);
}

/** Reports whose rows have nothing but ids and words of the program in them. */
const WITHOUT_NAMES: ReadonlySet<string> = new Set([
  'materials',
  'firings',
  'costs',
  'fairs',
  'galleries',
  'orders',
  'pieces',
]);

/** Lines of the summary that are of a place, or of whom something was paid to. */
const OF_A_NAME = /^((?:sales|shipping|opening|closing)-[a-z-]+|payee)\..*/;
/** Lines of a sales tax return: the place, then the period and what is summed up. */
const OF_A_RETURN = /^return\..*(\.[^.]+\.[a-zA-Z]+)$/;

/** The figures without what is to be kept from others: money, and rows that have words of people. */
export function withoutHidden(
  moved: readonly MovedFigure[],
  { names, prices }: Withheld,
  books: readonly Book[],
): MovedFigure[] {
  const open = moved.filter(({ type }) => !prices || (type !== 'money' && type !== 'rate'));
  if (!names) return open;
  const ids = new Set(books.flatMap((book) => KINDS.flatMap((kind) => [...book[kind].keys()])));
  const isOpen = (word: string): boolean => ids.has(word) || PROGRAM_WORDS.test(word);
  return open
    .filter(({ report, by }) => report !== 'income' || by !== 'buyer')
    .map((each) => ({ ...each, row: hiddenRow(each, isOpen) }));
}

const PROGRAM_WORDS =
  /^(?:total|shipping|deposit|certificate|making|bisque|glaze|once|lustre|decal|(?:owed-to-you|you-owe|paid-ahead))$/;

function hiddenRow({ report, row }: MovedFigure, isOpen: (word: string) => boolean): string {
  if (report === 'quarter') {
    return row.replace(OF_A_NAME, `$1.${NOT_SHOWN}`).replace(OF_A_RETURN, `return.${NOT_SHOWN}$1`);
  }
  if (WITHOUT_NAMES.has(report)) return row;
  return row
    .split(', ')
    .map((word) => (isOpen(word) ? word : NOT_SHOWN))
    .join(', ');
}
