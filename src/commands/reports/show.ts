/** The way of every report: read, check, reckon, render, write. */
import { counted } from '../../in-words.ts';
import { flow } from '../../reckon/flow.ts';
import { leftOutOfDisk } from '../../read/git/checkout.ts';
import { printed, printedLayout, printedLines, type Printable } from '../../render/printable.ts';
import { render } from '../../render/render.ts';
import { ofState } from '../../report/head.ts';
import { isToCompare, type Chart } from '../../report/page.ts';
import type { Table } from '../../report/table.ts';
import { findInTime, type StudioFound } from '../studio/find-studio.ts';
import { openFound, type OpenedBook } from '../studio/open.ts';
import type { OF_ANY_TIME } from '../options.ts';
import type { ValuesOf } from '../spec.ts';
import { EXIT, isRefusal, type Asked, type Refusal, type World } from '../world.ts';
import { sayHalfDone } from '../records/writer.ts';

/** What one report shows by the options of its command, which an export leaves out. */
export interface Report<O extends object> {
  readonly table: MakeTable<O>;
  /** What is drawn on its page; most of it are cells of the table that was made. */
  readonly charts?: (
    opened: OpenedBook,
    asked: Asked<Partial<O>>,
    table: Table,
  ) => readonly Chart[] | Promise<readonly Chart[]>;
}

/** Makes the table of an opened studio, or says why it can't. */
type MakeTable<O extends object> = (
  opened: OpenedBook,
  asked: Asked<Partial<O>>,
) => Table | Refusal | Promise<Table | Refusal>;

/** What every report takes. */
export type ReportOptions = ValuesOf<(typeof OF_ANY_TIME)[number]>;

/** Shows one report. */
export async function showReport<O extends ReportOptions>(
  asked: Asked<O>,
  world: World,
  load: () => Promise<Report<O>>,
): Promise<number> {
  return showAnswer(await findInTime(asked, world), world, async (found) => {
    // What the report needs is reckoned first: the rules then make do with it.
    const opened = await openFound(found, (book) => flow(book, found.asOf));
    if (isRefusal(opened)) return opened;
    const report = await load();
    world.progress?.(printed`Making the report`);
    const made = await report.table(opened, asked);
    if (isRefusal(made)) return made;
    const { errors, save } = opened;
    const table = ofState(made, opened);
    if (asked.options.as !== 'html')
      return { text: await rendered(table, asked.options, world), errors, save };
    // Pages show more than the table, and take the most to load.
    const { pageText } = await import('./page.ts');
    const charts = (await report.charts?.(opened, asked, table)) ?? [];
    const text = await pageText(table, charts.filter(isToCompare), opened);
    return { text: printedLayout(text), errors, save };
  });
}

/** A table in the form that is asked for, other than a page. */
export function rendered(
  table: Table,
  { as = 'text' }: Pick<ReportOptions, 'as'>,
  { width, height, colour, quiet, outputIsTerminal: terminal = false }: World,
): Promise<Printable> {
  const shown = quiet === true ? { ...table, notes: [] } : table;
  return render(shown, { as, width, height, colour, terminal });
}

/** What is shown, how many errors stood in its way, and what is to be kept of the way to it. */
export interface ShownAnswer {
  readonly text: Printable;
  readonly errors: number;
  readonly save: () => void;
}

/**
 * Shows what is found out of a studio. Figures are of what is sound in the book; where errors stand in
 * the way it says so on standard error and returns the status of errors.
 */
export async function showAnswer(
  found: StudioFound | Refusal,
  world: World,
  answer: (found: StudioFound) => Promise<ShownAnswer | Refusal>,
): Promise<number> {
  if (isRefusal(found)) return refuse(world, found);
  const shown = await answer(found);
  if (isRefusal(shown)) return refuse(world, shown);
  world.write(shown.text);
  shown.save();
  if (!found.past) await sayOfFolder(found.folder, world);
  if (shown.errors === 0) return EXIT.fine;
  world.complain(leftOutText(shown.errors));
  return EXIT.errors;
}

/** Says what keeps the book on the disk from being whole: a change that was cut off, files that git leaves out. */
export async function sayOfFolder(folder: string, world: World): Promise<void> {
  await sayHalfDone(folder, world);
  const [first, ...more] = leftOutOfDisk(folder);
  if (first === undefined) return;
  const lacks = more.length === 0 ? first : `${first} and ${more.length} more`;
  world.complain(
    printed`saggar: this checkout is sparse and leaves out ${lacks}, so no record there is counted; to have all: git sparse-checkout disable, or the book as it was committed: --at HEAD\n`,
  );
}

/** Says why a command can't run; what was typed or stands in a file never acts on the terminal. */
export function refuse(world: World, { refused, more = [] }: Refusal): number {
  world.complain(printedLines([`saggar: ${refused}`, ...more]));
  return EXIT.cannotRun;
}

/** Says on standard error that figures lack what is not sound. */
export function leftOutText(errors: number): Printable {
  return printed`saggar: ${counted(errors, 'error')}: records with errors are left out of these figures. Run: saggar check\n`;
}
