/** What a change does to periods that were filed: lines that are no longer what they were. */
import type { Book } from '../book.ts';
import { NOUN } from '../check/finding.ts';
import { counted } from '../in-words.ts';
import { moneyText } from '../number/money.ts';
import { digitsOf } from '../reckon/booked.ts';
import { profitFirst, type FiledPeriod } from '../reckon/tax/filed.ts';
import type { ReviewRisk } from './told-changes.ts';
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

/** What becomes of a filing of the old state: a line of it moves, none does, or it is gone or of no period any more. */
export interface FilingMove {
  readonly period: string;
  readonly became: 'moves' | 'stays' | 'lost';
  readonly risks: readonly ReviewRisk[];
}

type FiledSpeech = Speech & Readonly<Record<'old' | 'now', FiledSide>>;

/**
 * Each filing of the old state, with a risk where the change moves a line of it: `line 31 (Net profit):
 * 120.00 filed, 120.00 before, 96.00 after`. A line that is filed otherwise now is one, too.
 */
export function movedFilings(speech: FiledSpeech, isChanged: boolean): readonly FilingMove[] {
  const { old, now } = speech;
  if (old.book.filed.size === 0 || !isChanged) return [];
  const after = new Map(now.filed().map((each) => [each.id, each]));
  return old.filed().map((before) => {
    const { period } = before;
    const is = after.get(before.id);
    if (!is) return { period, became: 'lost', risks: [] };
    const risks = filingRisks(speech, before, is);
    return { period, became: risks.length > 0 ? 'moves' : 'stays', risks };
  });
}

function filingRisks(
  { now, hidden }: FiledSpeech,
  before: FiledFigures,
  after: FiledFigures,
): ReviewRisk[] {
  const { id, period, sheet, lines } = before;
  const filing = now.book.filed.get(id);
  const reasons = lines.flatMap((line) => lineReasons(line, after, hidden.prices));
  if (!filing || reasons.length === 0) return [];
  const place = now.placeOf({ file: filing.file, path: [id], on: 'key' });
  return [
    {
      sort: 'filed',
      size: 0,
      title: `${NOUN.filed} ${id}`,
      about: hidden.names ? period : `${period}, ${sheet}`,
      at: fileAndLine(place),
      reasons: fewLines(reasons).map((text) => ({ why: 'filed-moved' as const, text })),
    },
  ];
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
  filings: readonly FilingMove[],
): ReviewRisk[] {
  const moved = filings.flatMap((each) => each.risks);
  const isClosed = ({ reasons }: ReviewRisk): boolean => reasons[0]?.why === 'closed-period';
  return [...risks.filter(isClosed), ...moved, ...risks.filter((risk) => !isClosed(risk))];
}
