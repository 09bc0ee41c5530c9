/** What a change of the book means, put together for a reviewer: the verdict first. */
import type { Book, Day } from '../book.ts';
import { DOUBTS, READER_RULES, RULES } from '../check/rules.ts';
import { digitsOf } from '../reckon/booked.ts';
import type { Finding, Place, Severity } from '../problem.ts';
import {
  changesSince,
  twinsOf,
  withFaulty,
  type Became,
  type Faulty,
  type RecordChange,
} from './changes.ts';
import { changedSheets, sheetFindings, sheetRisks } from './changed-sheets.ts';
import { CLOSED_PERIOD_CHANGED, closedChanges, type ClosedChange } from './closed/closed.ts';
import { closedFindings } from './closed/closed-findings.ts';
import { compareReports, withoutHidden, type ComparedReports } from './compared.ts';
import type { ReportedBook } from './all-reports.ts';
import { briefOf } from './brief.ts';
import type { Consequence } from './figures.ts';
import { movedFilings, withFilings, type FiledSide } from './filed.ts';
import { periodCauses, type PeriodCause } from './closed/moved-causes.ts';
import { reachesFigures } from './reach.ts';
import { FIGURE, shownFigures } from './shown-figures.ts';
import type { MovedFigure } from './report-figures.ts';
import { countBySeverity, problemChanges } from './problems.ts';
import { risksOf } from './risks.ts';
import { outOfScale } from './scale.ts';
import { changeWords, riskWords, type ReviewChange, type ReviewRisk } from './told-changes.ts';
import type { Withheld } from './value.ts';
import { verdictOf } from './verdict.ts';
import { fileAndLine, type Speech } from './words.ts';

/** One state of the book, checked. */
export interface ReviewSide extends FiledSide, ReportedBook {
  /** What the state is called: a branch, a tag, `the working tree`. */
  readonly name: string;
  readonly findings: readonly Finding[];
  readonly faulty: Faulty;
}

/** What is reviewed. */
interface ReviewInput {
  readonly old: ReviewSide;
  readonly now: ReviewSide;
  readonly asOf: Day;
  readonly hidden: Withheld;
  /** Files that are not alike in the two states, as texts. */
  readonly touched: readonly string[];
  readonly notes: readonly string[];
}

/** A problem that only one state has. */
export interface ReviewProblem {
  readonly rule: string;
  readonly severity: Severity;
  readonly at: string;
  readonly message: string;
  readonly hint: string;
  /** Set on one that tells of others, which are only counted: how many they are. */
  readonly untold?: number;
}

/** The whole of a review, in words and figures; texts of the book are in it as they are. */
export interface Review {
  readonly studio: string;
  readonly asOf: Day;
  readonly currency: string;
  readonly minorDigits: number;
  readonly from: string;
  readonly to: string;
  readonly verdict: string;
  readonly counts: Readonly<Record<Became, number>>;
  /** Files whose text is another and whose records mean the same. */
  readonly onlyWritten: readonly string[];
  readonly brought: readonly ReviewProblem[];
  readonly mended: readonly ReviewProblem[];
  /** How many problems both states have. */
  readonly kept: number;
  readonly errors: number;
  readonly warnings: number;
  /** How many of the warnings only ask about a figure. */
  readonly doubts: number;
  readonly risks: readonly ReviewRisk[];
  readonly changes: readonly ReviewChange[];
  /** What it does to money, stock and what was filed, a sentence each. */
  readonly brief: readonly string[];
  /** The figures that say what the change does, the most important first. */
  readonly consequences: readonly Consequence[];
  /** Every figure of every report that comes out otherwise. */
  readonly figures: readonly MovedFigure[];
  readonly notes: readonly string[];
}

/** Compares two states of a book as of one day. */
export function reviewOf(input: ReviewInput): Review {
  const { old, now, asOf, hidden } = input;
  const found = changesSince(old.book, now.book);
  const changes = withFaulty(found, { old: old.faulty, now: now.faulty });
  const compared = compareReports(input, changes);
  const causes = periodCauses(compared.periods, changes);
  const sheets = changedSheets(input);
  const speech: Speech = { old, now, hidden };
  const broken = [
    ...closedFindings(speech, changes, causes),
    ...(causes.length === 0 ? sheetFindings(input, sheets, compared.periods) : []),
  ];
  const { brought, mended, kept } = problemChanges(old.findings, now.findings, renamedIds(changes));
  const all = [...broken, ...brought];
  const filings = movedFilings(input, found.length + sheets.length > 0);
  const figures = figuresOf(input, compared);
  const evidence = {
    changes,
    causes,
    closed: closedWithFigures(old.book, changes, causes),
    scale: outOfScale(changes),
    twins: twinsOf(old.book, changes),
    brought,
    asOf,
  };
  const ofRecords = risksOf(speech, evidence).map((risk) => riskWords(speech, risk));
  const ofSheets = sheetRisks(compared.moved.length > 0 ? sheets : []);
  const risks = withFilings([...ofSheets, ...ofRecords], filings);
  const counts = changeCounts(changes);
  const problems = [...problemWords(broken, now, hidden), ...problemWords(brought, now, hidden)];
  const onlyWritten = unmeant(input.touched, changes);
  return {
    ...headOf(input),
    verdict: verdictOf({ counts, problems, risks, onlyWritten: onlyWritten.length }),
    counts,
    onlyWritten,
    brought: problems,
    mended: problemWords(mended, old, hidden),
    kept,
    errors: countBySeverity(all, 'error'),
    warnings: countBySeverity(all, 'warning'),
    doubts: all.filter(({ rule }) => DOUBTS.has(rule)).length,
    risks,
    changes: changes.filter(isInReview).map((change) => changeWords(speech, change, changes)),
    brief: briefOf({ ...figures, ...compared, filings, ...briefing(input) }),
    ...figures,
    notes: input.notes,
  };
}

