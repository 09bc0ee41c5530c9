/** The day's end: one screen on how the studio is, and the next sensible thing to do. */
import type { Book } from '../../book.ts';
import { counted } from '../../in-words.ts';
import { NO_MONEY, total } from '../../number/money.ts';
import { piecesOf } from '../../reckon/ware/standing.ts';
import { dayFigures, type DayFigures } from '../../reckon/day.ts';
import type { Estimate } from '../../reckon/tax/estimated-tax.ts';
import type { WorkPlan } from '../../reckon/planning/plan.ts';
import type { FiledPeriod } from '../../reckon/tax/filed.ts';
import { aheadSections, estimateSections, filedSections } from './day-ahead.ts';
import { planSections } from './day-plan.ts';
import { daySections, sectionOf, type Section } from './day-sections.ts';
import { behindDayRow } from './day-behind.ts';
import { commitStep, nextStep, type NextStep, type NextView } from './day-next.ts';
import type { SheetFirst, SheetLine } from './sheet.ts';
import { weekdayText } from './day-words.ts';
import { once } from '../../once.ts';
import { tableHead } from '../head.ts';
import type { Column, Row, Table, VerdictFigure } from '../table.ts';
import type { Flows } from '../../reckon/flows.ts';

/** What is known of the studio beside its book. */
interface DayAround {
  readonly errors: number;
  readonly warnings: number;
  /** Files that git has not committed; undefined outside a repository. */
  readonly uncommitted: number | undefined;
  /** Files that can't be compared with what is committed, and what git would pass them through. */
  readonly uncompared?: readonly (readonly [file: string, through: string])[];
  /** What was filed, beside what there is now. */
  readonly filed?: readonly FiledPeriod[];
  /** What is planned, where anything is wanted. */
  readonly planned?: WorkPlan | undefined;
  /** Estimated tax whose payments are still to be made. */
  readonly estimates?: readonly Estimate[];
  /** A command as it is to be typed for this studio; absent where it is the book of a commit. */
  readonly typed?: (step: NextStep) => string;
  /** The day's records one by one, where they are asked for. */
  readonly records?: Table;
}

const COLUMNS: readonly Column[] = [
  { key: 'section', title: 'About', type: 'text', dataOnly: true },
  { key: 'what', title: 'What', type: 'id', dataOnly: true },
  { key: 'name', title: 'Name', type: 'text', dataOnly: true },
  { key: 'kind', title: 'Kind', type: 'text', dataOnly: true },
  { key: 'count', title: 'Count', type: 'count', dataOnly: true },
  { key: 'pieces', title: 'Pieces', type: 'count', dataOnly: true },
  { key: 'quantity', title: 'Quantity', type: 'quantity', dataOnly: true },
  { key: 'unit', title: 'Unit', type: 'text', dataOnly: true },
  { key: 'of', title: 'Of', type: 'quantity', dataOnly: true },
  { key: 'amount', title: 'Amount', type: 'money', dataOnly: true },
  { key: 'share', title: 'Share', type: 'fraction', dataOnly: true },
  { key: 'since', title: 'Since', type: 'date', dataOnly: true },
  { key: 'orderBy', title: 'Order by', type: 'date', dataOnly: true },
  { key: 'days', title: 'Days', type: 'count', dataOnly: true },
  { key: 'says', title: 'Says', type: 'text' },
];

/** How things are at the end of the day that the flows were run to: rows for programs, a page for people. */
export function dayReport(book: Book, flows: Flows, around: DayAround): Table {
  const figures = dayFigures(book, flows);
  const steps = nextSteps({ book, figures, ...around }, around.typed);
  const { first } = steps;
  const sections = [
    ...daySections({ book, figures }),
    ...aheadSections({ book, figures }),
    ...filedSections(book, around.filed ?? []),
    ...estimateSections({ book, figures }, around.estimates ?? []),
    ...(around.planned ? planSections(around.planned) : []),
    bookSection(around),
    ...uncomparedSections(around),
    ...steps.sections,
  ];
  const records = around.records?.rows.length === 0 ? undefined : around.records;
  const rows = [
    ...sections.flatMap((section) => section.rows),
    ...steps.rows,
    ...(records?.rows ?? []).map(recordRow),
  ];
  return {
    report: 'day',
    title: "The day's end",
    ...tableHead(book, figures.asOf),
    columns: COLUMNS,
    rows,
    behind: once(() => rows.map((row) => behindDayRow({ book, figures }, row))),
    notes: [],
    ...(first && { verdict: { sentence: first.sentence, figures: dayTotals(figures) } }),
    sheet: { title: dayTitle(book, figures), first, lines: sheetLines(sections) },
    ...(records && { below: records }),
  };
}

