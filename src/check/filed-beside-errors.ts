/** Which filings are said to differ while there are errors: those that the errors can't be the cause of. */
import type { Book, Day, Kind } from '../book.ts';
import { isDay } from '../number/date.ts';
import type { Finding } from '../problem.ts';
import { kindOfPath } from '../read/kinds.ts';
import { textUnder } from '../read/raw.ts';
import { taxPeriod } from '../reckon/tax/tax-period.ts';
import type { UnsoundRecord } from './draft.ts';
import { FILED_DIFFERS } from './rules/filings.ts';

/** No figure of a tax form comes of them. */
const WITHOUT_FIGURES: ReadonlySet<Kind> = new Set(['tests', 'orders', 'fairs', 'filed']);

/** The book, and the records that it leaves out for their faults. */
interface FaultyBook {
  readonly book: Book;
  readonly unsound: readonly UnsoundRecord[];
}

/** Findings on filings, without differences that may be due to one of the errors elsewhere. */
export function filedBesideErrors(
  filed: readonly Finding[],
  others: readonly Finding[],
  faulty: FaultyBook,
): readonly Finding[] {
  const errors = others.filter(({ severity }) => severity === 'error');
  return filed.filter(({ rule, at }) => {
    if (rule !== FILED_DIFFERS.name) return true;
    const end = endOfPeriod(faulty.book, at);
    return !errors.some((error) => mayMove(error, end, faulty));
  });
}

function endOfPeriod(book: Book, at: Finding['at']): Day | undefined {
  const period = book.filed.get(idIn(at))?.period;
  return period === undefined ? undefined : taxPeriod(period, book.studio.yearStarts)?.to;
}

/** Whether an error may move a figure of a period: not one of a record that is all later than its end. */
function mayMove({ at }: Finding, end: Day | undefined, faulty: FaultyBook): boolean {
  const kind = kindOfPath(at.file);
  if (kind && WITHOUT_FIGURES.has(kind)) return false;
  const isOfDay = 'path' in at && DAYS.some((name) => name === at.path[1]);
  const days = kind && !isOfDay ? daysOfEvent(kind, idIn(at), faulty) : [];
  return end === undefined || days.length === 0 || days.some((day) => !isDay(day) || day <= end);
}

const DAYS = ['date', 'paid'];

/** The days of an event, as they are written; none of what is not known or has no date. */
function daysOfEvent(kind: Kind, id: string, { book, unsound }: FaultyBook): readonly string[] {
  const raw = unsound.find((record) => record.kind === kind && record.id === id)?.raw;
  if (raw !== undefined)
    return DAYS.map((name) => textUnder(raw, name)).filter((text) => text !== '' && text !== 'no');
  const record = book[kind].get(id) as { readonly date?: Day; readonly paid?: Day } | undefined;
  return [record?.date, record?.paid].filter((day) => typeof day === 'string');
}

function idIn(at: Finding['at']): string {
  return 'path' in at ? String(at.path[0]) : '';
}