/** Changes of the closed period that move a figure of it, and those of the settings. */
function closedWithFigures(
  old: Book,
  changes: readonly RecordChange[],
  causes: readonly PeriodCause[],
): ClosedChange[] {
  const isMoved = causes.some(({ isClosed }) => isClosed);
  return closedChanges(old, changes).filter(
    ({ change }) => change.kind === 'studio' || (isMoved && reachesFigures(change)),
  );
}

function briefing({ old, now, hidden }: ReviewInput) {
  const [was, is] = [old, now].map(({ book }) => book.studio.yearStarts);
  return {
    minorDigits: digitsOf(now.book),
    isHidden: hidden.prices,
    isSameYear: was === is,
  };
}

function figuresOf(
  { old, now, hidden }: ReviewInput,
  { moved, periods }: ComparedReports,
): Pick<Review, 'figures' | 'consequences'> {
  const figures = withoutHidden(moved, hidden, [old.book, now.book]);
  const closed = new Set(
    periods.filter(({ isClosed }) => isClosed).map(({ period }) => period.name),
  );
  const shown = shownFigures(figures, (period) => closed.has(period));
  const [before, after] = [old, now].map(({ book }) => book.studio.currency);
  const currency = { figure: FIGURE.currency, of: '', type: 'text', before, after } as const;
  return { figures, consequences: before === after ? shown : [currency, ...shown] };
}

function headOf({
  old,
  now,
  asOf,
  hidden,
}: ReviewInput): Pick<Review, 'studio' | 'asOf' | 'currency' | 'minorDigits' | 'from' | 'to'> {
  const { name, currency } = now.book.studio;
  return {
    studio: hidden.names ? '' : name,
    asOf,
    currency,
    minorDigits: digitsOf(now.book),
    from: old.name,
    to: now.name,
  };
}

function renamedIds(changes: readonly RecordChange[]): ReadonlyMap<string, string> {
  return new Map(changes.flatMap(({ was, id }) => (was === undefined ? [] : [[was, id]])));
}

const NO_CHANGES: Readonly<Record<Became, number>> = {
  added: 0,
  changed: 0,
  removed: 0,
  moved: 0,
  renamed: 0,
  unsound: 0,
  sound: 0,
};

function changeCounts(changes: readonly RecordChange[]): Review['counts'] {
  const counts = { ...NO_CHANGES };
  for (const change of changes.filter(isInReview)) counts[change.became] += 1;
  return counts;
}

/** A record in which references only follow a renaming is told with the renaming. */
function isInReview({ became, fields }: RecordChange): boolean {
  return became !== 'changed' || fields.length > 0;
}

function unmeant(touched: readonly string[], changes: readonly RecordChange[]): readonly string[] {
  const meant = new Set(changes.flatMap(({ before, after }) => [before?.file, after?.file]));
  return touched.filter((file) => !meant.has(file));
}

const ABOUT: ReadonlyMap<string, string> = new Map(
  [...RULES, ...READER_RULES, CLOSED_PERIOD_CHANGED].map(({ name, about }) => [name, about]),
);

// A message tells names and figures of the book, and which ones nobody can say.
function problemWords(
  findings: readonly Finding[],
  { placeOf }: ReviewSide,
  { names, prices }: Withheld,
): ReviewProblem[] {
  const isPlain = !names && !prices;
  const problems = findings.map(({ rule, severity, at, message, hint, untold }) => ({
    rule,
    severity,
    place: placeOf(at),
    message: isPlain ? message : (ABOUT.get(rule) ?? rule).replace(/\.$/, ''),
    hint: isPlain ? hint : '',
    ...(untold === undefined ? {} : { untold }),
  }));
  return problems
    .sort(byPlace)
    .map(({ place, ...problem }) => ({ ...problem, at: fileAndLine(place) }));
}

interface Placed {
  readonly severity: Severity;
  readonly rule: string;
  readonly place: Place;
}

function byPlace(one: Placed, other: Placed): number {
  if (one.severity !== other.severity) return one.severity === 'error' ? -1 : 1;
  if (one.place.file !== other.place.file) return one.place.file < other.place.file ? -1 : 1;
  return one.place.line - other.place.line || (one.rule < other.rule ? -1 : 1);
}
