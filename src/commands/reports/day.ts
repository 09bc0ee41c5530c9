/** `saggar day`: one screen at the day's end; or the records of a day with their ids. */
import type { Day } from '../../book.ts';
import { dayMeant } from '../../number/date.ts';
import { uncommittedFiles } from '../../read/git/uncommitted.ts';
import { flow } from '../../reckon/flow.ts';
import { plannedWork } from '../../reckon/planning/plan.ts';
import { printedLayout, type Printable } from '../../render/printable.ts';
import { renderSheet } from '../../render/terminal/sheet.ts';
import { dayReport } from '../../report/day/day.ts';
import type { NextStep } from '../../report/day/day-next.ts';
import { ofState } from '../../report/head.ts';
import type { Table } from '../../report/table.ts';
import type { AskedOf, CommandOf, OptionsOf } from '../catalogue.ts';
import { findInTime, type StudioFound } from '../studio/find-studio.ts';
import { openFound, type OpenedBook } from '../studio/open.ts';
import { refuse, rendered, showAnswer, leftOutText, type ShownAnswer } from './show.ts';
import { estimatesSoon } from './estimates-soon.ts';
import { filedIn } from './filed.ts';
import { notADay } from './span.ts';
import { saggarCommand, shellQuoted } from '../records/undo.ts';
import { isRefusal, type Refusal, type World } from '../world.ts';

/** The most lines that a day takes: a usual terminal has 24, and the prompt needs one of them. */
const SCREEN = 23;

/** Shows how the studio is, on one screen; with `--long` all that there is to say, with `--date` a day's records. */
export const day: CommandOf<'day'> = async (asked, world) => {
  const listed = askedDate(asked.options, world);
  if (listed !== undefined && typeof listed !== 'string') return refuse(world, listed);
  return showAnswer(await findInTime(asked, world), world, async (found) =>
    listed === undefined
      ? dayAnswer(found, asked, world)
      : listAnswer(found, asked, { world, listed }),
  );
};

/** The day whose records are to be listed; undefined where none is asked for. */
function askedDate(
  { date, asOf, long }: OptionsOf<'day'>,
  { today }: World,
): Day | Refusal | undefined {
  if (date === undefined) return undefined;
  if (asOf !== undefined)
    return {
      refused:
        '--date lists the records of a day, --as-of shows how things were then; give only one of them',
    };
  if (long) return { refused: '--date lists all records of the day; leave out --long, or --date' };
  return dayMeant(date, today) ?? notADay('--date', date);
}

async function dayAnswer(
  found: StudioFound,
  { options }: AskedOf<'day'>,
  world: World,
): Promise<ShownAnswer | Refusal> {
  const uncommitted = uncommittedIn(found, world);
  const opened = await openFound(found, (book) => flow(book, found.asOf));
  if (isRefusal(opened)) return opened;
  const { book, asOf, errors, save, commit } = opened;
  const records = options.long
    ? await recordsTable(opened, options, { world, uncommitted, day: asOf })
    : undefined;
  const table = dayReport(book, flow(book, asOf), {
    errors,
    warnings: warningsIn(opened, world),
    uncommitted: uncommitted?.files.length,
    uncompared: [...(uncommitted?.uncompared ?? [])],
    filed: filedIn(opened),
    estimates: estimatesSoon(opened),
    planned: plannedWork(book, flow(book, asOf)),
    ...(!commit && { typed: (step: NextStep) => typedStep(step, opened, options) }),
    ...(records && { records }),
  });
  const text = await dayText(ofState(table, opened), options, { world, opened });
  return { text, errors, save };
}

/** Of the book of a commit there is nothing to be said. */
function uncommittedIn(
  { past, folder }: StudioFound,
  { environment }: World,
): ReturnType<typeof uncommittedFiles> {
  return past ? undefined : uncommittedFiles(folder, environment);
}

function typedStep(
  { program, words }: NextStep,
  { folder }: OpenedBook,
  options: OptionsOf<'day'>,
): string {
  if (program === 'saggar') return saggarCommand(options, words);
  const git = options.studio === undefined ? 'git' : `git -C ${shellQuoted(folder)}`;
  return `${git} add . && ${git} commit -m ${shellQuoted(words)}`;
}

/** Looking back from an earlier day, what came after it is nothing to be warned of. */
function warningsIn({ findings, asOf }: OpenedBook, { today }: World): number {
  const isBack = asOf < today;
  const counted = findings.filter(
    ({ rule, severity }) => severity === 'warning' && !(isBack && rule === 'future-date'),
  );
  return counted.length;
}

interface Shown {
  readonly world: World;
  readonly opened: OpenedBook;
}

async function dayText(
  table: Table,
  options: OptionsOf<'day'>,
  { world, opened }: Shown,
): Promise<Printable> {
  const { sheet, below } = table;
  if (sheet === undefined || (options.as ?? 'text') !== 'text')
    return tableText(table, options, { world, opened });
  const { width, colour } = world;
  if (!options.long) {
    // What is said on standard error below the page is to be on the same screen.
    const { errors } = opened;
    const lines = errors === 0 ? 0 : Math.ceil(leftOutText(errors).length / width);
    return renderSheet(sheet, { width, colour, height: SCREEN - lines });
  }
  const page = renderSheet(sheet, { width, colour });
  if (below === undefined) return page;
  // Whose book it is stands above.
  const list = await rendered({ ...below, studio: '', asOf: '', currency: '' }, options, world);
  return printedLayout(`${page}\n${list}`, { colour });
}

/** Pages lead from a record of the list to its place in the book. */
async function tableText(
  table: Table,
  options: OptionsOf<'day'>,
  { world, opened }: Shown,
): Promise<Printable> {
  if (options.as !== 'html') return rendered(table, options, world);
  const { pageText } = await import('./page.ts');
  return printedLayout(await pageText(table, [], opened));
}

async function listAnswer(
  found: StudioFound,
  { options }: AskedOf<'day'>,
  { world, listed }: { readonly world: World; readonly listed: Day },
): Promise<ShownAnswer | Refusal> {
  const uncommitted = uncommittedIn(found, world);
  const opened = await openFound(found);
  if (isRefusal(opened)) return opened;
  const { errors, save } = opened;
  const table = ofState(
    await recordsTable(opened, options, { world, uncommitted, day: listed }),
    opened,
  );
  return { text: await tableText(table, options, { world, opened }), errors, save };
}

interface AskedRecords {
  readonly world: World;
  readonly uncommitted: ReturnType<typeof uncommittedFiles>;
  readonly day: Day;
}

async function recordsTable(
  { book, folder, asOf, commit }: OpenedBook,
  options: OptionsOf<'day'>,
  { world, uncommitted, day: listed }: AskedRecords,
): Promise<Table> {
  const { dayRecordsTable, recordsOf } = await import('../../report/day/day-records.ts');
  const records = recordsOf(book, listed);
  const asked = uncommitted && { day: listed, records, uncommitted };
  const { commitMarks } = await import('../../read/git/since-day.ts');
  const marks = asked && (await commitMarks(folder, world.environment, asked));
  const typed = commit ? undefined : (words: string): string => saggarCommand(options, words);
  return dayRecordsTable(
    book,
    { day: listed, asOf, records },
    { marks: marks ?? new Map(), typed },
  );
}