/** The lines, their items by the rows of the whole table. */
function sheetLines(sections: readonly Section[]): SheetLine[] {
  let before = 0;
  return sections.map(({ rows, line }) => {
    const first = before;
    before += rows.length;
    const items = line.items?.map(({ text, row }) => ({ text, row: first + row }));
    return { ...line, ...(items && { items }) };
  });
}

function recordRow({ record, kind, date, what, amount, commit }: Row): Row {
  const says = [what, commit].filter((part) => typeof part === 'string').join('; ');
  return { section: 'records', what: record, kind, since: date, amount, says };
}

function dayTitle({ studio }: Book, { asOf }: DayFigures): string {
  const parts = [studio.name, weekdayText(asOf), studio.currency];
  return parts.filter((part) => part !== '').join(' · ');
}

const LAST_GROUP = 5;

function bookSection({ errors, warnings, uncommitted, uncompared = [] }: DayAround): Section {
  const line = { label: 'The book', group: LAST_GROUP, lead: '' };
  const problems = [
    { what: 'errors', count: errors, says: counted(errors, 'error') },
    { what: 'warnings', count: warnings, says: counted(warnings, 'warning') },
  ];
  const files =
    uncommitted === undefined
      ? []
      : [
          {
            what: 'files',
            count: uncommitted,
            says: committedText(uncommitted, uncompared.length),
          },
        ];
  const rows = [
    ...sectionOf('problems', line, problems).rows,
    ...sectionOf('uncommitted', line, files).rows,
  ];
  const found = problems.filter(({ count }) => count > 0).map(({ says }) => says);
  const sound = found.length === 0 ? 'No problems' : found.join(' and ');
  const lead = [sound, ...files.map(({ says }) => says)].join('; ');
  return { rows, line: { ...line, lead, list: [] } };
}

/** A line only where there is something to be said. */
function uncomparedSections({ uncompared = [] }: DayAround): Section[] {
  if (uncompared.length === 0) return [];
  const lead = `${counted(uncompared.length, 'file')} that git passes through what is never run here`;
  const rows = uncompared.map(([file, through]) => ({ what: file, says: `${file} (${through})` }));
  return [sectionOf('not-compared', { label: 'Not compared', group: LAST_GROUP, lead }, rows)];
}

function committedText(uncommitted: number, uncompared: number): string {
  if (uncommitted === 0)
    return uncompared === 0 ? 'everything is committed' : 'everything else is committed';
  return `${counted(uncommitted, 'file')} not committed`;
}

/** What is next, and the commit of the day where that is another; nothing of a book that is not on the disk. */
interface DaySteps {
  readonly first: SheetFirst | undefined;
  readonly sections: readonly Section[];
  readonly rows: readonly Row[];
}

function nextSteps(view: NextView, typed: DayAround['typed']): DaySteps {
  if (!typed) return { first: undefined, sections: [], rows: [] };
  const step = nextStep(view);
  if (!step) return { first: NOTHING_TO_DO, sections: [], rows: [] };
  const first = { label: 'Next', sentence: step.why, command: typed(step) };
  const commit = step.program === 'git' ? undefined : commitStep(view);
  const keep = commit && typed(commit);
  const line = { label: 'To keep it', group: LAST_GROUP, list: [], bare: true } as const;
  return {
    first,
    sections: keep === undefined ? [] : [{ rows: [], line: { ...line, lead: keep } }],
    rows: [
      { section: 'next', what: first.command, says: first.sentence },
      ...(commit ? [{ section: 'next', what: keep, says: commit.why }] : []),
    ],
  };
}

/** What there is, what is to come in and what to order, in sums; what is not there is not told. */
function dayTotals({ ready, owedByOthers, toOrder }: DayFigures): VerdictFigure[] {
  const count = { type: 'count' } as const;
  const pieces = ready.reduce((all, each) => all + piecesOf(each), 0);
  const owed = total(owedByOthers.map(({ amount }) => amount));
  return [
    { label: 'Ready to sell', column: count, cell: pieces },
    { label: 'Owed to you', column: { type: 'money' } as const, cell: owed },
    { label: 'To order now', column: count, cell: toOrder.length },
  ].filter(({ cell }) => cell !== 0 && cell !== NO_MONEY);
}

const NOTHING_TO_DO: SheetFirst = { label: 'Next', sentence: 'Nothing more to do.' };
