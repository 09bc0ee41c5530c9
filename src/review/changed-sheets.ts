/** Tax sheets of the studio's own that are not what they were, so that every summary by them is another. */
import type { Finding } from '../problem.ts';
import { digitsOf } from '../reckon/booked.ts';
import type { ReportedBook } from './all-reports.ts';
import { CLOSED_PERIOD_CHANGED } from './closed/closed.ts';
import { periodsWords, type MovedPeriod } from './closed/moved-periods.ts';
import type { ReviewRisk } from './told-changes.ts';
import type { Speech } from './words.ts';

type SheetSides = Readonly<Record<'old' | 'now', ReportedBook>>;

/** The files of sheets that both states use, and that mean something else in each. */
export function changedSheets({ old, now }: SheetSides): readonly string[] {
  return [...old.ownSheets]
    .filter(([file, was]) => (now.ownSheets.get(file) ?? was) !== was)
    .map(([file]) => file);
}

/** The closed quarters whose lines move, where no record can have moved them. */
export function sheetFindings(
  { old, now, hidden }: Speech,
  [file]: readonly string[],
  periods: readonly MovedPeriod[],
): Finding[] {
  const closed = periods.filter(({ isClosed }) => isClosed);
  if (file === undefined || closed.length === 0) return [];
  const { name: rule, severity } = CLOSED_PERIOD_CHANGED;
  const writing = { minorDigits: digitsOf(old.book), isHidden: hidden.prices };
  const message = periodsWords(closed, writing);
  const hint = 'take it back; the form of another year belongs in a file of its own';
  return [{ rule, severity, at: now.placeOf({ file, path: [] }), message, hint }];
}

/** That the lines of a sheet are others, as something to look at. */
export function sheetRisks(files: readonly string[]): ReviewRisk[] {
  const text = 'its lines or rates are others, so every tax summary by it is another';
  return files.map((file) => ({
    sort: 'sheet',
    size: 0,
    title: `tax sheet ${file}`,
    about: '',
    at: `${file}:1`,
    reasons: [{ why: 'settings', text }],
  }));
}
