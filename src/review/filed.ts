/** What a change does to periods that were filed: lines that are no longer what they were. */
import type { Book } from '../book.ts';
import { NOUN } from '../check/finding.ts';
import { counted } from '../in-words.ts';
import { moneyText } from '../number/money.ts';
import { digitsOf } from '../reckon/booked.ts';
import { profitFirst, type FiledPeriod } from '../reckon/tax/filed.ts';
import type { RecordChange } from './changes.ts';
import type { ReviewRisk } from './risks.ts';
import { NOT_SHOWN } from './value.ts';
import { fileAndLine, type SideWords, type Speech } from './words.ts';

/** A filing with its lines as text. */
interface FiledFigures {
  readonly id: string;
  readonly period: string;
  readonly sheet: string;
  readonly lines: readonly FiledFigure[];
}

/** One state of the book in words, with what was filed beside what it comes to. */
export interface FiledSide extends SideWords {
  /** Asked only where something changed. */
  readonly filed: () => readonly FiledFigures[];
}

interface FiledFigure {
  /** As the filing names the line. */
  readonly name: string;
  readonly title: string;
  readonly filed: string;
  readonly now: string;
}

/** The filings that count in a book, each line beside what there is now. */
export function filedFigures(book: Book, periods: readonly FiledPeriod[]): FiledFigures[] {
  const digits = digitsOf(book);
  return periods.map(({ filing, period, sheet, lines }) => ({
    id: filing.id,
    period: period.name,
    sheet: sheet.id,
    lines: profitFirst(lines).map(({ name, line, filed, now }) => ({
      name,
      title: line.title,
      filed: moneyText(filed, digits),
      now: moneyText(now, digits),
    })),
  }));
}

/**
 * A risk for each filing of the old state that the change moves a line of: `line 31 (Net profit):
 * 120.00 filed, 120.00 before, 96.00 after`. A line that is filed otherwise now is one, too.
 */
export function movedFilings(
  { old, now, hidden }: Speech & Readonly<Record<'old' | 'now', FiledSide>>,
  changes: readonly RecordChange[],
): ReviewRisk[] {
  if (old.book.filed.size === 0 || changes.length === 0) return [];
  const after = new Map(now.filed().map((each) => [each.id, each]));
  return old.filed().flatMap((before) => {
    const is = after.get(before.id);
    const filing = now.book.filed.get(before.id);
    if (!is || !filing) return [];
    const reasons = before.lines.flatMap((line) => lineReasons(line, is, hidden.prices));
    if (reasons.length === 0) return [];
    const place = now.placeOf({ file: filing.file, path: [filing.id], on: 'key' });
    return [
      {
        title: `${NOUN.filed} ${before.id}`,
        about: hidden.names ? before.period : `${before.period}, ${before.sheet}`,
        at: fileAndLine(place),
        reasons: fewLines(reasons).map((text) => ({ why: 'filed-moved' as const, text })),
      },
    ];
  });
}

/** So many lines of a filing are said, the profit first. */
const MOST_FILED = 3;

function fewLines(reasons: readonly string[]): readonly string[] {
  const left = reasons.length - MOST_FILED;
  if (left <= 0) return reasons;
  return [...reasons.slice(0, MOST_FILED), `and ${counted(left, 'more line')} of it`];
}

function lineReasons(before: FiledFigure, { lines }: FiledFigures, isHidden: boolean): string[] {
  const { name, title } = before;
  const after = lines.find((line) => line.name === name);
  const line = `line ${name} (${title})`;
  if (!after) return [`${line} is no longer in the filing`];
  const amounts = (...texts: string[]): string => (isHidden ? NOT_SHOWN : texts.join(', '));
  if (after.filed !== before.filed)
    return [`${line}: ${amounts(`filed as ${before.filed} before`, `as ${after.filed} after`)}`];
  if (after.now === before.now) return [];
  return [
    `${line}: ${amounts(`${before.filed} filed`, `${before.now} before`, `${after.now} after`)}`,
  ];
}

/** Risks with those of filings where they belong: after what changes a closed period, before all others. */
export function withFilings(
  risks: readonly ReviewRisk[],
  moved: readonly ReviewRisk[],
): ReviewRisk[] {
  const isClosed = ({ reasons }: ReviewRisk): boolean => reasons[0]?.why === 'closed-period';
  return [...risks.filter(isClosed), ...moved, ...risks.filter((risk) => !isClosed(risk))];
}
