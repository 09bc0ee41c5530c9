/** The day's end: one screen on how the studio is, and the next sensible thing to do. */
import type { Book } from '../../book.ts';
import { counted } from '../../in-words.ts';
import { ONE } from '../../number/decimal.ts';
import { dayFigures, type DayFigures } from '../../reckon/day.ts';
import type { Estimate } from '../../reckon/tax/estimated-tax.ts';
import type { WorkPlan } from '../../reckon/planning/plan.ts';
import type { FiledPeriod } from '../../reckon/tax/filed.ts';
import { aheadSections, estimateSections, filedSections } from './day-ahead.ts';
import { planSections } from './day-plan.ts';
import { daySections, sectionOf, type Section } from './day-sections.ts';
import { weekdayText } from './day-words.ts';
import { tableHead } from '../head.ts';
import type { Column, Row, Table } from '../table.ts';
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

/** A command that is sensible next, and what for. */
export interface NextStep {
  readonly program: 'saggar' | 'git';
  /** What stands after the program's name; of git, the message of the commit. */
  readonly words: string;
  readonly why: string;
}

const COLUMNS: readonly Column[] = [
  { key: 'section', title: 'About', type: 'text' },
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
  const sections = [
    ...daySections({ book, figures }),
    ...aheadSections({ book, figures }),
    ...filedSections(book, around.filed ?? []),
    ...estimateSections({ book, figures }, around.estimates ?? []),
    ...(around.planned ? planSections(around.planned) : []),
    bookSection(around),
    ...uncomparedSections(around),
    ...nextSections(figures, around),
  ];
  const records = around.records?.rows.length === 0 ? undefined : around.records;
  return {
    report: 'day',
    title: "The day's end",
    ...tableHead(book, figures.asOf),
    columns: COLUMNS,
    rows: [...sections.flatMap(({ rows }) => rows), ...(records?.rows ?? []).map(recordRow)],
    notes: [],
    sheet: { title: dayTitle(book, figures), lines: sections.map(({ line }) => line) },
    ...(records && { below: records }),
  };
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

/** Nothing is to be done in a book that is not on the disk. */
function nextSections(figures: DayFigures, around: DayAround): Section[] {
  const { typed } = around;
  return typed ? [nextSection(nextStep(figures, around), typed)] : [];
}

function nextSection(step: NextStep | undefined, typed: NonNullable<DayAround['typed']>): Section {
  const line = { label: 'Next', group: LAST_GROUP, lead: 'Nothing more to do' };
  if (!step) return sectionOf('next', line, []);
  const command = typed(step);
  const why = `(${step.why})`;
  const row = { what: command, says: `${command} ${why}` };
  return sectionOf('next', { ...line, lead: command, list: [why], bare: true }, [row]);
}

/**
 * The one command that is most sensible next: see what is wrong, say what came out of a kiln that was
 * loaded before today, begin the book, commit, order, or fire a kiln that is full. Undefined for none.
 */
function nextStep(
  { asOf, isEmpty, inKiln, toOrder, kilns }: DayFigures,
  { errors, uncommitted = 0 }: Pick<DayAround, 'errors' | 'uncommitted'>,
): NextStep | undefined {
  const cool = inKiln.find(({ firing }) => firing.date < asOf);
  if (errors > 0) return saggar('check', 'to see what is wrong, and how to fix it');
  if (cool)
    return saggar(`unload ${cool.firing.id} --line "…"`, 'to record what came out of the kiln');
  if (isEmpty) return saggar('add bought --help', 'to record your stock');
  if (uncommitted > 0) return { program: 'git', words: `Day of ${asOf}`, why: 'to keep it' };
  if (toOrder.length > 0) return saggar('materials', 'to see what to order');
  const full = kilns.find(({ share }) => !share.lt(ONE));
  return full && saggar('add firings --help', `the ${full.kind} load is full`);
}

function saggar(words: string, why: string): NextStep {
  return { program: 'saggar', words, why };
}
